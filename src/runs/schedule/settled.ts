/**
 * The top speed that the drive unit leaves a car. Where the torque falls to nothing close to the greatest speed of a motor the car
 * comes to a speed within tenths of a second and keeps it, whatever the pack does: from there on it is a car that is held at a speed.
 */
import { nth } from '../../columns.ts';
import { axleMode, follows, GRIP, L, LIMIT_BITS, SPEED } from '../../model/forward/state.ts';
import type { FreeEnd } from './falling-behind.ts';
import type { Machine } from './free-drive.ts';
import type { Journey } from './journey.ts';

/** Of the speed: what it still changes by within half of a stretch, and what it is from the top speed, at most. */
const SLOW = 1e-6;
const NEAR = 3e-8;

/** Of the speed: so much below the top speed there is no doubt that it can be kept. */
const BELOW = 1e-10;

/** For the slope of the acceleration. */
const INCREMENT = 1e-6;
const PASSES = 3;

/** m/s that a car at full pedal has settled at, by the speed of its motor alone; 0 where it has not. Right after a stretch. */
export function settledSpeed({ plant, after }: Machine, car: Journey, { stretches }: FreeEnd): number {
  const last = stretches.at(-1);
  if (last === undefined || !isHeldBySpeed(car)) return 0;
  if (!(Math.abs(last.last - last.middle) < SLOW * last.last)) return 0;
  const y = after.slice(0, plant.states + 1);
  const out = new Float64Array(plant.states + plant.quadratures);
  const accelerationAt = (v: number): number => {
    y[SPEED] = v;
    plant.rates(car.mode, y, out);
    return nth(out, SPEED);
  };
  let v = car.speed;
  for (let pass = 0; pass < PASSES; pass++) {
    const a = accelerationAt(v);
    const slope = (accelerationAt(v * (1 + INCREMENT)) - a) / (v * INCREMENT);
    v -= a / slope;
  }
  return Math.abs(v - car.speed) < NEAR * v ? v * (1 - BELOW) : 0;
}

/** Whether it is the speed of a motor that holds the car back: of its only drive, or of one whose torque the other follows. */
function isHeldBySpeed({ mode, following: { front, rear } }: Journey): boolean {
  const bySpeed = (axle: number): boolean => (axleMode(mode, axle) & (GRIP | LIMIT_BITS)) === L.speed;
  if (!front.axle.driven) return bySpeed(1);
  if (!rear.axle.driven) return bySpeed(0);
  return (bySpeed(0) && follows(axleMode(mode, 1))) || (bySpeed(1) && follows(axleMode(mode, 0)));
}
