/** A trip from schedules and stops. */
import type { Schedule } from './schedule.ts';
import type { Leg, Stop, Trip } from './trip.ts';

/**
 * Schedules and stops in the order of driving; a schedule by itself carries the load that the car says.
 * @throws RangeError without a schedule, and for a stop that is not 0 s or longer.
 */
export function tripThrough(title: string, parts: readonly (Schedule | Leg | Stop)[]): Trip {
  const row = parts.findIndex(part => 'kind' in part && part.kind === 'stop' && !(part.seconds >= 0));
  if (row >= 0) throw new RangeError(`parts[${row}].seconds: is no time; expected 0 s or more`);
  const legs = parts.map((part): Leg | Stop => ('kind' in part ? part : { kind: 'leg', schedule: part, load: null }));
  if (!legs.some(({ kind }) => kind === 'leg')) throw new RangeError('parts: have no schedule; expected one or more');
  return { title, parts: legs };
}
