/** The supply on the wall from what is said about it. */
import { filler, notebookKey } from '../fields/filler.ts';
import type { Filler } from '../fields/filler.ts';
import type { Input } from '../fields/input.ts';
import type { SpecOf } from '../fields/table.ts';
import { pilotCurrent } from './supply.ts';
import type { Station, Supply } from './supply.ts';
import { supplyFields } from './supply-fields.ts';

/** A where neither a current nor a pilot is given. */
const SOCKET = 10;

/** V between phase and neutral of the highest supply of several phases that buildings have: 347/600 V (IEC 60038, table 1; from memory). */
const MOST_TO_NEUTRAL = 347;

/**
 * Where a pilot and a current are given, the lesser counts.
 * @throws SpecError
 */
export function completeSupply(path: string, spec: SpecOf<typeof supplyFields>, inputs: Input[]): Supply {
  const fill = filler(path, supplyFields, spec, inputs);
  const station = stationOf(spec, fill);
  if (station !== null) return { voltage: 0, current: 0, phases: 1, station };
  const allowed = spec.pilot === undefined ? null : pilotCurrent(fill.number('pilot'));
  if (spec.pilot !== undefined && allowed === null) {
    throw fill.error('pilot', 'allows no charging by itself', 'a duty cycle from 8 % to 97 %');
  }
  const phases = fill.number('phases');
  if (!Number.isInteger(phases)) throw fill.error('phases', `${phases} is not a whole number`);
  const current = fill.derived('current', () => allowed ?? SOCKET);
  const voltage = fill.number('voltage');
  if (phases > 1 && voltage > MOST_TO_NEUTRAL) {
    const across = Math.round(voltage);
    throw fill.error(
      'voltage',
      `${across} V with ${phases} phases is between two of them`,
      `the voltage between a phase and neutral, here ${Math.round(voltage / Math.sqrt(3))} V`,
    );
  }
  return { voltage, current: Math.min(current, allowed ?? current), phases };
}

const ALTERNATING = ['voltage', 'current', 'phases', 'pilot'] as const;
const DIRECT = ['dcCurrent', 'dcLeastVoltage', 'dcGreatestVoltage'] as const;

/** Null where nothing is said of one. @throws SpecError */
function stationOf(spec: SpecOf<typeof supplyFields>, fill: Filler<typeof supplyFields>): Station | null {
  if (spec.dcPower === undefined) {
    const lone = DIRECT.find(key => spec[key] !== undefined);
    if (lone !== undefined)
      throw fill.error(lone, 'stands there without a station', 'dc_power: beside it, such as 50 kW');
    return null;
  }
  const beside = ALTERNATING.find(key => spec[key] !== undefined);
  if (beside !== undefined)
    throw fill.error(
      beside,
      'stands beside dc_power, which is a station of direct current',
      `no ${notebookKey(beside)}`,
    );
  const least = fill.number('dcLeastVoltage');
  const greatest = spec.dcGreatestVoltage ?? Infinity;
  if (least >= greatest) throw fill.error('dcLeastVoltage', 'is not below dc_greatest_voltage');
  return { power: fill.number('dcPower'), current: spec.dcCurrent ?? Infinity, least, greatest };
}
