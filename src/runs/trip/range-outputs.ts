/** Everything that a range answers with: label, units, meaning. */
import { named } from '../../columns.ts';
import { travelCurrents } from '../duty/currents.ts';
import { driveOutputs } from './drive-outputs.ts';
import { distance, kilowattHours, number, share, temperature, words } from '../output.ts';
import type { Output } from '../result.ts';

const shared = [
  'trip',
  'air_temperature',
  'time',
  'mean_speed',
  'consumption',
  'consumption_wall',
  'litres_equivalent',
  'mpg_equivalent',
  'energy',
  'returned',
  'brakes',
  'energy_plugged',
  'braking_recovered',
  'auxiliaries_share',
  'time_too_slow',
] as const;

/** The keys of the summary in order of display. */
export const rangeOutputs: { readonly [key: string]: Output } = {
  range: distance('range', 'until the car stops giving power'),
  trips: number('trips', 'how often the trip fits into it'),
  ended_by: words(
    'ended by',
    'empty: the low end of the window, reserve left aside; pack too weak: the car came to rest, as the pack gives no more',
  ),
  ...Object.fromEntries(shared.map(key => [key, named(driveOutputs, key)])),
  distance: named(driveOutputs, 'distance'),
  usable_energy: kilowattHours(
    'usable energy',
    'out of the cells between start and end, at their open-circuit voltage',
  ),
  charge_start: share('state of charge at the start', ''),
  charge_end: share('state of charge at the end', ''),
  ...travelCurrents,
  pack_temperature: temperature('warmest pack', 'lumped'),
  pack_temperature_end: temperature('pack at the end', 'lumped'),
  unit_temperature: temperature('warmest drive unit', 'lumped'),
};
