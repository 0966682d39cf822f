/** What an integrator keeps of a run, and the little things that all of its parts do with it. */
import { GuardWatch } from './guard-watch.ts';
import { LevelWatch } from './levels.ts';
import { Noted } from './noted.ts';
import { Quintic } from './quintic.ts';
import type { Settings } from './settings.ts';
import { NO_SETTINGS } from './settings.ts';
import type { Method, Step } from './step.ts';
import type { SolveEvent, SolveStatus, SwitchedSystem } from './system.ts';
import { Track } from './track.ts';

/** A step is lost below this share of the time, or of a thousandth of the whole span. */
const SMALLEST = 4e-15;

/** What an integrator keeps, and what changes during a run. Doubles start as NaN to be kept unboxed. */
export class Run {
  readonly system: SwitchedSystem;
  /** States; states and quadratures. */
  readonly n: number;
  readonly all: number;
  readonly step: Step;
  /** Those of the step. */
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;
  readonly gained: Float64Array;
  readonly track: Track;
  readonly guards: GuardWatch | null;
  readonly quintic: Quintic;
  readonly levels: LevelWatch;
  readonly values: Float64Array;
  readonly probe: Float64Array;
  /** States and integrals of the events to come, several in one block of memory. */
  notes = new Float64Array(0);
  noted = 0;
  settings: Settings = NO_SETTINGS;
  status: SolveStatus | 'running' = 'running';
  reason = '';
  mode = 0;
  /** Step to try next, and the logarithm of the last accepted error. */
  proposed = Number.NaN;
  memory = Number.NaN;
  /** Whether the last step was rejected. */
  afterRejection = false;
  /** Whether no step was accepted since the step was estimated from the rates. */
  estimated = true;
  /** Time to stop at next, and the index of its breakpoint, -1 for the end of the run. */
  target = Number.NaN;
  breakpoint = -1;
  steps = 0;
  rejected = 0;
  switches = 0;
  lateSwitches = 0;
  chatterCount = 0;
  chatterStart = Number.NaN;

  constructor(system: SwitchedSystem, method: Method) {
    const step = method(system);
    this.system = system;
    this.n = system.states;
    this.all = system.states + system.quadratures;
    this.step = step;
    this.start = step.start;
    this.end = step.end;
    this.startRates = step.startRates;
    this.endRates = step.endRates;
    this.gained = step.gained;
    this.track = new Track(this.n, system.quadratures, system.looks ?? 0);
    this.quintic = new Quintic(system, step);
    this.guards = system.guards > 0 ? new GuardWatch(system, step, this.quintic) : null;
    this.levels = new LevelWatch(step, this.quintic);
    this.values = new Float64Array(this.all);
    this.probe = new Float64Array(this.n + 1);
  }
}

export function guardsOf({ guards }: Run): GuardWatch {
  if (guards === null) throw new Error('a system without guards has no switches');
  return guards;
}

/** Adds an event whose states and gains since node `k` stand in `values`. */
export function note(
  run: Run,
  kind: SolveEvent['kind'],
  index: number,
  time: number,
  k: number,
  to = run.mode,
): SolveEvent {
  const { n, all, values } = run;
  // Made a number at a time these small arrays would cost more than the step they stand in.
  if (run.noted + all > run.notes.length) {
    run.notes = new Float64Array(64 * all);
    run.noted = 0;
  }
  const { notes, noted } = run;
  const { integrals } = run.track;
  const row = k * (all - n);
  for (let j = 0; j < n; j++) notes[noted + j] = values[j]!;
  for (let j = n; j < all; j++) notes[noted + j] = values[j]! + integrals[row + j - n]!;
  run.noted += all;
  const event = new Noted({ kind, index, time, from: run.mode, to }, notes, noted, n, all);
  run.track.events.push(event);
  return event;
}

/** Looks at the end of the step just tried, which may become the next node. */
export function lookAtEnd({ system, track }: Run): void {
  system.look?.(track.looks, track.nodes * track.seen);
}

/** Looks at the last node, right after the rates there. */
export function lookAtNode({ system, track }: Run): void {
  system.look?.(track.looks, (track.nodes - 1) * track.seen);
}

export function fail(run: Run, reason: string): void {
  run.status = 'failed';
  run.reason = reason;
}

export function failGuard(run: Run, t: number): void {
  fail(run, `guard ${guardsOf(run).invalid} is not a number at t = ${t}`);
}

/** The first number at the start that is not finite, in words. */
export function firstBad(run: Run): string {
  const state = run.start.findIndex(value => !Number.isFinite(value));
  if (state >= 0) return `state ${state} is ${run.start[state]}`;
  const rate = run.startRates.findIndex(value => !Number.isFinite(value));
  return `rate ${rate} is ${run.startRates[rate]}`;
}

export function smallest(run: Run): number {
  const { settings } = run;
  return SMALLEST * Math.max(Math.abs(run.start[run.n]!), 1e-3 * (settings.end - settings.start));
}

export function finite(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i]!)) return false;
  return true;
}
