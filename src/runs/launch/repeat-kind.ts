/** Launches in a row as a kind of run. */
import type { Fields } from '../../model/fields/field.ts';
import { filler } from '../../model/fields/filler.ts';
import { assume, KMH, number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';
import { soakedField } from '../soaked.ts';
import { runKind } from '../kind.ts';
import { soakedIn } from '../soaked.ts';
import { noFigures } from '../no-answer.ts';
import { repeat, repeatFigures } from './repeat.ts';
import type { RepeatOptions } from './repeat.ts';
import { repeatOutputs } from './repeat-outputs.ts';

const repeatFields = {
  times: number('1', '1', [1, 200], 'launches at most; it ends early when the car has become 20 % slower', {
    ...assume(10, 'an afternoon on a closed course'),
  }),
  pause: number('s', 's', [0, 36_000], 'from the target speed to the next start, the car at rest', {
    ...assume(60, 'the way back to the start'),
  }),
  to: number('m/s', KMH, [0.1, 150], 'the speed that each launch goes to', assume(100 / 3.6, 'the usual question')),
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

export const repeatKind = runKind<RepeatOptions>({
  kind: 'repeat',
  doc: 'launches one after the other: how warm the car gets, and when it slows down',
  notes: ['between two launches the brakes stop the car at once, no energy comes back, and the drive is off'],
  fields: repeatFields,
  drivesTrip: false,
  atFullPedal: true,
  outputs: repeatOutputs,
  headlines: ['time_first', 'time_last', 'unit_temperature'],
  // The last launch is another one in each sample, wherever it ends: its time has no interval.
  intervals: ['time_first', 'slower_run', 'unit_temperature', 'pack_temperature'],
  better: {
    runs: 'high',
    time_first: 'low',
    time_last: 'low',
    slowing: 'low',
    unit_temperature: 'low',
    pack_temperature: 'low',
    charge_end: 'high',
    energy_used: 'low',
  },
  slow: true,
  read(asked) {
    const fill = filler(asked.name, repeatFields, asked.values, asked.inputs);
    const times = fill.number('times');
    if (!Number.isInteger(times)) throw fill.error('times', `${times} is not a whole number`);
    const options = {
      surroundings: soakedIn(asked),
      times,
      pause: fill.number('pause'),
      to: fill.number('to'),
    };
    return { car: asked.car, options };
  },
  run: ({ car, options }) => repeat(car, options),
  createAnswer:
    () =>
    ({ car, options }) => {
      const repeated = repeatFigures(car, options);
      return 'none' in repeated ? noFigures(repeatOutputs, repeated.none) : repeated;
    },
});
