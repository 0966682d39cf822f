/** Schedules of one speed, and the straight ramps that lead from one speed to another. */
import { lastOf, nth } from '../columns.ts';
import { join, type Piece } from './join.ts';
import { ScheduleError } from './schedule-error.ts';
import type { Schedule } from './schedule.ts';

const OWN = 'a steady speed';

/** The acceleration that leads to and from steady speeds, m/s2: unhurried driving. Common practice, no source. */
export const UNHURRIED = 1;

/** One speed for so long. @param speed m/s, 0 or more. @param seconds above 0. @throws ScheduleError otherwise. */
export function steadySchedule(speed: number, seconds: number): Schedule {
  if (!(speed >= 0 && Number.isFinite(speed)))
    throw new ScheduleError('speed', `${String(speed)} m/s is no steady speed; expected 0 m/s or more`);
  if (!(seconds > 0 && Number.isFinite(seconds)))
    throw new ScheduleError('seconds', `${String(seconds)} s is no time to drive; expected more than 0 s`);
  const kmh = Number((speed * 3.6).toPrecision(6));
  return {
    title: `steady ${kmh} km/h`,
    source: OWN,
    time: Float64Array.of(0, seconds),
    speed: Float64Array.of(speed, speed),
    slope: null,
    phases: [],
  };
}

/** One speed for so far. @param speed m/s, above 0. @param metres above 0. @throws RangeError otherwise. */
export function steadyOver(speed: number, metres: number): Schedule {
  if (!(speed > 0)) throw new RangeError(`${speed} m/s leads nowhere`);
  return steadySchedule(speed, metres / speed);
}

/** From one speed straight to another, at `acceleration` in m/s2 up or down. @throws RangeError where the two are equal. */
export function rampTo(from: number, to: number, acceleration: number = UNHURRIED): Schedule {
  const seconds = Math.abs(to - from) / acceleration;
  return { ...steadySchedule(from, seconds), title: 'ramp', speed: Float64Array.of(from, to) };
}

/** What a steady stretch is between. All speeds in m/s. */
export interface Between {
  readonly from: number;
  readonly to: number;
  /** m/s2, default `UNHURRIED`. */
  readonly acceleration?: number;
}

/**
 * A steady schedule whose way or time includes the ramps at its two ends: its distance (`keep: 'distance'`) or its duration is
 * what it was. A piece whose speeds meet as they are is given back unchanged.
 * @throws RangeError where the ramps alone are longer than the whole.
 */
export function withRamps(steady: Schedule, keep: 'distance' | 'time', { from, to, acceleration }: Between): Schedule {
  const speed = nth(steady.speed, 0);
  const up = from === speed ? null : rampTo(from, speed, acceleration);
  const down = to === speed ? null : rampTo(speed, to, acceleration);
  if (up === null && down === null) return steady;
  const seconds = lastOf(steady.time);
  const spent = [up, down].reduce((sum, ramp) => {
    if (ramp === null) return sum;
    const duration = lastOf(ramp.time);
    return sum + (keep === 'time' ? duration : (duration * (nth(ramp.speed, 0) + lastOf(ramp.speed))) / (2 * speed));
  }, 0);
  const held = seconds - spent;
  if (!(held >= 0)) {
    throw new RangeError(
      `${steady.title} for ${Math.round(seconds)} s is too short to get to that speed and away from it`,
    );
  }
  const pieces: Piece[] = [];
  if (up !== null) pieces.push({ name: '', schedule: up });
  if (held > 0) pieces.push({ name: '', schedule: steadySchedule(speed, held) });
  if (down !== null) pieces.push({ name: '', schedule: down });
  return join(steady.title, steady.source, pieces);
}
