/**
 * Drives a one-step method over a switched system: step control, switches, levels, breakpoints, nodes. What the method
 * is does not matter here; see `step.ts`.
 */
import type { GuardWatch } from './guards.ts';
import { createGuardWatch } from './guards.ts';
import type { LevelWatch } from './levels.ts';
import { createLevelWatch } from './levels.ts';
import { createQuintic } from './quintic.ts';
import type { Settings } from './settings.ts';
import { CHATTER_COUNT, CHATTER_SPAN, justBefore, readSettings } from './settings.ts';
import type { Method } from './step.ts';
import type { Solution, SolveEvent, SolveOptions, SolveStatus, SwitchedSystem } from './system.ts';
import { createTrack } from './track.ts';

/** Step control after Hairer, Norsett, Wanner I, section IV.2 (PI, beta 0.04 as in their DOPRI5). */
const SAFETY = Math.log(0.9);
const BETA = 0.04;
const GROW = 10;
const SHRINK = 0.2;
/** A step is lost below this share of the time, or of a thousandth of the whole span. */
const SMALLEST = 4e-15;
/** After the step is repeated up to a switch, the guard is aimed this far past zero, against its values at the ends. */
const PAST = 1e-13;

/** What changes during a run. Doubles start as NaN to be kept unboxed. */
interface Run {
  settings: Settings;
  status: SolveStatus | 'running';
  reason: string;
  mode: number;
  /** Step to try next, and the logarithm of the last accepted error. */
  proposed: number;
  memory: number;
  /** Whether the last step was rejected. */
  afterRejection: boolean;
  /** Time to stop at next, and the index of its breakpoint, -1 for the end of the run. */
  target: number;
  breakpoint: number;
  steps: number;
  rejected: number;
  switches: number;
  lateSwitches: number;
  chatterCount: number;
  chatterStart: number;
}

