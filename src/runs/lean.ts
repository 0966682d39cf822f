/**
 * Runs without what stands beside them, for programs that count their bytes, such as a page: no second method, no figures that need runs or sums of
 * their own, no plugs. What they tell is the same as of the whole run, to the last bit.
 */
import { checkTrip } from '../cycles/trip-through.ts';
import type { Trip } from '../cycles/trip.ts';
import type { Car } from '../model/car.ts';
import { SpecError } from '../model/fields/spec-error.ts';
import { CURRENT_KEYS } from './duty/currents.ts';
import { NONE } from './launch/extras.ts';
import { launchWith } from './launch/launch.ts';
import type { LaunchOptions } from './launch/run.ts';
import type { Result } from './result.ts';
import { travellerWith } from './schedule/trip.ts';
import { AT_THE_WALL } from './schedule/summary.ts';
import type { LaunchSummary } from './summaries/launch.ts';
import type { RangeSummary } from './summaries/range.ts';
import { rangeOutputs } from './trip/range-outputs.ts';
import { rangeWith } from './trip/range.ts';
import type { RangeExtras, RangeOptions } from './trip/range.ts';

/**
 * A launch by one method: without a second opinion, without what grip and traction control cost, and without the currents of the pack over
 * windows of time and the torque of half shafts.
 * @throws SpecError as `launch`.
 */
export function launch(car: Car, options: LaunchOptions): Result<Partial<LaunchSummary>> {
  return launchWith(NONE, car, options, 'whole');
}

/**
 * A range by one method: without a second opinion, and without what is drawn from the wall, the currents of the pack over windows of time and the torque of
 * half shafts.
 * @throws SpecError and ScheduleError as `range`, and SpecError for a trip with a plug.
 */
export function range(car: Car, trip: Trip, options: RangeOptions): Result<Partial<RangeSummary>> {
  checkTrip(trip);
  const at = trip.parts.findIndex(part => part.kind === 'stop' && part.plug !== undefined);
  if (at >= 0) {
    const path = `trip.parts[${at}].plug`;
    const cure = "a trip without plugs, or range of 'axlewatt'";
    throw new SpecError(path, `${path}: a lean range has no plugs; expected ${cure}`, cure, '', 'outside');
  }
  return rangeWith(LEAN, car, trip, options, 'whole');
}

/** Figures that are left out. */
const BESIDE = new Set<string>([...CURRENT_KEYS, ...AT_THE_WALL]);

const LEAN: RangeExtras = {
  wanted: Object.keys(rangeOutputs).filter(key => !BESIDE.has(key)),
  createTraveller: () =>
    travellerWith(() => {
      throw new Error('a lean range has no plugs');
    }),
  opinion: () => null,
  currents: () => ({}),
  wall: () => ({ values: {}, reasons: {} }),
};
