/** A trip over and over until the pack is empty: how far, and what of. */
import { item, named, nth } from '../../columns.ts';
import { checkTrip } from '../../cycles/trip-through.ts';
import type { Trip } from '../../cycles/trip.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { column } from '../column.ts';
import { numbersOf } from '../schedule/series.ts';
import { inOrder, travelWarnings, unitAxleOf } from './drive.ts';
import { driveOpinion } from './travel-opinion.ts';
import { finer } from './finer.ts';
import { CURRENT_KEYS, currentFigures } from '../duty/currents.ts';
import { wants } from '../kind.ts';
import type { Effort, Wanted } from '../kind.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import { rangeOutputs } from './range-outputs.ts';
import type { Ledger, Result, SecondOpinion, Series } from '../result.ts';
import { checkOptions, SURROUNDINGS, TEMPERATURE } from '../options.ts';
import { each, type Rules, SHARE } from '../rules.ts';
import type { RangeSummary } from '../summaries/range.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { travelLedger } from '../schedule/ledger.ts';
import { energyFigures, wallFigures, warmthFigures } from '../schedule/summary.ts';
import { createTraveller, recordOf, travelOnce } from '../schedule/trip.ts';
import type { Traveller, TravelRun } from '../schedule/trip.ts';
import { unheated } from './unheated.ts';

export interface RangeOptions {
  readonly surroundings: Surroundings;
  /** State of charge at the start; the high end of the window where left out. */
  readonly charge?: number;
  /** Of the window of the pack, kept for the way home; default 0. */
  readonly reserve?: number;
  /** K of pack and drive units at the start; that of the air where left out. */
  readonly soaked?: number;
  /** K of the air for which the range is told beside that of the day; ascending. */
  readonly temperatures?: readonly number[];
}

/** Rows of a depletion that are kept at most, in trips. */
const WHOLE = 1_000_000;

const RECORDED = ['pack_temperature', 'pack_temperature_end', 'unit_temperature'] as const;

/** What stands beside a range: a second method, figures of currents, torques and the wall, plugs at stops. A program that counts its bytes does without them. */
export interface RangeExtras {
  readonly createTraveller: () => Traveller;
  /** Null where there is none. */
  readonly opinion: (...of: Parameters<typeof driveOpinion>) => SecondOpinion | null;
  /** The figures that there are by it. */
  readonly wanted: Wanted;
  readonly currents: typeof currentFigures;
  readonly wall: typeof wallFigures;
}

const ALL: RangeExtras = {
  createTraveller,
  opinion: driveOpinion,
  wanted: undefined,
  currents: currentFigures,
  wall: wallFigures,
};

/** A range, and the run behind it. */
interface Ranged extends Figures {
  readonly run: TravelRun;
  readonly ledger: Ledger;
}

/** The figures that are wanted of a depletion, and those that come with them for nothing; or why there is none. */
export function rangeFigures(
  car: Car,
  trip: Trip,
  options: RangeOptions,
  wanted?: Wanted,
  travel: Traveller = travelOnce,
): Ranged | None {
  return depleted(ALL, car, trip, options, wanted, travel);
}

function depleted(
  extras: RangeExtras,
  car: Car,
  trip: Trip,
  options: RangeOptions,
  wanted?: Wanted,
  travel: Traveller = extras.createTraveller(),
): Ranged | None {
  const settings = rangeSettings(car, options);
  if (!(settings.charge > settings.empty)) {
    return { none: 'the pack is empty at the start: nothing is left above window and reserve' };
  }
  const recorded = wants(wanted, RECORDED);
  const run = travel(car, finer(trip), {
    ...settings,
    ...(recorded && { record: WHOLE }),
    trail: wants(wanted, CURRENT_KEYS),
  });
  if (!endsARange(run)) {
    return { none: whyNone(run), ...(run.status === 'failed' && { ended: run.reason }) };
  }
  const ledger = travelLedger(run);
  const [energies, wall] = [energyFigures(run, car, ledger), extras.wall(run, car, wanted)];
  const warmth = recorded ? warmthFigures(run, unitAxleOf(car)) : {};
  const summary = {
    ...energies.values,
    ...wall.values,
    trip: trip.title,
    air_temperature: options.surroundings.temperature,
    range: run.distance,
    trips: run.distance / tripDistance(run),
    ended_by: run.status === 'empty' ? 'empty' : 'pack too weak',
    charge_start: run.charge,
    charge_end: run.legs.at(-1)?.charge ?? run.charge,
    usable_energy: ledger.in['out of the cells'],
    ...(run.trail !== null && extras.currents(run.trail, rangeOutputs, wanted)),
    ...warmth,
    time_too_slow: run.follower.inner.totals.late,
  };
  return {
    run,
    ledger,
    summary: inOrder(summary, rangeOutputs, wanted),
    reasons: { ...energies.reasons, ...wall.reasons },
  };
}

/**
 * Drives a trip until the car can not go on.
 * @throws SpecError for a car or options that can not be, ScheduleError for a trip that nobody can drive.
 */
export function range(car: Car, trip: Trip, options: RangeOptions, effort: Effort = 'whole'): Result<RangeSummary> {
  return rangeWith(ALL, car, trip, options, effort);
}

