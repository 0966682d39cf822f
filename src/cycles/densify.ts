/** Schedules with more points on the same lines, so that what happens between far points is seen. */
import { nth } from '../columns.ts';
import type { Schedule } from './schedule.ts';
import type { Trip } from './trip.ts';

/** The same speeds and slopes with no two points further apart than so many seconds; the schedule itself where none are. */
export function refine(schedule: Schedule, seconds: number): Schedule {
  const { time, speed, slope } = schedule;
  if (time.every((t, i) => i === 0 || t - nth(time, i - 1) <= seconds)) return schedule;
  const finer = { time: [nth(time, 0)], speed: [nth(speed, 0)], slope: [] as number[] };
  for (let i = 1; i < time.length; i++) {
    const [t0, t1, v0, v1] = [nth(time, i - 1), nth(time, i), nth(speed, i - 1), nth(speed, i)];
    const pieces = Math.max(1, Math.ceil((t1 - t0) / seconds - 1e-9));
    for (let k = 1; k <= pieces; k++) {
      finer.time.push(k === pieces ? t1 : t0 + ((t1 - t0) * k) / pieces);
      finer.speed.push(k === pieces ? v1 : v0 + ((v1 - v0) * k) / pieces);
      finer.slope.push(slope?.[i - 1] ?? 0);
    }
  }
  return {
    ...schedule,
    time: Float64Array.from(finer.time),
    speed: Float64Array.from(finer.speed),
    slope: slope === null ? null : Float64Array.from(finer.slope),
  };
}

/** Every leg of a trip; legs of one schedule keep sharing one. */
export function refineTrip(trip: Trip, seconds: number): Trip {
  const known = new Map<Schedule, Schedule>();
  const finer = (schedule: Schedule): Schedule => {
    const found = known.get(schedule) ?? refine(schedule, seconds);
    known.set(schedule, found);
    return found;
  };
  const parts = trip.parts.map(part => (part.kind === 'leg' ? { ...part, schedule: finer(part.schedule) } : part));
  return { ...trip, parts };
}
