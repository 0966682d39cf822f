/** The charger on board from what is said about it. */
import { filler } from '../fields/filler.ts';
import type { Charger } from '../car.ts';
import type { Input } from '../fields/input.ts';
import { chargerFields } from './fields.ts';
import type { SpecOf } from '../fields/table.ts';

/** @throws SpecError */
export function completeCharger(path: string, spec: SpecOf<typeof chargerFields>, inputs: Input[]): Charger {
  const fill = filler(path, chargerFields, spec, inputs);
  const count = fill.number('count');
  if (!Number.isInteger(count)) throw fill.error('count', `${count} is not a whole number`);
  const power = fill.number('power');
  const usualPower = fill.derived('usualPower', () => count * power);
  return {
    power,
    count,
    usualPower,
    efficiency: fill.number('efficiency'),
    idleShare: fill.number('idleShare'),
    overhead: fill.number('overhead'),
  };
}
