/** A trip from schedules and stops. */
import { ScheduleError } from './schedule-error.ts';
import { checkColumns } from './schedule-of.ts';
import type { Schedule } from './schedule.ts';
import type { Leg, Stop, Trip } from './trip.ts';

/**
 * Schedules and stops in the order of driving; a schedule by itself carries the load that the car says.
 * @throws ScheduleError without a schedule, for a stop that is not 0 s or longer, a load below 0, a plug that can not be, and for a schedule that nobody
 * can drive.
 */
export function tripThrough(title: string, parts: readonly (Schedule | Leg | Stop)[]): Trip {
  if (typeof title !== 'string') throw new ScheduleError('title', 'is no text; expected what the trip is called');
  if (!Array.isArray(parts))
    throw new ScheduleError('parts', 'are no list; expected schedules and stops in the order of driving, in a list');
  for (const [place, part] of parts.entries()) refuseStrange(part, `parts[${place}]`);
  const legs = parts.map((part): Leg | Stop => ('kind' in part ? part : { kind: 'leg', schedule: part, load: null }));
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
 * @throws ScheduleError for what is no trip, a time that does not go on, a speed or a load below 0, a plug that can not be, a number that is none.
 */
export function checkTrip(trip: Trip | null | undefined): void {
  if (!Array.isArray(trip?.parts)) throw new ScheduleError('trip', 'has no parts; expected what tripThrough gives');
  if (!trip.parts.some(part => part?.kind === 'leg'))
    throw new ScheduleError('parts', 'have no schedule; expected one or more');
  for (const [place, part] of trip.parts.entries()) {
    refuseStrange(part, `parts[${place}]`);
    if (part.kind === 'stop') {
      checkStop(part, `parts[${place}]`);
      continue;
    }
    const { load } = part;
    if (load !== null && !(typeof load === 'number' && load >= 0 && load < Infinity))
      throw new ScheduleError(`parts[${place}].load`, `is ${String(load)}; expected kg, 0 or more, or null`);
    const { time, speed, slope } = part.schedule;
    // The steps of a measured road may be steeper than any road.
    checkColumns(time, speed, slope, `parts[${place}].`, Number.MAX_VALUE);
  }
}

function checkStop({ seconds, plug }: Stop, path: string): void {
  const refuse = (place: string, value: unknown, expected: string): never => {
    throw new ScheduleError(`${path}.${place}`, `is ${String(value)}; expected ${expected}`);
  };
  const isNumber = (value: unknown): value is number => typeof value === 'number' && value >= 0;
  if (!(isNumber(seconds) && seconds < Infinity)) refuse('seconds', seconds, '0 s or more');
  if (plug === undefined) return;
  if (typeof plug !== 'object' || plug === null) return refuse('plug', plug, 'a supply, `to` and `waits`');
  const { supply, to, waits } = plug;
  if (typeof supply !== 'object' || supply === null)
    return refuse('plug.supply', supply, 'voltage, current and phases');
  for (const key of ['voltage', 'current'] as const)
    if (!isNumber(supply[key])) refuse(`plug.supply.${key}`, supply[key], 'a number, 0 or more');
  if (![1, 2, 3].includes(supply.phases)) refuse('plug.supply.phases', supply.phases, '1, 2 or 3');
  for (const key of supply.station === undefined ? [] : (['power', 'current', 'least', 'greatest'] as const))
    if (!isNumber(supply.station?.[key]))
      refuse(`plug.supply.station.${key}`, supply.station?.[key], 'a number, 0 or more');
  if (to !== null && !(isNumber(to) && to <= 1)) refuse('plug.to', to, '0 to 1, or null');
  if (typeof waits !== 'boolean') refuse('plug.waits', waits, 'true or false');
}
