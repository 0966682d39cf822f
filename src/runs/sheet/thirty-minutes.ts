/** The greatest speed that a car holds for half an hour. */
import type { Car, Surroundings } from '../../model/car.ts';
import { type Hold, hold } from './hold-speed.ts';

/** s */
export const HALF_HOUR = 1800;

/** m/s; slower than this is no speed to hold. */
const SLOWEST = 0.5;

/** Share of the top speed of which it is told how long it lasts: the pack sags from the first second on. Common practice, no source. */
const NEARLY = 0.99;

/** m/s to which it is found. */
const TOLERANCE = 1e-4;

export interface ThirtyMinutes {
  /** The hold at that speed; null where there is none. */
  readonly hold: Hold | null;
  /** What ends a hold at a speed a little higher; what sets the top speed where that one is held. */
  readonly limiter: string | null;
  /** Why there is no answer; '' otherwise. */
  readonly reason: string;
}

/** s for which nearly the top speed is held, 1800 s at most: until heat, sag or an empty pack end it. @param top m/s */
export function nearTopTime(car: Car, surroundings: Surroundings, top: number): number {
  return hold(car, surroundings, NEARLY * top, HALF_HOUR).time;
}

/**
 * The greatest speed held for 1800 s, by bisection below the top speed, starting at the temperature of the air and the charge
 * of the start. Without the heat of every drive unit there is no answer.
 * @param top m/s, the top speed, and what sets it.
 */
export function thirtyMinutes(
  car: Car,
  surroundings: Surroundings,
  top: { readonly speed: number; readonly limiter: string },
): ThirtyMinutes {
  if (car.drives.some(({ unit }) => unit.heat === undefined)) {
    return none('the heat of the drive unit is not modelled: continuous_power is not given');
  }
  const fastest = hold(car, surroundings, top.speed, HALF_HOUR);
  if (fastest.held) return { hold: fastest, limiter: top.limiter, reason: '' };
  let held = hold(car, surroundings, SLOWEST, HALF_HOUR);
  if (!held.held) return none(`it can not drive for half an hour at any speed: ${held.reason || held.limiter}`);
  let missed = fastest;
  while (missed.speed - held.speed > TOLERANCE) {
    const middle = hold(car, surroundings, 0.5 * (held.speed + missed.speed), HALF_HOUR);
    if (middle.reason !== '') return none(middle.reason);
    if (middle.held) held = middle;
    else missed = middle;
  }
  return { hold: held, limiter: missed.limiter, reason: '' };
}

function none(reason: string): ThirtyMinutes {
  return { hold: null, limiter: null, reason };
}
