/** Finds the instants at which states pass the levels that are watched. */
import { item } from '../columns.ts';
import { findRoot } from './bracket.ts';
import type { Quintic } from './quintic.ts';
import { powersOfDense } from './step.ts';
import type { Step } from './step.ts';
import type { Level } from './system.ts';

/** A level passed within a step, at `x` from 0 to 1. */
export interface Pass {
  readonly level: number;
  readonly x: number;
}

export interface LevelWatch {
  /** Starts a run with these levels, none of them passed. */
  reset(levels: readonly Level[]): void;
  /**
   * The levels passed first in the step just tried, in order of time, up to and including the first one that stops the
   * run. Marks them as passed. Fits `quintic` if there is any inside the step.
   */
  passed(mode: number, dense: Float64Array, offset: number): readonly Pass[];
  /** The same for a jump of the states from `before` to `after`. */
  jumped(before: Float64Array, after: Float64Array): readonly Pass[];
}

/** Points at which a polynomial is looked at to see a level passed twice within one step. */
const POINTS = 16;
const NONE: readonly Pass[] = [];
const NO_LEVELS: readonly Level[] = [];

export function createLevelWatch(step: Step, quintic: Quintic): LevelWatch {
  const polynomial = new Float64Array(6);
  let levels: readonly Level[] = NO_LEVELS;
  let open: Uint8Array = new Uint8Array(0);
  let stateOf = new Int32Array(0);
  let valueOf = new Float64Array(0);
  /** The states with levels, and the least and the greatest value that each may have had in the step. */
  let watchedStates = new Int32Array(0);
  const lowest = new Float64Array(step.start.length);
  const highest = new Float64Array(step.start.length);

  /** The dense output leaves its chord by no more than a quarter of the sum of its coefficients. */
  function reach(s: number, dense: Float64Array, o: number): void {
    const swing = (Math.abs(part(dense, o)) + Math.abs(part(dense, o + 1)) + Math.abs(part(dense, o + 2))) / 4;
    const a = part(step.start, s);
    const b = part(step.end, s);
    lowest[s] = (a < b ? a : b) - swing;
    highest[s] = (a < b ? b : a) + swing;
  }
  /** Levels not passed yet. */
  let left = 0;

  function passed(mode: number, dense: Float64Array, offset: number): readonly Pass[] {
    if (left === 0) return NONE;
    let found: Pass[] | null = null;
    let fitted = false;
    const { start, end } = step;
    for (const s of watchedStates) reach(s, dense, offset + 3 * s);
    for (let l = 0; l < stateOf.length; l++) {
      if (open[l] === 0) continue;
      const s = stateOf[l]!;
      const value = valueOf[l]!;
      if (value < part(lowest, s) || value > part(highest, s)) continue;
      const first = start[s]! - value;
      const last = end[s]! - value;
      const across = first < 0 ? last >= 0 : first > 0 && last <= 0;
      if (first === 0 && last === 0 && step.startRates[s] === 0) continue;
      if (!across && first !== 0) {
        fromDense(polynomial, step, s, dense, offset + 3 * s);
        const level = item(levels, l);
        if (Number.isNaN(firstPass(polynomial, level, step.startRates[s]!, last))) continue;
      }
      if (!fitted) quintic.fit(mode, dense, offset);
      fitted = true;
      quintic.pick(s, polynomial);
      const level = item(levels, l);
      const x = firstPass(polynomial, level, step.startRates[s]!, last);
      if (!Number.isNaN(x)) (found ??= []).push({ level: l, x });
    }
    return found === null ? NONE : settle(found);
  }

  function jumped(before: Float64Array, after: Float64Array): readonly Pass[] {
    const found: Pass[] = [];
    levels.forEach((level, l) => {
      const first = before[level.state]! - level.value;
      const last = after[level.state]! - level.value;
      const rises = first < 0 && last >= 0 && level.direction !== 'falling';
      const falls = first > 0 && last <= 0 && level.direction !== 'rising';
      if (open[l] === 1 && (rises || falls)) found.push({ level: l, x: 0 });
    });
    return settle(found);
  }

  /** Puts passes in order of time, cuts them after the first that stops, and marks the rest as passed. */
  function settle(found: Pass[]): readonly Pass[] {
    inOrder(found);
    for (let k = 0; k < found.length; k++) {
      const { level } = item(found, k);
      open[level] = 0;
      left--;
      if (item(levels, level).action === 'stop') found.length = k + 1;
    }
    return found;
  }

  return {
    reset(watched) {
      if (levels !== watched) {
        levels = watched;
        open = new Uint8Array(levels.length);
        stateOf = Int32Array.from(levels, level => level.state);
        valueOf = Float64Array.from(levels, level => level.value);
        watchedStates = Int32Array.from(new Set(stateOf));
      }
      open.fill(1);
      left = levels.length;
    },
    passed,
    jumped,
  };
}

/** Places are right here by construction. */
function part(column: Float64Array, place: number): number {
  return column[place] ?? Number.NaN;
}