/** A range with what is put beside it. */
export function rangeWith(
  extras: RangeExtras,
  car: Car,
  trip: Trip,
  options: RangeOptions,
  effort: Effort,
): Result<RangeSummary> {
  checkRange(car, trip, options);
  const ranged = depleted(extras, car, trip, options, extras.wanted);
  if ('none' in ranged) return noAnswer('range', rangeOutputs, ranged.none, ranged.ended);
  const { run, ledger, summary, reasons } = ranged;
  const whole = effort === 'whole';
  const opinion = whole ? extras.opinion(run, car, trip, rangeSettings(car, options)) : null;
  return sound({
    kind: 'range',
    summary,
    reasons,
    outputs: rangeOutputs,
    series: {
      distance: thinned(numbersOf(recordOf(run), unitAxleOf(car))),
      ...(whole && seasons(extras, car, trip, options)),
    },
    bands: [],
    events: [
      { time: run.duration, what: run.status === 'empty' ? 'the pack is empty' : 'the pack is too weak to go on' },
    ],
    ledger,
    warnings: [...unheated(car, options.surroundings), ...travelWarnings(run, ledger.gap)],
    opinion,
    ...(run.trail !== null && { trail: run.trail }),
    ...(run.status === 'failed' && { ended: run.reason }),
  });
}

/** The settings of a trip until empty. */
export function rangeSettings(
  car: Car,
  { surroundings, charge, reserve = 0, soaked }: RangeOptions,
): {
  readonly surroundings: Surroundings;
  readonly charge: number;
  readonly empty: number;
  readonly soaked: number;
  readonly untilEmpty: true;
} {
  const { low, high } = car.pack.window;
  return {
    surroundings,
    charge: charge ?? high,
    empty: low + reserve * (high - low),
    soaked: soaked ?? surroundings.temperature,
    untilEmpty: true,
  };
}

/** Whether the end of a trip is one of a range: the pack is empty, or too weak to move the car. */
export function endsARange({ status, distance }: TravelRun): boolean {
  return distance > 0 && (status === 'empty' || status === 'weak');
}

/** Why a trip driven until the pack is empty is no range. */
export function whyNone(run: TravelRun): string {
  if (run.status === 'done' && run.reason !== '') return run.reason;
  if (run.status === 'done') {
    const back = run.plugs.length > 0 ? 'its plugs give' : 'it gives';
    return `the car does not get empty on this trip: ${back} back as much as it takes`;
  }
  if (run.status === 'failed') return `the integration ended early: ${run.reason}`;
  if (run.status === 'weak' && run.reason !== '') return run.reason;
  if (run.distance > 0) {
    const km = (run.distance / 1000).toFixed(1);
    return `the car can not drive this trip: after ${km} km it comes to rest, and at full pedal it does not gain speed`;
  }
  return 'the car can not begin: at full pedal it does not gain speed';
}

/** m of the first whole trip, or of all that was driven. */
function tripDistance(run: TravelRun): number {
  if (run.trips < 1) return run.distance;
  const perTrip = Math.floor((run.legs.length - 1) / run.trips);
  return run.legs.slice(0, Math.max(1, perTrip)).reduce((sum, leg) => sum + leg.distance, 0);
}

/** Rows that a picture of a whole depletion needs at most. */
const ROWS = 1500;

/** Every so many rows of a trace, and the last. */
export function thinned(trace: Series): Series {
  const rows = named(trace, 'time_s').values.length;
  const every = Math.max(1, Math.ceil(rows / ROWS));
  const places = Array.from({ length: Math.ceil(rows / every) }, (_, k) => k * every);
  if (rows > 0 && (rows - 1) % every !== 0) places.push(rows - 1);
  const keep = (values: Float64Array | readonly string[]): Float64Array | readonly string[] =>
    values instanceof Float64Array
      ? Float64Array.from(places, place => nth(values, place))
      : places.map(place => item(values, place));
  return Object.fromEntries(Object.entries(trace).map(([key, each]) => [key, { ...each, values: keep(each.values) }]));
}

/** Range over the temperature of the air, the car soaked in it. */
function seasons(extras: RangeExtras, car: Car, trip: Trip, options: RangeOptions): { readonly temperature?: Series } {
  const { temperatures } = options;
  if (temperatures === undefined || temperatures.length === 0) return {};
  const travel = extras.createTraveller();
  const found = temperatures.map(temperature => {
    const surroundings = { ...options.surroundings, temperature };
    const { soaked: _soaked, ...rest } = options;
    const ranged = depleted(extras, car, trip, { ...rest, surroundings }, ['range'], travel);
    return 'none' in ranged ? Number.NaN : Number(ranged.summary['range']);
  });
  return {
    temperature: {
      temperature_K: column('temperature', 'K', 'degC', 'degF', Float64Array.from(temperatures)),
      range_m: column('range', 'm', 'km', 'mile', Float64Array.from(found)),
    },
  };
}

const RULES: Rules<RangeOptions> = {
  surroundings: SURROUNDINGS,
  charge: SHARE,
  reserve: SHARE,
  soaked: TEMPERATURE,
  temperatures: each(TEMPERATURE),
};

/** @throws SpecError, and ScheduleError for a trip that nobody can drive. */
export function checkRange(car: Car, trip: Trip, options: RangeOptions): void {
  checkOptions(car, options, RULES, ['surroundings']);
  checkTrip(trip);
}
