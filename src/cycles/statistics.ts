/** What a schedule asks for, in figures. */
import * as elementary from '../elementary.ts';
import { lastOf, nth } from '../columns.ts';
import type { Schedule } from './schedule.ts';

export interface Statistics {
  /** m, driven. */
  readonly distance: number;
  /** s. */
  readonly duration: number;
  /** m/s over the whole duration. */
  readonly meanSpeed: number;
  /** m/s over the time that is not stood; null for a schedule that never moves. */
  readonly movingSpeed: number | null;
  /** m/s. */
  readonly maxSpeed: number;
  /** Share of the points at which the speed is 0, as the regulations count on their 1 s grid. */
  readonly stopShareOfPoints: number;
  /** Share of the time in intervals that start and end at 0. */
  readonly stopShareOfTime: number;
  /** Times that the speed falls to 0. */
  readonly stops: number;
  /**
   * m/s2: the sum of all rises of v^2 over the distance (positive kinetic energy; Milkins & Watson 1983, from memory). Half of it is
   * J per kg and m. Null for a schedule that never moves.
   */
  readonly positiveKineticEnergy: number | null;
  /** m/s2 over one interval, 0 or more. */
  readonly maxAcceleration: number;
  /** m/s2 over one interval, 0 or more. */
  readonly maxDeceleration: number;
  /** m of all rises together. */
  readonly climb: number;
  /** m of all falls together. */
  readonly descent: number;
}

export function statistics(schedule: Schedule): Statistics {
  const { time, speed, slope } = schedule;
  const duration = lastOf(time);
  let [distance, standing, rises, climb, descent] = [0, 0, 0, 0, 0];
  let [stops, zeros] = [0, speed[0] === 0 ? 1 : 0];
  let [maxAcceleration, maxDeceleration] = [0, 0];
  for (let i = 1; i < time.length; i++) {
    const [v0, v1, dt] = [nth(speed, i - 1), nth(speed, i), nth(time, i) - nth(time, i - 1)];
    const metres = ((v0 + v1) / 2) * dt;
    distance += metres;
    if (v1 === 0) zeros++;
    if (v0 === 0 && v1 === 0) standing += dt;
    if (v0 > 0 && v1 === 0) stops++;
    rises += Math.max(0, v1 * v1 - v0 * v0);
    maxAcceleration = Math.max(maxAcceleration, (v1 - v0) / dt);
    maxDeceleration = Math.max(maxDeceleration, (v0 - v1) / dt);
    const rise = metres * sine(slope?.[i - 1] ?? 0);
    climb += Math.max(0, rise);
    descent += Math.max(0, -rise);
  }
  return {
    distance,
    duration,
    meanSpeed: distance / duration,
    movingSpeed: distance > 0 ? distance / (duration - standing) : null,
    maxSpeed: speed.reduce((most, v) => Math.max(most, v), 0),
    stopShareOfPoints: zeros / time.length,
    stopShareOfTime: standing / duration,
    stops,
    positiveKineticEnergy: distance > 0 ? rises / distance : null,
    maxAcceleration,
    maxDeceleration,
    climb,
    descent,
  };
}

/** m driven over a schedule. */
export function distanceOf({ time, speed }: Schedule): number {
  let distance = 0;
  for (let i = 1; i < time.length; i++)
    distance += ((nth(speed, i - 1) + nth(speed, i)) / 2) * (nth(time, i) - nth(time, i - 1));
  return distance;
}

/** Rise over way driven, from rise over run. */
function sine(slope: number): number {
  return slope / elementary.hypot(1, slope);
}
