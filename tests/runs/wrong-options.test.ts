/** What a program gives that nobody can mean: an error with a code and the path as it was written, never a number. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  charge,
  completeCar,
  completeLedger,
  completeSurroundings,
  createLauncher,
  createRanger,
  drive,
  hold,
  launch,
  range,
  repeat,
  scheduleOf,
  ScheduleError,
  sheet,
  SpecError,
  standardTest,
  steady,
  steadyPedal,
  steadySchedule,
  steepestHold,
  steepestStart,
  tripThrough,
} from '../../src/index.ts';
import type { Car, CarSpec, LaunchOptions, Leg, Stop, Trip } from '../../src/index.ts';
import { launch as leanLaunch, range as leanRange } from '../../src/doors/lean.ts';
import { checkCar } from '../../src/runs/checked-car.ts';
import { arbitraryBuild, arbitraryCar } from '../cars.ts';

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
  const plugged = { temperature: 290, supply: { voltage: 230, current: 16, phases: 1 } };
  const chargeAt = (more: object): unknown =>
    charge(car, { temperature: 290, supply: { voltage: 230, current: 16, phases: 1, ...more } });
  const rangeBy = (more: object): unknown => range(car, trip, { surroundings, ...more });

  it.each<[string, () => unknown, string, string]>([
    ['pedal of a launch', () => launchBy({ pedal: 5 }), 'outside', 'pedal'],
    ['pedal that is no number', () => launchBy({ pedal: Number.NaN }), 'outside', 'pedal'],
    ['pedal that nobody presses', () => launchBy({ pedal: 0 }), 'outside', 'pedal'],
    ['charge that does not rise', () => charge(car, { ...plugged, from: 0.8, to: 0.4 }), 'outside', 'to'],
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
    ['start of a launch that is a text', () => launchBy({ from: '5' }), 'outside', 'from'],
    ['states at the start that no function gives', () => launchBy({ initial: 5 }), 'outside', 'initial'],
    ['gross mass below the test mass', () => sheet(car, { surroundings, grossMass: 900 }), 'outside', 'grossMass'],
    ['name', () => launchBy({ temprature: 280 }), 'unknown', 'temprature'],
    ['supply in text', () => chargeAt({ voltage: '230' }), 'outside', 'supply.voltage'],
    ['supply below 0', () => chargeAt({ current: -16 }), 'outside', 'supply.current'],
    ['supply without its phases', () => chargeAt({ phases: undefined }), 'missing', 'supply.phases'],
    ['supply with a name', () => chargeAt({ amps: 16 }), 'unknown', 'supply.amps'],
    ['station without a power', () => chargeAt({ station: {} }), 'missing', 'supply.station.power'],
    ['launcher', () => createLauncher()(car, { surroundings, pedal: 5 }), 'outside', 'pedal'],
    ['ranger', () => createRanger()(car, trip, { surroundings, reserve: -1 }), 'outside', 'reserve'],
  ])('are refused: %s', (_, work, code, path) => {
    expect(found(work)).toEqual([code, path]);
  });

  it('say all names where none is near', () => {
    expect(thrown(() => launchBy({ weather: 'wet' })).message).toMatch(
      /^weather: unknown key "weather"; expected one of surroundings, from, /u,
    );
    expect(thrown(() => launch(car, {} as LaunchOptions)).message).toBe(
      'surroundings is missing; expected what completeSurroundings gives: completeSurroundings({}).surroundings',
    );
  });

  it('may be left out altogether by nobody', () => {
    expect(() => launch(car, undefined as never)).toThrow('expected surroundings');
  });
});

describe('what is driven', () => {
  const loaded = (load: number): Leg => ({ kind: 'leg', load, schedule: steadySchedule(10, 60) });
  const plugged = (more: object): Stop => ({
    kind: 'stop',
    seconds: 60,
    plug: { supply: { voltage: 230, current: 16, phases: 1, ...more }, to: null, waits: false },
  });
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
    ['a time in text', () => scheduleOf({ time: ['0', 10] as never, speed: [0, 1] }), 'time[0]'],
    ['a schedule of nothing', () => scheduleOf(undefined as never), 'columns'],
    [
      'a schedule without a title that is one',
      () => scheduleOf({ title: 3 as never, time: [0, 1], speed: [0, 1] }),
      'title',
    ],
    ['a steady speed below 0', () => steadySchedule(-1, 10), 'speed'],
    ['a steady speed for no time', () => steadySchedule(1, 0), 'seconds'],
    ['a trip without a title', () => tripThrough(undefined as never, [steadySchedule(10, 60)]), 'title'],
    ['a load below 0', () => tripThrough('', [loaded(-5)]), 'parts[0].load'],
    ['a load that is no number', () => tripThrough('', [loaded(Number.NaN)]), 'parts[0].load'],
    [
      'a plug that gives back',
      () => tripThrough('', [steadySchedule(10, 60), plugged({ current: -10 })]),
      'parts[1].plug.supply.current',
    ],
    [
      'a plug without phases',
      () => tripThrough('', [steadySchedule(10, 60), plugged({ phases: undefined })]),
      'parts[1].plug.supply.phases',
    ],
    ['a trip of stops', () => drive(car, { title: '', parts: [] }, { surroundings }), 'parts'],
    ['a lean range of no trip', () => leanRange(car, undefined as never, { surroundings }), 'trip'],
    [
      'a part that is none',
      () => range(car, { title: '', parts: [loaded(0), null as never] }, { surroundings }),
      'parts[1]',
    ],
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

describe('a car that was changed by hand', () => {
  const [driven] = car.drives;
  const { body, pack, auxiliaries } = car;
  const { cell } = pack;
  const changed = (more: object): Car => ({ ...car, ...more });
  const ofBody = (more: object): Car => changed({ body: { ...body, ...more } });
  const ofDrive = (more: object): Car => changed({ drives: [{ ...driven, ...more }] });
  const ofPack = (more: object): Car => changed({ pack: { ...pack, ...more } });
  const ofCell = (more: object): Car => ofPack({ cell: { ...cell, ...more } });

  it.each<[string, Car, string, string]>([
    ['a mass below 0', ofBody({ mass: -1000 }), 'outside', 'car.body.mass'],
    ['a mass that is no number', ofBody({ mass: Number.NaN }), 'outside', 'car.body.mass'],
    ['a mass in text', ofBody({ mass: '1240' }), 'outside', 'car.body.mass'],
    ['no mass', ofBody({ mass: undefined }), 'missing', 'car.body.mass'],
    ['no body', changed({ body: undefined }), 'missing', 'car.body'],
    ['a list for a body', changed({ body: [] }), 'outside', 'car.body'],
    ['a drag area below 0', ofBody({ dragArea: -0.6 }), 'outside', 'car.body.dragArea'],
    ['a misspelled name', ofBody({ masss: 900 }), 'unknown', 'car.body.masss'],
    ['no drive', changed({ drives: [] }), 'outside', 'car.drives'],
    ['no such axle', ofDrive({ axle: 'middle' }), 'choice', 'car.drives[0].axle'],
    ['no drive unit', ofDrive({ unit: null }), 'outside', 'car.drives[0].unit'],
    ['a ratio below 0', ofDrive({ ratio: -8 }), 'outside', 'car.drives[0].ratio'],
    ['a ratio without end', ofDrive({ ratio: Infinity }), 'outside', 'car.drives[0].ratio'],
    ['more out than in', ofDrive({ efficiency: 2 }), 'outside', 'car.drives[0].efficiency'],
    [
      'consumers that are no number',
      changed({ auxiliaries: { ...auxiliaries, power: Number.NaN } }),
      'outside',
      'car.auxiliaries.power',
    ],
    [
      'a resistance below 0',
      ofCell({ resistance: { charge: [0, 1], ohm: [0.001, -0.001] } }),
      'outside',
      'car.pack.cell.resistance.ohm[1]',
    ],
    ['no cells in series', ofPack({ series: 0 }), 'outside', 'car.pack.series'],
    ['an empty table', ofCell({ ocv: { charge: [], voltage: [] } }), 'outside', 'car.pack.cell.ocv.charge'],
    [
      'columns that do not fit',
      ofCell({ ocv: { charge: [0, 1], voltage: [3] } }),
      'outside',
      'car.pack.cell.ocv.voltage',
    ],
    [
      'a column that goes back',
      ofCell({ ocv: { charge: [1, 0], voltage: [3, 4] } }),
      'outside',
      'car.pack.cell.ocv.charge[1]',
    ],
    [
      'a table with what is no number',
      ofCell({ ocv: { charge: [0, 1], voltage: [3, Number.NaN] } }),
      'outside',
      'car.pack.cell.ocv.voltage[1]',
    ],
  ])('is refused with %s, by every run', (_, given, code, path) => {
    const options = { surroundings };
    const asks = [
      () => launch(given, options),
      () => leanLaunch(given, options),
      () => createLauncher()(given, options),
      () => range(given, trip, options),
      () => createRanger()(given, trip, options),
      () => drive(given, trip, options),
      () => sheet(given, options),
      () => standardTest(given, 'wltp'),
      () => charge(given, { temperature: 290, supply: { voltage: 230, current: 16, phases: 1 } }),
      () => hold(given, surroundings, 10, 60),
      () => steadyPedal(given, surroundings, 10),
      () => steepestStart(given, surroundings),
      () => steepestHold(given, surroundings),
    ];
    for (const ask of asks) expect(found(ask)).toEqual([code, path]);
  });

  it('is taken where a car can be so', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryCar, arbitraryBuild), random => {
        expect(() => checkCar(random)).not.toThrow();
      }),
    );
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
