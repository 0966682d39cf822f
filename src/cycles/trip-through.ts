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
  const row = parts.findIndex(part => 'kind' in part && part.kind === 'stop' && !(part.seconds >= 0));
  if (row >= 0) throw new ScheduleError(`parts[${row}].seconds`, 'is no time; expected 0 s or more');
  const legs = parts.map((part): Leg | Stop => ('kind' in part ? part : { kind: 'leg', schedule: part, load: null }));
  if (!legs.some(({ kind }) => kind === 'leg'))
    throw new ScheduleError('parts', 'have no schedule; expected one or more');
  const trip = { title, parts: legs };
  checkTrip(trip);
  return trip;
}

/**
 * Whether a trip can be driven: one that came as data may be anything.
 * @throws ScheduleError for a time that does not go on, a speed below 0, a number that is none.
 */
export function checkTrip({ parts }: Trip): void {
  for (const [place, part] of parts.entries()) {
    if (part.kind !== 'leg') continue;
    const { time, speed, slope } = part.schedule;
    // The steps of a measured road may be steeper than any road.
    checkColumns(time, speed, slope, `parts[${place}].`, Number.MAX_VALUE);
  }
}
