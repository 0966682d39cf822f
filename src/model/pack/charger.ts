/** The charger on board from what is said about it. */
import { filler } from '../fields/filler.ts';
import type { Charger, Pack } from '../car.ts';
import type { Input } from '../fields/input.ts';
import { chargerFields } from './fields.ts';
import type { SpecOf } from '../fields/table.ts';
import { misfitsOf } from './voltage-window.ts';

/** V at which a charger gives its greatest power: see the field of its current. */
const RATED = { usual: 300, low: 240, high: 360 };

/**
 * @param pack that it charges; what it does not fit is a note, as it limits what the run that charges gives.
 * @throws SpecError
 */
export function completeCharger(
  path: string,
  spec: SpecOf<typeof chargerFields>,
  pack: Pack,
  inputs: Input[],
): { readonly charger: Charger; readonly notes: readonly string[] } {
  const fill = filler(path, chargerFields, spec, inputs);
  const count = fill.number('count');
  if (!Number.isInteger(count)) throw fill.error('count', `${count} is not a whole number`);
  const power = fill.number('power');
  const usualPower = fill.derived('usualPower', () => count * power);
  const efficiency = fill.number('efficiency');
  const given = efficiency * power;
  const maxCurrent = fill.derived('maxCurrent', () => given / RATED.usual, {
    kind: 'rectangular',
    low: given / RATED.high,
    high: given / RATED.low,
  });
  const least = spec.leastVoltage === undefined ? 0 : fill.number('leastVoltage');
  const greatest = spec.greatestVoltage === undefined ? Infinity : fill.number('greatestVoltage');
  if (least >= greatest) throw fill.error('leastVoltage', 'is not below greatest_voltage');
  const known = spec.leastVoltage !== undefined || spec.greatestVoltage !== undefined;
  const charger: Charger = {
    power,
    count,
    usualPower,
    efficiency,
    idleShare: fill.number('idleShare'),
    overhead: fill.number('overhead'),
    maxCurrent,
    ...(known && { voltage: { least, greatest } }),
  };
  const notes = misfitsOf(pack, { least, greatest }).map(
    ({ side, words, cure }) => `${path}: the ${side} voltage ${words}; ${cure}`,
  );
  return { charger, notes };
}
