/**
 * Speeds in another unit than the log says. In mph called km/h a car slows as if its resistance at rest were 1.609 times less and what
 * grows with the square of its speed 1.609 times more; in km/h called mph the other way round. No mass, brake or wind does both at once.
 */
import * as elementary from '../../elementary.ts';
import type { Shortcoming } from '../problem.ts';

/** F = level + square v^2 in N and N s2/m2, of what was found and of the car as it was assumed. */
export interface Slowing {
  readonly level: number;
  readonly square: number;
}

/** Relative standard uncertainties of rolling resistance with hubs, and of drag, of a car as it is assumed. Common practice, no source. */
const ROLLING = 0.2;
const DRAG = 0.15;

/** Odds from which the log is not believed: e^(DIFFERENCE/2), 20 to 1. */
const DIFFERENCE = 6;

const MILE = 1.609344;

/** Null where the unit of the log is as likely as another. */
export function otherUnit(found: Slowing, assumed: Slowing): Shortcoming | null {
  const [level, square] = [elementary.log(found.level / assumed.level), elementary.log(found.square / assumed.square)];
  if (!Number.isFinite(level + square)) return null;
  const far = (by: number): number =>
    elementary.pow((level + by) / ROLLING, 2) + elementary.pow((square - by) / DRAG, 2);
  const off = elementary.log(MILE);
  const [asSaid, asMiles, asKilometres] = [far(0), far(off), far(-off)];
  if (asSaid - Math.min(asMiles, asKilometres) < DIFFERENCE) return null;
  const [is, said] = asMiles < asKilometres ? ['mph', 'km/h'] : ['km/h', 'mph'];
  return {
    what: `the car slows as one whose log is in ${is} but says ${said}: ${times(found.level / assumed.level)} its assumed resistance at walking pace and ${times(found.square / assumed.square)} its assumed drag`,
    cure: 'the right unit in the log; where it is right, speed_unit: in this cell says so, and the figures are given',
  };
}

/** Through the force at two speeds, N and m/s. */
export function slowingThrough(force: (speed: number) => number, [low, high]: readonly [number, number]): Slowing {
  const square = (force(high) - force(low)) / (high * high - low * low);
  return { level: force(low) - square * low * low, square };
}

function times(ratio: number): string {
  return `${Number(ratio.toPrecision(2))} times`;
}
