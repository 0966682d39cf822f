/**
 * From a record of a battery car on a dynamometer to a specification: test mass, measured road load, driven axles and perhaps
 * the rated power. All else is a default of axlewatt or one of the rules below, which are the same for every record.
 */
import type { Spread } from '../../src/model/fields/input.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import type { CarSpec } from '../../src/model/spec.ts';
import data from './data/epa-cars.json' with { type: 'json' };

const POUND = 0.45359237;
const POUND_FORCE = 4.4482216152605;
const MPH = 0.44704;
const MILE = 1609.344;
const RPM = (2 * Math.PI) / 60;
const HORSEPOWER = 745.6998715822702;

/** J from the wall for one mile at one mile per gallon equivalent: 33.705 kWh. */
const GALLON = 33.705 * 3.6e6;

export interface RoadLoadRecord {
  readonly record: number;
  readonly year: number;
  readonly class: string;
  readonly drive: 'front' | 'rear' | 'all';
  /** kg, inertia of the dynamometer. */
  readonly mass: number;
  /** N, N s/m, N s2/m2. */
  readonly f0: number;
  readonly f1: number;
  readonly f2: number;
  /** W as filed; null where nothing plausible was. */
  readonly rated: number | null;
  /** rad/s of the motor per m/s as filed, with one driven axle; null where nothing was, and with two, whose motors may differ. */
  readonly gearing: number | null;
  /** J/m from the wall. */
  readonly published: { readonly udds: number; readonly hwfet: number };
}

export const roadLoadRecords: readonly RoadLoadRecord[] = data.cars.map(row => ({
  record: row.record,
  year: row.model_year,
  class: row.class,
  drive: driveOf(row.drive),
  mass: row.test_weight_lb * POUND,
  f0: row.a_lbf * POUND_FORCE,
  f1: (row.b_lbf_per_mph * POUND_FORCE) / MPH,
  f2: (row.c_lbf_per_mph2 * POUND_FORCE) / MPH ** 2,
  rated: row.rated_hp === null ? null : row.rated_hp * HORSEPOWER,
  gearing: row.drive === 'all' || row.motor_rpm_per_mph === null ? null : (row.motor_rpm_per_mph * RPM) / MPH,
  published: { udds: GALLON / row.udds_mpge / MILE, hwfet: GALLON / row.hwfet_mpge / MILE },
}));

/** What the rules say, each with how far it may be off: what is drawn for the intervals. */
export interface RoadLoadRules {
  /** Peak power over that of the rule for mass and driven axles, or over the filed one. */
  readonly power: number;
  /** Whether a filed rated power is the peak power. */
  readonly rated: boolean;
  /** m/s up to which the drive has its full torque. */
  readonly corner: number;
  /** Measured over filed road load. */
  readonly roadLoad: number;
  /** Share of the braking that the drive is asked for. */
  readonly braking: number;
  /** Resistance of the cells over that of `cell_nmc_60ah` of the same energy. */
  readonly resistance: number;
  /** W of the charger on board. */
  readonly charger: number;
  /** Whether the losses without load of motor and gears are in the road load. */
  readonly coupled: 'yes' | 'no';
  /** Share of the iron loss that is in the road load; null for the default, which is drawn with its spread. */
  readonly contained: number | null;
}

/**
 * m/s up to which a drive has its full torque: 59 km/h, where its peak torque and its peak power meet. One rule for all published
 * records, on the dynamometer and from rest.
 */
export const FULL_TORQUE_SPEED = 16.3;

/** How far it may be off. */
export const FULL_TORQUE_SPREAD: Spread = { kind: 'rectangular', low: 13, high: 18 };

export const ROAD_LOAD_RULES: RoadLoadRules = {
  power: 1,
  rated: false,
  corner: FULL_TORQUE_SPEED,
  roadLoad: 1,
  braking: 0.95,
  resistance: 1,
  charger: 6600,
  coupled: 'yes',
  contained: null,
};