/** Makes an integrator that uses its memory again in every run: a solution is valid until the next. */
export function createIntegrator(system: SwitchedSystem, method: Method): (options: SolveOptions) => Solution {
  const n = system.states;
  const all = n + system.quadratures;
  const step = method(system);
  const { start, end, startRates, endRates, gained } = step;
  const track = createTrack(n, system.quadratures);
  const guards: GuardWatch | null = system.guards > 0 ? createGuardWatch(system, step) : null;
  const quintic = createQuintic(system, step);
  const levels: LevelWatch = createLevelWatch(step, quintic);
  const values = new Float64Array(all);
  const probe = new Float64Array(n + 1);
  /** States and integrals of the events to come, several in one block of memory. */
  let notes = new Float64Array(0);
  let noted = 0;
  const run: Run = {
    settings: undefined as unknown as Settings,
    status: 'running',
    reason: '',
    mode: 0,
    proposed: Number.NaN,
    memory: Number.NaN,
    afterRejection: false,
    target: Number.NaN,
    breakpoint: -1,
    steps: 0,
    rejected: 0,
    switches: 0,
    lateSwitches: 0,
    chatterCount: 0,
    chatterStart: Number.NaN,
  };

  return options => {
    open(readSettings(system, options), options);
    while (run.status === 'running') advance();
    return track.finish(run.status, run.reason, {
      steps: run.steps,
      rejected: run.rejected,
      evaluations: step.evaluations,
      switches: run.switches,
      lateSwitches: run.lateSwitches,
    });
  };

  function open(settings: Settings, options: SolveOptions): void {
    run.settings = settings;
    run.status = 'running';
    run.reason = '';
    run.mode = options.mode;
    run.steps = run.rejected = run.switches = run.lateSwitches = run.chatterCount = 0;
    run.memory = Math.log(1e-4);
    run.afterRejection = false;
    run.chatterStart = settings.start;
    run.proposed = settings.firstStep;
    run.breakpoint = -1;
    step.reset();
    step.tolerance = settings.tolerance;
    for (let i = 0; i < n; i++) start[i] = options.initial[i]!;
    start[n] = settings.start;
    track.clear();
    track.push(start, run.mode);
    levels.reset(settings.levels);
    aim();
    step.begin(run.mode);
    if (!finite(startRates) || !finite(start)) {
      fail(`${firstBad()} at the start, t = ${settings.start}`);
    } else if (settings.end === settings.start) {
      run.status = 'end';
    } else {
      const given = run.proposed > 0;
      if (!given) run.proposed = 1e-3 * (settings.end - settings.start);
      if (guards !== null) restart(-1);
      if (!given && run.status === 'running') run.proposed = firstStep();
    }
  }

  /** Sets the next time to stop at: the next breakpoint inside the run, or its end. */
  function aim(): void {
    const { breakpoints } = run.settings;
    let next = run.breakpoint < 0 ? 0 : run.breakpoint + 1;
    while (next < breakpoints.length && breakpoints[next]! <= start[n]!) next++;
    const inside = next < breakpoints.length && breakpoints[next]! < run.settings.end;
    run.breakpoint = inside ? next : -1;
    run.target = inside ? breakpoints[next]! : run.settings.end;
  }

  function advance(): void {
    const { settings } = run;
    const t = start[n]!;
    const left = run.target - t;
    if (left <= smallest()) return land();
    let h = run.proposed < settings.maxStep ? run.proposed : settings.maxStep;
    const landing = 1.01 * h >= left;
    if (landing) h = left;
    if (run.steps + run.rejected >= settings.maxSteps) {
      return fail(`${settings.maxSteps} steps were not enough: gave up at t = ${t}`);
    }
    step.size = h;
    step.until = !landing ? t + h : run.breakpoint < 0 ? run.target : justBefore(run.target);
    step.horizon = t + h - settings.start + 1e-3 * (settings.end - settings.start);
    step.attempt(run.mode);
    if (!(step.error <= 1)) return reject();

    step.dense(track.dense, track.offset());
    const fired = guards === null ? -1 : guards.inspect(run.mode, track.dense, track.offset());
    if (guards !== null && guards.invalid >= 0) return failGuard(step.until);
    if (fired < 0 || guards!.late) {
      control();
      if (takeStep() && fired < 0) {
        if (guards !== null) guards.advance();
        if (landing) land();
      } else if (run.status === 'running') {
        run.lateSwitches++;
        restart(fired);
      }
    } else if (!cutAt(fired)) {
      reject();
    } else if (takeStep()) {
      restart(fired);
    }
  }

  /** Step size after an accepted step. */
  function control(): void {
    const error = Math.log(Math.max(step.error, 1e-10));
    const growth = Math.exp(SAFETY + BETA * run.memory - (1 / step.power - 0.75 * BETA) * error);
    const most = run.afterRejection ? 1 : GROW;
    // A step that was shortened to hit a time says little about a longer one: never propose less than before.
    const next = step.size * Math.min(most, Math.max(SHRINK, growth));
    run.proposed = step.size < run.proposed && next < run.proposed && growth >= 1 ? run.proposed : next;
    run.memory = Math.max(error, Math.log(1e-4));
    run.afterRejection = false;
  }

  function reject(): void {
    run.rejected++;
    const usable = step.error < Infinity;
    const growth = usable ? Math.exp(SAFETY - Math.log(step.error) / step.power) : SHRINK;
    run.proposed = step.size * Math.min(0.9, Math.max(SHRINK, growth));
    run.afterRejection = true;
    if (run.proposed > smallest()) return;
    const cause = usable ? 'the error stays above the tolerance' : causeOfBadStep();
    fail(`the step became too small at t = ${start[n]}: ${cause}`);
  }

  function smallest(): number {
    const { settings } = run;
    return SMALLEST * Math.max(Math.abs(start[n]!), 1e-3 * (settings.end - settings.start));
  }

  /**
   * Repeats the step up to the root of a guard, then moves its end along the slope by what the guard still is off there.
   * The shorter step needs no error test. False if it can not be used.
   */
  function cutAt(fired: number): boolean {
    const watch = guards!;
    const whole = step.size;
    const size = watch.x * whole;
    if (size <= smallest()) {
      // The guard was positive at the start by rounding only: the switch is there.
      step.size = 0;
      end.set(start);
      gained.fill(0);
      return true;
    }
    step.size = size;
    step.until = start[n]! + size;
    step.attempt(run.mode);
    if (!(step.error < Infinity)) return false;
    const value = watch.atEnd(run.mode, fired);
    const slope = watch.slope / whole;
    const shift = (value + PAST * Math.abs(watch.slope)) / -slope;
    if (Math.abs(shift) < 1e-2 * size && start[n]! + size + shift > start[n]!) {
      for (let i = 0; i < n; i++) end[i] = end[i]! + shift * endRates[i]!;
      for (let i = n; i < all; i++) gained[i - n] = gained[i - n]! + shift * endRates[i]!;
      step.size = size + shift;
      step.until = end[n] = start[n]! + step.size;
    }
    step.dense(track.dense, track.offset());
    return true;
  }

  /** Stores the end of the step as a node and makes it the start. False if a level stopped the run inside. */
  function takeStep(): boolean {
    if (step.size === 0) return true;
    run.steps++;
    const k = track.nodes - 1;
    const passes = levels.passed(run.mode, track.dense, track.offset());
    for (const pass of passes) {
      quintic.evaluate(pass.x, values);
      const event = note('level', pass.level, start[n]! + pass.x * step.size, k);
      if (run.settings.levels[pass.level]!.action === 'stop') {
        stopAt(pass.x, event);
        return false;
      }
    }
    track.pushEnd(step, run.mode);
    step.advance();
    return true;
  }

  /** Adds an event whose states and gains since node `k` stand in `values`. */
  function note(kind: SolveEvent['kind'], index: number, time: number, k: number, to = run.mode): SolveEvent {
    // Made a number at a time these small arrays would cost more than the step they stand in.
    if (noted + all > notes.length) {
      notes = new Float64Array(16 * all);
      noted = 0;
    }
    for (let j = 0; j < n; j++) notes[noted + j] = values[j]!;
    for (let j = n; j < all; j++) notes[noted + j] = values[j]! + track.integrals[k * (all - n) + j - n]!;
    const states = notes.subarray(noted, noted + n);
    const integrals = notes.subarray(noted + n, noted + all);
    noted += all;
    const event = { kind, index, time, states, integrals, from: run.mode, to };
    track.events.push(event);
    return event;
  }

  /** Ends the run inside the step. A polynomial of degree 4 cut at `x` is one again: its new coefficients in closed form. */
  function stopAt(x: number, event: SolveEvent): void {
    run.status = 'level';
    const dense = track.dense;
    for (let i = 0, o = track.offset(); i < all; i++, o += 3) {
      const rise = i < n ? end[i]! - start[i]! : gained[i - n]!;
      const [a2, a3, a4] = [dense[o]!, dense[o + 1]!, dense[o + 2]!];
      const [b1, b2, b3] = [rise + a2, a3 + a4 - a2, -a3 - 2 * a4];
      const value = x * (b1 + x * (b2 + x * (b3 + x * a4)));
      const slope = x * (b1 + x * (2 * b2 + x * (3 * b3 + x * 4 * a4)));
      dense[o] = x * b1 - value;
      dense[o + 1] = value - slope - dense[o]!;
      dense[o + 2] = a4 * x ** 4;
    }
    for (let j = n; j < all; j++) gained[j - n] = values[j]!;
    end.set(event.states);
    end[n] = event.time;
    track.pushEnd(step, run.mode);
  }

  /** At a target: the end, or a breakpoint, whose time is copied and whose rates are evaluated afresh. */
  function land(): void {
    const k = track.nodes - 1;
    start[n] = track.times[k] = run.target;
    if (run.breakpoint < 0) {
      run.status = 'end';
      return;
    }
    values.fill(0);
    values.set(start.subarray(0, n));
    note('break', run.breakpoint, run.target, k);
    aim();
    step.begin(run.mode);
    if (!finite(startRates)) return fail(`${firstBad()} at the breakpoint t = ${start[n]}`);
    if (guards !== null) restart(guards.broken(run.mode));
  }

  /**
   * Calls `switched` for a guard that fired at `start` (-1: none, only begin the mode) and begins the next mode; then
   * for any guard that is not positive there and falling, up to one for each guard, so that a chain of switches at one
   * instant is resolved there but two modes that pass the state to and fro do not hang the run.
   */
  function restart(fired: number): void {
    const watch = guards!;
    for (let chain = 0; ; chain++) {
      if (fired >= 0) {
        switchOver(fired);
        if (run.status !== 'running') return;
        step.begin(run.mode);
        if (!finite(startRates)) return fail(`${firstBad()} after guard ${fired} fired at t = ${start[n]}`);
      }
      watch.begin(run.mode);
      if (watch.invalid >= 0) return failGuard(start[n]!);
      if (chain > system.guards) return;
      fired = watch.falling(run.mode, 1e-4 * Math.min(run.proposed, run.settings.maxStep, run.target - start[n]!));
      if (fired < 0) return;
    }
  }

  function switchOver(fired: number): void {
    const k = track.nodes - 1;
    const t = start[n]!;
    values.fill(0);
    values.set(start.subarray(0, n));
    end.set(start);
    const next = system.switched === undefined ? run.mode : system.switched(run.mode, fired, start);
    start[n] = t;
    run.switches++;
    const before = note('switch', fired, t, k, next).states;
    if (next >= 0) run.mode = next;
    else run.status = 'switched';
    if (before.some((value, i) => value !== start[i])) {
      track.push(start, run.mode);
      for (const pass of levels.jumped(end, start)) {
        note('level', pass.level, t, k);
        if (run.settings.levels[pass.level]!.action === 'stop') run.status = 'level';
      }
    } else track.modes[k] = run.mode;
    if (!finite(start)) fail(`guard ${fired} set a state to a value that is not finite at t = ${t}`);
    countChatter(fired, t);
  }

  function countChatter(fired: number, t: number): void {
    const { settings } = run;
    if (++run.chatterCount < CHATTER_COUNT) return;
    if (t - run.chatterStart < CHATTER_SPAN * (settings.end - settings.start)) {
      fail(
        `${CHATTER_COUNT} switches within ${t - run.chatterStart} of time up to t = ${t}, the last by guard ${fired}`,
      );
    }
    run.chatterCount = 0;
    run.chatterStart = t;
  }

  /** First step after Hairer, Norsett, Wanner I, section II.4, with the scales in place of the size of the states. */
  function firstStep(): number {
    const span = run.settings.end - run.settings.start;
    const slope = largest(startRates);
    const guess = Math.min(slope > 0 ? 0.01 / slope : 1e-3 * span, span, run.settings.maxStep);
    for (let i = 0; i < n; i++) probe[i] = start[i]! + guess * startRates[i]!;
    probe[n] = start[n]! + guess;
    system.rates(run.mode, probe, endRates);
    step.evaluations += 1;
    if (!finite(endRates)) return guess * 1e-2;
    for (let i = 0; i < n; i++) endRates[i] = (endRates[i]! - startRates[i]!) / guess;
    const steepest = Math.max(slope, Math.sqrt(largest(endRates)));
    if (steepest === 0) return span;
    const power = 1 / step.power;
    return Math.min(100 * guess, (0.01 * run.settings.tolerance) ** power / steepest, span);
  }

  /** The largest rate of a state against its size. */
  function largest(rates: Float64Array): number {
    let most = 0;
    for (let i = 0; i < n; i++) {
      most = Math.max(most, Math.abs(rates[i]!) / Math.max(Math.abs(start[i]!), system.scales[i]!));
    }
    return most;
  }

  /** What stands in the way of a step whose numbers are not finite: the first bad rate a little ahead. */
  function causeOfBadStep(): string {
    for (let i = 0; i < n; i++) probe[i] = start[i]! + step.size * startRates[i]!;
    probe[n] = step.until;
    system.rates(run.mode, probe, endRates);
    const bad = endRates.findIndex(rate => !Number.isFinite(rate));
    return bad < 0 ? 'a rate is not finite just after' : `rate ${bad} is ${endRates[bad]} just after`;
  }

  /** The first number at the start that is not finite, in words. */
  function firstBad(): string {
    const state = start.findIndex(value => !Number.isFinite(value));
    if (state >= 0) return `state ${state} is ${start[state]}`;
    const rate = startRates.findIndex(value => !Number.isFinite(value));
    return `rate ${rate} is ${startRates[rate]}`;
  }

  function failGuard(t: number): void {
    fail(`guard ${guards!.invalid} is not a number at t = ${t}`);
  }

  function fail(reason: string): void {
    run.status = 'failed';
    run.reason = reason;
  }
}

function finite(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i]!)) return false;
  return true;
}
