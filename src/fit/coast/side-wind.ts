/** Wind across the road: both directions feel it alike, so that no coast-down parts it from the car. */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import { added, type Covariance, effectOf } from '../linear.ts';
import type { Measured, Terms } from './measured.ts';

/**
 * By how much drag rises with the square of the yaw angle in rad: a tenth at ten degrees, as cars with flat sides have it (from memory), and how
 * well that is known, as a standard uncertainty (common practice, no source).
 */
const RISE = 0.1 / elementary.pow((10 * Math.PI) / 180, 2);
const UNSURE = 0.5 * RISE;

/**
 * Takes off what a wind of c m/s across the road adds. Along the road the drag is F2 (v^2 + c^2) (1 + r psi^2) with psi^2 = c^2 / (v^2 + c^2):
 * F2 v^2 + (1 + r) F2 c^2, a constant that looks like rolling resistance.
 */
export function withoutSideWind(
  terms: Terms,
  covariance: Covariance,
  { value: c, standard }: Measured,
): { readonly terms: Terms; readonly covariance: number[][] } {
  const [f0, f1, f2] = terms;
  // A wind that is itself uncertain adds by its square: by its variance on the mean.
  const mean = f0 - f2 * (1 + RISE) * (c * c + standard * standard);
  const byWind = effectOf([2 * (1 + RISE) * f2 * c, 0, 0], standard);
  const bySquare = effectOf([Math.SQRT2 * (1 + RISE) * f2 * standard, 0, 0], standard);
  const byRise = effectOf([f2 * (c * c + standard * standard), 0, 0], UNSURE);
  return {
    terms: [mean, f1, f2],
    covariance: added(added(added(underSideWind(covariance, c), byWind), bySquare), byRise),
  };
}

/** A covariance of the terms, once a wind of c m/s across the road has been taken off them. */
export function underSideWind(covariance: Covariance, c: number): number[][] {
  const k = (1 + RISE) * c * c;
  const at = (a: number, b: number): number => nth(item(covariance, a), b);
  return [0, 1, 2].map(i =>
    [0, 1, 2].map(j => {
      const row = (a: number): number => (i === 0 ? at(0, a) - k * at(2, a) : at(i, a));
      return j === 0 ? row(0) - k * row(2) : row(j);
    }),
  );
}

/** N that so much wind across the road would add. @param across m/s. */
export function sideWindAdds([, , f2]: Terms, across: number): number {
  return f2 * (1 + RISE) * across * across;
}
