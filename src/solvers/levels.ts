/** Finds the instants at which states pass the levels that are watched. */
import { item, nth } from '../columns.ts';
import { findRoot } from './bracket.ts';
import type { Quintic } from './quintic.ts';
import { fitQuintic, TERMS } from './quintic.ts';
import { powersOfDense } from './step.ts';
import type { Step } from './step.ts';
import type { Level } from './system.ts';

/** A level passed within a step, at `x` from 0 to 1. */
export interface Pass {
  readonly level: number;
  readonly x: number;
}

/** Points at which a polynomial is looked at to see a level passed twice within one step. */
const POINTS = 16;
const NONE: readonly Pass[] = [];
const NO_LEVELS: readonly Level[] = [];

/** The memory of whoever watches the levels of a system. */
export class LevelWatch {
  readonly step: Step;
  readonly quintic: Quintic;
  levels: readonly Level[] = NO_LEVELS;
  /** Levels not passed yet: how many, and for each whether it is one. */
  left = 0;
  open = new Uint8Array(0);
  /** State and value of each level. */
  stateOf = new Int32Array(0);
  valueOf = new Float64Array(0);
  /** The states with levels, and the least and the greatest value that each may have had in the step. */
  watchedStates = new Int32Array(0);
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
  /** Of the state that is looked at: its dense output in powers of x, its rate at the start, and its distance from the level at the end. */
  readonly terms = new Float64Array(TERMS);
  slope = Number.NaN;
  last = Number.NaN;
  /** Where it passes the level first, NaN where it does not. */
  x = Number.NaN;

  constructor(step: Step, quintic: Quintic) {
    this.step = step;
    this.quintic = quintic;
    this.lowest = new Float64Array(step.start.length);
    this.highest = new Float64Array(step.start.length);
  }
}

/** Starts a run with these levels, none of them passed. */
export function resetLevels(watch: LevelWatch, levels: readonly Level[]): void {
  if (watch.levels !== levels) {
    watch.levels = levels;
    watch.open = new Uint8Array(levels.length);
    watch.stateOf = Int32Array.from(levels, level => level.state);
    watch.valueOf = Float64Array.from(levels, level => level.value);
    watch.watchedStates = Int32Array.from(new Set(watch.stateOf));
  }
  watch.open.fill(1);
  watch.left = levels.length;
}

/**
 * The levels passed first in the step just tried, in order of time, up to and including the first one that stops the
 * run. Marks them as passed. Fits the quintic if there is any inside the step.
 */
export function passedLevels(watch: LevelWatch, mode: number, dense: Float64Array, offset: number): readonly Pass[] {
  if (watch.left === 0) return NONE;
  const { step, quintic, levels, open, stateOf, valueOf, lowest, highest } = watch;
  const { start, end, startRates } = step;
  let found: Pass[] | null = null;
  reach(watch, dense, offset);
  for (let l = 0; l < stateOf.length; l++) {
    if (open[l] === 0) continue;
    const s = stateOf[l]!;
    const value = valueOf[l]!;
    if (value < lowest[s]! || value > highest[s]!) continue;
    const from = start[s]!;
    const to = end[s]!;
    const first = from - value;
    const last = to - value;
    const across = first < 0 ? last >= 0 : first > 0 && last <= 0;
    watch.slope = startRates[s]!;
    watch.last = last;
    if (first === 0 && last === 0 && watch.slope === 0) continue;
    const level = item(levels, l);
    if (!across) {
      powersOfDense(from, to - from, dense, offset + 3 * s, watch.terms, 0);
      findPass(watch, watch.terms, 0, level);
      if (Number.isNaN(watch.x)) continue;
    }
    fitQuintic(quintic, mode, dense, offset);
    findPass(watch, quintic.coefficients, TERMS * s, level);
    if (!Number.isNaN(watch.x)) (found ??= []).push({ level: l, x: watch.x });
  }
  return found === null ? NONE : settle(watch, found);
}

/** The dense output leaves its chord by no more than a quarter of the sum of its coefficients. */
function reach({ step, watchedStates, lowest, highest }: LevelWatch, dense: Float64Array, offset: number): void {
  const { start, end } = step;
  for (let k = 0; k < watchedStates.length; k++) {
    const s = watchedStates[k]!;
    const o = offset + 3 * s;
    const swing = 0.25 * (Math.abs(dense[o]!) + Math.abs(dense[o + 1]!) + Math.abs(dense[o + 2]!));
    const a = start[s]!;
    const b = end[s]!;
    lowest[s] = (a < b ? a : b) - swing;
    highest[s] = (a < b ? b : a) + swing;
  }
}

