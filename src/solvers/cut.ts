/** Ends a step inside: at a switch, or at a level that stops the run. */
import * as elementary from '../elementary.ts';
import { evaluateAt, guardAtEnd, roughlyPassed } from './guards.ts';
import type { GuardWatch } from './guard-watch.ts';
import { guardsOf, lookAtEnd, lookAtNode, smallest } from './integration.ts';
import type { Run } from './integration.ts';
import { cutQuintic, defectAt, evaluateQuintic, fitQuintic } from './quintic.ts';
import type { SolveEvent } from './system.ts';
import { denseOffset, pushEnd } from './track.ts';

/** Where a step is cut at a switch the guard is aimed this far past zero, against its values at the ends. */
const PAST = 1e-13;

/**
 * Of the tolerance: by how much the polynomial of a step may leave the equations where the step is cut on it. By trial over 300 cars: from
 * a tenth to a whole, calls of the rates are saved as fast as the times of marks become worse.
 */
const DEFECT = 0.25;

/**
 * Tolerances: a step that is refused but off by less than the first may still be cut at a guard, where up to there it is off by no more than
 * the second. Our own choice, no source.
 */
const WORTH_A_LOOK = 4;
const GOOD_ENOUGH = 0.3;

/** Whether the part of the step just tried up to `x` is good enough, whatever the whole one is off by: that goes with its fifth power. */
export function keeps({ step }: Run, x: number): boolean {
  return step.error < WORTH_A_LOOK && step.error * elementary.pow(x, 5) <= GOOD_ENOUGH;
}

/** Whether a step that is refused passes a guard so early that it is worth a look. */
export function mayBeCut(run: Run): boolean {
  return run.guards !== null && run.step.error < WORTH_A_LOOK && keeps(run, roughlyPassed(run.guards, run.mode));
}

/**
 * Ends the step at the root of a guard. False if it can not be used: a guard may stand where the rates go with a root, and the longer
 * step may have hidden that.
 */
export function cutAt(run: Run, fired: number): boolean {
  const watch = guardsOf(run);
  if (watch.x === 1) return true;
  const size = watch.x * run.step.size;
  if (size <= smallest(run)) {
    // The guard was positive at the start by rounding only: the switch is there.
    run.step.size = 0;
    run.end.set(run.start);
    run.gained.fill(0);
    return true;
  }
  return cutOnPolynomial(run, watch, fired) || repeatUpTo(run, watch, fired);
}

/**
 * Takes the step just tried as far as the root, on its polynomial, whose states are as good there as nodes. That the longer step hid nothing
 * is seen by the rates at the root: there the polynomial still has to solve the equations.
 */
function cutOnPolynomial(run: Run, watch: GuardWatch, fired: number): boolean {
  const { step, quintic, values, n } = run;
  if (step.stiff) return false;
  fitQuintic(quintic, run.mode, run.track.dense, denseOffset(run.track));
  if (watch.lastLook !== watch.x) evaluateAt(watch, run.mode, run.track.dense, denseOffset(run.track), watch.x);
  if (!(defectAt(quintic, watch.x, watch.rates) <= DEFECT * step.tolerance)) return false;
  const shift = (watch.here[fired]! + PAST * Math.abs(watch.slope)) / -watch.slope;
  if (!(Math.abs(shift) < 1e-2 * watch.x)) return false;
  lookAtEnd(run);
  const x = watch.x + shift;
  evaluateQuintic(quintic, x, values);
  cutDense(run, x);
  cutQuintic(quintic, x);
  for (let i = 0; i < n; i++) run.end[i] = values[i]!;
  run.endRates.set(watch.rates);
  step.size *= x;
  step.until = run.end[n] = run.start[n]! + step.size;
  return true;
}

/** Repeats the step up to the root of a guard, then moves its end along the slope by what the guard still is off there. */
function repeatUpTo(run: Run, watch: GuardWatch, fired: number): boolean {
  const whole = run.step.size;
  const size = watch.x * whole;
  run.quintic.fitted = false;
  run.step.size = size;
  run.step.until = run.start[run.n]! + size;
  run.step.attempt(run.mode);
  if (!(run.step.error <= 1)) return false;
  lookAtEnd(run);
  const value = guardAtEnd(watch, run.mode, fired);
  const slope = watch.slope / whole;
  const shift = (value + PAST * Math.abs(watch.slope)) / -slope;
  if (Math.abs(shift) < 1e-2 * size && run.start[run.n]! + size + shift > run.start[run.n]!) {
    for (let i = 0; i < run.n; i++) run.end[i] = run.end[i]! + shift * run.endRates[i]!;
    for (let i = run.n; i < run.all; i++) run.gained[i - run.n] = run.gained[i - run.n]! + shift * run.endRates[i]!;
    run.step.size = size + shift;
    run.step.until = run.end[run.n] = run.start[run.n]! + run.step.size;
  }
  run.step.dense(run.track.dense, denseOffset(run.track));
  return true;
}

/** A polynomial of degree 4 cut at `x` is one again: its new coefficients in closed form. What was gained by then stands in `values`. */
function cutDense(run: Run, x: number): void {
  const dense = run.track.dense;
  for (let i = 0, o = denseOffset(run.track); i < run.all; i++, o += 3) {
    const rise = i < run.n ? run.end[i]! - run.start[i]! : run.gained[i - run.n]!;
    const a2 = dense[o]!;
    const a3 = dense[o + 1]!;
    const a4 = dense[o + 2]!;
    const b1 = rise + a2;
    const b2 = a3 + a4 - a2;
    const b3 = -a3 - 2 * a4;
    const value = x * (b1 + x * (b2 + x * (b3 + x * a4)));
    const slope = x * (b1 + x * (2 * b2 + x * (3 * b3 + x * 4 * a4)));
    dense[o] = x * b1 - value;
    dense[o + 1] = value - slope - (x * b1 - value);
    dense[o + 2] = a4 * elementary.pow(x, 4);
  }
  for (let j = run.n; j < run.all; j++) run.gained[j - run.n] = run.values[j]!;
}

/** Ends the run inside the step. */
export function stopAt(run: Run, x: number, event: SolveEvent): void {
  run.status = 'level';
  cutDense(run, x);
  run.end.set(event.states);
  run.end[run.n] = event.time;
  pushEnd(run.track, run.step, run.mode);
  if (run.system.look === undefined) return;
  run.system.rates(run.mode, run.end, run.endRates);
  run.step.evaluations += 1;
  lookAtNode(run);
}
