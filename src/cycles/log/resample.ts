/** Speeds on a grid of times that keep the way that was driven. */
import { lastOf, nth } from '../../columns.ts';

/** s between points after resampling. */
const STEP = 1;
/** s between two rows below which a log is resampled, as noise would become acceleration; 2 Hz stays, its clock rounded. */
const FINE = 0.45;

/** Way over time: the speed of a log adds up to it, or positions do. */
export interface Way {
  /** s. */
  readonly time: Float64Array;
  /** m from the first of these times. */
  readonly metres: Float64Array;
  /** m/s at these times where they were measured; null where the way is straight between its points. */
  readonly speed: Float64Array | null;
}

/** The way that a speed adds up to. */
export function wayOf(time: Float64Array, speed: Float64Array): Way {
  const metres = new Float64Array(time.length);
  for (let i = 1; i < time.length; i++) {
    metres[i] = nth(metres, i - 1) + ((nth(speed, i - 1) + nth(speed, i)) / 2) * (nth(time, i) - nth(time, i - 1));
  }
  return { time, metres, speed };
}

/** Whether the rows lie so close that they are resampled. */
export function isFine(time: Float64Array): boolean {
  return time.some((t, i) => i > 0 && t - nth(time, i - 1) < FINE);
}

/** From the first to the last time in steps of 1 s; the last step is 0.5 to 1.5 s long. */
export function everyStep(time: Float64Array): Float64Array {
  const [from, to] = [nth(time, 0), lastOf(time)];
  const steps = Math.max(1, Math.round((to - from) / STEP));
  const grid = Float64Array.from({ length: steps + 1 }, (_, k) => from + k * STEP);
  grid[steps] = to;
  return grid;
}

/**
 * Speeds at the times of a grid: the mean over the half steps on both sides. The trapezoids under them add up to the very way
 * they came from, for the weight of a point in that sum is the time its mean is taken over; nothing negative arises.
 */
export function meanSpeeds(way: Way, grid: Float64Array): Float64Array {
  const speed = new Float64Array(grid.length);
  let [left, at, piece] = [nth(grid, 0), 0, 1];
  for (let k = 0; k < grid.length; k++) {
    const right = k + 1 < grid.length ? (nth(grid, k) + nth(grid, k + 1)) / 2 : nth(grid, k);
    while (piece < way.time.length - 1 && nth(way.time, piece) < right) piece++;
    const there = metresAt(way, piece, right);
    speed[k] = Math.max(0, (there - at) / (right - left));
    left = right;
    at = there;
  }
  return speed;
}

/** m at a time between points `piece` - 1 and `piece`. */
function metresAt({ time, metres, speed }: Way, piece: number, at: number): number {
  const [t0, t1] = [nth(time, piece - 1), nth(time, piece)];
  if (at >= t1) return nth(metres, piece);
  const part = (at - t0) / (t1 - t0);
  if (speed === null) return nth(metres, piece - 1) + (nth(metres, piece) - nth(metres, piece - 1)) * part;
  const [v0, v1] = [nth(speed, piece - 1), nth(speed, piece)];
  return nth(metres, piece - 1) + (v0 + ((v1 - v0) * part) / 2) * (at - t0);
}
