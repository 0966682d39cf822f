/** From the fixes of a satellite receiver to the way that was driven: jumps left out, noise averaged, stand-still kept still. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { LogError } from './error.ts';
import { metresBetween } from './position.ts';
import { counted, type Tally } from './repair.ts';
import { isFine, type Way } from './resample.ts';
import { smoothed } from './smooth.ts';

/** Positions in degrees over time in s. */
export interface Fixes {
  readonly time: Float64Array;
  readonly latitude: Float64Array;
  readonly longitude: Float64Array;
  readonly line: Uint32Array;
}

/** m/s2 that a road car can do in any direction, about g. Common practice, no source. */
export const HARDEST = 10;
/** m/s above which no log is believed. */
export const FASTEST = 90;
/** Share of the rows that may jump; with more it is no log of a car, or the unit is wrong. Common practice, no source. */
export const MOST_JUMPS = 0.2;
/** m that a fix may be off. Common practice, no source. */
const NOISE = 10;
/** A car that stays within so many m of itself for so many s before and after stands: creeping below 2 km/h is not told from it. */
const WITHIN = 3;
const AROUND = 5;
/** m of noise above which a sentence is said. */
const TOLD = 0.05;

/** m between two fixes. */
export function metresOf({ latitude, longitude }: Fixes, from: number, to: number): number {
  return elementary.hypot(
    ...metresBetween(nth(latitude, from), nth(longitude, from), nth(latitude, to), nth(longitude, to)),
  );
}

/** m along all fixes as they are. */
export function wayAsRead(fixes: Fixes): number {
  let metres = 0;
  for (let i = 1; i < fixes.time.length; i++) metres += metresOf(fixes, i - 1, i);
  return metres;
}

/** The way along the fixes after all repairs. @throws LogError for fixes that jump all the time. */
export function wayOfFixes(fixes: Fixes, tally: Tally): Way {
  const believed = pick(fixes, withoutJumps(fixes, tally));
  const calm = isFine(believed.time) ? bySeconds(believed) : believed;
  const plane = withoutNoise(calm, tally);
  const steps = new Float64Array(calm.time.length);
  for (let i = 1; i < steps.length; i++) steps[i] = apart(plane, i - 1, i);
  keepStill(plane, steps, tally);
  let metres = 0;
  return { time: calm.time, metres: steps.map(step => (metres += step)), speed: null };
}

/**
 * The fixes that a car can have come to from the one before: within the circle around where it would be at its last speed
 * that an acceleration of `HARDEST` in any direction fills, and the noise of a fix.
 */
function withoutJumps(fixes: Fixes, tally: Tally): readonly number[] {
  const { time, latitude, longitude, line } = fixes;
  const reach = (from: number, to: number): number => FASTEST * (nth(time, to) - nth(time, from)) + NOISE;
  let first = 0;
  while (first + 2 < time.length && metresOf(fixes, first, first + 1) > reach(first, first + 1)) first++;
  const kept = [first];
  let last = first;
  let velocity: readonly [number, number] | null = null;
  const left = (i: number): void =>
    tally.note('outlier', nth(line, i), n => `${counted(n, 'position')} left out that no car can have jumped to`);
  for (let i = 0; i < first; i++) left(i);
  for (let i = first + 1; i < time.length; i++) {
    const dt = nth(time, i) - nth(time, last);
    const [east, north] = metresBetween(nth(latitude, last), nth(longitude, last), nth(latitude, i), nth(longitude, i));
    const off = velocity === null ? 0 : elementary.hypot(east - velocity[0] * dt, north - velocity[1] * dt);
    if (elementary.hypot(east, north) > reach(last, i) || off > (HARDEST * dt * dt) / 2 + NOISE) {
      left(i);
      continue;
    }
    velocity = [east / dt, north / dt];
    kept.push(i);
    last = i;
  }
  const jumps = time.length - kept.length;
  if (jumps > MOST_JUMPS * time.length + 1) {
    const place = { line: nth(line, 0), column: 1, length: 1, source: '' };
    const message = `the position jumps as no car can in ${jumps} of ${time.length} rows`;
    throw new LogError(place, 'latitude', message, 'the positions of a car; is the unit of time right?');
  }
  return kept;
}

function pick({ time, latitude, longitude, line }: Fixes, kept: readonly number[]): Fixes {
  return {
    time: Float64Array.from(kept, i => nth(time, i)),
    latitude: Float64Array.from(kept, i => nth(latitude, i)),
    longitude: Float64Array.from(kept, i => nth(longitude, i)),
    line: Uint32Array.from(kept, i => nth(line, i)),
  };
}

