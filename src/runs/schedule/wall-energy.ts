/** What must come out of the wall to put back what a drive took out of the pack. */
import type { Car } from '../../model/car.ts';
import { chargeIntegral, chargeOnce, chargeStart } from '../charge/run.ts';

/** Charge put back below this share of the capacity is scaled up from it: the taper at the end belongs to a whole charge. */
const SMALLEST = 0.02;

/** K at which a test is charged: UN GTR No. 15, 23 degC. */
export const TEST_TEMPERATURE = 296.15;

/**
 * J from the wall by the chargers on board, at the power that they draw as a rule, from the state of charge `low` up to `high`, at the temperature of a test. Null where
 * the pack would not take it.
 */
export function wallEnergy(car: Car, low: number, high: number, temperature: number = TEST_TEMPERATURE): number | null {
  if (!(high > low)) return null;
  // A pack that is emptied to nothing may be below it by round-off.
  const from = Math.max(0, high - low < SMALLEST ? high - SMALLEST : low);
  // One phase of 1000 V for all chargers together, so that nothing but their usual power counts.
  const supply = { voltage: 1000, current: car.charger.usualPower / 1000, phases: 1 };
  const options = { from, to: high, supply, temperature };
  const { plant, initial } = chargeStart(car, options);
  if (plant.modeAt(initial) < 0) return null;
  const { end } = chargeOnce(car, options);
  const drawn = chargeIntegral(end.integrals, 'wall');
  return (drawn * (high - low)) / (end.charge - from);
}
