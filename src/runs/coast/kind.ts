/** A coast-down as a kind of run. */
import { filler } from '../../model/fields/filler.ts';
import { runKind } from '../kind.ts';
import { noFigures } from '../no-answer.ts';
import { soakedIn } from '../soaked.ts';
import { coast, coastFigures } from './coast.ts';
import { coastFields } from './fields.ts';
import { coastOutputs } from './outputs.ts';
import type { CoastOptions } from './run.ts';

export const coastKind = runKind<CoastOptions>({
  kind: 'coast',
  doc: 'a car with the foot off the pedal, in neutral or in gear: time and distance from one speed to another, what comes back',
  notes: [
    'friction brakes do nothing; consumers and losses of the drive come out of the pack as far as nothing comes back',
    'in gear it brakes within regeneration.grip_share, and fades as it does on the road',
  ],
  fields: coastFields,
  drivesTrip: false,
  atFullPedal: false,
  outputs: coastOutputs,
  headlines: ['time', 'distance'],
  intervals: ['time', 'distance', 'mean_deceleration', 'force_start', 'force_end', 'energy_back'],
  better: { recovered: 'high' },
  slow: false,
  read(asked) {
    const { car, values } = asked;
    const fill = filler(asked.name, coastFields, values, asked.inputs);
    const from = fill.number('from');
    const to = fill.number('to');
    if (to >= from) throw fill.error('to', 'is not below from');
    const inGear = fill.choice('in') === 'gear';
    for (const key of ['lift', 'gear'] as const) {
      if (!inGear && values[key] !== undefined) throw fill.error(key, 'is for a car in gear', 'in: gear beside it');
    }
    const gears = Math.max(...car.drives.map(({ gearbox }) => gearbox?.gears.length ?? 1));
    const gear = inGear && gears > 1 ? fill.derived('gear', () => gears) : gears;
    if (gear > gears) throw fill.error('gear', `is none of the ${gears} gears`);
    if (gears === 1 && values['gear'] !== undefined) throw fill.error('gear', 'is for a car with a gearbox');
    const lift = inGear ? fill.number('lift') : null;
    return { car, options: { surroundings: soakedIn(asked), from, to, lift, gear } };
  },
  run: ({ car, options }) => coast(car, options),
  createAnswer:
    () =>
    ({ car, options }) => {
      const coasted = coastFigures(car, options);
      return 'none' in coasted ? noFigures(coastOutputs, coasted.none) : coasted;
    },
});
