/** A launch as a kind of run. */
import { filler } from '../../model/fields/filler.ts';
import { onceEach } from '../../model/fields/once.ts';
import { runKind } from '../kind.ts';
import { soakedIn } from '../soaked.ts';
import { launchFields } from './fields.ts';
import { createTimer, launchFigures } from './figures.ts';
import { launch } from './launch.ts';
import { launchOutputs } from './outputs.ts';
import { createLauncher } from './run.ts';
import type { LaunchOptions } from './run.ts';

const optionsOf = onceEach<LaunchOptions>();

const TIMES = [
  'time_quarter_mile',
  'time_to_50_km_h',
  'time_to_80_km_h',
  'time_to_60_mph',
  'time_to_100_km_h',
  'time_60_ft',
  'time_eighth_mile',
] as const;

export const launchKind = runKind<LaunchOptions>({
  kind: 'launch',
  doc: 'a car at full pedal: times, speeds, what holds it back, the grip bill',
  fields: launchFields,
  drivesTrip: false,
  atFullPedal: true,
  outputs: launchOutputs,
  headlines: ['time', 'time_quarter_mile'],
  intervals: ['time', 'speed_quarter_mile', ...TIMES],
  better: {
    ...Object.fromEntries(Object.keys(launchOutputs).flatMap(key => (key.startsWith('time') ? [[key, 'low']] : []))),
    ...Object.fromEntries(Object.keys(launchOutputs).flatMap(key => (key.startsWith('speed_') ? [[key, 'high']] : []))),
    top_speed: 'high',
    slip_energy: 'low',
    grip_withheld: 'low',
  },
  slow: false,
  read(asked) {
    const options = optionsOf(asked.values, [asked.name], asked.inputs, () => {
      const fill = filler(asked.name, launchFields, asked.values, asked.inputs);
      return {
        surroundings: soakedIn(asked),
        to: fill.number('to'),
        from: fill.number('from'),
        pedal: fill.number('pedal'),
      };
    });
    return { car: asked.car, options };
  },
  run: ({ car, options }, effort) => launch(car, options, effort),
  createAnswer(wanted, { markTolerance, ...settings }) {
    const launcher = createLauncher();
    const many = markTolerance !== undefined || settings.tolerance !== undefined;
    const timer = many ? createTimer(wanted, markTolerance) : undefined;
    // Most of them have the options of the one before.
    let before: LaunchOptions | null = null;
    let set: LaunchOptions | null = null;
    return ({ car, options }) => {
      if (set === null || options !== before) set = { ...options, ...settings };
      before = options;
      return launchFigures(car, set, wanted, launcher, timer);
    };
  },
});
