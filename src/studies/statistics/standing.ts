/**
 * How well the ends of an interval are known, from the order of the sample alone: whatever the distribution, the value below which a
 * share p lies stands between the ranks np -+ 1.96 sqrt(np(1 - p)) in 19 of 20 samples of n (W. J. Conover, Practical Nonparametric
 * Statistics, 3.2; from memory). That is for independent samples; points of a Sobol sequence are more even, and the ends known better.
 */
import { nth } from '../../columns.ts';
import type { Coverage, Intervals } from '../../runs/result.ts';
import { toleranceFor } from './stability.ts';

/** Standard deviations about the middle of a normal distribution that hold 19 of 20. */
const REACH = 1.96;

export interface EndError {
  /** Half of the range in which an end stands, of the less certain one; where the sample is too small for that, half of what there is of it. */
  readonly error: number;
  /** Whether the sample reaches as far as those ranges. */
  readonly known: boolean;
}

/** Of the probabilistically symmetric interval. @param sorted ascending. */
export function endErrorOf(sorted: Float64Array, probability: number): EndError {
  const ends = [(1 - probability) / 2, (1 + probability) / 2].map(share => rangeOf(sorted, share));
  return { error: Math.max(...ends.map(({ error }) => error)), known: ends.every(({ known }) => known) };
}

function rangeOf(sorted: Float64Array, share: number): EndError {
  const count = sorted.length;
  const reach = REACH * Math.sqrt(count * share * (1 - share));
  const [low, high] = [Math.floor(count * share - reach), Math.ceil(count * share + reach) + 1];
  const at = (rank: number): number => nth(sorted, Math.min(count, Math.max(1, rank)) - 1);
  return { error: (at(high) - at(low)) / 2, known: low >= 1 && high <= count };
}

/** Whether another sample would leave the first digit of the standard uncertainty of both ends as it is (JCGM 101:2008, 7.9.2). */
function standsStill({ error, known, standard }: Coverage): boolean {
  return known && error <= toleranceFor(standard, 1);
}

/** Whether all of these figures do; one that no sample has asks for no more of them. */
export function allStandStill({ of, holes, samples }: Intervals, keys: readonly string[]): boolean {
  return keys.every(key => {
    const coverage = of[key];
    return coverage === undefined ? holes[key]?.missing === samples : standsStill(coverage);
  });
}
