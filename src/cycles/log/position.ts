/** From positions on the earth to the way between them. */
import * as elementary from '../../elementary.ts';

/** WGS 84: semi-major axis in m and first eccentricity squared (NIMA TR8350.2). */
const A = 6_378_137;
const E2 = 6.694_379_990_141_4e-3;
const DEGREE = Math.PI / 180;

/**
 * Metres east and north from one position to another nearby, all in degrees. By the radii of curvature of the ellipsoid at the
 * middle latitude (Gauss's mid-latitude method): to 1e-6 of the way within some kilometres, away from the poles.
 */
export function metresBetween(
  latitude0: number,
  longitude0: number,
  latitude1: number,
  longitude1: number,
): readonly [east: number, north: number] {
  const middle = ((latitude0 + latitude1) / 2) * DEGREE;
  const w2 = 1 - E2 * elementary.pow(elementary.sin(middle), 2);
  const across = A / Math.sqrt(w2);
  const along = (across * (1 - E2)) / w2;
  const turn = longitude1 - longitude0;
  const step = Math.abs(turn) > 180 ? turn - Math.sign(turn) * 360 : turn;
  return [across * elementary.cos(middle) * step * DEGREE, along * (latitude1 - latitude0) * DEGREE];
}
