/** What a program gives that nobody can mean: an error with a code and the path as it was written, never a number. */
import { describe, expect, it } from 'vitest';
import {
  charge,
  completeCar,
  completeLedger,
  completeSurroundings,
  createLauncher,
  createRanger,
  drive,
  launch,
  range,
  repeat,
  scheduleOf,
  ScheduleError,
  sheet,
  SpecError,
  steady,
  steadySchedule,
  tripThrough,
} from '../../src/index.ts';
import type { CarSpec, LaunchOptions, Trip } from '../../src/index.ts';

const spec = {
  mass: 1010,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'front' as const, unit: 'unit_100kw' as const, ratio: 8 },
  pack: 'pack_nmc_96s1p_60ah' as const,
} satisfies CarSpec;

function thrown(work: () => unknown): SpecError | ScheduleError {
  try {
    work();
  } catch (error) {
    if (error instanceof SpecError || error instanceof ScheduleError) return error;
    throw error;
  }
  throw new Error('was taken');
}

const found = (work: () => unknown): readonly [code: string, path: string] => {
  const { code, path, message } = thrown(work);
  // Whoever only reads the message reads where.
  expect(message.startsWith(path)).toBe(true);
  return [code, path];
};

describe('a car', () => {
  const car = (more: object): CarSpec => ({ ...spec, ...more });

  it('has what is required, for the compiler and when it runs', () => {
    // @ts-expect-error nothing is said
    expect(found(() => completeCar({}))).toEqual(['missing', 'mass']);
    // @ts-expect-error a drive without its axle and ratio
    expect(found(() => completeCar({ ...spec, drive: { unit: 'unit_100kw' } }))).toEqual(['missing', 'drive.axle']);
    // @ts-expect-error no tyres at all
    expect(found(() => completeCar({ mass: 1010, drive: spec.drive, pack: spec.pack }))).toEqual(['missing', 'tyres']);
    // @ts-expect-error no scales
    expect(found(() => completeLedger({ wheelbase: 2.4 }))).toEqual(['missing', 'scales']);
  });

  it.each<[string, object, string, string]>([
    ['a number that is none', { mass: Number.NaN }, 'outside', 'mass'],
    ['text for a number', { mass: '1010' }, 'outside', 'mass'],
    ['a number outside its limits', { drive: { ...spec.drive, ratio: -8 } }, 'outside', 'drive.ratio'],
    [
      'a number of a unit',
      { drive: { ...spec.drive, unit: { peakTorque: 0, peakPower: 1e5 } } },
      'outside',
      'drive.unit.peakTorque',
    ],
    ['a word', { drive: { ...spec.drive, axle: 'middle' } }, 'choice', 'drive.axle'],
    ['a part', { pack: 'pack_nmc_96s1p_60a' }, 'choice', 'pack'],
    ['a part of a part', { drive: { ...spec.drive, unit: 'unit_90kw' } }, 'choice', 'drive.unit'],
    ['a number for a group', { cabin: 5 }, 'outside', 'cabin'],
    ['nothing for a group', { cabin: null }, 'outside', 'cabin'],
    ['a list for a group', { drive: [spec.drive] }, 'outside', 'drive'],
    ['what does not go together', { frontTorqueShare: 0.4 }, 'conflict', 'frontTorqueShare'],
    ['a name', { cgheight: 0.5 }, 'unknown', 'cgheight'],
  ])('refuses %s', (_, wrong, code, path) => {
    expect(found(() => completeCar(car(wrong)))).toEqual([code, path]);
    expect(found(() => completeCar(car(wrong), 'my_van'))).toEqual([code, `my_van.${path}`]);
  });

  it('names what was probably meant', () => {
    expect(thrown(() => completeCar(car({ pack: 'pack_nmc_96s1p_60a' })))).toMatchObject({
      nearest: 'pack_nmc_96s1p_60ah',
    });
  });

  it('refuses surroundings', () => {
    expect(found(() => completeSurroundings({ temperature: 20 }))).toEqual(['outside', 'temperature']);
    // @ts-expect-error no such road
    expect(found(() => completeSurroundings({ surface: 'mud' }))).toEqual(['choice', 'surface']);
  });
});

const { car } = completeCar(spec);
const { surroundings } = completeSurroundings();
const trip = tripThrough('', [steadySchedule(10, 60)]);

