/** Sums over small covariances. */
import { item, nth } from '../columns.ts';

export type Covariance = readonly (readonly number[])[];

/** Both together. */
export function added(one: Covariance, other: Covariance): number[][] {
  return one.map((row, i) => row.map((value, j) => value + nth(item(other, i), j)));
}

/** All entries times a factor. */
export function scaled(covariance: Covariance, factor: number): number[][] {
  return covariance.map(row => row.map(value => value * factor));
}

/** What one uncertain input with these effects adds: u^2 g g'. */
export function effectOf(slopes: readonly number[], standard: number): number[][] {
  return slopes.map(a => slopes.map(b => a * b * standard ** 2));
}

/** Of rows of parameters, one for each repeat: their mean, and the covariance of the mean. */
export function meanOf(rows: readonly (readonly number[])[]): {
  readonly mean: number[];
  readonly covariance: number[][];
} {
  const n = rows.length;
  const mean = item(rows, 0).map((_, j) => rows.reduce((all, row) => all + nth(row, j), 0) / n);
  const covariance = mean.map((a, i) =>
    mean.map((b, j) => rows.reduce((all, row) => all + (nth(row, i) - a) * (nth(row, j) - b), 0) / (n * (n - 1))),
  );
  return { mean, covariance };
}
