/**
 * From a published record of an electric car to a specification that `completeCar` can complete. What the record does not
 * say is left to the defaults of axlewatt, but for the rules below: no constant here was fitted to a published time.
 */
import { usualMaxSpeed } from '../../src/model/drive/complete.ts';
import type { NumberField } from '../../src/model/fields/field.ts';
import { STANDARD_GRAVITY } from '../../src/model/gravity.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { carFields } from '../../src/model/spec.ts';
import { driveFields } from '../../src/model/drive/fields.ts';
import { tyreFields } from '../../src/model/tyre/fields.ts';
import type { CarSpec } from '../../src/model/spec.ts';
import type { DriveSpec } from '../../src/model/drive/fields.ts';
import type { TyreSpec } from '../../src/model/tyre/fields.ts';
import { FULL_TORQUE_SPEED } from './road-load-records.ts';
import { effectiveRadius } from '../../src/model/tyre/size.ts';

/** The figures that makers print; the time to 100 km/h is not among them: nothing here may know it. */
export interface CarRecord {
  readonly drive: 'front' | 'rear' | 'all';
  /** kg, empty. */
  readonly mass: number;
  /** W and N m at the motor shafts, of all motors together. */
  readonly peakPower: number;
  readonly peakTorque: number;
  /** m; null where the record is silent. */
  readonly wheelbase: number;
  readonly width: number | null;
  readonly height: number;
  /** m, diameter. */
  readonly rim: number;
  /** m/s. */
  readonly topSpeed: number;
}

/** How a record is read. */
export interface RecordRules {
  /**
   * m/s up to which the drive has its full torque, which with the printed torque and power gives the ratio; `top speed`: the default
   * greatest motor speed at the printed top speed gives it.
   */
  readonly corner: number | 'top speed';
  /** How two drives share the ratings: by the axle loads while the torque lasts, or in halves. */
  readonly split: 'axle load' | 'half';
  /** Tyres for the printed top speed, or the default ones. */
  readonly tyres: 'top speed' | 'default';
  /** m from rim to tread. */
  readonly section: number;
}

/** m from rim to tread of a car tyre: 205/55 R 16 has 0.113, 235/45 R 18 has 0.106, 255/40 R 20 has 0.102. */
const SECTION_HEIGHT = 0.11;

export const RULES: RecordRules & { readonly corner: number } = {
  corner: FULL_TORQUE_SPEED,
  split: 'axle load',
  tyres: 'top speed',
  section: SECTION_HEIGHT,
};

/** Nothing but the defaults and the least that they need. */
export const BARE_RULES: RecordRules = {
  corner: 'top speed',
  split: 'half',
  tyres: 'default',
  section: SECTION_HEIGHT,
};

/** m/s: a tyre of speed symbol H is good for 210 km/h, and what goes faster stands on sporting tyres. */
const ROAD_TYRE_SPEED = 210 / 3.6;

/** Share of the power out of the pack that arrives at the motor shaft at full load; only counts cells. */
const PACK_TO_SHAFT = 0.85;

const SERIES = 96;

/** A pack of generic cells, full, with as many in parallel as the peak power asks for; the driver of the defaults. */
export function specOfRecord(record: CarRecord, rules: RecordRules = RULES): CarSpec {
  const { mass, wheelbase, width, height } = record;
  return {
    mass,
    wheelbase,
    height,
    ...(width === null ? {} : { width }),
    tyres: tyresOf(record, rules),
    ...drivesOf(record, rules),
    pack: packOf(record),
  };
}

/** s: the least that a mass takes at a power without any loss or limit, with a driver of 75 kg. */
export function powerBound(record: CarRecord): number {
  return (0.5 * (record.mass + 75) * (100 / 3.6) ** 2) / record.peakPower;
}

export function isOnSportTyres({ topSpeed }: CarRecord): boolean {
  return topSpeed > ROAD_TYRE_SPEED;
}

function tyresOf(record: CarRecord, rules: RecordRules): TyreSpec {
  const radius = effectiveRadius(record.rim + 2 * rules.section);
  if (rules.tyres === 'default' || !isOnSportTyres(record)) return { radius };
  const { size: _, ...sport } = shippedPart('tyre', 'tyre_sport')?.values ?? {};
  return { ...sport, radius };
}

function drivesOf(record: CarRecord, rules: RecordRules): Pick<CarSpec, 'drive' | 'secondDrive'> {
  const { peakPower, peakTorque, drive } = record;
  const gearing = gearingOf(record, rules);
  const part = (axle: 'front' | 'rear', share: number): DriveSpec => ({
    axle,
    ratio: gearing.ratio,
    unit: { peakTorque: share * peakTorque, peakPower: share * peakPower, maxSpeed: gearing.maxSpeed },
  });
  if (drive !== 'all') return { drive: part(drive, 1) };
  const front = rules.split === 'half' ? 0.5 : frontLoadShare(record, rules, gearing.ratio);
  return { drive: part('front', front), secondDrive: part('rear', 1 - front) };
}

/** The motor turns as fast as the default says, or faster where the printed top speed asks for it. */
function gearingOf(record: CarRecord, rules: RecordRules): { readonly ratio: number; readonly maxSpeed: number } {
  const radius = tyresOf(record, rules).radius ?? Number.NaN;
  const usual = usualMaxSpeed(record.peakPower, record.peakTorque);
  if (rules.corner === 'top speed') return { ratio: (usual * radius) / record.topSpeed, maxSpeed: usual };
  const ratio = ((record.peakPower / record.peakTorque) * radius) / rules.corner;
  // The torque begins to fall at 0.96 of the greatest speed: the default of taper_speed.
  const asked = (ratio * record.topSpeed) / radius / 0.96;
  return { ratio, maxSpeed: Math.max(usual, asked) };
}

/**
 * Share of the load on the front axle while the whole torque, or all grip, drives the car: a maker who sizes the two drives by it
 * has neither axle spin before the other (Gillespie: the ideal split follows the axle loads).
 */
function frontLoadShare(record: CarRecord, rules: RecordRules, ratio: number): number {
  const { radius = Number.NaN, dryPeak = defaultOf(tyreFields.dryPeak) } = tyresOf(record, rules);
  const mass = record.mass + defaultOf(carFields.driver);
  const torqued = (record.peakTorque * ratio * defaultOf(driveFields.efficiency)) / radius / mass;
  const acceleration = Math.min(torqued, dryPeak * STANDARD_GRAVITY);
  return 0.5 - ((defaultOf(carFields.cgHeight) / record.wheelbase) * acceleration) / STANDARD_GRAVITY;
}

function packOf({ peakPower }: CarRecord): NonNullable<CarSpec['pack']> {
  const cell = shippedPart('cell', 'cell_nmc_60ah')!.values;
  const cellPower = 3.7 * cell.maxCurrent;
  return {
    cell,
    series: SERIES,
    parallel: Math.ceil(peakPower / (PACK_TO_SHAFT * SERIES * cellPower)),
    charge: 1,
  };
}

function defaultOf({ doc, default: fallback }: NumberField): number {
  if (fallback === undefined) throw new Error(`no default: ${doc}`);
  return fallback.value;
}
