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

/**
 * Its memory: all numbers of a step in one block, of which others see views. A loop over seven arrays spends most of its time in
 * asking where each of them stands. Doubles start as NaN to be kept unboxed.
 */
export class Pair implements Step {
  readonly power = 5;
  readonly stiff = false;
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
  /** Rates of stages 1 to 7, then states at the start, at the end and at a stage, each with its time, then gains and greatest rates of the quadratures. */
  readonly block: Float64Array;
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly y: Float64Array;
  readonly gained: Float64Array;
  readonly peaks: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
  readonly k5: Float64Array;
  readonly k6: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;

  constructor(system: SwitchedSystem) {
    const n = system.states;
    const all = n + system.quadratures;
    const block = new Float64Array(STAGES * all + 3 * (n + 1) + 2 * (all - n));
    const stage = (s: number): Float64Array => block.subarray((s - 1) * all, s * all);
    const states = (k: number): Float64Array => block.subarray(statesAt(n, all, k), statesAt(n, all, k + 1));
    const gains = statesAt(n, all, 3);
    this.system = system;
    this.n = n;
    this.all = all;
    this.scales = system.scales;
    this.block = block;
    this.startRates = stage(1);
    this.k2 = stage(2);
    this.k3 = stage(3);
    this.k4 = stage(4);
    this.k5 = stage(5);
    this.k6 = stage(6);
    this.endRates = stage(STAGES);
    this.start = states(0);
    this.end = states(1);
    this.y = states(2);
    this.gained = block.subarray(gains, gains + all - n);
    this.peaks = block.subarray(gains + all - n);
  }

  reset(): void {
    for (let j = 0; j < this.all - this.n; j++) this.peaks[j] = this.scales[this.n + j] ?? 0;
    this.evaluations = 0;
  }

