/** The options of a run with their defaults filled in; checked at the door. */
import { nth } from '../columns.ts';
import type { Level, SolveOptions, SwitchedSystem } from './system.ts';

export interface Settings {
  readonly start: number;
  readonly end: number;
  readonly tolerance: number;
  readonly maxStep: number;
  /** 0: to be estimated. */
  readonly firstStep: number;
  readonly firstLength: number;
  readonly maxSteps: number;
  readonly nodesAlone: boolean;
  readonly levels: readonly Level[];
  readonly breakpoints: ArrayLike<number>;
}

const NO_LEVELS: readonly Level[] = [];
const NO_TIMES: readonly number[] = [];

/** Of no run: what stands before the first. */
export const NO_SETTINGS: Settings = {
  start: Number.NaN,
  end: Number.NaN,
  tolerance: Number.NaN,
  maxStep: Number.NaN,
  firstStep: 0,
  firstLength: 1,
  maxSteps: 0,
  nodesAlone: false,
  levels: NO_LEVELS,
  breakpoints: NO_TIMES,
};

/** Looks at a system before it is integrated. @throws RangeError for one that can not be. */
export function checkSystem(system: SwitchedSystem): void {
  for (const key of ['states', 'quadratures', 'guards'] as const)
    if (!(Number.isInteger(system[key]) && system[key] >= 0)) refuse(key, 'a whole number, 0 or more', system[key]);
  if (typeof system.rates !== 'function') refuse('rates', 'a function', typeof system.rates);
  if (system.guards > 0 && typeof system.guard !== 'function') refuse('guard', 'a function', typeof system.guard);
}

/** Fills in the defaults. Throws a RangeError for options that make no sense, naming the option and its value. */
export function readSettings(system: SwitchedSystem, options: SolveOptions): Settings {
  const { start, end, initial, tolerance = 1e-6, maxStep = Infinity, firstStep = 0, maxSteps = 100_000 } = options;
  const { firstLength = 1, levels = NO_LEVELS, breakpoints = NO_TIMES, nodesAlone = false } = options;
  demand(Number.isFinite(start), 'start', 'a finite number', start);
  demand(Number.isFinite(end) && end >= start, 'end', 'a finite number not before `start`', end);
  const { states, quadratures, scales } = system;
  if (initial.length !== states && initial.length !== states + 1)
    refuse('initial', `${states} numbers`, initial.length);
  const all = states + quadratures;
  const { length } = scales;
  if (length !== states && length !== all) refuse('scales', `${states} or ${all} numbers`, length);
  demand(tolerance > 0 && tolerance < 1, 'tolerance', 'between 0 and 1', tolerance);
  demand(maxStep > 0, 'maxStep', 'positive', maxStep);
  demand(firstStep >= 0 && Number.isFinite(firstStep), 'firstStep', 'finite and not negative', firstStep);
  demand(firstLength > 0 && firstLength < Infinity, 'firstLength', 'finite and positive', firstLength);
  demand(maxSteps >= 1, 'maxSteps', 'at least 1', maxSteps);
  if (nodesAlone && (system.guards > 0 || levels.length > 0)) {
    throw new RangeError('`nodesAlone` must be false where guards or levels are watched');
  }
  for (const { name, state, value, action, direction } of levels) {
    const known = Number.isInteger(state) && state >= 0 && state < states;
    if (!known) refuse(`level ${name}`, `on one of ${states} states`, state);
    if (!Number.isFinite(value)) refuse(`level ${name}`, 'a finite value', value);
    if (action !== 'record' && action !== 'stop') refuse(`action of level ${name}`, 'record or stop', action);
    if (direction !== 'rising' && direction !== 'falling' && direction !== 'either')
      refuse(`direction of level ${name}`, 'rising, falling or either', direction);
  }
  for (let i = 0; i < breakpoints.length; i++) {
    const time = nth(breakpoints, i);
    const ascending = Number.isFinite(time) && (i === 0 || time > nth(breakpoints, i - 1));
    demand(ascending, 'breakpoints', 'finite and ascending', time);
  }
  for (let i = 0; i < states; i++) demand(nth(scales, i) > 0, 'scales', 'positive', nth(scales, i));
  return { start, end, tolerance, maxStep, firstStep, firstLength, maxSteps, nodesAlone, levels, breakpoints };
}

function demand(holds: boolean, name: string, rule: string, value: number): void {
  if (!holds) refuse(name, rule, value);
}

function refuse(name: string, rule: string, value: unknown): never {
  throw new RangeError(`\`${name}\` must be ${rule}, found ${String(value)}`);
}

/** A time just before `time`, so that a rate that jumps at a breakpoint is still read from its left side. */
export function justBefore(time: number): number {
  return time - Math.max(Math.abs(time) * 2 ** -52, Number.MIN_VALUE);
}

/** Switches more often than this within `CHATTER_SPAN` of the whole time are chattering, and the run fails. */
export const CHATTER_COUNT = 1000;
export const CHATTER_SPAN = 1e-3;