/** The levels passed by a jump of the states from `before` to `after`, as `passedLevels` tells those of a step. */
export function jumpedLevels(watch: LevelWatch, before: Float64Array, after: Float64Array): readonly Pass[] {
  const found: Pass[] = [];
  watch.levels.forEach((level, l) => {
    const first = nth(before, level.state) - level.value;
    const last = nth(after, level.state) - level.value;
    const rises = first < 0 && last >= 0 && level.direction !== 'falling';
    const falls = first > 0 && last <= 0 && level.direction !== 'rising';
    if (watch.open[l] === 1 && (rises || falls)) found.push({ level: l, x: 0 });
  });
  return settle(watch, found);
}

/** Puts passes in order of time, cuts them after the first that stops, and marks the rest as passed. */
function settle(watch: LevelWatch, found: Pass[]): readonly Pass[] {
  inOrder(found);
  for (let k = 0; k < found.length; k++) {
    const { level } = item(found, k);
    watch.open[level] = 0;
    watch.left--;
    if (item(watch.levels, level).action === 'stop') found.length = k + 1;
  }
  return found;
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

/**
 * Into `watch.x`: the first x in 0..1 at which a polynomial, whose terms begin at a place, passes the level in its direction, NaN if there is
 * none. Its distance from the level at 1 is free of the rounding of the polynomial. A polynomial that starts exactly on the level
 * passes it at 0 if it then moves in the direction: by its slope, or by where it goes.
 */
function findPass(watch: LevelWatch, terms: Float64Array, o: number, level: Level): void {
  const first = terms[o]! - level.value;
  const { last } = watch;
  if (first === 0 || last === 0 || !rises(terms, o)) {
    watch.x = firstOfAny(terms.slice(o, o + TERMS), level, watch.slope, last);
  } else if (first < 0 && last > 0 && level.direction !== 'falling') findRise(watch, terms, o, first);
  else watch.x = Number.NaN;
}

/**
 * Whether a polynomial of degree 5 rises all the way from 0 to 1, as the coefficients of its slope in Bernstein's basis say where none
 * of them is negative (Farin, Curves and Surfaces for CAGD, chapter 5; from memory).
 */
function rises(terms: Float64Array, o: number): boolean {
  const d0 = terms[o + 1]!;
  const d1 = terms[o + 2]! / 2;
  const d2 = terms[o + 3]! / 2;
  const d3 = terms[o + 4]!;
  const d4 = terms[o + 5]! * 5;
  // The slope is d0 + 4 d1 x + 6 d2 x^2 + 4 d3 x^3 + d4 x^4.
  return (
    d0 >= 0 &&
    d0 + d1 >= 0 &&
    d0 + 2 * d1 + d2 > 0 &&
    d0 + 3 * d1 + 3 * d2 + d3 > 0 &&
    d0 + 4 * d1 + 6 * d2 + 4 * d3 + d4 > 0
  );
}

/** Past a step of Newton's method that is no longer than this share the next one would be none. */
const SETTLED = 1e-9;

/** The one root of such a polynomial by Newton's method inside a bracket. @param first its distance from the level at 0. */
function findRise(watch: LevelWatch, terms: Float64Array, o: number, first: number): void {
  const p1 = terms[o + 1]!;
  const p2 = terms[o + 2]!;
  const p3 = terms[o + 3]!;
  const p4 = terms[o + 4]!;
  const p5 = terms[o + 5]!;
  let low = 0;
  let high = 1;
  let x = first / (first - watch.last);
  for (let pass = 0; pass < 60; pass++) {
    const value = first + x * (p1 + x * (p2 + x * (p3 + x * (p4 + x * p5))));
    const slope = p1 + x * (2 * p2 + x * (3 * p3 + x * (4 * p4 + x * 5 * p5)));
    if (value < 0) low = x;
    else high = x;
    const next = x - value / slope;
    const settled = Math.abs(next - x) <= SETTLED * x;
    if (next > low && next < high) x = next;
    else if (!settled) x = 0.5 * (low + high);
    if (settled || high - low <= 4e-16 * x) break;
  }
  watch.x = x;
}

/** The same for any polynomial. */
function firstOfAny(terms: Float64Array, level: Level, slope: number, last: number): number {
  const f = (x: number): number => {
    let value = 0;
    for (let p = TERMS - 1; p > 0; p--) value = (value + terms[p]!) * x;
    return value + (terms[0]! - level.value);
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
