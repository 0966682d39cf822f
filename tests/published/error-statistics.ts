/** How far off predictions are, and whether one way to predict is really nearer than another on the same records. */
import { quantile } from './predicted-times.ts';

/** Of relative errors. */
export interface ErrorStatistics {
  /** Mean of the errors with their signs. */
  readonly bias: number;
  /** Mean, root of the mean square, median and 90 % of the errors without their signs. */
  readonly mean: number;
  readonly rms: number;
  readonly median: number;
  readonly ninetieth: number;
}

export function errorStatistics(errors: readonly number[]): ErrorStatistics {
  const sizes = errors.map(Math.abs);
  const n = errors.length;
  const sum = (values: readonly number[]): number => values.reduce((total, each) => total + each, 0);
  return {
    bias: sum(errors) / n,
    mean: sum(sizes) / n,
    rms: Math.sqrt(sum(errors.map(each => each * each)) / n),
    median: quantile(sizes, 0.5),
    ninetieth: quantile(sizes, 0.9),
  };
}

/** A difference, and between which ends it lies in nine of ten sets of records drawn from these with putting back. */
export interface Difference {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

const SETS = 2000;

/**
 * Own less other figure, record by record the same (Efron & Tibshirani, An Introduction to the Bootstrap, percentile intervals).
 * A band that holds 0 is noise: other records of the same kind could say the opposite.
 * @param own errors in the order of the records. @param other those of the other way.
 */
export function bootstrapDifference(
  own: readonly number[],
  other: readonly number[],
  figure: 'mean' | 'rms' | 'median' | 'ninetieth',
): Difference {
  const random = numbers(1);
  const differences: number[] = [];
  for (let set = 0; set < SETS; set++) {
    const drawn = own.map(() => Math.floor(random() * own.length));
    const of = (errors: readonly number[]): number => errorStatistics(drawn.map(i => errors[i] ?? Number.NaN))[figure];
    differences.push(of(own) - of(other));
  }
  return {
    value: errorStatistics(own)[figure] - errorStatistics(other)[figure],
    low: quantile(differences, 0.05),
    high: quantile(differences, 0.95),
  };
}

export function isNoise({ low, high }: Difference): boolean {
  return low <= 0 && high >= 0;
}

/** The same numbers in every run: Numerical Recipes, 7.1, a linear congruence of 32 bits; its high digits are good enough to draw with. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
