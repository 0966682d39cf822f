/** The fast integrator: Dormand-Prince 5(4) with dense output, exact switches and polished events. */
import { PAIR } from './dormand-prince.ts';
import { createIntegrator } from './integrate.ts';
import type { Step } from './step.ts';
import type { Solution, Solve, SolveOptions, SwitchedSystem } from './system.ts';

/** Integrates once; the solution owns its arrays. */
export const solveExplicit: Solve = (system, options) => createExplicit(system)(options);

/**
 * Makes an integrator for many runs of one system (whose parameters may change between runs). All memory is used again:
 * the arrays of a solution, its `at` included, are valid until the next call. The events are not reused.
 */
export function createExplicit(system: SwitchedSystem): (options: SolveOptions) => Solution {
  return createIntegrator(system, dormandPrince);
}

/** A quadrature may be off by ten tolerances: its estimate is that of the method of order 4, far above what it is off by. */
const QUADRATURE_SHARE = 0.1;

/**
 * The step. Its error is the largest over the states, each against `tolerance * max(|y|, scale)`. Quadratures do not
 * steer the step, with one safeguard: when the states are at rest but a rate swings, nothing else would stop the step from
 * growing without bound. So the estimated error of a quadrature is held below ten times `tolerance` times the largest rate seen (or its scale)
 * times the time elapsed (plus a thousandth of the whole), a bound on what it may have accumulated.
 */
function dormandPrince(system: SwitchedSystem): Step {
  return new Pair(system);
}

/** Its memory. Doubles start as NaN to be kept unboxed. */
export class Pair implements Step {
  readonly power = 5;
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
  readonly scales: Float64Array;
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly y: Float64Array;
  readonly gained: Float64Array;
  readonly peaks: Float64Array;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
  readonly k5: Float64Array;
  readonly k6: Float64Array;
  readonly k7: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;

  constructor(system: SwitchedSystem) {
    const n = system.states;
    const all = n + system.quadratures;
    this.system = system;
    this.n = n;
    this.all = all;
    this.scales = system.scales;
    this.start = new Float64Array(n + 1);
    this.end = new Float64Array(n + 1);
    this.y = new Float64Array(n + 1);
    this.gained = new Float64Array(all - n);
    this.peaks = new Float64Array(all - n);
    this.k1 = new Float64Array(all);
    this.k2 = new Float64Array(all);
    this.k3 = new Float64Array(all);
    this.k4 = new Float64Array(all);
    this.k5 = new Float64Array(all);
    this.k6 = new Float64Array(all);
    this.k7 = new Float64Array(all);
    this.startRates = this.k1;
    this.endRates = this.k7;
  }

  reset(): void {
    for (let j = 0; j < this.all - this.n; j++) this.peaks[j] = this.scales[this.n + j] ?? 0;
    this.evaluations = 0;
  }

  begin(mode: number): void {
    this.system.rates(mode, this.start, this.k1);
    this.evaluations += 1;
  }

  attempt(mode: number): void {
    attempt(this, mode);
  }

  advance(): void {
    advance(this);
  }

  dense(out: Float64Array, offset: number): void {
    dense(this, out, offset);
  }
}

