/** A field that is read and used by nothing: whoever writes it is answered about another car than they described. */
import { describe, expect, it } from 'vitest';
import type { Schedule } from '../../src/cycles/schedule.ts';
import type { Trip } from '../../src/cycles/trip.ts';
import { completeCar, completeSurroundings } from '../../src/model/complete.ts';
import type { Field, Fields } from '../../src/model/fields/field.ts';
import { SpecError } from '../../src/model/fields/spec-error.ts';
import { completeSupply } from '../../src/model/pack/complete-supply.ts';
import { supplyFields } from '../../src/model/pack/supply-fields.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { carFields } from '../../src/model/spec.ts';
import { surroundingsFields } from '../../src/model/surroundings-fields.ts';
import { chargeOnce, chargeStart } from '../../src/runs/charge/run.ts';
import { launchOnce } from '../../src/runs/launch/run.ts';
import { wallEnergy } from '../../src/runs/schedule/wall-energy.ts';
import { travelOnce } from '../../src/runs/schedule/trip.ts';

/** Plain data of a specification: numbers, words, lists and groups below their keys. */
type Data = { readonly [key: string]: unknown };

interface Context {
  readonly car: Data;
  readonly day: Data;
  readonly supply: Data;
}

const unit = { peakTorque: 250, peakPower: 90_000, referenceVoltage: 330, maxSpeed: 1100 };
const cell = shippedPart('cell', 'cell_nmc_60ah')!.values;

/** Full power, hard braking, a stand, and a stretch on which heat builds up. */
const schedule: Schedule = {
  title: 'up and down',
  source: 'invented',
  time: Float64Array.of(0, 12, 40, 52, 70, 75, 140, 150),
  speed: Float64Array.of(0, 22, 24, 0, 0, 5, 33, 0),
  slope: null,
  phases: [],
};
const leg = { kind: 'leg', schedule, load: null } as const;
const trip: Trip = { title: '', parts: [leg, { kind: 'stop', seconds: 600 }, leg] };

const base: Context = {
  car: {
    mass: 1100,
    tyres: { radius: 0.3 },
    drive: { axle: 'rear', unit, ratio: 8 },
    pack: { cell, series: 92, parallel: 1 },
  },
  day: { temperature: 293.15 },
  supply: {},
};

function merged(one: Data, other: Data): Data {
  const result: { [key: string]: unknown } = { ...one };
  for (const [key, value] of Object.entries(other)) {
    const own = result[key];
    result[key] = isData(own) && isData(value) ? merged(own, value) : value;
  }
  return result;
}

