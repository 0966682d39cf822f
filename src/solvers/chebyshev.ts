/**
 * Interpolation through the Chebyshev points of the second kind by the barycentric formula (Berrut, Trefethen, SIAM Review
 * 46, 2004). Enough of them to follow the dense output of an extrapolation step, whose degree goes up to about 16.
 */
import * as elementary from '../elementary.ts';
import { item, nth } from '../columns.ts';

const INTERVALS = 18;

/** The points, ascending from 0 to 1, both included. */
export const CHEBYSHEV: readonly number[] = Array.from({ length: INTERVALS + 1 }, (_, p) =>
  elementary.pow(elementary.sin((Math.PI * p) / (2 * INTERVALS)), 2),
);

/** Value at `x` of one column of rows given at the points. */
export function chebyshev(rows: readonly Float64Array[], column: number, x: number): number {
  let above = 0;
  let below = 0;
  for (let p = 0; p <= INTERVALS; p++) {
    const distance = x - nth(CHEBYSHEV, p);
    const value = nth(item(rows, p), column);
    if (distance === 0) return value;
    const end = p === 0 || p === INTERVALS ? 0.5 : 1;
    const weight = ((p % 2 === 0 ? 1 : -1) * end) / distance;
    above += weight * value;
    below += weight;
  }
  return above / below;
}
