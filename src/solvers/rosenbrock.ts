/** The integrator for stiff systems: the Rosenbrock method RODAS 4(3), with the switches and events of the fast one. */
import { nth } from '../columns.ts';
import { createIntegrator } from './integrate.ts';
import { decompose, substitute } from './linear.ts';
import { RODAS } from './rodas.ts';
import type { Step } from './step.ts';
import type { Solve, SwitchedSystem } from './system.ts';

/** Integrates once; the solution owns its arrays. */
export const solveRosenbrock: Solve = (system, options) => createIntegrator(system, each => new Rodas(each))(options);

const STAGES = 6;
/** Relative increment of the one-sided differences: the square root of the rounding unit. */
const INCREMENT = 2 ** -26;

/**
 * The step. The Jacobian is taken by one-sided differences at the start of each step, over the states and the time, leaving out what
 * no rate depends on; the quadratures feed back into nothing, so only the states need a linear system. Errors are weighed as in
 * `explicit.ts`. Doubles start as NaN to be kept unboxed.
 */
export class Rodas implements Step {
  readonly power = 4;
  tolerance = Number.NaN;
  size = Number.NaN;
  until = Number.NaN;
  horizon = Number.NaN;
  error = Number.NaN;
  evaluations = 0;
  readonly system: SwitchedSystem;
  /** States; states and quadratures. */
  readonly n: number;
  readonly all: number;
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;
  readonly gained: Float64Array;
  readonly y: Float64Array;
  readonly rates: Float64Array;
  readonly peaks: Float64Array;
  /** Row by row, a row for each state and quadrature: derivatives with the states, then with the time. */
  readonly jacobian: Float64Array;
  readonly matrix: Float64Array;
  readonly pivots: Int32Array;
  /** The six vectors u, one after the other. */
  readonly u: Float64Array;
  /** Whether the Jacobian is that of the start of the step, and whether the rates depend on the time there. */
  known = false;
  timed = true;

  /** @param shared a step whose memory of both ends this one takes for its own. */
  constructor(system: SwitchedSystem, shared?: Step) {
    const n = system.states;
    const all = n + system.quadratures;
    this.system = system;
    this.n = n;
    this.all = all;
    this.start = shared?.start ?? new Float64Array(n + 1);
    this.end = shared?.end ?? new Float64Array(n + 1);
    this.startRates = shared?.startRates ?? new Float64Array(all);
    this.endRates = shared?.endRates ?? new Float64Array(all);
    this.gained = shared?.gained ?? new Float64Array(all - n);
    this.y = new Float64Array(n + 1);
    this.rates = new Float64Array(all);
    this.peaks = new Float64Array(all - n);
    this.jacobian = new Float64Array(all * (n + 1));
    this.matrix = new Float64Array(n * n);
    this.pivots = new Int32Array(n);
    this.u = new Float64Array(STAGES * all);
  }

  reset(): void {
    for (let j = 0; j < this.all - this.n; j++) this.peaks[j] = this.system.scales[this.n + j] ?? 0;
    this.evaluations = 0;
  }

  begin(mode: number): void {
    this.system.rates(mode, this.start, this.startRates);
    this.evaluations += 1;
    this.known = false;
  }

  attempt(mode: number): void {
    attempt(this, mode);
  }

  advance(): void {
    this.start.set(this.end);
    this.startRates.set(this.endRates);
    this.known = false;
  }

  dense(out: Float64Array, offset: number): void {
    dense(this, out, offset);
  }
}

function attempt(step: Rodas, mode: number): void {
  const { system, n, all, size: h, jacobian, matrix, pivots, y, u, end, endRates } = step;
  if (!step.known) differentiate(step, mode);
  const diagonal = 1 / (RODAS.GAMMA * h);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) matrix[i * n + j] = (i === j ? diagonal : 0) - jacobian[i * (n + 1) + j]!;
  }
  if (!decompose(matrix, n, pivots)) {
    step.error = Number.NaN;
    return;
  }
  for (let s = 0; s < STAGES; s++) stage(step, mode, s);
  const last = (STAGES - 1) * all;
  for (let i = 0; i < n; i++) end[i] = y[i]! + u[last + i]!;
  end[n] = step.until;
  system.rates(mode, end, endRates);
  step.evaluations += STAGES;
  measure(step);
}

