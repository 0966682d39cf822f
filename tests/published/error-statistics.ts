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
  const figureOf = (drawn: readonly number[]): number => {
    const of = (errors: readonly number[]): number => errorStatistics(drawn.map(i => errors[i] ?? Number.NaN))[figure];
    return of(own) - of(other);
  };
  return bootstrap(own.length, figureOf);
}

/** The slope of y over x by least squares, in as many sets. */
export function bootstrapSlope(x: readonly number[], y: readonly number[]): Difference {
  return bootstrap(x.length, drawn => {
    const of = (values: readonly number[]): readonly number[] => drawn.map(i => values[i] ?? Number.NaN);
    return slope(of(x), of(y));
  });
}

/** @param figureOf by the places of the records that are drawn. */
function bootstrap(count: number, figureOf: (drawn: readonly number[]) => number): Difference {
  const random = numbers(1);
  const places = Array.from({ length: count }, (_, i) => i);
  const figures = Array.from({ length: SETS }, () => figureOf(places.map(() => Math.floor(random() * count))));
  return { value: figureOf(places), low: quantile(figures, 0.05), high: quantile(figures, 0.95) };
}

function slope(x: readonly number[], y: readonly number[]): number {
  const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;
  const [mx, my] = [mean(x), mean(y)];
  const over = (a: readonly number[], ma: number, b: readonly number[], mb: number): number =>
    a.reduce((sum, each, i) => sum + (each - ma) * ((b[i] ?? Number.NaN) - mb), 0);
  return over(x, mx, y, my) / over(x, mx, x, mx);
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
