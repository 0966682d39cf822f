/** Everything that repeated launches answer with: label, units, meaning. */
import { launchCurrents } from '../duty/currents.ts';
import { output, seconds, temperature } from '../output.ts';
import type { Output } from '../result.ts';

/** The keys of the summary in order of display. */
export const repeatOutputs: { readonly [key: string]: Output } = {
  target: output('target speed', 'm/s', 'km/h', 'mph', 'each launch goes from rest to there'),
  runs: output(
    'launches',
    '1',
    '1',
    '1',
    'how many were done; it ends early where the car has become 20 % slower, or its pack is empty',
  ),
  time_first: seconds('first launch', 'from the pedal going down to the target speed'),
  time_last: seconds('last launch', 'from the pedal going down to the target speed'),
  slowing: output('slower by', '1', '%', '%', 'the last launch against the first'),
  slower_run: output(
    'slower from launch',
    '1',
    '1',
    '1',
    'the first launch that takes more than 5 % longer than the first',
  ),
  slowed_by: output('slowed by', '', '', '', 'what holds the last launch back for longer than the first, most of all'),
  unit_temperature: temperature('hottest drive unit', 'lumped, at the end of a launch'),
  pack_temperature: temperature('hottest pack', 'lumped, at the end of a launch'),
  charge_end: output('state of charge at the end', '1', '%', '%', 'after the last launch'),
  energy_used: output('energy out of the cells', 'J', 'Wh', 'Wh', 'launches and pauses together'),
  ...launchCurrents,
  time_all: seconds('from the first pedal to the last target', 'the pauses included, braking left out'),
};
