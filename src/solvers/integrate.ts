/**
 * Drives a one-step method over a switched system: step control, switches, levels, breakpoints, nodes. What the method
 * is does not matter here; see `step.ts`.
 */
import { item } from '../columns.ts';
import * as elementary from '../elementary.ts';
import { cutAt, keeps, mayBeCut, stopAt } from './cut.ts';
import { advanceGuards, inspectGuards, lookAhead } from './guards.ts';
import type { GuardWatch } from './guard-watch.ts';
import {
  fail,
  failGuard,
  finite,
  firstBad,
  guardsOf,
  lookAtEnd,
  lookAtNode,
  note,
  Run,
  smallest,
} from './integration.ts';
import { passedLevels, resetLevels } from './levels.ts';
import { evaluateQuintic, forgetStep, keepStep } from './quintic.ts';
import { aim, land, restart } from './restart.ts';
import type { Settings } from './settings.ts';
import { checkSystem, justBefore, readSettings } from './settings.ts';
import type { Method } from './step.ts';
import type { Solution, SolveOptions, SwitchedSystem } from './system.ts';
import { clearTrack, denseOffset, pushEnd, pushNode, solutionOf } from './track.ts';

/** Step control after Hairer, Norsett, Wanner I, section IV.2 (PI, beta 0.04 as in their DOPRI5). */
const SAFETY = elementary.log(0.9);
const LEAST_MEMORY = elementary.log(1e-4);
const BETA = 0.04;
/** In place of their 10: from rest on, what begins straight may be gone over in two steps in place of four. */
const GROW = 40;
/** Of a step whose error is next to nothing no more is known than that. */
const LEAST_ERROR = 1e-15;
/** A step that was only estimated knows nothing of the error: half of that. */
const GROW_ESTIMATED = 20;
const SHRINK = 0.2;
/**
 * How much longer than in the same book, section II.4, a step past a switch is that is only estimated, since how long steps were before
 * bounds it as well. By trial over 150 cars: fewer are refused, and the times are as close.
 */
const SWITCHED_LENGTH = 1.6;
/** The same where the system says that nothing hides; by trial over 300 cars: with twice as much some steps are refused. */
const SMOOTH_LENGTH = 8;
/** Of the tolerance, what such a step is off by in the book. */
const FIRST_SHARE = 0.01;
/** How much further than they were looked at ahead second derivatives are believed, where the book has 100; by trial as well. */
const AHEAD = 4000;

/** Makes an integrator that uses its memory again in every run: a solution is valid until the next. */
export function createIntegrator(system: SwitchedSystem, method: Method): (options: SolveOptions) => Solution {
  checkSystem(system);
  const run = new Run(system, method);
  return options => {
    open(run, readSettings(system, options), options);
    while (run.status === 'running') advance(run);
    return solutionOf(run.track, run.status, run.reason, {
      steps: run.steps,
      rejected: run.rejected,
      evaluations: run.step.evaluations,
      switches: run.switches,
      lateSwitches: run.lateSwitches,
    });
  };
}

function open(run: Run, settings: Settings, options: SolveOptions): void {
  run.settings = settings;
  run.status = 'running';
  run.reason = '';
  run.mode = options.mode;
  run.steps = run.rejected = run.switches = run.lateSwitches = run.chatterCount = 0;
  run.memory = LEAST_MEMORY;
  run.afterRejection = false;
  run.estimated = true;
  run.chatterStart = settings.start;
  run.proposed = settings.firstStep;
  run.breakpoint = -1;
  run.step.reset();
  run.step.tolerance = settings.tolerance;
  for (let i = 0; i < run.n; i++) run.start[i] = options.initial[i]!;
  run.start[run.n] = settings.start;
  clearTrack(run.track);
  pushNode(run.track, run.start, run.mode);
  resetLevels(run.levels, settings.levels);
  forgetStep(run.quintic);
  aim(run);
  run.step.begin(run.mode);
  lookAtNode(run);
  if (!finite(run.startRates) || !finite(run.start)) {
    fail(run, `${firstBad(run)} at the start, t = ${settings.start}`);
  } else if (settings.end === settings.start) {
    run.status = 'end';
  } else {
    const given = run.proposed > 0;
    if (!given) run.proposed = 1e-3 * (settings.end - settings.start);
    if (run.guards !== null) restart(run, -1);
    if (!given && run.status === 'running') run.proposed = firstStep(run, settings.firstLength);
  }
}