describe('options', () => {
  const launchBy = (more: object): unknown => launch(car, { surroundings, ...more });
  const rangeBy = (more: object): unknown => range(car, trip, { surroundings, ...more });

  it.each<[string, () => unknown, string, string]>([
    ['pedal of a launch', () => launchBy({ pedal: 5 }), 'outside', 'pedal'],
    ['pedal that is no number', () => launchBy({ pedal: Number.NaN }), 'outside', 'pedal'],
    ['end of a launch', () => launchBy({ stop: 'foo' }), 'choice', 'stop'],
    ['start of a launch', () => launchBy({ from: -5 }), 'outside', 'from'],
    ['target of a launch', () => launchBy({ to: Number.NaN }), 'outside', 'to'],
    ['tolerance', () => launchBy({ tolerance: 0 }), 'outside', 'tolerance'],
    ['surroundings that are missing', () => launch(car, {} as LaunchOptions), 'missing', 'surroundings'],
    ['surroundings that are empty', () => launchBy({ surroundings: {} }), 'missing', 'surroundings.temperature'],
    [
      'air in degrees Celsius',
      () => launchBy({ surroundings: { ...surroundings, temperature: 20 } }),
      'outside',
      'surroundings.temperature',
    ],
    ['reserve of a range', () => rangeBy({ reserve: 2 }), 'outside', 'reserve'],
    ['charge of a range', () => rangeBy({ charge: Number.NaN }), 'outside', 'charge'],
    ['temperatures of a range', () => rangeBy({ temperatures: [280, 10] }), 'outside', 'temperatures[1]'],
    ['soak of a drive', () => drive(car, trip, { surroundings, soaked: 5 }), 'outside', 'soaked'],
    ['steady speed', () => steady(car, { surroundings, speed: -10, speeds: [] }), 'outside', 'speed'],
    ['gross mass', () => sheet(car, { surroundings, grossMass: -1 }), 'outside', 'grossMass'],
    ['count of launches', () => repeat(car, { surroundings, times: 0, pause: 1 }), 'outside', 'times'],
    ['supply of a charge', () => charge(car, { temperature: 290 } as never), 'missing', 'supply'],
    ['launcher', () => createLauncher()(car, { surroundings, pedal: 5 }), 'outside', 'pedal'],
    ['ranger', () => createRanger()(car, trip, { surroundings, reserve: -1 }), 'outside', 'reserve'],
  ])('are refused: %s', (_, work, code, path) => {
    expect(found(work)).toEqual([code, path]);
  });

  it('may be left out altogether by nobody', () => {
    expect(() => launch(car, undefined as never)).toThrow('expected surroundings');
  });
});

describe('what is driven', () => {
  const leg = (time: number[], speed: number[]): Trip => ({
    title: '',
    parts: [
      {
        kind: 'leg',
        load: null,
        schedule: {
          title: '',
          source: '',
          time: Float64Array.from(time),
          speed: Float64Array.from(speed),
          slope: null,
          phases: [],
        },
      },
    ],
  });

  it.each<[string, () => unknown, string]>([
    ['time that goes back', () => scheduleOf({ time: [0, 2, 1], speed: [0, 1, 0] }), 'time[2]'],
    ['a speed below 0', () => scheduleOf({ time: [0, 1], speed: [0, -1] }), 'speed[1]'],
    ['a speed that is no number', () => scheduleOf({ time: [0, 1], speed: [0, Number.NaN] }), 'speed[1]'],
    [
      'a stop that goes back',
      () => tripThrough('', [steadySchedule(10, 60), { kind: 'stop', seconds: -5 }]),
      'parts[1].seconds',
    ],
    [
      'a drive by hand with time that goes back',
      () => drive(car, leg([0, 2, 1], [0, 1, 0]), { surroundings }),
      'parts[0].time[2]',
    ],
    ['a drive of no trip', () => drive(car, undefined as never, { surroundings }), 'trip'],
    ['a drive by hand below 0', () => drive(car, leg([0, 9], [0, -6333]), { surroundings }), 'parts[0].speed[1]'],
    [
      'a range by hand of no number',
      () => range(car, leg([0, 9], [0, Number.NaN]), { surroundings }),
      'parts[0].speed[1]',
    ],
  ])('is refused: %s', (_, work, path) => {
    expect(found(work)).toEqual(['schedule', path]);
  });
});

describe('a car that is not complete', () => {
  const wrong: readonly (readonly [string, unknown])[] = [
    ['as it is described', spec],
    ['with the list of its inputs', completeCar(spec)],
    ['that is none', undefined],
  ];

  it.each(wrong)('is refused %s, with how it is made', (_, given) => {
    const taken = given as typeof car;
    const options = { surroundings };
    const asks = [
      () => launch(taken, options),
      () => range(taken, trip, options),
      () => drive(taken, trip, options),
      () => sheet(taken, options),
      () => createLauncher()(taken, options),
    ];
    for (const ask of asks) {
      expect(thrown(ask)).toMatchObject({
        path: 'car',
        code: 'outside',
        expected: 'a complete car: completeCar(spec).car',
      });
    }
    expect(() => completeCar(undefined as never)).toThrow(/^what is described is nothing; expected a group of fields/u);
  });
});

describe('figures again and again', () => {
  it('are those of the whole run, to the last bit', () => {
    const [launcher, ranger] = [createLauncher(), createRanger()];
    const heavy = { ...car, body: { ...car.body, mass: 1400 } };
    for (const each of [car, heavy, car]) {
      expect(launcher(each, { surroundings }).summary).toEqual(launch(each, { surroundings }).summary);
      expect(ranger(each, trip, { surroundings }).summary).toEqual(range(each, trip, { surroundings }).summary);
    }
  });
});

describe('a summary', () => {
  it('has its keys in its type, and all of them when it runs', () => {
    const { summary, outputs } = launch(car, { surroundings });
    const time: number | null = summary.time_to_100_km_h;
    const limiter: string | null = summary.top_speed_limiter;
    expect([typeof time, typeof limiter]).toEqual(['number', 'string']);
    // @ts-expect-error no such figure
    expect(summary.time_to_100_kmh).toBeUndefined();
    expect(Object.keys(summary)).toEqual(Object.keys(outputs));
    const ranged = range(car, trip, { surroundings });
    expect(Object.keys(ranged.summary)).toEqual(Object.keys(ranged.outputs));
  });
});
