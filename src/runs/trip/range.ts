/** A trip over and over until the pack is empty: how far, and what of. */
import { refuseUnknown } from '../options.ts';
import { refineTrip } from '../../cycles/densify.ts';
import type { Trip } from '../../cycles/trip.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { driveTrace, column } from '../schedule/series.ts';
import { disagreement, driveOpinion, FINEST, inOrder, travelWarnings } from './drive.ts';
import { noAnswer } from '../no-answer.ts';
import { rangeOutputs } from './range-outputs.ts';
import type { Result, Series } from '../result.ts';
import { sound } from '../sound.ts';
import { travelLedger } from '../schedule/ledger.ts';
import { energyFigures } from '../schedule/summary.ts';
import { createTraveller, travelOnce } from '../schedule/trip.ts';
import type { TravelRun } from '../schedule/trip.ts';

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

/** Drives a trip until the car can not go on. */
export function range(car: Car, trip: Trip, options: RangeOptions): Result {
  refuseUnknown(options, OPTIONS);
  const settings = rangeSettings(car, options);
  if (!(settings.charge > settings.empty)) {
    return noAnswer('range', rangeOutputs, 'the pack is empty at the start: nothing is left above window and reserve');
  }
  const run = travelOnce(car, refineTrip(trip, FINEST), { ...settings, record: 1_000_000 });
  if (!(run.distance > 0) || run.status === 'done') {
    return noAnswer('range', rangeOutputs, whyNone(run), run.status === 'failed' ? run.reason : undefined);
  }
  const ledger = travelLedger(run);
  const { values, reasons } = energyFigures(run, car, ledger);
  const unitAxle = car.drives[0]!.axle === 'front' ? 0 : 1;
  const trace = driveTrace(run.record!, unitAxle);
  const most = (key: string): number =>
    (trace[key]!.values as Float64Array).reduce((a, b) => Math.max(a, b), -Infinity);
  const last = (key: string): number => (trace[key]!.values as Float64Array).at(-1)!;
  const opinion = driveOpinion(run, car, trip, settings);
  const summary = {
    ...values,
    trip: trip.title,
    air_temperature: options.surroundings.temperature,
    range: run.distance,
    trips: run.distance / tripDistance(run),
    ended_by: run.status === 'empty' ? 'empty' : run.status === 'weak' ? 'pack too weak' : run.status,
    charge_start: run.charge,
    charge_end: last('charge_1'),
    usable_energy: ledger.in['out of the cells']!,
    pack_temperature: most('pack_temperature_K'),
    pack_temperature_end: last('pack_temperature_K'),
    unit_temperature: most('unit_temperature_K'),
    time_late: run.follower.inner.totals.late,
  };
  return sound({
    kind: 'range',
    summary: inOrder(summary, rangeOutputs),
    reasons,
    outputs: rangeOutputs,
    series: { distance: thinned(trace), ...seasons(car, trip, options) },
    bands: [],
    events: [{ time: run.duration, what: run.status === 'empty' ? 'the pack is empty' : `ends: ${run.status}` }],
    ledger,
    warnings: [...travelWarnings(run, ledger.gap), ...disagreement(opinion)],
    opinion,
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

/** m; null where the car does not get anywhere, or does not get empty. For curves and sweeps. */
export function createRanger(): (car: Car, trip: Trip, options: RangeOptions) => number | null {
  const travel = createTraveller();
  return (car, trip, options) => {
    const run = travel(car, trip, rangeSettings(car, options));
    return run.distance > 0 && (run.status === 'empty' || run.status === 'weak') ? run.distance : null;
  };
}

function whyNone(run: TravelRun): string {
  if (run.status === 'done') return 'the car does not get empty on this trip: it gives back as much as it takes';
  if (run.status === 'failed') return `the integration ended early: ${run.reason}`;
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

/** Every so many rows of a trace, without its limiters. */
export function thinned(trace: Series): Series {
  const rows = trace['time_s']!.values.length;
  const every = Math.max(1, Math.ceil(rows / ROWS));
  const keep = (values: Float64Array | readonly string[]): Float64Array | readonly string[] =>
    values instanceof Float64Array
      ? values.filter((_, i) => i % every === 0 || i === rows - 1)
      : values.filter((_, i) => i % every === 0 || i === rows - 1);
  return Object.fromEntries(
    Object.entries(trace)
      .filter(([key]) => key !== 'limiter')
      .map(([key, each]) => [key, { ...each, values: keep(each.values) }]),
  );
}

/** Range over the temperature of the air, the car soaked in it. */
function seasons(car: Car, trip: Trip, options: RangeOptions): { readonly temperature?: Series } {
  const { temperatures } = options;
  if (temperatures === undefined || temperatures.length === 0) return {};
  const far = createRanger();
  const fine = refineTrip(trip, FINEST);
  const found = temperatures.map(temperature => {
    const surroundings = { ...options.surroundings, temperature };
    const { soaked: _soaked, ...rest } = options;
    return far(car, fine, { ...rest, surroundings }) ?? Number.NaN;
  });
  return {
    temperature: {
      temperature_K: column('temperature', 'K', 'degC', 'degF', Float64Array.from(temperatures)),
      range_m: column('range', 'm', 'km', 'mile', Float64Array.from(found)),
    },
  };
}

const OPTIONS = { surroundings: true, charge: true, reserve: true, soaked: true, temperatures: true } as const;