function isData(value: unknown): value is Data {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const on = (car: Data, day: Data = {}, supply: Data = {}): Context => ({
  car: merged(base.car, car),
  day: { ...base.day, ...day },
  supply: { ...base.supply, ...supply },
});

const SLIPPERY = { radius: 0.3, dryPeak: 0.5, wetPeak: 0.35, wetSlide: 0.25 };
const WET = { radius: 0.3, wetPeak: 0.35 };
const SECOND = { axle: 'front', unit: { ...unit, peakTorque: 450 }, ratio: 8 };
const TWO_SPUN = {
  drive: { traction: 'spin', unit: { peakTorque: 450 } },
  secondDrive: { ...SECOND, traction: 'spin' },
};

/** Cars and days in which a field may show; one is enough. */
const CONTEXTS: readonly Context[] = [
  base,
  on({ drive: { traction: 'share' }, tyres: { slipAtPeak: 0.1, dryPeak: 0.5 } }),
  on(
    { drive: { traction: 'spin', unit: { peakTorque: 450 } }, tyres: { dryPeak: 0.6, drySlide: 0.4 } },
    {},
    { phases: 3 },
  ),
  on(
    { drive: { traction: 'spin', unit: { peakTorque: 450 } }, tyres: { wetPeak: 0.4, wetSlide: 0.3 } },
    { surface: 'wet' },
  ),
  on({ dragArea: 0.7, tyres: undefined, frontTyres: SLIPPERY, rearTyres: SLIPPERY, ...TWO_SPUN }),
  on({ tyres: undefined, frontTyres: SLIPPERY, rearTyres: SLIPPERY, ...TWO_SPUN }, { surface: 'wet' }),
  on({ tyres: undefined, frontTyres: WET, rearTyres: WET, ...TWO_SPUN }, { surface: 'wet' }),
  on({ tyres: { radius: undefined, size: '165/70 R 13' } }),
  on({
    tyres: undefined,
    frontTyres: { size: '165/70 R 13' },
    rearTyres: { size: '165/70 R 13' },
  }),
  on({ tyres: { dryPeak: 0.6 }, ...TWO_SPUN }, { surface: 'wet' }),
  on({ dragCoefficient: 0.4, width: 1.6, height: 1.4 }),
  on({ drive: { axle: 'both', frontTorqueShare: 0.4, unit: { peakTorque: 500 } }, tyres: { dryPeak: 0.5 } }),
  on({
    secondDrive: { axle: 'front', unit: { ...unit, peakTorque: 200 }, ratio: 7 },
    frontTorqueShare: 0.4,
    drive: { unit: { peakTorque: 400 } },
  }),
  on({
    secondDrive: {
      ...SECOND,
      unit: {
        ...unit,
        tableSpeed: [0, 400, 1100],
        tableTorque: [250, 250, 80],
        peakTorque: undefined,
        peakPower: undefined,
      },
    },
  }),
  on({
    secondDrive: { ...SECOND, traction: 'share', regeneration: { kind: 'blended', torque: 300, power: 100_000 } },
    tyres: { dryPeak: 0.4 },
  }),
  on({ secondDrive: { ...SECOND, shaftTorque: 1000, regeneration: { kind: 'blended', power: 4000 } } }),
  on(
    {
      drive: { unit: { peakTorque: 80 } },
      secondDrive: { ...SECOND, unit: { ...unit, continuousPower: 10_000, overloadTime: 3, derateRange: 5 } },
    },
    { temperature: 328.15 },
  ),
  on(
    {
      drive: { unit: { peakTorque: 80 } },
      secondDrive: {
        ...SECOND,
        unit: { ...unit, continuousPower: 10_000, continuousTorque: 25, overloadTime: 3, derateRange: 5 },
      },
    },
    { temperature: 328.15 },
  ),
  on({
    drive: { ratio: 16, unit: { taperSpeed: 1050 } },
    secondDrive: { ...SECOND, ratio: 16, unit: { ...unit, taperSpeed: 1050 } },
  }),
  on({ drive: { ratio: 16, unit: { taperSpeed: 1050 } } }),
  on({ tyres: { dryPeak: 0.5 } }, { surface: 'snow' }),
  on({ tyres: { dryPeak: 0.5 }, drive: { traction: 'spin', unit: { peakTorque: 450 } } }, { surface: 'snow' }),
  on({ tyres: { dryPeak: 0.5 }, drive: { traction: 'spin', unit: { peakTorque: 450 } } }, { surface: 'ice' }),
  on({ tyres: { pressure: 180_000 } }, { temperature: 268.15 }),
  on({ tyres: undefined, frontTyres: SLIPPERY, rearTyres: SLIPPERY, ...TWO_SPUN }, { surface: 'snow' }),
  on({ tyres: undefined, frontTyres: SLIPPERY, rearTyres: SLIPPERY, ...TWO_SPUN }, { surface: 'ice' }),
  on({
    tyres: undefined,
    frontTyres: { radius: 0.3, pressure: 180_000 },
    rearTyres: { radius: 0.3, pressure: 180_000 },
  }),
  on({ secondDrive: SECOND }, { temperature: 268.15 }),
  on({ trailer: { mass: 500 }, tyres: { dryPeak: 0.5 } }),
  on({ drive: { suspension: 'live', axleRatio: 4 }, tyres: { dryPeak: 0.5 } }),
  on({ secondDrive: { ...SECOND, suspension: 'live', axleRatio: 4 }, tyres: { dryPeak: 0.4 } }),
  on({ secondDrive: { ...SECOND, ratio: 4, gearbox: { gears: [3.2, 1.9, 1.2], shift: 'speed', shiftSpeed: 900 } } }),
  on({ secondDrive: { ...SECOND, ratio: 4, gearbox: { gears: [3.2, 1.9, 1.2], shift: 'none', gear: 2 } } }),
  on({ drive: { axle: 'front' }, secondDrive: { ...SECOND, axle: 'rear', ratio: 5 } }),
  on({ drive: { ratio: 4, gearbox: { gears: [3.2, 1.9, 1.2], shift: 'speed', shiftSpeed: 900 } } }),
  on({ drive: { ratio: 4, gearbox: { gears: [3.2, 1.9, 1.2], shift: 'none', gear: 2 } } }),
  on({ drive: { unit: { continuousPower: 20_000, overloadTime: 5, derateRange: 5 } } }, { temperature: 328.15 }),
  on(
    { drive: { unit: { continuousPower: 20_000, continuousTorque: 50, overloadTime: 5, derateRange: 5 } } },
    { temperature: 328.15 },
  ),
  on({ drive: { shaftTorque: 1200, regeneration: { kind: 'lift' } } }),
  on({ drive: { regeneration: { kind: 'blended', torque: 300, power: 100_000, share: 1, gripShare: 0.1 } } }),
  on({ drive: { regeneration: { kind: 'blended', power: 5000 } } }),
  on(
    { pack: { parallel: 1, cooling: 5, heatCapacity: 20_000, derateTemperature: 320, derateRange: 10 } },
    { temperature: 328.15 },
  ),
  on({ pack: { charge: 0.9, maxCurrent: 150, minVoltage: 250, maxChargeCurrent: 30 } }, { temperature: 278.15 }),
  on({ pack: { charge: 0.3, minVoltage: 320 } }),
  on({
    drive: { unit: { peakPower: 120_000 }, regeneration: { kind: 'blended', torque: 200, power: 100_000 } },
    pack: { charge: 0.9, maxCurrent: 150, continuousCurrent: 70, maxChargeCurrent: 60, continuousChargeCurrent: 10 },
  }),
  on({ pack: { charge: 0.14, lowCharge: 0.2, lowShare: 0.4, maxCurrent: 150 } }, { temperature: 265.15 }),
  on({
    drive: { regeneration: { kind: 'blended', torque: 200, power: 100_000 } },
    pack: {
      charge: 0.5,
      cell: { maxCurrent: 150, continuousCurrent: 70, maxChargeCurrent: 60, continuousChargeCurrent: 10, pulseTime: 5 },
    },
  }),
  on({ cabin: { heater: 'resistive' } }, { temperature: 263.15 }),
  on({ cabin: { heater: 'heat pump', heaterPower: 500 } }, { temperature: 263.15 }),
  on({ cabin: { heater: 'heat pump', heatPumpSlope: 0.04 } }, { temperature: 285.15 }),
  on({ cabin: { cooler: 'yes', sun: 500 } }, { temperature: 308.15 }),
  on({ roadLoad: { f0: 150, f1: 1, f2: 0.4, testMass: 1200, coupled: 'yes' } }),
  on({ drive: { unit: { leastVoltage: 310 } }, pack: { charge: 0.3 } }),
  on({ secondDrive: { ...SECOND, unit: { ...unit, leastVoltage: 310 } }, pack: { charge: 0.3 } }),
  on({ charger: { leastVoltage: 250, greatestVoltage: 380, maxCurrent: 10 } }, {}, { current: 32 }),
  on({ charger: { power: 3000, count: 2 } }, {}, { phases: 1, current: 16 }),
  on({ charger: { power: 3000 } }, {}, { current: 8 }),
  on({ charger: { power: 7000, usualPower: 2300 } }, {}, { pilot: 0.2 }),
  on({ pack: { heaterPower: 1500, heaterUntil: 285 } }, { temperature: 263.15 }, { current: 16 }),
  on({}, {}, { dcPower: 50_000, dcCurrent: 40, dcLeastVoltage: 250, dcGreatestVoltage: 380 }),
  on({
    drive: {
      unit: { peakTorque: undefined, peakPower: undefined, tableSpeed: [0, 400, 1100], tableTorque: [250, 250, 80] },
    },
  }),
];

/** Fields that no answer can depend on here, each with the reason. */
const EXCEPT: { readonly [path: string]: string } = {
  'secondDrive.axle': 'is the other axle: there is no choice',
  'secondDrive.frontTorqueShare': 'is for one drive of both axles',
  'drive.unit.greatestVoltage': 'refuses a pack, as the test of voltage windows tries',
  'secondDrive.unit.greatestVoltage': 'refuses a pack',
  'pack.contactorVoltage': 'refuses a pack, as the test of voltage windows tries',
  'drive.unit.map': 'names a file: what is in it is tried where files are read',
  'drive.unit.torqueTable': 'names a file',
  'drive.unit.mapIncludes': 'goes with a map or with stated efficiencies',
  'drive.unit.efficiencyPoints': 'tried by the fit of the loss constants',
  'secondDrive.unit.map': 'names a file',
  'secondDrive.unit.torqueTable': 'names a file',
  'secondDrive.unit.mapIncludes': 'goes with a map or with stated efficiencies',
  'secondDrive.unit.efficiencyPoints': 'tried by the fit of the loss constants',
};

/** What there is after all reading, and then everything that may be answered about it, one question after the other. */
function* answers({ car: spec, day, supply }: Context): Generator<string> {
  const { car } = completeCar(spec);
  const { surroundings } = completeSurroundings(day, '');
  const options = { temperature: surroundings.temperature, supply: completeSupply('', supply, []) };
  yield text([car, surroundings, options.supply]);
  const { marks, solution } = launchOnce(car, { surroundings, stop: '400_m' });
  yield text([[...marks].map(([mark, { time }]) => [mark, time]), solution.states[solution.nodes - 1]]);
  const { plant, initial } = chargeStart(car, options);
  // A pack that is too cold takes nothing at the start, which is an answer too.
  const charged = plant.modeAt(initial) < 0 ? null : chargeOnce(car, options);
  yield text([charged?.end.time, [...(charged?.end.integrals ?? [])], charged?.wall.power, wallEnergy(car, 0.5, 0.9)]);
  const run = travelOnce(car, trip, { surroundings });
  const legs = run.legs.map(({ energy, charge, brakes, returned }) => [energy, charge, brakes, returned]);
  yield text([legs, run.follower.inner.totals.late]);
}

const text = (value: unknown): string => JSON.stringify(value);

/** Whether a car that can be built answers anything in another way. */
function differs(context: Context, known: readonly string[]): boolean {
  try {
    const asked = answers(context);
    // What is read as the same is answered in the same way.
    if (asked.next().value === known[0]) return false;
    return known.slice(1).some(answer => asked.next().value !== answer);
  } catch (error) {
    if (error instanceof SpecError || error instanceof RangeError) return false;
    throw error;
  }
}

/** Paths of all fields below a table; a group is as good as what is in it. */
function leaves(fields: Fields, path = ''): [path: string, field: Field][] {
  return Object.entries(fields).flatMap(([key, field]) =>
    field.kind === 'group' ? leaves(field.fields, `${path}${key}.`) : [[`${path}${key}`, field] as [string, Field]],
  );
}

/** `drive.unit.inertia`: `drive`, `drive.unit`. */
function groupsOf(path: string): string[] {
  const keys = path.split('.');
  return keys.slice(1).map((_, k) => keys.slice(0, k + 1).join('.'));
}

function at(data: Data, path: string): unknown {
  return path.split('.').reduce<unknown>((value, key) => (isData(value) ? value[key] : undefined), data);
}

function has(data: Data, path: string): number {
  return at(data, path) === undefined ? 0 : 1;
}

function withValue(data: Data, path: string, value: unknown): Data {
  return merged(data, path.split('.').reduceRight<unknown>((inner, key) => ({ [key]: inner }), value) as Data);
}

/** Other values than the one that stands there. */
function others(field: Field, own: unknown): unknown[] {
  switch (field.kind) {
    case 'number': {
      const from = typeof own === 'number' ? own : (field.default?.value ?? (field.min + field.max) / 2);
      const near = [from * 0.8, from * 1.25, from + 1, from - 1];
      const wide = typeof own === 'number' ? near : [...near, field.min + 0.02 * (field.max - field.min), field.max];
      const fit = wide.map(value => (field.whole === true ? Math.round(value) : value));
      return fit.filter(value => value !== own && value >= field.min && value <= field.max);
    }
    case 'choice':
      return field.choices.filter(choice => choice !== own);
    case 'numbers':
      return Array.isArray(own)
        ? [own.map((x: number) => x * 0.9), own.map((x: number, k) => (k === own.length - 1 ? x : x * 0.9))]
        : [[field.min + 0.9 * Math.min(1, field.max - field.min)]];
    case 'text':
      return ['145/80 R 13'];
    default:
      return [];
  }
}

type Part = keyof Context;
const TABLES: readonly (readonly [part: Part, fields: Fields])[] = [
  ['car', carFields],
  ['day', surroundingsFields],
  ['supply', supplyFields],
];

/** What is read of a context; null where it can not be. */
function readAs({ car, day, supply }: Context): string | null {
  try {
    const { surroundings } = completeSurroundings(day, '');
    return text([completeCar(car).car, surroundings, completeSupply('', supply, [])]);
  } catch (error) {
    if (error instanceof SpecError || error instanceof RangeError) return null;
    throw error;
  }
}

/** Tyres of one axle are tyres with what is said of both. */
const OF_ONE_AXLE = ['frontTyres', 'rearTyres'];

/** Groups that a car has or has not: an empty one makes another car, or none. The others are always there, with what is assumed for them. */
const GROUPS_OF_THEIR_OWN = new Map(
  TABLES.map(([part, fields]) => {
    const groups = new Set(leaves(fields).flatMap(([path]) => groupsOf(path)));
    const own = [...groups].filter(group => {
      const above = groupsOf(group).at(-1);
      const without = CONTEXTS.find(
        context =>
          at(context[part], group) === undefined && (above === undefined || at(context[part], above) !== undefined),
      );
      if (without === undefined) return false;
      const empty = { ...without, [part]: withValue(without[part], group, {}) };
      return OF_ONE_AXLE.includes(group) || readAs(empty) !== readAs(without);
    });
    return [part, own] as const;
  }),
);
const before = CONTEXTS.map(context => [...answers(context)]);

describe('every field of a car, of the day and of the supply', () => {
  const all = TABLES.flatMap(([part, fields]) => leaves(fields).map(([path, field]) => [path, part, field] as const));

  it.each(all.filter(([path]) => EXCEPT[path] === undefined))(
    'makes a difference somewhere: %s',
    (path, part, field) => {
      const order = [...CONTEXTS.entries()].toSorted(([, a], [, b]) => has(b[part], path) - has(a[part], path));
      const moves = order.some(([k, context]) => {
        // A group that this car does not have is another car, not another value.
        const missing = groupsOf(path).some(
          group => GROUPS_OF_THEIR_OWN.get(part)?.includes(group) === true && at(context[part], group) === undefined,
        );
        if (missing) return false;
        const own = at(context[part], path);
        return others(field, own).some(value => {
          return differs({ ...context, [part]: withValue(context[part], path, value) }, before[k] ?? []);
        });
      });
      expect(moves, `no answer changes with ${path}`).toBe(true);
    },
  );

  it('has no exception that is none', () => {
    const paths = new Set(all.map(([path]) => path));
    expect(Object.keys(EXCEPT).filter(path => !paths.has(path))).toEqual([]);
  });

  it('is found out where nothing uses it', () => {
    expect(differs({ ...base, car: { ...base.car, trailerMass: 400 } }, before[0] ?? [])).toBe(false);
    expect(differs({ ...base, car: { ...base.car, mass: 1200 } }, before[0] ?? [])).toBe(true);
  });
});
