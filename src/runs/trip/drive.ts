/** A trip once: what it takes out of the pack, where that goes, and whether the car can do it. */
import { checkTrip } from '../../cycles/trip-through.ts';
import type { Trip } from '../../cycles/trip.ts';
import { distanceOf } from '../../cycles/statistics.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { driveBands, driveTrace, phaseTable, powerBySpeed } from '../schedule/series.ts';
import { driveOutputs } from './drive-outputs.ts';
import { driveOpinion } from './travel-opinion.ts';
import { finer } from './finer.ts';
import { CURRENT_KEYS, currentFigures } from '../duty/currents.ts';
import { wants } from '../kind.ts';
import type { Effort, Wanted } from '../kind.ts';
import type { Ledger, Output, Result, ResultEvent, Summary } from '../result.ts';
import { checkOptions, SURROUNDINGS, TEMPERATURE } from '../options.ts';
import { type Rules, SHARE } from '../rules.ts';
import type { DriveSummary } from '../summaries/drive.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import { travelLedger } from '../schedule/ledger.ts';
import { energyFigures, recordFigures, wallFigures } from '../schedule/summary.ts';
import { plugWarnings, plugWords } from '../schedule/plug.ts';
import { recordOf, travelOnce } from '../schedule/trip.ts';
import type { Traveller, TravelRun } from '../schedule/trip.ts';
import { unheated } from './unheated.ts';

export interface DriveOptions {
  readonly surroundings: Surroundings;
  /** State of charge at the start; the car's own where left out. */
  readonly charge?: number;
  /** K of pack and drive units at the start; that of the air where left out. */
  readonly soaked?: number;
}

/** What a drive says, and the run behind it. */
interface Driven extends Figures {
  readonly run: TravelRun;
  readonly ledger: Ledger;
}

/** Figures that want what happens at every point to be kept. */
const RECORDED = [
  'max_speed',
  'min_voltage',
  'max_current',
  'max_power',
  'pack_temperature',
  'pack_temperature_end',
  'unit_temperature',
  'limiter',
] as const;

/** The figures that are wanted of a trip, and those that come with them for nothing. */
export function driveFigures(
  car: Car,
  trip: Trip,
  options: DriveOptions,
  wanted?: Wanted,
  travel: Traveller = travelOnce,
): Driven | None {
  const recorded = wants(wanted, RECORDED);
  const run = travel(car, finer(trip), {
    ...options,
    ...(recorded && { record: 1 }),
    trail: wants(wanted, CURRENT_KEYS),
  });
  if (!(run.distance > 0) && run.status !== 'done') {
    return { none: whyNothing(run), ...(run.status === 'failed' && { ended: run.reason }) };
  }
  const ledger = travelLedger(run);
  const [energies, wall] = [energyFigures(run, car, ledger), wallFigures(run, car, wanted)];
  const { totals } = run.follower.inner;
  const whole = trip.parts.reduce((sum, part) => sum + (part.kind === 'leg' ? distanceOf(part.schedule) : 0), 0);
  const summary = {
    ...energies.values,
    ...wall.values,
    ...(recorded && recordFigures(run, unitAxleOf(car))),
    ...(run.trail !== null && currentFigures(run.trail, driveOutputs, wanted)),
    trip: trip.title,
    air_temperature: options.surroundings.temperature,
    charge_start: run.charge,
    charge_end: run.legs.at(-1)?.charge ?? run.charge,
    time_too_slow: totals.late,
    limited_time: totals.beyond,
    time_lost: run.status === 'done' ? totals.lost : null,
    distance_missed: Math.max(0, whole - run.distance),
    shifts: totals.shifts,
  };
  const whyLost = run.status !== 'done' && { time_lost: 'it does not arrive' };
  return {
    run,
    ledger,
    summary: inOrder(summary, driveOutputs, wanted),
    reasons: { ...energies.reasons, ...wall.reasons, ...whyLost },
  };
}

/**
 * Drives a trip. A pack that gets empty on the way ends it, which is a result with a reason.
 * @throws SpecError for a car or options that can not be, ScheduleError for a trip that nobody can drive.
 */
