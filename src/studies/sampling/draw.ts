/** One uncertain number as a distribution that a study can draw from. */
import * as elementary from '../../elementary.ts';
import type { Spread } from '../../model/fields/input.ts';
import { normalCumulative, normalQuantile } from './normal.ts';
import type { Place } from './stream.ts';

/** Smallest and largest value that a field may have. */
export interface Limits {
  readonly min?: number;
  readonly max?: number;
}

/** A distribution. All but `at` describes it in plain numbers, in the unit of the value. */
export interface Draw {
  /** The value below which the share `u` of the distribution lies, 0 < u < 1: turns uniform numbers into draws. */
  readonly at: (u: number) => number;
  readonly mean: number;
  /** Standard deviation: the standard uncertainty of the input (JCGM 100:2008, 3.3.5 and 4.3.7). */
  readonly standard: number;
  /** No draw lies outside; infinite for a normal distribution without limits. */
  readonly low: number;
  readonly high: number;
  /** Share of the spread as it was stated that the limits leave over: 1 where nothing was cut off. */
  readonly kept: number;
  /** Where its numbers come from; left out, by its place among the draws of a study. */
  readonly place?: Place;
}

/**
 * The distribution that a spread stands for (JCGM 101:2008, table 1): `normal` about `value` with its standard uncertainty;
 * `rectangular` between its limits. Where `value` is inside them but not their middle, as with defaults of which more is known
 * than the least and the greatest, half of the draws lie on either side of it, even on each: of all distributions with these limits
 * and this median the one of greatest entropy (the principle of JCGM 101:2008, 6.3; from memory). So `value` is the median of its draws.
 *
 * Where a field has limits, the distribution is the one of the spread on condition that the limits hold: nothing piles up at
 * a limit, the shape within is kept, and drawing again until a value fits would give the same. It moves the mean where the cut is
 * not symmetric; `kept` says how much there was to cut.
 *
 * Throws a RangeError for a spread that is not one (not finite, uncertainty not above 0, limits not in ascending order) and
 * for one with nothing inside the limits.
 */
export function drawOf(value: number, spread: Spread, limits: Limits = {}): Draw {
  const min = limits.min ?? Number.NEGATIVE_INFINITY;
  const max = limits.max ?? Number.POSITIVE_INFINITY;
  if (spread.kind === 'rectangular') {
    const even = rectangular(spread.low, spread.high, min, max);
    return isLopsided(value, spread) ? halves(value, even) : even;
  }
  const u = spread.standard;
  if (!Number.isFinite(value) || !(u > 0 && u < Number.POSITIVE_INFINITY)) {
    throw new RangeError(
      `a normal spread needs a finite value and a standard uncertainty above 0, got ${value} ± ${u}`,
    );
  }
  return normal(value, u, min, max);
}

/** Whether limits leave nothing of a spread about a value, which lies within them: a figure at a limit that could only be off beyond it. */
export function leavesNothing(
  spread: Spread,
  { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY }: Limits,
): boolean {
  if (spread.kind === 'normal') return !(min < max);
  return !(Math.max(spread.low, min) < Math.min(spread.high, max));
}

function rectangular(from: number, to: number, min: number, max: number): Draw {
  if (!(from < to && Number.isFinite(to - from))) {
    throw new RangeError(`a rectangle needs finite limits in ascending order, got ${from} .. ${to}`);
  }
  const low = Math.max(from, min);
  const high = Math.min(to, max);
  if (leavesNothing({ kind: 'rectangular', low: from, high: to }, { min, max })) {
    throw nothingInside(`${from} .. ${to}`, min, max);
  }
  return {
    at: u => within(low, high, low + u * (high - low)),
    mean: low + (high - low) / 2,
    standard: (high - low) / Math.sqrt(12),
    low,
    high,
    kept: (high - low) / (to - from),
  };
}

/** Share of the width by which a value may be off the middle and still be it: what is left of digits that were read and scaled. */
const MIDDLE = 1e-6;

function isLopsided(value: number, { low, high }: { readonly low: number; readonly high: number }): boolean {
  return value > low && value < high && Math.abs(value - low - (high - low) / 2) > MIDDLE * (high - low);
}

/** Half of the draws on either side of a value; the rectangle itself where its limits leave the value no side. */
function halves(value: number, even: Draw): Draw {
  const { low, high, kept } = even;
  if (!(low < value && value < high)) return even;
  const [below, above] = [value - low, high - value];
  const off = (above - below) / 4;
  return {
    at: u => {
      const draw = u < 0.5 ? low + 2 * u * below : value + (2 * u - 1) * above;
      return within(low, high, draw);
    },
    mean: value + off,
    standard: Math.sqrt((below * below + above * above) / 6 - off * off),
    low,
    high,
    kept,
  };
}

function normal(value: number, standard: number, min: number, max: number): Draw {
  const a = (min - value) / standard;
  const b = (max - value) / standard;
  if (a === Number.NEGATIVE_INFINITY && b === Number.POSITIVE_INFINITY) {
    return { at: u => value + standard * normalQuantile(u), mean: value, standard, low: min, high: max, kept: 1 };
  }
  // In the upper tail probabilities are next to 1 and lose their digits: there everything is done in the mirror.
  const side = a > 0 ? -1 : 1;
  const below = normalCumulative(side === 1 ? a : -b);
  const kept = normalCumulative(side === 1 ? b : -a) - below;
  if (!(a < b && kept > 0)) throw nothingInside(`${value} ± ${standard}`, min, max);
  const moments = conditionedMoments(a, b);
  return {
    at: u => {
      const z = side * normalQuantile(below + kept * (side === 1 ? u : 1 - u));
      return within(min, max, value + standard * z);
    },
    mean: value + standard * moments.mean,
    standard: standard * moments.standard,
    low: min,
    high: max,
    kept,
  };
}

/** Keeps the last digit of a draw from falling outside its limits; moves nothing by more than that digit. */
function within(low: number, high: number, value: number): number {
  return Math.min(high, Math.max(low, value));
}

function nothingInside(what: string, min: number, max: number): RangeError {
  return new RangeError(`the spread ${what} has nothing between the limits ${min} and ${max}`);
}

/** Beyond so many standard deviations nothing is left that a double could show. */
const REACH = 9;
const PANELS = 2000;

/**
 * Moments of a standard normal variable between a and b, by Simpson's rule. The closed form is a difference of nearly equal
 * numbers for narrow limits; this is not, and it is called once per input.
 */
function conditionedMoments(a: number, b: number): { readonly mean: number; readonly standard: number } {
  // The densest place, from which the density is measured and beyond which REACH is counted.
  const peak = Math.min(Math.max(0, a), b);
  const from = Math.max(a, peak - REACH);
  const to = Math.min(b, peak + REACH);
  const h = (to - from) / PANELS;
  let [sum, first, second] = [0, 0, 0];
  for (let k = 0; k <= PANELS; k++) {
    const offset = from - peak + k * h;
    const end = k === 0 || k === PANELS ? 1 : k % 2 === 0 ? 2 : 4;
    const weight = end * elementary.exp(-offset * (offset / 2 + peak));
    sum += weight;
    first += weight * offset;
    second += weight * offset * offset;
  }
  const mean = first / sum;
  return { mean: peak + mean, standard: Math.sqrt(second / sum - mean * mean) };
}