function advance(run: Run): void {
  const { settings } = run;
  const t = run.start[run.n]!;
  const left = run.target - t;
  if (left <= smallest(run)) return land(run);
  let h = run.proposed < settings.maxStep ? run.proposed : settings.maxStep;
  const landing = 1.01 * h >= left;
  if (landing) h = left;
  const ends = run.system.until?.(run.mode) ?? Infinity;
  const ending = ends > t && t + 1.01 * h >= ends && ends < run.target;
  if (ending) h = ends - t;
  if (run.steps + run.rejected >= settings.maxSteps) {
    return fail(run, `${settings.maxSteps} steps were not enough: gave up at t = ${t}`);
  }
  run.step.size = h;
  run.step.until = ending ? ends : !landing ? t + h : run.breakpoint < 0 ? run.target : justBefore(run.target);
  run.step.horizon = t + h - settings.start + 1e-3 * (settings.end - settings.start);
  run.quintic.fitted = false;
  run.step.attempt(run.mode);
  const refused = !(run.step.error <= 1);
  if (refused && !mayBeCut(run)) return reject(run);
  lookAtEnd(run);

  run.step.dense(run.track.dense, denseOffset(run.track));
  const fired = run.guards === null ? -1 : inspectGuards(run.guards, run.mode, run.track.dense, denseOffset(run.track));
  if (run.guards !== null && run.guards.invalid >= 0) return rejectGuard(run, run.guards);
  if (refused && !(fired >= 0 && keeps(run, guardsOf(run).x))) return reject(run);
  if (fired < 0 || guardsOf(run).late) {
    control(run);
    if (takeStep(run) && fired < 0) {
      if (run.guards !== null) advanceGuards(run.guards);
      if (landing && !ending) land(run);
    } else if (run.status === 'running') {
      run.lateSwitches++;
      restart(run, fired);
      estimate(run);
    }
  } else if (!cutAt(run, fired)) {
    reject(run);
  } else {
    const { mode } = run;
    if (!takeStep(run)) return;
    restart(run, fired);
    if (run.system.alike?.(mode, run.mode) !== true) estimate(run);
  }
}

/** Step size after an accepted step. */
function control(run: Run): void {
  const error = elementary.log(Math.max(run.step.error, LEAST_ERROR));
  // The first step of a run has no error of before to go by; past a switch the careful growth pays, what changes fast there hides from estimates.
  const beta = run.estimated && run.steps === 0 ? 0 : BETA;
  const growth = elementary.exp(SAFETY + beta * run.memory - (1 / run.step.power - 0.75 * beta) * error);
  const most = run.afterRejection ? 1 : run.estimated ? GROW_ESTIMATED : GROW;
  run.estimated = false;
  // A step that was shortened to hit a time says little about a longer one: never propose less than before.
  const next = run.step.size * Math.min(most, Math.max(SHRINK, growth));
  run.proposed = run.step.size < run.proposed && next < run.proposed && growth >= 1 ? run.proposed : next;
  run.memory = Math.max(error, LEAST_MEMORY);
  run.afterRejection = false;
}

function reject(run: Run): void {
  run.rejected++;
  const usable = run.step.error < Infinity;
  const growth = usable ? elementary.exp(SAFETY - elementary.log(run.step.error) / run.step.power) : SHRINK;
  run.proposed = run.step.size * Math.min(0.9, Math.max(SHRINK, growth));
  run.afterRejection = true;
  if (run.proposed > smallest(run)) return;
  const cause = usable ? 'the error stays above the tolerance' : causeOfBadStep(run);
  fail(run, `the step became too small at t = ${run.start[run.n]}: ${cause}`);
}

