/** Sums over small covariances. */
import * as elementary from '../elementary.ts';
import { CholeskyDecomposition, EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { item, nth } from '../columns.ts';
import { widening } from './student.ts';

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
  return slopes.map(a => slopes.map(b => a * b * elementary.pow(standard, 2)));
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

/** What repeats scatter by in their mean, with its degrees of freedom, and what else is uncertain. */
export interface Spread {
  readonly scatter: Covariance;
  readonly beside: Covariance;
  readonly freedom: number;
}

/**
 * Of a sum by these weights: the standard uncertainty of a normal distribution that has the 95 % interval of Student's t with its own effective
 * degrees of freedom (JCGM 100:2008, G.4), and never less than the scatter alone leaves: by that formula a little more that is uncertain would
 * narrow an interval of few repeats.
 */
export function standardOf(weights: readonly number[], { scatter, beside, freedom }: Spread): number {
  const [own, other] = [scatter, beside].map(matrix => Math.max(0, quadratic(weights, matrix))) as [number, number];
  const whole = own + other;
  const effective = own > 0 ? freedom * elementary.pow(whole / own, 2) : Number.POSITIVE_INFINITY;
  return Math.max(widening(effective) * Math.sqrt(whole), widening(freedom) * Math.sqrt(own));
}

function quadratic(weights: readonly number[], matrix: Covariance): number {
  return weights.reduce(
    (all, a, i) => all + weights.reduce((sum, b, j) => sum + a * b * nth(item(matrix, i), j), 0),
    0,
  );
}

function symmetric(matrix: Covariance): number[][] {
  return matrix.map((row, i) => row.map((value, j) => 0.5 * (value + nth(item(matrix, j), i))));
}

/** Share of its diagonal by which a scatter of fewer repeats than parameters is taken to be greater, so that it has an inverse. */
const RIDGE = 1e-6;

/**
 * What repeats scatter by and what else is uncertain, as one covariance whose normal distribution has the 95 % intervals of Student's t with
 * the effective degrees of freedom of Welch and Satterthwaite (JCGM 100:2008, G.4): worked out along the directions in which the two
 * are independent of each other, each with its own degrees of freedom. No one covariance has the interval of `standardOf` for every sum: those
 * in between these directions are up to a sixth wider by this one.
 */
export function expanded({ scatter, beside, freedom }: Spread): number[][] {
  const more = freedom < scatter.length ? RIDGE : 0;
  // Round-off makes the two halves differ in the last bit, and the decomposition takes no such matrix.
  const even = symmetric(scatter);
  const ridged = even.map((row, i) => row.map((value, j) => (i === j ? value * (1 + more) : value)));
  const whole = new CholeskyDecomposition(new Matrix(ridged));
  // A parameter that does not scatter at all leaves nothing to share out.
  if (!whole.isPositiveDefinite()) return added(scaled(scatter, elementary.pow(widening(freedom), 2)), beside);
  const lower = whole.lowerTriangularMatrix;
  const half = solve(lower, new Matrix(beside.map(row => [...row])));
  const relative = solve(lower, half.transpose());
  const mean = relative.clone().add(relative.transpose()).mul(0.5);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(mean, { assumeSymmetric: true });
  const variances = realEigenvalues.map(value => {
    const other = Math.max(0, value);
    return elementary.pow(widening(freedom * elementary.pow(1 + other, 2)), 2) * (1 + other);
  });
  const basis = lower.mmul(eigenvectorMatrix);
  return basis.mmul(Matrix.diag(variances)).mmul(basis.transpose()).to2DArray();
}