export function drive(car: Car, trip: Trip, options: DriveOptions, effort: Effort = 'whole'): Result<DriveSummary> {
  checkOptions(car, options, RULES, ['surroundings']);
  checkTrip(trip);
  const driven = driveFigures(car, trip, options);
  if ('none' in driven) return noAnswer('drive', driveOutputs, driven.none, driven.ended);
  const { run, ledger, summary, reasons } = driven;
  const record = recordOf(run);
  const unitAxle = unitAxleOf(car);
  const opinion = effort === 'whole' ? driveOpinion(run, car, finer(trip), options) : null;
  return sound({
    kind: 'drive',
    summary,
    reasons,
    outputs: driveOutputs,
    series: {
      time: driveTrace(record, unitAxle),
      speed: powerBySpeed(record),
      phases: phaseTable(run, record),
    },
    bands: driveBands(record),
    events: events(run),
    ledger,
    warnings: [...unheated(car, options.surroundings), ...endWarnings(run), ...travelWarnings(run, ledger.gap)],
    opinion,
    ...(run.trail !== null && { trail: run.trail }),
    ...(run.status === 'failed' && { ended: run.reason }),
  });
}

/** The axle of the first drive, 0 in front. */
export function unitAxleOf({ drives }: Car): 0 | 1 {
  return drives[0]?.axle === 'front' ? 0 : 1;
}

/** The keys in the order of `outputs`; whatever is wanted and missing is an error in the run, not the user's. */
export function inOrder(
  values: { readonly [key: string]: number | string | null | undefined },
  outputs: { readonly [key: string]: Output },
  wanted?: Wanted,
): Summary {
  const summary: { [key: string]: number | string | null } = {};
  for (const key of Object.keys(outputs)) {
    const value = values[key];
    if (value === undefined) {
      if (!wants(wanted, [key])) continue;
      throw new Error(`no value for ${key}`);
    }
    summary[key] = value;
  }
  return summary;
}

/** Why the integration ended before its time, where it did. */
function whyNothing({ status, reason }: TravelRun): string {
  if (status === 'failed') return `the integration ended early: ${reason}`;
  if (status === 'empty') return 'the pack is empty at the start';
  if (status === 'weak') return reason === '' ? 'the pack does not give enough for the car to begin' : reason;
  return 'the car can not begin: at full pedal it does not gain speed';
}

function endWarnings(run: TravelRun): readonly string[] {
  const km = (run.distance / 1000).toFixed(1);
  if (run.status === 'empty') return [`The pack is empty after ${km} km: the rest of the trip was not driven`];
  if (run.status === 'weak') {
    const why = run.reason === '' ? '' : ` (${run.reason})`;
    return [`The pack is too weak to go on after ${km} km${why}: the rest of the trip was not driven`];
  }
  return [];
}

/** What every trip may have to say. */
export function travelWarnings(run: TravelRun, gap: number): readonly string[] {
  const { totals } = run.follower.inner;
  const list: string[] = [...plugWarnings(run.plugs)];
  const km = (run.distance / 1000).toFixed(1);
  if (run.status === 'stuck') list.push(`The car can not go on after ${km} km: at full pedal it does not gain speed`);
  if (run.status === 'failed') list.push(`The integration ended early: ${run.reason}`);
  if (totals.late > 0) {
    list.push(
      `For ${totals.late.toFixed(0)} s the car is more than 2 km/h below its schedule (UN GTR No. 15): it can not do more`,
    );
  }
  if (totals.skippedWay > 0) {
    const lost = (totals.skippedWay / 1000).toFixed(1);
    list.push(`${lost} km more are not counted: the pack is too weak to keep to the schedule there`);
  }
  if (totals.unfed > 0) {
    list.push(
      `For ${totals.unfed.toFixed(0)} s lights, pumps and heating got less than they ask for: the pack does not give it`,
    );
  }
  if (totals.lateSwitches > 0) {
    list.push(`${totals.lateSwitches} changes of limiter were found late: times may be off by a step`);
  }
  if (Math.abs(gap) > 1e-6) list.push(`The energy ledger does not close: ${gap.toExponential(1)} of it`);
  return list;
}

function events(run: TravelRun): readonly ResultEvent[] {
  const legs = run.legs.map(({ start, leg }) => ({ time: start, what: `begins ${leg.schedule.title}` }));
  const plugs = run.plugs.map(plugged => ({ time: plugged.start, what: plugWords(plugged) }));
  return [...legs, ...plugs].toSorted((a, b) => a.time - b.time);
}

const RULES: Rules<DriveOptions> = { surroundings: SURROUNDINGS, charge: SHARE, soaked: TEMPERATURE };