  begin(mode: number): void {
    this.system.rates(mode, this.start, this.startRates);
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

const STAGES = 7;

/** Where in the block the states at the start (0), at the end (1) and at a stage (2) stand; 3: what comes after them. */
function statesAt(n: number, all: number, k: number): number {
  return STAGES * all + k * (n + 1);
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
  const { n, all, system, block: b, y } = step;
  const k2 = all;
  const k3 = 2 * all;
  const k4 = 3 * all;
  const k5 = 4 * all;
  const k6 = 5 * all;
  const from = statesAt(n, all, 0);
  const to = statesAt(n, all, 1);
  const at = statesAt(n, all, 2);
  const h = step.size;
  const t = b[from + n]!;
  for (let i = 0; i < n; i++) b[at + i] = b[from + i]! + h * A21 * b[i]!;
  b[at + n] = t + C2 * h;
  system.rates(mode, y, step.k2);
  for (let i = 0; i < n; i++) b[at + i] = b[from + i]! + h * (A31 * b[i]! + A32 * b[k2 + i]!);
  b[at + n] = t + C3 * h;
  system.rates(mode, y, step.k3);
  for (let i = 0; i < n; i++) b[at + i] = b[from + i]! + h * (A41 * b[i]! + A42 * b[k2 + i]! + A43 * b[k3 + i]!);
  b[at + n] = t + C4 * h;
  system.rates(mode, y, step.k4);
  for (let i = 0; i < n; i++) {
    b[at + i] = b[from + i]! + h * (A51 * b[i]! + A52 * b[k2 + i]! + A53 * b[k3 + i]! + A54 * b[k4 + i]!);
  }
  b[at + n] = t + C5 * h;
  system.rates(mode, y, step.k5);
  for (let i = 0; i < n; i++) {
    b[at + i] =
      b[from + i]! + h * (A61 * b[i]! + A62 * b[k2 + i]! + A63 * b[k3 + i]! + A64 * b[k4 + i]! + A65 * b[k5 + i]!);
  }
  b[at + n] = step.until;
  system.rates(mode, y, step.k6);
  for (let i = 0; i < n; i++) {
    b[to + i] = b[from + i]! + h * (B1 * b[i]! + B3 * b[k3 + i]! + B4 * b[k4 + i]! + B5 * b[k5 + i]! + B6 * b[k6 + i]!);
  }
  b[to + n] = step.until;
  system.rates(mode, step.end, step.endRates);
  step.evaluations += 6;
  measure(step);
}

/** Error of the step and gain of the quadratures. `poison` turns any number that is not finite into NaN. */
function measure(step: Pair): void {
  const { B1, B3, B4, B5, B6, E1, E3, E4, E5, E6, E7 } = PAIR;
  const { n, all, scales, block: b } = step;
  const k3 = 2 * all;
  const k4 = 3 * all;
  const k5 = 4 * all;
  const k6 = 5 * all;
  const k7 = 6 * all;
  const from = statesAt(n, all, 0);
  const to = statesAt(n, all, 1);
  const h = step.size;
  let worst = 0;
  let poison = 0;
  for (let i = 0; i < n; i++) {
    const error =
      h * (E1 * b[i]! + E3 * b[k3 + i]! + E4 * b[k4 + i]! + E5 * b[k5 + i]! + E6 * b[k6 + i]! + E7 * b[k7 + i]!);
    const before = Math.abs(b[from + i]!);
    const after = Math.abs(b[to + i]!);
    const scale = scales[i]!;
    const larger = before > after ? before : after;
    const size = larger > scale ? larger : scale;
    if (Math.abs(error) > worst * size) worst = Math.abs(error) / size;
    poison += error - error;
  }
  const { horizon } = step;
  const gains = statesAt(n, all, 3) - n;
  const peaks = gains + all - n;
  for (let i = n; i < all; i++) {
    const r1 = b[i]!;
    const r3 = b[k3 + i]!;
    const r4 = b[k4 + i]!;
    const r5 = b[k5 + i]!;
    const r6 = b[k6 + i]!;
    const r7 = b[k7 + i]!;
    const rate = Math.abs(r7);
    let peak = b[peaks + i]!;
    if (rate > peak) b[peaks + i] = peak = rate;
    b[gains + i] = h * (B1 * r1 + B3 * r3 + B4 * r4 + B5 * r5 + B6 * r6);
    const error = h * (E1 * r1 + E3 * r3 + E4 * r4 + E5 * r5 + E6 * r6 + E7 * r7);
    const share = QUADRATURE_SHARE * Math.abs(error);
    if (share > worst * peak * horizon) worst = share / (peak * horizon);
    poison += error - error;
  }
  step.error = worst / step.tolerance + poison;
}

function advance({ n, all, block }: Pair): void {
  const from = statesAt(n, all, 0);
  const to = statesAt(n, all, 1);
  const last = (STAGES - 1) * all;
  for (let i = 0; i <= n; i++) block[from + i] = block[to + i]!;
  for (let i = 0; i < all; i++) block[i] = block[last + i]!;
}

function dense({ n, all, block: b, size: h }: Pair, out: Float64Array, offset: number): void {
  const { D1, D3, D4, D5, D6, D7 } = PAIR;
  const k3 = 2 * all;
  const k4 = 3 * all;
  const k5 = 4 * all;
  const k6 = 5 * all;
  const k7 = 6 * all;
  const from = statesAt(n, all, 0);
  const to = statesAt(n, all, 1);
  const gains = statesAt(n, all, 3) - n;
  let o = offset;
  for (let i = 0; i < all; i++, o += 3) {
    const rise = i < n ? b[to + i]! - b[from + i]! : b[gains + i]!;
    const first = b[i]!;
    const last = b[k7 + i]!;
    const bend = h * first - rise;
    out[o] = bend;
    out[o + 1] = rise - h * last - bend;
    out[o + 2] = h * (D1 * first + D3 * b[k3 + i]! + D4 * b[k4 + i]! + D5 * b[k5 + i]! + D6 * b[k6 + i]! + D7 * last);
  }
}
