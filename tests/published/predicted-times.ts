/** The published cars, each with its predicted time to 100 km/h, and how far off the predictions are. */
import { completeCar, completeSurroundings } from '../../src/model/complete.ts';
import { createLauncher } from '../../src/runs/launch/run.ts';
import data from './data/published-cars.json' with { type: 'json' };
import { powerBound, RULES, specOfRecord } from './records.ts';
import type { CarRecord, RecordRules } from './records.ts';

export interface PredictedTime {
  /** Row of the sheet. */
  readonly row: number;
  readonly record: CarRecord;
  /** s, to 100 km/h: printed by the maker, by axlewatt, and the least a car of this power and mass can take. */
  readonly published: number;
  readonly predicted: number;
  readonly bound: number;
}

/** Errors are predicted over published time less one. */
export interface ErrorFigures {
  /** Median of the errors. */
  readonly bias: number;
  /** Of the errors without their signs. */
  readonly median: number;
  readonly ninetieth: number;
  readonly worst: number;
}

/** Times are rounded to 0.1 s: more digits than enough. */
const TOLERANCE = 1e-8;

/** Median of time over bound of all usable rows of the sheet: the rule of thumb to be measured against. */
const RULE_OF_THUMB = 1.55;

const { surroundings } = completeSurroundings({});
const launchOn = createLauncher();

/** @throws Error when a car does not get to 100 km/h. */
function timeTo100(record: CarRecord, rules: RecordRules = RULES): number {
  const { car } = completeCar(specOfRecord(record, rules));
  const { marks, solution } = launchOn(car, { surroundings, stop: '100_km_h', tolerance: TOLERANCE });
  const passing = marks.get('100_km_h');
  if (passing === undefined) throw new Error(`100 km/h is not reached: ${solution.status} ${solution.reason}`);
  return passing.time;
}

/** All records with their rows in the sheet. */
export const publishedTimes: readonly Pick<PredictedTime, 'row' | 'record' | 'published'>[] = data.cars.map(row => ({
  row: row.record,
  record: recordOf(row),
  published: row.time_to_100_km_h_s,
}));

/** In the order of `publishedTimes`. */
export function predictedTimes(rules: RecordRules = RULES): readonly PredictedTime[] {
  return publishedTimes.map(each => ({
    ...each,
    predicted: timeTo100(each.record, rules),
    bound: powerBound(each.record),
  }));
}

/** The same cars by the rule of thumb. */
export function ruleOfThumb(times: readonly PredictedTime[]): readonly PredictedTime[] {
  return times.map(time => ({ ...time, predicted: RULE_OF_THUMB * time.bound }));
}

export function errorOf({ predicted, published }: PredictedTime): number {
  return predicted / published - 1;
}

export function errorFigures(times: readonly PredictedTime[]): ErrorFigures {
  const errors = times.map(errorOf);
  const sizes = errors.map(Math.abs);
  return {
    bias: quantile(errors, 0.5),
    median: quantile(sizes, 0.5),
    ninetieth: quantile(sizes, 0.9),
    worst: Math.max(...sizes),
  };
}

/** With straight lines between the ordered values: definition 7 of Hyndman & Fan (1996). */
export function quantile(numbers: readonly number[], share: number): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const at = (sorted.length - 1) * share;
  const low = sorted[Math.floor(at)] ?? Number.NaN;
  return low + (at - Math.floor(at)) * ((sorted[Math.ceil(at)] ?? Number.NaN) - low);
}

function recordOf(row: (typeof data.cars)[number]): CarRecord {
  const { drive } = row;
  if (drive !== 'front' && drive !== 'rear' && drive !== 'all') throw new Error(`unknown driven axle ${drive}`);
  return {
    drive,
    mass: row.mass_kg,
    peakPower: row.peak_power_kW * 1000,
    peakTorque: row.peak_torque_N_m,
    wheelbase: row.wheelbase_cm / 100,
    width: row.width_cm === null ? null : row.width_cm / 100,
    height: row.height_cm / 100,
    rim: row.rim_in * 0.0254,
    topSpeed: row.top_speed_km_h / 3.6,
  };
}
