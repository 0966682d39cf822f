/** Schedules and trips to test with. */
import type { Schedule } from '../src/cycles/schedule.ts';
import { scheduleNamed } from '../src/cycles/schedules.ts';
import type { ScheduleName } from '../src/cycles/schedules.ts';
import type { Leg, Stop, Trip } from '../src/cycles/trip.ts';
import { R } from '../src/runs/schedule/record.ts';
import { pointsAhead } from '../src/runs/schedule/rests.ts';
import type { TravelRun } from '../src/runs/schedule/trip.ts';

/** Straight from point to point: s and m/s. */
export function profile(
  points: readonly (readonly [number, number])[],
  slope: readonly number[] | null = null,
): Schedule {
  return {
    title: 'profile',
    source: 'made up',
    time: Float64Array.from(points, ([time]) => time),
    speed: Float64Array.from(points, ([, speed]) => speed),
    slope: slope === null ? null : Float64Array.from(slope),
    phases: [],
  };
}

/** The speeds of a function at every second from 0 to `end`. */
export function sampled(end: number, speed: (t: number) => number): Schedule {
  return profile(Array.from({ length: end + 1 }, (_, t) => [t, speed(t)] as const));
}

/** The first so many seconds of a schedule that ships. */
export function beginning(name: ScheduleName, seconds: number): Schedule {
  const { title, source, time, speed } = scheduleNamed(name);
  const n = time.findIndex(t => t > seconds);
  const end = n < 0 ? time.length : n;
  return { title, source, time: time.slice(0, end), speed: speed.slice(0, end), slope: null, phases: [] };
}

/** A schedule on a road that goes up and down. @param steepest rise over run. */
export function hilly(schedule: Schedule, steepest: number): Schedule {
  const slope = Float64Array.from({ length: schedule.time.length - 1 }, (_, i) => steepest * Math.sin(i / 40));
  return { ...schedule, slope };
}

export function leg(schedule: Schedule, load: number | null = null): Leg {
  return { kind: 'leg', schedule, load };
}

export function stop(seconds: number): Stop {
  return { kind: 'stop', seconds };
}

export function trip(...parts: (Schedule | Leg | Stop)[]): Trip {
  return { title: 'trip', parts: parts.map(part => ('kind' in part ? part : leg(part))) };
}

/** Points of a schedule that a car comes to that follows it: those within a rest may be left out. */
export function pointsDriven(schedule: Schedule): number {
  const ahead = pointsAhead(schedule);
  let points = 1;
  for (let i = 0; i < ahead.length; i = ahead[i]!) points++;
  return points;
}

/** J out of the terminals between the points of the schedule of a run of one leg that was recorded. */
export function energiesBetween(run: TravelRun): readonly number[] {
  const energy = run.record!.column(R.energy);
  return Array.from(energy.subarray(1), (each, i) => each - energy[i]!);
}