function attempt(step: Pair, mode: number): void {
  const {
    A21,
    A31,
    A32,
    A41,
    A42,
    A43,
    A51,
    A52,
    A53,
    A54,
    A61,
    A62,
    A63,
    A64,
    A65,
    C2,
    C3,
    C4,
    C5,
    B1,
    B3,
    B4,
    B5,
    B6,
  } = PAIR;
  const { n, system, start, end, y, k1, k2, k3, k4, k5, k6, k7 } = step;
  const h = step.size;
  const t = start[n]!;
  for (let i = 0; i < n; i++) y[i] = start[i]! + h * A21 * k1[i]!;
  y[n] = t + C2 * h;
  system.rates(mode, y, k2);
  for (let i = 0; i < n; i++) y[i] = start[i]! + h * (A31 * k1[i]! + A32 * k2[i]!);
  y[n] = t + C3 * h;
  system.rates(mode, y, k3);
  for (let i = 0; i < n; i++) y[i] = start[i]! + h * (A41 * k1[i]! + A42 * k2[i]! + A43 * k3[i]!);
  y[n] = t + C4 * h;
  system.rates(mode, y, k4);
  for (let i = 0; i < n; i++) y[i] = start[i]! + h * (A51 * k1[i]! + A52 * k2[i]! + A53 * k3[i]! + A54 * k4[i]!);
  y[n] = t + C5 * h;
  system.rates(mode, y, k5);
  for (let i = 0; i < n; i++) {
    y[i] = start[i]! + h * (A61 * k1[i]! + A62 * k2[i]! + A63 * k3[i]! + A64 * k4[i]! + A65 * k5[i]!);
  }
  y[n] = step.until;
  system.rates(mode, y, k6);
  for (let i = 0; i < n; i++) {
    end[i] = start[i]! + h * (B1 * k1[i]! + B3 * k3[i]! + B4 * k4[i]! + B5 * k5[i]! + B6 * k6[i]!);
  }
  end[n] = step.until;
  system.rates(mode, end, k7);
  step.evaluations += 6;
  measure(step);
}

/** Error of the step and gain of the quadratures. `poison` turns any number that is not finite into NaN. */
function measure(step: Pair): void {
  const { B1, B3, B4, B5, B6, E1, E3, E4, E5, E6, E7 } = PAIR;
  const { n, all, scales, start, end, gained, peaks, k1, k3, k4, k5, k6, k7 } = step;
  const h = step.size;
  const tolerance = step.tolerance;
  let worst = 0;
  let poison = 0;
  for (let i = 0; i < n; i++) {
    const error = h * (E1 * k1[i]! + E3 * k3[i]! + E4 * k4[i]! + E5 * k5[i]! + E6 * k6[i]! + E7 * k7[i]!);
    const size = Math.max(Math.abs(start[i]!), Math.abs(end[i]!), scales[i]!);
    const ratio = Math.abs(error) / size;
    if (ratio > worst) worst = ratio;
    poison += error - error;
  }
  const horizon = step.horizon;
  for (let i = n; i < all; i++) {
    const rate = Math.abs(k7[i]!);
    let peak = peaks[i - n]!;
    if (rate > peak) peaks[i - n] = peak = rate;
    gained[i - n] = h * (B1 * k1[i]! + B3 * k3[i]! + B4 * k4[i]! + B5 * k5[i]! + B6 * k6[i]!);
    const error = h * (E1 * k1[i]! + E3 * k3[i]! + E4 * k4[i]! + E5 * k5[i]! + E6 * k6[i]! + E7 * k7[i]!);
    const share = QUADRATURE_SHARE * Math.abs(error);
    if (share > worst * peak * horizon) worst = share / (peak * horizon);
    poison += error - error;
  }
  step.error = worst / tolerance + poison;
}

function advance(step: Pair): void {
  const { n, all, start, end, k1, k7 } = step;
  for (let i = 0; i <= n; i++) start[i] = end[i]!;
  for (let i = 0; i < all; i++) k1[i] = k7[i]!;
}

function dense(step: Pair, out: Float64Array, offset: number): void {
  const { D1, D3, D4, D5, D6, D7 } = PAIR;
  const { n, all, start, end, gained, k1, k3, k4, k5, k6, k7 } = step;
  const h = step.size;
  let o = offset;
  for (let i = 0; i < all; i++, o += 3) {
    const rise = i < n ? end[i]! - start[i]! : gained[i - n]!;
    const bend = h * k1[i]! - rise;
    out[o] = bend;
    out[o + 1] = rise - h * k7[i]! - bend;
    out[o + 2] = h * (D1 * k1[i]! + D3 * k3[i]! + D4 * k4[i]! + D5 * k5[i]! + D6 * k6[i]! + D7 * k7[i]!);
  }
}