/** Mean positions of the seconds; the first and the last fix stay, so that the way keeps its ends. */
function bySeconds({ time, latitude, longitude, line }: Fixes): Fixes {
  const [start, end] = [nth(time, 0), time.length - 1];
  const whole = Math.round(nth(time, end) - start);
  const means: { t: number; north: number; east: number; line: number; count: number }[] = [];
  let second = 0;
  for (let i = 1; i < end; i++) {
    const now = Math.round(nth(time, i) - start);
    if (now === 0 || now >= whole) continue;
    const before = means.at(-1);
    if (now !== second || before === undefined) {
      means.push({ t: nth(time, i), north: nth(latitude, i), east: nth(longitude, i), line: nth(line, i), count: 1 });
      second = now;
    } else {
      const turn = nth(longitude, i) - before.east;
      before.count++;
      before.t += (nth(time, i) - before.t) / before.count;
      before.north += (nth(latitude, i) - before.north) / before.count;
      before.east += (Math.abs(turn) > 180 ? turn - Math.sign(turn) * 360 : turn) / before.count;
    }
  }
  return {
    time: withEnds(
      start,
      means.map(m => m.t),
      nth(time, end),
    ),
    latitude: withEnds(
      nth(latitude, 0),
      means.map(m => m.north),
      nth(latitude, end),
    ),
    longitude: withEnds(
      nth(longitude, 0),
      means.map(m => m.east),
      nth(longitude, end),
    ),
    line: Uint32Array.from([nth(line, 0), ...means.map(m => m.line), nth(line, end)]),
  };
}

function withEnds(first: number, inner: readonly number[], last: number): Float64Array {
  const all = new Float64Array(inner.length + 2);
  all[0] = first;
  all.set(inner, 1);
  all[inner.length + 1] = last;
  return all;
}

/** Positions on a plane, m east and north of the first one along the way. */
interface Plane {
  readonly time: Float64Array;
  readonly east: Float64Array;
  readonly north: Float64Array;
  readonly line: Uint32Array;
}

/** m between two positions. */
function apart({ east, north }: Plane, from: number, to: number): number {
  return elementary.hypot((east[to] ?? 0) - (east[from] ?? 0), (north[to] ?? 0) - (north[from] ?? 0));
}

/** The fixes are measurements: each is off by itself, and a way along all of them as they are would be too long. */
function withoutNoise({ time, latitude, longitude, line }: Fixes, tally: Tally): Plane {
  const east = new Float64Array(time.length);
  const north = new Float64Array(time.length);
  for (let i = 1; i < time.length; i++) {
    const [a = 0, b = 0] = latitude.subarray(i - 1, i + 1);
    const [c = 0, d = 0] = longitude.subarray(i - 1, i + 1);
    const [toEast, toNorth] = metresBetween(a, c, b, d);
    east[i] = (east[i - 1] ?? 0) + toEast;
    north[i] = (north[i - 1] ?? 0) + toNorth;
  }
  const { columns, noise } = smoothed(time, [east, north]);
  const [evenEast = east, evenNorth = north] = columns;
  if (noise > TOLD) {
    const [first = 1] = line;
    tally.note('smoothed', first, () => `positions smoothed: each is off by about ${noise.toPrecision(2)} m by itself`);
  }
  return { time, line, east: evenEast, north: evenNorth };
}

/** Sets the steps of stretches at rest to 0. */
function keepStill(fixes: Plane, steps: Float64Array, tally: Tally): void {
  const { time, line } = fixes;
  const still = time.map((_, i) => (stays(fixes, i) ? 1 : 0));
  let removed = 0;
  for (let i = 1; i < steps.length; i++) {
    if (still[i - 1] === 0 || still[i] === 0 || steps[i] === 0) continue;
    // Between two rests the car may have been driven where nothing was recorded.
    if (nth(time, i) - nth(time, i - 1) > AROUND && nth(steps, i) > WITHIN) continue;
    removed += nth(steps, i);
    steps[i] = 0;
    const begins = i < 2 || still[i - 2] === 0;
    if (begins) {
      tally.note(
        'stand-still',
        nth(line, i - 1),
        n => `the position wandered by ${removed.toFixed(0)} m in ${counted(n, 'stand-still')}, which was taken out`,
      );
    }
  }
}

/** Whether the car stays where it is around fix `i`, with fixes on both sides to tell from. */
function stays(fixes: Plane, i: number): boolean {
  const { time } = fixes;
  let [before, after] = [i, i];
  while (before > 0 && nth(time, i) - nth(time, before - 1) <= AROUND) {
    if (apart(fixes, i, --before) > WITHIN) return false;
  }
  while (after < time.length - 1 && nth(time, after + 1) - nth(time, i) <= AROUND) {
    if (apart(fixes, i, ++after) > WITHIN) return false;
  }
  return nth(time, after) - nth(time, before) >= AROUND;
}