function differentiate(step: Rodas, mode: number): void {
  const { system, n, all, start, startRates, y, rates, jacobian } = step;
  const { scales, unfelt } = system;
  step.timed = system.timed?.(mode) ?? true;
  for (let i = 0; i <= n; i++) y[i] = start[i]!;
  for (let j = 0; j <= n; j++) {
    if (j === n ? !step.timed : unfelt !== undefined && unfelt.includes(j)) continue;
    const size = j < n ? Math.max(Math.abs(start[j]!), scales[j]!) : Math.max(Math.abs(start[n]!), step.size);
    // The increment as it is after rounding.
    y[j] = start[j]! + INCREMENT * size;
    const increment = y[j]! - start[j]!;
    system.rates(mode, y, rates);
    y[j] = start[j]!;
    for (let i = 0; i < all; i++) jacobian[i * (n + 1) + j] = (rates[i]! - startRates[i]!) / increment;
    step.evaluations += 1;
  }
  step.known = true;
}

/** Weights of the stages in rows of `STAGES`, and one row divided by the step. */
const WEIGHTS_A = rowsOf(RODAS.A);
const WEIGHTS_C = rowsOf(RODAS.C);
const perStep = new Float64Array(STAGES);

function rowsOf(rows: readonly (readonly number[])[]): Float64Array {
  const flat = new Float64Array(STAGES * STAGES);
  rows.forEach((row, s) => flat.set(row, s * STAGES));
  return flat;
}

/** Places are right here by construction. */
function weight(row: Float64Array, place: number): number {
  return row[place] ?? Number.NaN;
}

/** Solves for u of one stage; leaves its argument in `y`. */
function stage(step: Rodas, mode: number, s: number): void {
  const { system, n, all, size: h, start, startRates, y, rates, u, jacobian, matrix, pivots } = step;
  const width = n + 1;
  const here = s * all;
  const row = s * STAGES;
  for (let i = 0; i < n; i++) {
    let value = start[i]!;
    for (let k = 0; k < s; k++) value += weight(WEIGHTS_A, row + k) * u[k * all + i]!;
    y[i] = value;
  }
  const node = nth(RODAS.ALPHA, s);
  y[n] = node === 1 ? step.until : start[n]! + node * h;
  if (s > 0) system.rates(mode, y, rates);
  const from = s > 0 ? rates : startRates;
  const drift = step.timed ? nth(RODAS.TIME, s) * h : 0;
  for (let k = 0; k < s; k++) perStep[k] = weight(WEIGHTS_C, row + k) / h;
  for (let i = 0; i < all; i++) {
    let value = from[i]!;
    if (drift !== 0) value += drift * jacobian[i * width + n]!;
    for (let k = 0; k < s; k++) value += weight(perStep, k) * u[k * all + i]!;
    u[here + i] = value;
  }
  substitute(matrix, n, pivots, u, here);
  const scale = RODAS.GAMMA * h;
  for (let i = n; i < all; i++) {
    let value = u[here + i]!;
    for (let k = 0; k < n; k++) value += jacobian[i * width + k]! * u[here + k]!;
    u[here + i] = scale * value;
  }
}

/** Error of the step, the u of the last stage, and gain of the quadratures. */
function measure(step: Rodas): void {
  const { system, n, all, start, end, startRates, endRates, u, gained, peaks } = step;
  const { scales } = system;
  const last = (STAGES - 1) * all;
  const row = (STAGES - 1) * STAGES;
  let worst = 0;
  let poison = 0;
  for (let i = 0; i < n; i++) {
    const error = Math.abs(u[last + i]!);
    worst = Math.max(worst, error / Math.max(Math.abs(start[i]!), Math.abs(end[i]!), scales[i]!));
    poison += end[i]! - end[i]!;
  }
  for (let i = n; i < all; i++) {
    const error = u[last + i]!;
    let gain = error;
    for (let k = 0; k < STAGES - 1; k++) gain += weight(WEIGHTS_A, row + k) * u[k * all + i]!;
    gained[i - n] = gain;
    const peak = Math.max(peaks[i - n]!, Math.abs(startRates[i]!), Math.abs(endRates[i]!));
    peaks[i - n] = peak;
    if (error !== 0) worst = Math.max(worst, Math.abs(error) / (peak * step.horizon));
  }
  for (let i = 0; i < all; i++) poison += endRates[i]! - endRates[i]!;
  step.error = worst / step.tolerance + poison;
}

const WEIGHTS_D2 = Float64Array.from(RODAS.D2);
const WEIGHTS_D3 = Float64Array.from(RODAS.D3);

function dense({ all, u }: Rodas, out: Float64Array, offset: number): void {
  for (let i = 0, o = offset; i < all; i++, o += 3) {
    let a2 = 0;
    let a3 = 0;
    for (let k = 0; k < STAGES - 1; k++) {
      const value = u[k * all + i]!;
      a2 += weight(WEIGHTS_D2, k) * value;
      a3 += weight(WEIGHTS_D3, k) * value;
    }
    out[o] = a2;
    out[o + 1] = a3;
    out[o + 2] = 0;
  }
}