/** Behind the end of a mode its guards may mean nothing: a step that goes past both is taken back, to see the end first. */
function rejectGuard(run: Run, guards: GuardWatch): void {
  const shorter = SHRINK * run.step.size;
  if (shorter <= smallest(run)) return failGuard(run, run.step.until);
  guards.invalid = -1;
  run.rejected++;
  run.proposed = shorter;
  run.afterRejection = true;
}

/** Stores the end of the step as a node and makes it the start. False if a level stopped the run inside. */
function takeStep(run: Run): boolean {
  if (run.step.size === 0) return true;
  run.steps++;
  const k = run.track.nodes - 1;
  const passes = passedLevels(run.levels, run.mode, run.track.dense, denseOffset(run.track));
  for (let p = 0; p < passes.length; p++) {
    const pass = item(passes, p);
    evaluateQuintic(run.quintic, pass.x, run.values);
    const event = note(run, 'level', pass.level, run.start[run.n]! + pass.x * run.step.size, k);
    if (run.settings.levels[pass.level]!.action === 'stop') {
      stopAt(run, pass.x, event);
      return false;
    }
  }
  pushEnd(run.track, run.step, run.mode);
  keepStep(run.quintic);
  run.step.advance();
  return true;
}

/** Past a switch the rates may change much faster than before it: the step to come is no longer than they allow. */
function estimate(run: Run): void {
  if (run.status !== 'running') return;
  run.afterRejection = false;
  const smooth = run.system.smooth?.(run.mode) === true;
  // One step to where the mode is known to end.
  if (smooth && (run.system.until?.(run.mode) ?? Infinity) <= run.start[run.n]! + run.proposed) return;
  const first = firstStep(run, smooth ? SMOOTH_LENGTH : SWITCHED_LENGTH);
  if (first >= run.proposed) return;
  run.proposed = first;
  run.estimated = true;
}

/**
 * First step after Hairer, Norsett, Wanner I, section II.4, with the scales in place of the size of the states, and from the second
 * derivatives alone: what goes straight from rest on does not ask for a short step, however large its rate is against its size.
 * @param length how much longer it is than there.
 */
function firstStep(run: Run, length: number): number {
  const span = run.settings.end - run.settings.start;
  const slope = largest(run, run.startRates);
  const guess = Math.min(slope > 0 ? 0.01 / slope : 1e-3 * span, span, run.settings.maxStep);
  for (let i = 0; i < run.n; i++) run.probe[i] = run.start[i]! + guess * run.startRates[i]!;
  run.probe[run.n] = run.start[run.n]! + guess;
  run.system.rates(run.mode, run.probe, run.endRates);
  run.step.evaluations += 1;
  if (!finite(run.endRates)) return guess * 1e-2;
  if (run.guards !== null) lookAhead(run.guards, run.mode, run.probe, guess);
  for (let i = 0; i < run.n; i++) run.endRates[i] = (run.endRates[i]! - run.startRates[i]!) / guess;
  const bend = Math.sqrt(largest(run, run.endRates));
  if (bend === 0) return span;
  const power = 1 / run.step.power;
  return Math.min(AHEAD * guess, (length * elementary.pow(FIRST_SHARE * run.settings.tolerance, power)) / bend, span);
}

/** The largest rate of a state against its size; at the start of a run of one that something depends on. */
function largest(run: Run, rates: Float64Array): number {
  const { unfelt } = run.system;
  const first = run.steps === 0;
  let most = 0;
  for (let i = 0; i < run.n; i++) {
    if (first && unfelt?.includes(i) === true) continue;
    most = Math.max(most, Math.abs(rates[i]!) / Math.max(Math.abs(run.start[i]!), run.system.scales[i]!));
  }
  return most;
}

/** What stands in the way of a step whose numbers are not finite: the first bad rate a little ahead. */
function causeOfBadStep(run: Run): string {
  for (let i = 0; i < run.n; i++) run.probe[i] = run.start[i]! + run.step.size * run.startRates[i]!;
  run.probe[run.n] = run.step.until;
  run.system.rates(run.mode, run.probe, run.endRates);
  const bad = run.endRates.findIndex(rate => !Number.isFinite(rate));
  return bad < 0 ? 'a rate is not finite just after' : `rate ${bad} is ${run.endRates[bad]} just after`;
}