/** By time, and of one instant by level: a few, which come nearly in order. */
function inOrder(found: Pass[]): void {
  for (let k = 1; k < found.length; k++) {
    const pass = item(found, k);
    let place = k;
    for (; place > 0; place--) {
      const before = item(found, place - 1);
      if (before.x < pass.x || (before.x === pass.x && before.level < pass.level)) break;
      found[place] = before;
    }
    found[place] = pass;
  }
}

/** The dense output of one state in powers of x. */
function fromDense(into: Float64Array, step: Step, s: number, dense: Float64Array, o: number): void {
  powersOfDense(step.start[s]!, step.end[s]! - step.start[s]!, dense, o, into, 0);
}

/**
 * The first x in 0..1 at which the polynomial passes the level in its direction, NaN if there is none. `last` is the
 * distance from the level at 1, free of the rounding of the polynomial. A polynomial that starts exactly on the level
 * passes it at 0 if it then moves in the direction: by `slope`, or by where it goes.
 */
function firstPass(polynomial: Float64Array, level: Level, slope: number, last: number): number {
  const first = polynomial[0]! - level.value;
  if (first < 0 && last > 0 && level.direction !== 'falling' && rises(polynomial))
    return rootOfRising(polynomial, first, last);
  return firstOfAny(polynomial, level, slope, last);
}

/**
 * Whether a polynomial of degree 5 rises all the way from 0 to 1, as the coefficients of its slope in Bernstein's basis say where none
 * of them is negative (Farin, Curves and Surfaces for CAGD, chapter 5; from memory).
 */
function rises(polynomial: Float64Array): boolean {
  const d0 = polynomial[1]!;
  const d1 = polynomial[2]! / 2;
  const d2 = polynomial[3]! / 2;
  const d3 = polynomial[4]!;
  const d4 = polynomial[5]! * 5;
  // The slope is d0 + 4 d1 x + 6 d2 x^2 + 4 d3 x^3 + d4 x^4.
  return (
    d0 >= 0 &&
    d0 + d1 >= 0 &&
    d0 + 2 * d1 + d2 > 0 &&
    d0 + 3 * d1 + 3 * d2 + d3 > 0 &&
    d0 + 4 * d1 + 6 * d2 + 4 * d3 + d4 > 0
  );
}

/** Its one root by Newton's method inside a bracket; `first` and `last` are its distances from the level at 0 and 1. */
function rootOfRising(polynomial: Float64Array, first: number, last: number): number {
  const p1 = polynomial[1]!;
  const p2 = polynomial[2]!;
  const p3 = polynomial[3]!;
  const p4 = polynomial[4]!;
  const p5 = polynomial[5]!;
  let low = 0;
  let high = 1;
  let x = first / (first - last);
  for (let pass = 0; pass < 60; pass++) {
    const value = first + x * (p1 + x * (p2 + x * (p3 + x * (p4 + x * p5))));
    const slope = p1 + x * (2 * p2 + x * (3 * p3 + x * (4 * p4 + x * 5 * p5)));
    if (value < 0) low = x;
    else high = x;
    let next = x - value / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const change = Math.abs(next - x);
    x = next;
    if (change <= 4e-16 * x || high - low <= 4e-16 * x) break;
  }
  return x;
}

/** The same for any polynomial. */
function firstOfAny(polynomial: Float64Array, level: Level, slope: number, last: number): number {
  const f = (x: number): number => {
    let value = 0;
    for (let p = polynomial.length - 1; p > 0; p--) value = (value + polynomial[p]!) * x;
    return value + (polynomial[0]! - level.value);
  };
  const wanted = (from: number, to: number): boolean =>
    (from < 0 && to >= 0 && level.direction !== 'falling') || (from > 0 && to <= 0 && level.direction !== 'rising');
  let value = f(0);
  if (value === 0) {
    const heading = slope !== 0 ? slope : f(1 / POINTS);
    if (wanted(-heading, heading)) return 0;
    value = heading;
  }
  let before = Number.NaN;
  for (let k = 1; k <= POINTS; k++) {
    const x = (k - 1) / POINTS;
    const nextX = k / POINTS;
    const next = k === POINTS ? last : f(nextX);
    const turns = before * value > 0 && value * next > 0 && (before - value) * value > 0 && (next - value) * value > 0;
    if (turns) {
      // A top or a dip: look at the vertex of the parabola through the three points.
      const vertex = x + (before - next) / (before - 2 * value + next) / (2 * POINTS);
      const extreme = f(vertex);
      if (wanted(before, extreme)) return findRoot(f, x - 1 / POINTS, before, vertex, extreme, 0);
      if (wanted(extreme, next)) return findRoot(f, vertex, extreme, nextX, next, 0);
    }
    if (wanted(value, next)) return findRoot(f, x, value, nextX, next, 0);
    before = value;
    // A zero keeps the sign it was reached with.
    if (next !== 0) value = next;
  }
  return Number.NaN;
}
