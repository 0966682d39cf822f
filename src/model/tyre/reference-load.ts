/** The load at which the friction of a tyre is stated: its own, whatever car it is put on. */
import * as elementary from '../../elementary.ts';
import { STANDARD_GRAVITY } from '../gravity.ts';
import { loadOfIndex } from './load-index.ts';

/** Load in a grip test over what the load index allows: 75 % with a trailer, UN Regulation No. 117, Annex 5 (from memory). */
const TEST_SHARE = 0.75;

/**
 * kg that a car tyre of 0.29 m carries; others go with the cube of the radius. Least squares over the load indices of twenty
 * usual sizes from 135/80 R 13 70 to 225/50 R 17 94 (ETRTO, from memory): exponent 3.1, 5 % standard deviation.
 */
const USUAL_LOAD = { radius: 0.29, mass: 500 } as const;

/** Share of a load that is only known by the radius, to either side. */
export const USUAL_SPREAD = 0.12;

/**
 * N on both tyres of an axle.
 * @param loadIndex undefined where the size code names none.
 * @param radius m, effective.
 */
export function referenceLoad(loadIndex: number | undefined, radius: number): number {
  const indexed = loadIndex === undefined ? null : loadOfIndex(loadIndex);
  const carried = indexed ?? USUAL_LOAD.mass * elementary.pow(radius / USUAL_LOAD.radius, 3);
  return 2 * TEST_SHARE * carried * STANDARD_GRAVITY;
}
