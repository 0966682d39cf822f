/**
 * By how much a car misses its schedule: the time in which it is below the speeds that are asked for, less what they may be missed by.
 * Where that time begins and ends is found as a crossing, so it moves continuously with all that is put in.
 */
import { nth } from '../../columns.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import { SPEED } from '../../model/forward/state.ts';
import { findRoot } from '../../solvers/bracket.ts';
import type { Solution } from '../../solvers/system.ts';
import { part } from './memory.ts';

/** UN GTR No. 15, Annex 6: within 2 km/h of the speeds asked for within 1 s. */
export const SPEED_TOLERANCE = 2 / 3.6;
const TIME_TOLERANCE = 1;

/** s to which the ends of a time are found. */
const WIDTH = 1e-12;

/** Halvings, more or less, by which the instant is looked for at which a car is slowest against its schedule. */
const ROUNDS = 40;
const GOLDEN = 0.5 * (Math.sqrt(5) - 1);

/** A stretch of the way along which the speed goes smoothly: s, m/s at its ends and its middle. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly first: number;
  readonly middle: number;
  readonly last: number;
  /** Of the forward model. */
  readonly mode: number;
  speedAt(t: number): number;
}

/** How far a smooth speed is off the straight line between the ends of a stretch, m/s. */
export function bendOf({ first, middle, last }: Pick<Stretch, 'first' | 'middle' | 'last'>): number {
  return Math.abs(middle - 0.5 * (first + last));
}

/** What a schedule asks for. */
export class Asked {
  readonly time: Float64Array;
  readonly speed: Float64Array;
  /** m/s, for each interval: the most within it, the least from so long before it to so long after it as it may be missed by. */
  readonly most: Float64Array;
  readonly least: Float64Array;
  /** The point at or before the instant that was asked about last. */
  near = 0;

  constructor({ time, speed }: Schedule) {
    this.time = time;
    this.speed = speed;
    const intervals = time.length - 1;
    this.most = new Float64Array(intervals);
    this.least = new Float64Array(intervals);
    for (let i = 0; i < intervals; i++) {
      this.most[i] = Math.max(nth(speed, i), nth(speed, i + 1));
      this.least[i] = least(this, nth(time, i) - TIME_TOLERANCE, nth(time, i + 1) + TIME_TOLERANCE);
    }
  }
}

const known = new WeakMap<Schedule, Asked>();

/** Worked out once for each schedule. */
export function askedBy(schedule: Schedule): Asked {
  const found = known.get(schedule);
  if (found !== undefined) return found;
  const made = new Asked(schedule);
  known.set(schedule, made);
  return made;
}

/** s of a stretch in which the car is too slow. @param index of the interval of the schedule that its times count from. */
export function tooSlow(asked: Asked, index: number, stretch: Stretch): number {
  let sum = 0;
  for (const [from, to] of spansTooSlow(asked, index, stretch)) sum += to - from;
  return sum;
}

/** From when to when, s. */
export type Span = readonly [number, number];

/** The same one by one: between which times of the stretch. */
export function spansTooSlow(asked: Asked, index: number, stretch: Stretch): readonly Span[] {
  const { from, to, first, last } = stretch;
  const bend = bendOf(stretch);
  const allowed = Math.min(first, last) - 2 * bend + SPEED_TOLERANCE;
  if (nth(asked.most, index) <= allowed) return NONE;
  if (nth(asked.least, index) > Math.max(first, last) + 2 * bend + SPEED_TOLERANCE) return [[from, to]];
  const start = nth(asked.time, index);
  const gapAt = (t: number): number =>
    least(asked, t - TIME_TOLERANCE, t + TIME_TOLERANCE) - SPEED_TOLERANCE - stretch.speedAt(t - start);
  const corners = cornersBetween(asked, start + from, start + to);
  const spans: Span[] = [];
  for (let i = 1; i < corners.length; i++) {
    const [p, q] = [nth(corners, i - 1), nth(corners, i)];
    if (!(lowestAtMost(asked, p, q) > allowed)) continue;
    const above = timeAbove(gapAt, p, q);
    if (above !== null) spans.push([above[0] - start, above[1] - start]);
  }
  return spans;
}

const NONE: readonly Span[] = [];

/**
 * s that a car loses in a stretch: what it does not drive of what is asked for, at the speed that is asked for there. Where that speed is a steady one it is
 * the distance missed over it.
 */