/** How far the rules may be off, but for the power. */
export const RULE_SPREADS: {
  readonly [rule in Exclude<keyof RoadLoadRules, 'power' | 'rated' | 'coupled' | 'contained'>]: Spread;
} = {
  corner: FULL_TORQUE_SPREAD,
  roadLoad: { kind: 'rectangular', low: 0.93, high: 1.07 },
  braking: { kind: 'rectangular', low: 0.85, high: 1 },
  resistance: { kind: 'rectangular', low: 0.67, high: 1.33 },
  charger: { kind: 'rectangular', low: 3300, high: 11_000 },
};

/** Of the logarithm of the power: the standard deviation of the cars from the lines of `usualPower`. */
export function powerSpread({ drive }: RoadLoadRecord): Spread {
  return { kind: 'normal', standard: drive === 'all' ? 0.29 : 0.22 };
}

/** Turns of the motor in rad/s per m/s: the median of the records that say it is 28, of all of them 22 to 35. */
const GEARING = 27;

/** Pa. */
const SEA_LEVEL = 101_325;

/** m; the figures do not depend on it. */
const RADIUS = 0.32;

/** Of the test mass: what turns is part of it on a dynamometer, but for this (40 CFR Part 1066, from memory). */
const ROTATING = 0.015;

/** Wh of the pack per kg of test mass: the median of an open data set of electric cars of 2020 is 29 to 37. */
const PACK_ENERGY = 32;

const SERIES = 96;

/**
 * W by mass in kg and driven axles: a line through the logarithms of 20 cars with one and 12 with two driven axles out of an
 * open data set of electric cars on sale in Poland, late 2020; none of their consumption was looked at.
 */
function usualPower({ mass, drive }: RoadLoadRecord): number {
  return drive === 'all' ? 332e3 * (mass / 2400) ** 0.89 : 108e3 * (mass / 1700) ** 1.68;
}

/** Both axles are driven alike where the record says “all”. */
export function specOfRoadLoad(record: RoadLoadRecord, rules: RoadLoadRules = ROAD_LOAD_RULES): CarSpec {
  const { mass, drive, f0, f1, f2, rated } = record;
  const peakPower = rules.power * (rules.rated && rated !== null ? rated : usualPower(record));
  const gearing = record.gearing ?? GEARING;
  return {
    mass,
    driver: 0,
    // Rollers are set to a road load that was measured with warm tyres.
    tyres: { radius: RADIUS, inertia: (ROTATING * mass * RADIUS ** 2) / 4, coldRise: 0 },
    drive: {
      axle: drive === 'all' ? 'both' : drive,
      unit: { peakPower, peakTorque: peakPower / (rules.corner * gearing), inertia: 0 },
      ratio: gearing * RADIUS,
      inertia: 0,
      regeneration: { share: rules.braking },
    },
    pack: packOf(mass, rules.resistance),
    charger: { power: rules.charger },
    roadLoad: {
      f0: rules.roadLoad * f0,
      f1: rules.roadLoad * f1,
      f2: rules.roadLoad * f2,
      // A dynamometer applies the coefficients as they are: the air that they refer to is the air of the run.
      pressure: SEA_LEVEL,
      coupled: rules.coupled,
      ...(rules.contained === null ? {} : { contained: rules.contained }),
    },
  };
}

/** `cell_nmc_60ah` as large as the pack asks for, one in parallel: the energy need not be a multiple of a cell's. */
function packOf(mass: number, resistanceGrowth: number): NonNullable<CarSpec['pack']> {
  const cell = shippedPart('cell', 'cell_nmc_60ah')?.values;
  if (cell === undefined) throw new Error('the cell does not ship any more');
  const { capacity, maxCurrent, mass: cellMass, resistanceOhm, pairResistance = [] } = cell;
  const nominal = 3.72;
  const size = (PACK_ENERGY * mass * 3600) / (SERIES * nominal * capacity);
  return {
    cell: {
      ...cell,
      capacity: size * capacity,
      maxCurrent: size * maxCurrent,
      mass: size * cellMass,
      resistanceOhm: resistanceOhm.map(each => each / size),
      pairResistance: pairResistance.map(each => each / size),
    },
    series: SERIES,
    parallel: 1,
    resistanceGrowth,
  };
}

function driveOf(word: string): RoadLoadRecord['drive'] {
  if (word === 'front' || word === 'rear' || word === 'all') return word;
  throw new Error(`unknown driven axle ${word}`);
}
