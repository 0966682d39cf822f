/** The integrator for stiff systems: the Rosenbrock method Rodas5P 5(4), with the switches and events of the fast one. */
import type { Pair } from './explicit.ts';
import { createIntegrator } from './integrate.ts';
import { decompose, substitute } from './linear.ts';
import { RODAS } from './rodas.ts';
import type { Step } from './step.ts';
import type { Solve, SwitchedSystem } from './system.ts';

/** Integrates once; the solution owns its arrays. */
export const solveRosenbrock: Solve = (system, options) => createIntegrator(system, each => new Rodas(each))(options);

const STAGES = 8;
const LAST = STAGES - 1;
/** Relative increment of the one-sided differences: the square root of the rounding unit. */
const INCREMENT = 2 ** -26;

/**
 * The step. The Jacobian is taken by one-sided differences at the start of each step, over the states and the time, leaving out what
 * no rate depends on; the quadratures feed back into nothing, so only the states need a linear system. Errors are weighed as in
 * `explicit.ts`. Doubles start as NaN to be kept unboxed.
 */
export class Rodas implements Step {
  readonly power = 5;
  readonly stiff = true;
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
  /** States that a rate depends on. */
  readonly felt: readonly number[];
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;
  readonly gained: Float64Array;
  readonly y: Float64Array;
  readonly rates: Float64Array;
  readonly peaks: Float64Array;
  /** Column by column, one for each state and the last one for the time: derivatives of all rates. */
  readonly jacobian: Float64Array;
  readonly matrix: Float64Array;
  readonly pivots: Int32Array;
  /** What the stages gain, `STAGES` numbers for each state and quadrature, one after the other. */
  readonly u: Float64Array;
  /** The same of the stage that is solved for. */
  readonly own: Float64Array;
  /** Whether the Jacobian is that of the start of the step, and whether the rates depend on the time there. */
  known = false;
  timed = true;

  /** @param shared a step whose memory of both ends, and of the largest rates, this one takes for its own. */
  constructor(system: SwitchedSystem, shared?: Pair) {
    const n = system.states;
    const all = n + system.quadratures;
    this.system = system;
    this.n = n;
    this.all = all;
    this.felt = Array.from({ length: n }, (_, j) => j).filter(j => system.unfelt?.includes(j) !== true);
    this.start = shared?.start ?? new Float64Array(n + 1);
    this.end = shared?.end ?? new Float64Array(n + 1);
    this.startRates = shared?.startRates ?? new Float64Array(all);
    this.endRates = shared?.endRates ?? new Float64Array(all);
    this.gained = shared?.gained ?? new Float64Array(all - n);
    this.y = new Float64Array(n + 1);
    this.rates = new Float64Array(all);
    this.peaks = shared?.peaks ?? new Float64Array(all - n);
    this.jacobian = new Float64Array(all * (n + 1));
    this.matrix = new Float64Array(n * n);
    this.pivots = new Int32Array(n);
    this.u = new Float64Array(STAGES * all);
    this.own = new Float64Array(all);
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

/** Places are right here by construction; told so the engine reads the number at once. */
function at(column: Float64Array, place: number): number {
  return column[place] ?? Number.NaN;
}

/** Of one state or quadrature: what the stages before `count` gain, each times its weight. */
function weighed(u: Float64Array, from: number, weights: Float64Array, row: number, count: number): number {
  let sum = 0;
  for (let k = 0; k < count; k++) sum += weights[row + k]! * u[from + k]!;
  return sum;
}

function attempt(step: Rodas, mode: number): void {
  const { system, n, all, size: h, jacobian, matrix, pivots, y, u, end, endRates } = step;
  if (!step.known) differentiate(step, mode);
  const diagonal = 1 / (RODAS.GAMMA * h);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) matrix[i * n + j] = (i === j ? diagonal : 0) - at(jacobian, j * all + i);
  }
  if (!decompose(matrix, n, pivots)) {
    step.error = Number.NaN;
    return;
  }
  for (let s = 0; s < STAGES; s++) stage(step, mode, s);
  for (let i = 0; i < n; i++) end[i] = at(y, i) + at(u, i * STAGES + LAST);
  end[n] = step.until;
  system.rates(mode, end, endRates);
  step.evaluations += STAGES;
  measure(step);
}

function differentiate(step: Rodas, mode: number): void {
  const { system, n, start, felt } = step;
  step.timed = system.timed?.(mode) ?? true;
  step.y.set(start);
  for (const j of felt) derive(step, mode, j, Math.max(Math.abs(at(start, j)), at(system.scales, j)));
  if (step.timed) derive(step, mode, n, Math.max(Math.abs(at(start, n)), step.size));
  step.evaluations += felt.length + (step.timed ? 1 : 0);
  step.known = true;
}

