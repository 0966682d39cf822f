/** Coverage intervals of a sample. */
import { nth } from '../../columns.ts';

/** `low <= high`, both in the unit of the quantity. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * `symmetric`: as much probability is left out below as above. `shortest`: of all the intervals that cover the share asked for, the
 * shortest one.
 */
export type CoverageKind = 'symmetric' | 'shortest';

/**
 * Coverage interval for a probability from a sample in ascending order (JCGM 101:2008, 7.7): its ends are two values of the
 * sample with the share asked for between them. Of several shortest ones the lowest. Null where the sample is too small to
 * leave anything outside: it must have about 1/(1 - probability) values at least.
 */
export function coverageInterval(sorted: Float64Array, probability: number, kind: CoverageKind): Interval | null {
  checkProbability(probability);
  const count = sorted.length;
  // The clause takes pM where it is whole and the integer part of pM + 1/2 elsewhere; rounding does both.
  const covered = Math.round(probability * count);
  const spare = count - covered;
  if (covered < 1 || spare < 1) return null;
  // The clause counts from 1: its r is `first + 1`.
  let first = Math.floor((spare + 1) / 2) - 1;
  if (kind === 'shortest') {
    first = 0;
    for (let r = 1; r < spare; r++) {
      if (nth(sorted, r + covered) - nth(sorted, r) < nth(sorted, first + covered) - nth(sorted, first)) first = r;
    }
  }
  return { low: nth(sorted, first), high: nth(sorted, first + covered) };
}

/** Throws a RangeError for what is no coverage probability. */
export function checkProbability(probability: number): void {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`a coverage probability lies between 0 and 1, got ${probability}`);
  }
}
