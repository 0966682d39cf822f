/** The speed at which drive and resistance balance. */
import type { Car, Surroundings } from '../../model/car.ts';
import { overrunSpeed } from '../overrun.ts';
import { steadily } from '../trailing-wheels.ts';
import { balanceOf } from './balance.ts';
import type { Balance } from './balance.ts';

/** m/s; no road car is looked at above it. */
const FASTEST = 150;

/** m/s between looks. */
const STRIDE = 0.5;

/**
 * The first speed, going up from rest, at which nothing is left to accelerate with, by bisection to 1e-10 m/s; null when
 * the car cannot move off, or when it would go on accelerating beyond 540 km/h.
 * @param over m/s above which no car is driven, see `overrunSpeed`.
 */
export function topSpeed(balance: (speed: number) => Balance, over = Infinity): Balance | null {
  let low = 0;
  if (!(balance(low).acceleration > 0)) return null;
  let high = low;
  while (balance(high).acceleration > 0) {
    if (high > over) return { ...balance(over), limiter: 'motor speed' };
    low = high;
    high += STRIDE;
    if (high > FASTEST) return null;
  }
  while (high - low > 1e-10) {
    const middle = 0.5 * (low + high);
    if (balance(middle).acceleration > 0) low = middle;
    else high = middle;
  }
  if (low > over) return { ...balance(over), limiter: 'motor speed' };
  // From below: exactly at the balance two limits may tie.
  return balance(low);
}

/** The same of a car. @param balance of this car in these surroundings, where it is there already. */
export function topSpeedOf(
  car: Car,
  surroundings: Surroundings,
  balance = balanceOf(car, surroundings),
): Balance | null {
  const steady = steadily(car);
  return topSpeed(steady === car ? balance : balanceOf(steady, surroundings), overrunSpeed(car));
}
