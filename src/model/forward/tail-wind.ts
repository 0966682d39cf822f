/**
 * Wind from behind pushes a car that is slower. Drag goes with the speed against the air and its size, and bends where the car comes to the
 * speed of the wind: a step ends there, and within a mode drag goes on as it was. A step over the bend was off by ten times as much as others.
 */
import { nth } from '../../columns.ts';
import type { Moving } from './instant.ts';
import { PUSHED, SPEED } from './state.ts';

/** Adds the guard of that; right after `rates`. */
export function windGuard({ car, now, places }: Moving, mode: number, out: Float64Array): void {
  if (!(car.wind < 0)) return;
  out[places.guardWind] = (mode & PUSHED) === 0 ? now.air : -now.air;
}

/** A mode with what it says of the wind at a state. */
export function withWind({ car }: Moving, mode: number, y: Float64Array): number {
  return car.wind < 0 && nth(y, SPEED) + car.wind < 0 ? mode | PUSHED : mode;
}
