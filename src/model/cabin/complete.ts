/** Heating and cooling from what is said about them. */
import { filler } from '../fields/filler.ts';
import type { Cabin } from '../car.ts';
import type { Input } from '../fields/input.ts';
import { cabinFields } from './fields.ts';
import type { SpecOf } from '../fields/table.ts';

/** @throws SpecError */
export function completeCabin(path: string, spec: SpecOf<typeof cabinFields>, inputs: Input[]): Cabin {
  const fill = filler(path, cabinFields, spec, inputs);
  const heater = fill.choice('heater');
  const cooled = fill.choice('cooler') === 'yes';
  // What is neither heated nor cooled needs no figures, and none is listed as assumed.
  if (heater !== 'resistive' && heater !== 'heat pump' && !cooled) return UNTEMPERED;
  return {
    heater: heater === 'resistive' || heater === 'heat pump' ? heater : 'none',
    cooled,
    temperature: fill.number('temperature'),
    loss: fill.number('loss'),
    heatCapacity: fill.number('heatCapacity'),
    heaterPower: fill.number('heaterPower'),
    heatPumpFactor: heater === 'heat pump' ? fill.number('heatPumpFactor') : 1,
    heatPumpSlope: heater === 'heat pump' ? fill.number('heatPumpSlope') : 0,
    coolerFactor: cooled ? fill.number('coolerFactor') : 1,
    sun: fill.number('sun'),
  };
}

const UNTEMPERED: Cabin = {
  heater: 'none',
  cooled: false,
  temperature: 293.15,
  loss: 0,
  heatCapacity: 0,
  heaterPower: 0,
  heatPumpFactor: 1,
  heatPumpSlope: 0,
  coolerFactor: 1,
  sun: 0,
};
