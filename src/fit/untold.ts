/** Which parameters measurements do not tell apart. */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { item, nth } from '../columns.ts';
import type { Covariance } from './linear.ts';

/** Components of a direction that take part in it. */
const PART = 0.35;

/**
 * The parameters of the direction that is told least, by their places, where it is told worse than by their scales; null where all are told.
 * The singular values of the weighted sensitivities and the eigenvalues of this covariance are the same thing, but that here all that is
 * uncertain beside the parameters counts as well.
 */
export function weakestOf(covariance: Covariance, scale: readonly number[]): readonly number[] | null {
  const all = [...scale.keys()];
  const lost = all.filter(k => !Number.isFinite(nth(item(covariance, k), k)));
  if (lost.length > 0) return lost;
  const matrix = covariance.map((row, i) => row.map((value, j) => value / (nth(scale, i) * nth(scale, j))));
  const found = new EigenvalueDecomposition(new Matrix(matrix), { assumeSymmetric: true });
  const variances = found.realEigenvalues;
  const worst = variances.reduce((most, value, k) => (value > nth(variances, most) ? k : most), 0);
  if (nth(variances, worst) <= 1) return null;
  const direction = found.eigenvectorMatrix.getColumn(worst);
  return all.filter(k => Math.abs(nth(direction, k)) > PART);
}
