/** The kinds of run that go far: a trip once, a trip until empty, one steady speed until empty. */
import type { Trip } from '../../cycles/trip.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import { runKind, surroundingsOf } from '../kind.ts';
import type { Asked } from '../kind.ts';
import { noFigures } from '../no-answer.ts';
import { soakedOf } from '../soaked.ts';
import { createTraveller } from '../schedule/trip.ts';
import { drive, driveFigures } from './drive.ts';
import type { DriveOptions } from './drive.ts';
import { driveOutputs } from './drive-outputs.ts';
import { driveFields, rangeFields, steadyFields } from './fields.ts';
import { range, rangeFigures } from './range.ts';
import type { RangeOptions } from './range.ts';
import { rangeOutputs } from './range-outputs.ts';
import { steady, steadyFigures } from './steady.ts';
import type { SteadyOptions } from './steady.ts';
import { steadyOutputs } from './steady-outputs.ts';

/** What is driven, and how. */
interface On<O> {
  readonly trip: Trip;
  readonly how: O;
}

const FRUGAL = { consumption: 'low', consumption_wall: 'low', energy: 'low', time_too_slow: 'low' } as const;
const RENAMED = { time_late: 'time_too_slow' } as const;

export const driveKind = runKind<On<DriveOptions>>({
  kind: 'drive',
  doc: 'a car on its way: consumption, where the energy goes, whether it keeps up with the schedule',
  notes: ['what is driven is said once: a schedule, a log, a speed with distance or time, a trip of several, or a mix'],
  fields: driveFields,
  drivesTrip: true,
  atFullPedal: false,
  outputs: driveOutputs,
  renamed: RENAMED,
  headlines: ['consumption', 'consumption_wall', 'charge_end'],
  intervals: [
    'consumption',
    'consumption_wall',
    'charge_end',
    'time_too_slow',
    'time_lost',
    'energy',
    'distance',
    'time',
  ],
  better: {
    ...FRUGAL,
    charge_end: 'high',
    time_lost: 'low',
    distance_missed: 'low',
    limited_time: 'low',
    returned: 'high',
  },
  slow: true,
  read(asked) {
    const { car } = asked;
    const fill = filler(asked.name, driveFields, asked.values, asked.inputs);
    const charge = fill.derived('charge', () => car.pack.charge);
    if (charge <= car.pack.window.low) {
      throw fill.error('charge', 'is not above the low end of the window of the pack');
    }
    const surroundings = surroundingsOf(asked);
    const soaked = soakedOf(asked, surroundings);
    return { car, options: { trip: tripOf(asked), how: { surroundings, charge, soaked } } };
  },
  run: ({ car, options }, effort) => drive(car, options.trip, options.how, effort),
  createAnswer(wanted) {
    const travel = createTraveller();
    return ({ car, options }) => {
      const driven = driveFigures(car, options.trip, options.how, wanted, travel);
      return 'none' in driven ? noFigures(driveOutputs, driven.none) : driven;
    };
  },
});

/** K. */
const SEASONS = [-20, -10, 0, 10, 20, 30, 40].map(celsius => celsius + 273.15);

export const rangeKind = runKind<On<RangeOptions>>({
  kind: 'range',
  doc: 'a trip over and over until the pack is empty: how far, in which season; or a standard test',
  notes: [
    'what is driven is said once: a schedule, a log, a speed (driven over and over it needs no length), a trip of several, a mix, or a standard',
    'for the curve over temperature the car has stood in that air',
  ],
  fields: rangeFields,
  drivesTrip: true,
  repeatsTrip: true,
  atFullPedal: false,
  outputs: rangeOutputs,
  renamed: RENAMED,
  headlines: ['range', 'consumption', 'consumption_wall'],
  intervals: ['range', 'consumption', 'consumption_wall', 'energy', 'time', 'time_too_slow'],
  better: { range: 'high', trips: 'high', consumption: 'low', consumption_wall: 'low', time_too_slow: 'low' },
  slow: true,
  read(asked) {
    const { car } = asked;
    const fill = filler(asked.name, rangeFields, asked.values, asked.inputs);
    const temperatures = curve(asked, fill, 'temperatures', SEASONS, {
      value: '-20 to 40 °C every 10 K',
      source: 'from deep frost to a heat wave',
    });
    const surroundings = surroundingsOf(asked);
    // Without a temperature of its own the car has stood in the air of the day, and in that of each point of the curve.
    const soaked = soakedOf(asked, surroundings);
    return {
      car,
      options: {
        trip: tripOf(asked),
        how: {
          surroundings,
          charge: fill.derived('charge', () => car.pack.window.high),
          reserve: fill.number('reserve'),
          ...(asked.values['soaked'] !== undefined && { soaked }),
          temperatures,
        },
      },
    };
  },
  run: ({ car, options }, effort) => range(car, options.trip, options.how, effort),
  createAnswer(wanted) {
    const travel = createTraveller();
    return ({ car, options }) => {
      const ranged = rangeFigures(car, options.trip, options.how, wanted, travel);
      return 'none' in ranged ? noFigures(rangeOutputs, ranged.none) : ranged;
    };
  },
});

/** m/s. */
const SPEEDS = Array.from({ length: 15 }, (_, i) => (10 * (i + 1)) / 3.6);

export const steadyKind = runKind<SteadyOptions>({
  kind: 'steady',
  doc: 'one steady speed after the other: consumption and range',
  notes: ['the car starts at that speed, with pack and drive unit as warm as the air'],
  fields: steadyFields,
  drivesTrip: false,
  atFullPedal: false,
  outputs: steadyOutputs,
  headlines: ['range', 'consumption', 'consumption_wall'],
  intervals: ['range', 'consumption', 'consumption_wall', 'time'],
  better: { range: 'high', consumption: 'low', consumption_wall: 'low', power: 'low', farthest: 'high' },
  slow: true,
  read(asked) {
    const { car } = asked;
    const fill = filler(asked.name, steadyFields, asked.values, asked.inputs);
    const speeds = curve(asked, fill, 'speeds', SPEEDS, {
      value: '10 to 150 km/h every 10 km/h',
      source: 'from a walk to a fast motorway',
    });
    return {
      car,
      options: {
        speed: fill.number('speed'),
        speeds,
        charge: fill.derived('charge', () => car.pack.window.high),
        reserve: fill.number('reserve'),
        surroundings: surroundingsOf(asked),
      },
    };
  },
  run: ({ car, options }) => steady(car, options),
  createAnswer(wanted) {
    const travel = createTraveller();
    return ({ car, options }) => {
      const held = steadyFigures(car, options, wanted, travel);
      return 'none' in held ? noFigures(steadyOutputs, held.none) : held;
    };
  },
});

function tripOf({ trip, name }: Asked): Trip {
  if (trip === null) throw new Error(`${name} has nothing to drive`);
  return trip;
}

/** The points of a curve as they are written, or the usual ones, which are listed in words. */
function curve<F extends Fields>(
  { name, values, inputs }: Asked,
  fill: Filler<F>,
  key: keyof F & string,
  usual: readonly number[],
  { value, source }: { readonly value: string; readonly source: string },
): readonly number[] {
  const written = values[key];
  if (written === undefined) {
    const origin = { kind: 'assumed', source } as const;
    inputs.push({ path: `${name}.${key}`, value, unit: '', display: '', origin });
    return usual;
  }
  const points = Array.isArray(written) ? written.filter(each => typeof each === 'number') : [];
  if (points.some((each, i) => i > 0 && each <= (points[i - 1] ?? -Infinity))) throw fill.error(key, 'do not ascend');
  return points;
}
