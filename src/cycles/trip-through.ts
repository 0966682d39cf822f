/** A trip from schedules and stops. */
import { ScheduleError } from './schedule-error.ts';
import { checkColumns } from './schedule-of.ts';
import type { Schedule } from './schedule.ts';
import type { Leg, Stop, Trip } from './trip.ts';

/**
 * Schedules and stops in the order of driving; a schedule by itself carries the load that the car says.
 * @throws ScheduleError without a schedule, for a stop that is not 0 s or longer, and for a schedule that nobody can drive.
 */
export function tripThrough(title: string, parts: readonly (Schedule | Leg | Stop)[]): Trip {
  if (!Array.isArray(parts))
    throw new ScheduleError('parts', 'are no list; expected schedules and stops in the order of driving, in a list');
  for (const [place, part] of parts.entries()) refuseStrange(part, `parts[${place}]`);
  const row = parts.findIndex(part => 'kind' in part && part.kind === 'stop' && !(part.seconds >= 0));
  if (row >= 0) throw new ScheduleError(`parts[${row}].seconds`, 'is no time; expected 0 s or more');
  const legs = parts.map((part): Leg | Stop => ('kind' in part ? part : { kind: 'leg', schedule: part, load: null }));
  if (!legs.some(({ kind }) => kind === 'leg'))
    throw new ScheduleError('parts', 'have no schedule; expected one or more');
  const trip = { title, parts: legs };
  checkTrip(trip);
  return trip;
}

/** @throws ScheduleError for what is neither a schedule nor a leg nor a stop. */
function refuseStrange(part: unknown, path: string): void {
  if (typeof part !== 'object' || part === null)
    throw new ScheduleError(path, `is ${part === null ? 'null' : typeof part}; expected a schedule, a leg or a stop`);
  if ('kind' in part && part.kind !== 'leg' && part.kind !== 'stop')
    throw new ScheduleError(`${path}.kind`, `is ${String(part.kind)}; expected leg or stop`);
  const schedule: unknown = 'kind' in part ? ('schedule' in part ? part.schedule : part.kind === 'stop') : part;
  if (schedule === true) return;
  const columns = typeof schedule === 'object' && schedule !== null && 'time' in schedule && 'speed' in schedule;
  if (!columns) throw new ScheduleError(path, 'is no schedule; expected time and speed, as scheduleOf gives them');
}

/**
 * Whether a trip can be driven: one that came as data may be anything.
 * @throws ScheduleError for what is no trip, a time that does not go on, a speed below 0, a number that is none.
 */
export function checkTrip(trip: Trip | null | undefined): void {
  if (!Array.isArray(trip?.parts)) throw new ScheduleError('trip', 'has no parts; expected what tripThrough gives');
  for (const [place, part] of trip.parts.entries()) {
    if (part.kind !== 'leg') continue;
    const { time, speed, slope } = part.schedule;
    // The steps of a measured road may be steeper than any road.
    checkColumns(time, speed, slope, `parts[${place}].`, Number.MAX_VALUE);
  }
}