/** One column of the Jacobian. @param size of the number that it is taken over, of which `y` holds all at the start. */
function derive(
  { system, all, start, startRates, y, rates, jacobian }: Rodas,
  mode: number,
  j: number,
  size: number,
): void {
  y[j] = at(start, j) + INCREMENT * size;
  // The increment as it is after rounding.
  const increment = at(y, j) - at(start, j);
  system.rates(mode, y, rates);
  y[j] = at(start, j);
  for (let i = 0; i < all; i++) jacobian[j * all + i] = (at(rates, i) - at(startRates, i)) / increment;
}

/** Weights in rows of `STAGES`. */
const WEIGHTS_A = rowsOf(RODAS.A);
const WEIGHTS_C = rowsOf(RODAS.C);
const NODES = Float64Array.from(RODAS.ALPHA);
const TIMES = Float64Array.from(RODAS.TIME);

function rowsOf(rows: readonly (readonly number[])[]): Float64Array {
  const flat = new Float64Array(STAGES * STAGES);
  rows.forEach((row, s) => flat.set(row, s * STAGES));
  return flat;
}

/** Solves for what one stage gains; leaves its argument in `y`. */
function stage(step: Rodas, mode: number, s: number): void {
  const { system, n, all, size: h, start, y, rates, u, own, jacobian, matrix, pivots, felt } = step;
  const row = s * STAGES;
  for (let i = 0; i < n; i++) y[i] = at(start, i) + weighed(u, i * STAGES, WEIGHTS_A, row, s);
  const node = at(NODES, s);
  y[n] = node === 1 ? step.until : at(start, n) + node * h;
  if (s > 0) system.rates(mode, y, rates);
  const from = s > 0 ? rates : step.startRates;
  const perSize = 1 / h;
  for (let i = 0; i < all; i++) own[i] = at(from, i) + perSize * weighed(u, i * STAGES, WEIGHTS_C, row, s);
  if (step.timed) {
    const later = at(TIMES, s) * h;
    for (let i = 0; i < all; i++) own[i] = at(own, i) + later * at(jacobian, n * all + i);
  }
  substitute(matrix, n, pivots, own, 0);
  for (let f = 0; f < felt.length; f++) {
    const k = felt[f] ?? 0;
    const gain = at(own, k);
    const column = k * all;
    for (let i = n; i < all; i++) own[i] = at(own, i) + gain * at(jacobian, column + i);
  }
  const scale = RODAS.GAMMA * h;
  for (let i = 0; i < all; i++) u[i * STAGES + s] = i < n ? at(own, i) : scale * at(own, i);
}

/** Error of the step, which is what the last stage gains, and gain of the quadratures. */
function measure(step: Rodas): void {
  const { system, n, all, start, end, startRates, endRates, u, gained, peaks } = step;
  const { scales } = system;
  let worst = 0;
  let poison = 0;
  for (let i = 0; i < n; i++) {
    const error = Math.abs(at(u, i * STAGES + LAST));
    worst = Math.max(worst, error / Math.max(Math.abs(at(start, i)), Math.abs(at(end, i)), at(scales, i)));
    poison += at(end, i) - at(end, i);
  }
  for (let i = n; i < all; i++) {
    const error = at(u, i * STAGES + LAST);
    gained[i - n] = weighed(u, i * STAGES, WEIGHTS_A, LAST * STAGES, LAST) + error;
    const peak = Math.max(at(peaks, i - n), Math.abs(at(startRates, i)), Math.abs(at(endRates, i)));
    peaks[i - n] = peak;
    if (error !== 0) worst = Math.max(worst, Math.abs(error) / (peak * step.horizon));
  }
  for (let i = 0; i < all; i++) poison += at(endRates, i) - at(endRates, i);
  step.error = worst / step.tolerance + poison;
}

const WEIGHTS_D2 = Float64Array.from(RODAS.D2);
const WEIGHTS_D3 = Float64Array.from(RODAS.D3);
const WEIGHTS_D4 = Float64Array.from(RODAS.D4);

function dense({ all, u }: Rodas, out: Float64Array, offset: number): void {
  for (let i = 0, o = offset; i < all; i++, o += 3) {
    out[o] = weighed(u, i * STAGES, WEIGHTS_D2, 0, STAGES);
    out[o + 1] = weighed(u, i * STAGES, WEIGHTS_D3, 0, STAGES);
    out[o + 2] = weighed(u, i * STAGES, WEIGHTS_D4, 0, STAGES);
  }
}