export function timeLost(asked: Asked, index: number, stretch: Stretch): number {
  const { from, to } = stretch;
  const start = nth(asked.time, index);
  const lostAt = (t: number): number => {
    const wanted = speedAt(asked, t);
    return wanted > 0 ? Math.max(0, 1 - stretch.speedAt(t - start) / wanted) : 0;
  };
  let lost = 0;
  let [p, i] = [start + from, index];
  while (p < start + to) {
    while (i + 1 < asked.time.length && nth(asked.time, i + 1) <= p) i++;
    const q = Math.min(start + to, i + 1 < asked.time.length ? nth(asked.time, i + 1) : Infinity);
    const [middle, half] = [0.5 * (p + q), 0.5 * (q - p)];
    // Gauss and Legendre's three points (Abramowitz and Stegun, table 25.4).
    const off = Math.sqrt(0.6) * half;
    lost += (half / 9) * (5 * lostAt(middle - off) + 8 * lostAt(middle) + 5 * lostAt(middle + off));
    p = q;
  }
  return lost;
}

/** m/s asked for at an instant; before the first point that of it, after the last one likewise. */
function speedAt(asked: Asked, t: number): number {
  const { time, speed } = asked;
  const last = time.length - 1;
  if (t <= part(time, 0)) return part(speed, 0);
  if (t >= part(time, last)) return part(speed, last);
  seek(asked, t);
  const i = asked.near;
  const t0 = part(time, i);
  return part(speed, i) + ((t - t0) / (part(time, i + 1) - t0)) * (part(speed, i + 1) - part(speed, i));
}

function seek(asked: Asked, t: number): void {
  const { time } = asked;
  while (asked.near > 0 && part(time, asked.near) > t) asked.near--;
  while (asked.near + 2 < time.length && part(time, asked.near + 1) <= t) asked.near++;
}

/** The lowest speed asked for from one instant to another: at its ends, or at a point between. */
function least(asked: Asked, from: number, to: number): number {
  let lowest = Math.min(speedAt(asked, to), speedAt(asked, from));
  const { time, speed } = asked;
  for (let i = asked.near; i < time.length && part(time, i) <= to; i++) {
    if (part(time, i) >= from) lowest = Math.min(lowest, part(speed, i));
  }
  return lowest;
}

/** A bound between two corners of what is asked for at least: no more than straight lines have there. */
function lowestAtMost(asked: Asked, p: number, q: number): number {
  const before = Math.max(speedAt(asked, p - TIME_TOLERANCE), speedAt(asked, q - TIME_TOLERANCE));
  const now = Math.max(speedAt(asked, p), speedAt(asked, q));
  const after = Math.max(speedAt(asked, p + TIME_TOLERANCE), speedAt(asked, q + TIME_TOLERANCE));
  return Math.min(before, now, after);
}

/** The instants between two at which a point of the schedule comes into sight, passes, or goes out of sight; with both ends. */
function cornersBetween(asked: Asked, from: number, to: number): number[] {
  const found = [from, to];
  speedAt(asked, from - TIME_TOLERANCE);
  const { time } = asked;
  for (let i = asked.near; i < time.length && nth(time, i) < to + TIME_TOLERANCE; i++) {
    for (const t of [nth(time, i) - TIME_TOLERANCE, nth(time, i), nth(time, i) + TIME_TOLERANCE]) {
      if (t > from && t < to) found.push(t);
    }
  }
  return found.toSorted((a, b) => a - b);
}

/**
 * Where between two instants a gap is above 0; null where nowhere. Between two corners it is the least of straight lines, less the speed of the car,
 * which is nearly one: it has one top.
 */
function timeAbove(gapAt: (t: number) => number, from: number, to: number): Span | null {
  const [first, last] = [gapAt(from), gapAt(to)];
  if (first > 0 && last > 0) return [from, to];
  if (first > 0) return [from, findRoot(gapAt, from, first, to, last, WIDTH)];
  if (last > 0) return [findRoot(gapAt, from, first, to, last, WIDTH), to];
  const top = topBetween(gapAt, from, to);
  const most = gapAt(top);
  if (!(most > 0)) return null;
  return [findRoot(gapAt, top, most, from, first, WIDTH), findRoot(gapAt, top, most, to, last, WIDTH)];
}

/** Where a function with one top is highest: golden section. */
function topBetween(f: (t: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atLeft, atRight] = [f(left), f(right)];
  for (let round = 0; round < ROUNDS; round++) {
    if (atLeft > 0 || atRight > 0) break;
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = f(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = f(right);
    }
  }
  return atLeft > atRight ? left : right;
}

/** The stretches of one mode each that a solution of the forward model is made of. */
export function stretchesOf(solution: Solution): readonly Stretch[] {
  const { times, modes, nodes } = solution;
  const state = new Float64Array(SPEED + 1);
  const speedAt = (t: number): number => {
    solution.at(t, state);
    return nth(state, SPEED);
  };
  const stretches: Stretch[] = [];
  for (let k = 0; k + 1 < nodes; k++) {
    const [from, to] = [nth(times, k), nth(times, k + 1)];
    if (!(to > from)) continue;
    const [first, middle, last] = [speedAt(from), speedAt(0.5 * (from + to)), speedAt(to)];
    stretches.push({ from, to, first, middle, last, mode: nth(modes, k), speedAt });
  }
  return stretches;
}
