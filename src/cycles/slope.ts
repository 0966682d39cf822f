/** Schedules on roads that rise and fall. */
import { lastOf, nth } from '../columns.ts';
import type { Schedule } from './schedule.ts';
import { distanceOf } from './statistics.ts';

/** The height of a road over the way along it. */
export interface Profile {
  /** m along the road, from 0, each more than the one before; two or more. */
  readonly distance: ArrayLike<number>;
  /** m there. */
  readonly altitude: ArrayLike<number>;
}

/** The schedule on a road of one slope. @param slope rise over run, down is negative. */
export function withSlope(schedule: Schedule, slope: number): Schedule {
  if (!Number.isFinite(slope)) throw new RangeError(`${slope} is no slope`);
  return { ...schedule, slope: slope === 0 ? null : new Float64Array(schedule.time.length - 1).fill(slope) };
}

/** Share of the way that the profile may fall short by: rounding. */
const ROUNDING = 1e-9;

/**
 * The schedule on a road with this profile, straight between its points. A point of time is added wherever the road bends, so
 * that the slope is constant between two points; speeds and distances stay what they are. Takes the place of any slope.
 * @throws RangeError for a profile that is no profile, is steeper than its way, or ends before the schedule does.
 */
export function withProfile(schedule: Schedule, profile: Profile): Schedule {
  const slopes = slopesOf(profile);
  const { distance } = profile;
  const end = nth(distance, distance.length - 1);
  const whole = distanceOf(schedule);
  if (whole > end * (1 + ROUNDING)) {
    throw new RangeError(`the road is ${end} m long, "${schedule.title}" takes ${whole} m of it`);
  }
  const time: number[] = [0];
  const speed: number[] = [nth(schedule.speed, 0)];
  const slope: number[] = [];
  let [piece, here] = [0, 0];
  for (let i = 1; i < schedule.time.length; i++) {
    const [t0, v0, v1] = [nth(schedule.time, i - 1), nth(schedule.speed, i - 1), nth(schedule.speed, i)];
    const dt = nth(schedule.time, i) - t0;
    const there = here + ((v0 + v1) / 2) * dt;
    while (piece < slopes.length - 1 && nth(distance, piece + 1) < there) {
      const passed = timeOver(nth(distance, piece + 1) - here, v0, v1, dt);
      // A bend at the start of the interval needs no second point there.
      if (t0 + passed > lastOf(time) && t0 + passed < nth(schedule.time, i)) {
        time.push(t0 + passed);
        speed.push(v0 + ((v1 - v0) * passed) / dt);
        slope.push(nth(slopes, piece));
      }
      piece++;
    }
    time.push(nth(schedule.time, i));
    speed.push(v1);
    slope.push(nth(slopes, piece));
    here = there;
  }
  return {
    ...schedule,
    time: Float64Array.from(time),
    speed: Float64Array.from(speed),
    slope: Float64Array.from(slope),
  };
}

/** s until so many metres of an interval are driven: the root of v0 t + a t2/2 = s in the form that does not cancel. */
function timeOver(metres: number, v0: number, v1: number, dt: number): number {
  const a = (v1 - v0) / dt;
  return (2 * metres) / (v0 + Math.sqrt(Math.max(0, v0 * v0 + 2 * a * metres)));
}

/** Rise over run of every piece of the profile; its distances are along the road. */
function slopesOf({ distance, altitude }: Profile): readonly number[] {
  if (distance.length < 2 || distance.length !== altitude.length || distance[0] !== 0) {
    throw new RangeError('a profile has two points or more, as many altitudes as distances, and starts at 0 m');
  }
  return Array.from({ length: distance.length - 1 }, (_, k) => {
    const [way, rise] = [nth(distance, k + 1) - nth(distance, k), nth(altitude, k + 1) - nth(altitude, k)];
    if (!(way > 0)) throw new RangeError(`the profile goes back at ${distance[k]} m`);
    if (!(Math.abs(rise) < way)) throw new RangeError(`the road rises by ${rise} m over ${way} m at ${distance[k]} m`);
    return rise / Math.sqrt(way * way - rise * rise);
  });
}
