/** The steepest slopes a car can start on, or stand on with its drive alone. */
import type { Car, Surroundings } from '../../model/car.ts';
import type { Limiter } from '../../model/forward/limiter.ts';
import { balanceOf } from './balance.ts';
import { checkWhere } from '../options.ts';
import { standing, withBoundlessDrive, withFriction } from '../variant.ts';

/** A slope, and what keeps it from being steeper. */
export interface Steepest {
  /** Rise over run; null where the car does not even move on the level, or would climb a wall. */
  readonly slope: number | null;
  readonly limiter: Limiter | null;
  /** Why the slope is null; '' otherwise. */
  readonly reason: string;
}

/** The steepest slope as the car is, by its tyres alone, and by its drive alone. */
export interface SteepestByLimit {
  readonly all: Steepest;
  readonly grip: Steepest;
  readonly drive: Steepest;
}

/** Rise over run of 84 degrees. */
const WALL = 10;

/** Friction, times that of the tyres, at which they never slip away. */
const UNLIMITED = 1000;

/** The steepest slope that the car moves off on from rest, straight up, at full pedal. @throws SpecError for a car or surroundings that can not be. */
export function steepestStart(car: Car, surroundings: Surroundings): SteepestByLimit {
  checkWhere(car, surroundings);
  return {
    all: steepestSlope(car, surroundings),
    grip: steepestSlope(withBoundlessDrive(car), surroundings),
    drive: steepestSlope(withFriction(car, UNLIMITED), surroundings),
  };
}

/**
 * The steepest slope that the drive holds the car on without brakes: rolling resistance and oil in the gears help neither way.
 * @throws SpecError as `steepestStart`.
 */
export function steepestHold(car: Car, surroundings: Surroundings): SteepestByLimit {
  checkWhere(car, surroundings);
  return steepestStart(standing(car), surroundings);
}

/** The steepest slope, straight up, on which the car gains speed from rest; to the last digits but three. */
export function steepestSlope(car: Car, surroundings: Surroundings): Steepest {
  const at = (slope: number): ReturnType<ReturnType<typeof balanceOf>> => balanceOf(car, { ...surroundings, slope })(0);
  const level = at(0);
  if (!(level.acceleration > 0)) {
    return { slope: null, limiter: level.limiter, reason: `it does not move on the level: ${level.limiter}` };
  }
  if (at(WALL).acceleration > 0) return { slope: null, limiter: null, reason: 'it would climb a wall' };
  let low = 0;
  let high = WALL;
  while (high - low > 1e-12 * high) {
    const middle = 0.5 * (low + high);
    if (at(middle).acceleration > 0) low = middle;
    else high = middle;
  }
  return { slope: low, limiter: at(low).limiter, reason: '' };
}
