/** What must come out of the wall to put back what a drive took out of the pack. */
import type { Car } from '../../model/car.ts';
import { chargeIntegral, chargeOnce, chargeStart } from '../charge/run.ts';

/** A supply that never holds the chargers on board back: V, A. */
const STRONG = { voltage: 1000, current: 1000, phases: 1 } as const;

/** Charge put back below this share of the capacity is scaled up from it: the taper at the end belongs to a whole charge. */
const SMALLEST = 0.02;

/** K at which a test is charged: UN GTR No. 15, 23 degC. */
export const TEST_TEMPERATURE = 296.15;

/**
 * J from the wall by the chargers on board from the state of charge `low` up to `high`, at the temperature of a test. Null where
 * the pack would not take it.
 */
export function wallEnergy(car: Car, low: number, high: number, temperature: number = TEST_TEMPERATURE): number | null {
  if (!(high > low)) return null;
  const from = high - low < SMALLEST ? Math.max(0, high - SMALLEST) : low;
  const options = { from, to: high, supply: STRONG, temperature };
  const { plant, initial } = chargeStart(car, options);
  if (plant.modeAt(initial) < 0) return null;
  const { end } = chargeOnce(car, options);
  const drawn = chargeIntegral(end.integrals, 'wall');
  return (drawn * (high - low)) / (end.charge - from);
}
