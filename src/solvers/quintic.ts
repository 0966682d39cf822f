/**
 * An interpolant for the step in which an event was seen, one order better than the dense output, so that the event is
 * known as accurately as the nodes: Hermite's through the nodes of two steps of one mode where it and the dense output tell the same; else by
 * bootstrapping after Shampine, Interpolation for Runge-Kutta methods, SIAM J. Numer.
 * Anal. 22, 1985: two more evaluations of the rates on the dense output, then a polynomial of degree 5 through both ends
 * with the slopes at 0, 1/3, 2/3 and 1.
 */
import { findRoot } from './bracket.ts';
import type { Step } from './step.ts';
import { denseAt, interpolate, powersOfDense } from './step.ts';
import type { SwitchedSystem } from './system.ts';

/** Numbers of a polynomial. */
export const TERMS = 6;

/** Its memory. */
export class Quintic {
  readonly system: SwitchedSystem;
  readonly step: Step;
  /** States; states and quadratures. */
  readonly n: number;
  readonly all: number;
  readonly y: Float64Array;
  readonly third: Float64Array;
  readonly twoThirds: Float64Array;
  /** Of the step before, in the same mode: rates at its start, what each component rose by, and its size; NaN where there was none. */
  readonly ratesBefore: Float64Array;
  readonly riseBefore: Float64Array;
  sizeBefore = Number.NaN;
  /** Whether `coefficients` are those of the step just tried. */
  fitted = false;
  /** `TERMS` of each state and quadrature (what it gained since the start), lowest power first. */
  readonly coefficients: Float64Array;

  constructor(system: SwitchedSystem, step: Step) {
    const n = system.states;
    const all = n + system.quadratures;
    this.system = system;
    this.step = step;
    this.n = n;
    this.all = all;
    this.y = new Float64Array(n + 1);
    this.third = new Float64Array(all);
    this.twoThirds = new Float64Array(all);
    this.ratesBefore = new Float64Array(all);
    this.riseBefore = new Float64Array(all);
    this.coefficients = new Float64Array(TERMS * all);
  }
}

/** Of a step: one before it that is shorter says too little of how the rates go on. */
const LEAST_BEFORE = 0.1;

/** Keeps what the next fit wants of the step just tried; to be called before the method advances. */
export function keepStep(quintic: Quintic): void {
  const { step, n, all, ratesBefore, riseBefore } = quintic;
  const { start, end, startRates, gained } = step;
  for (let i = 0; i < n; i++) riseBefore[i] = end[i]! - start[i]!;
  for (let i = n; i < all; i++) riseBefore[i] = gained[i - n]!;
  for (let i = 0; i < all; i++) ratesBefore[i] = startRates[i]!;
  quintic.sizeBefore = step.size;
}

/** Another mode has begun: nothing of the step before goes on. */
export function forgetStep(quintic: Quintic): void {
  quintic.sizeBefore = Number.NaN;
}

/**
 * Fits the step just tried, whose dense output stands in `dense` from `offset`: through three nodes with their slopes where there was a step
 * before in the same mode; else by two calls of `rates`.
 */
export function fitQuintic(quintic: Quintic, mode: number, dense: Float64Array, offset: number): void {
  if (quintic.fitted) return;
  quintic.fitted = true;
  if (quintic.sizeBefore >= LEAST_BEFORE * quintic.step.size && fitThree(quintic, dense, offset)) return;
  fitOne(quintic, mode, dense, offset);
}

/**
 * Of the tolerance: where the polynomial through three nodes leaves the dense output by less, either is good enough. By trial over 300
 * cars: marks are as good as by calls of the rates with it, and worse with twice as much.
 */
const AGREES = 0.03;
/** Where in the step the two are compared. */
const COMPARED = 0.4;

/**
 * Hermite's polynomial through the start of the step before (at -r) and both ends of this one (at 0 and 1). False as soon as a component
 * leaves the dense output by too much.
 */
function fitThree(quintic: Quintic, dense: Float64Array, offset: number): boolean {
  const { step, n, all, coefficients, ratesBefore, riseBefore } = quintic;
  const { size: h, start, end, startRates, endRates, gained } = step;
  const r = quintic.sizeBefore / h;
  const span = 1 + r;
  const perSquare = 1 / (r * r);
  const perSpan = 1 / span;
  const most = AGREES * step.tolerance;
  for (let i = 0, o = 0, d = offset; i < all; i++, o += TERMS, d += 3) {
    const from = i < n ? start[i]! : 0;
    const to = i < n ? end[i]! : gained[i - n]!;
    const s0 = h * startRates[i]!;
    // p = from + s0 x + x^2 q with a cubic q, of which value and slope are known at 1 (A, B) and at -r (C, D).
    const A = to - from - s0;
    const B = h * endRates[i]! - s0 - 2 * A;
    const C = (s0 * r - riseBefore[i]!) * perSquare;
    const D = (h * ratesBefore[i]! - s0 + 2 * r * C) * perSquare;
    // q = A + B u + e u^2 + f u^3 with u = x - 1.
    const first = (C - A + B * span) * perSpan * perSpan;
    const second = (D - B) * perSpan;
    const f = (second + 2 * first) * perSpan;
    const e = 3 * first + second;
    coefficients[o] = from;
    coefficients[o + 1] = s0;
    coefficients[o + 2] = A - B + e - f;
    coefficients[o + 3] = B - 2 * e + 3 * f;
    coefficients[o + 4] = e - 3 * f;
    coefficients[o + 5] = f;
    const other = interpolate(from, to, dense[d]!, dense[d + 1]!, dense[d + 2]!, COMPARED);
    if (!(Math.abs(valueAt(coefficients, o, COMPARED) - other) <= most * sizeOf(quintic, i))) return false;
  }
  return true;
}

/** What a component may be off by over its relative error: a quadrature, as in a step, by ten times what it may have gained since the start of the run. */
function sizeOf({ step, n, system }: Quintic, i: number): number {
  if (i >= n) return 10 * step.peaks[i - n]! * step.horizon;
  return Math.max(Math.abs(step.start[i]!), Math.abs(step.end[i]!), system.scales[i]!);
}

/** Two calls of `rates`. */
function fitOne(quintic: Quintic, mode: number, dense: Float64Array, offset: number): void {
  const { step, n, all, third, twoThirds, coefficients } = quintic;
  slopesAt(quintic, mode, dense, offset, 1 / 3, third);
  slopesAt(quintic, mode, dense, offset, 2 / 3, twoThirds);
  const { size: h, start, end, startRates, endRates, gained } = step;
  for (let i = 0; i < all; i++) {
    const from = i < n ? start[i]! : 0;
    const rise = i < n ? end[i]! - from : gained[i - n]!;
    const s0 = h * startRates[i]!;
    const s1 = h * third[i]!;
    const s2 = h * twoThirds[i]!;
    const s3 = h * endRates[i]!;
    // The slope: a cubic through the four values, plus c x (x - 1/3) (x - 2/3) (x - 1), which vanishes there and
    // whose integral over the step, -c/270, makes up what the 3/8 rule leaves of the rise.
    const c = -270 * (rise - (s0 + 3 * (s1 + s2) + s3) * (1 / 8));
    const o = TERMS * i;
    if (!Number.isFinite(c)) {
      // A rate that is none between two good ends, as next to rest: the dense output did without it.
      powersOfDense(from, rise, dense, offset + 3 * i, coefficients, o);
      continue;
    }
    coefficients[o] = from;
    coefficients[o + 1] = s0;
    coefficients[o + 2] = 0.25 * (-11 * s0 + 18 * s1 - 9 * s2 + 2 * s3) - (1 / 9) * c;
    coefficients[o + 3] = 1.5 * (2 * s0 - 5 * s1 + 4 * s2 - s3) + (11 / 27) * c;
    coefficients[o + 4] = 1.125 * (-s0 + 3 * s1 - 3 * s2 + s3) - 0.5 * c;
    coefficients[o + 5] = 0.2 * c;
  }
}

/** Writes all components at `x`. */
export function evaluateQuintic({ coefficients, all }: Quintic, x: number, out: Float64Array): void {
  for (let i = 0, o = 0; i < all; i++, o += TERMS) out[i] = valueAt(coefficients, o, x);
}

/** How far the polynomials leave their equations at `x`, by the rates there, over the step up to it: the greatest, against what each may be off by. */
export function defectAt(quintic: Quintic, x: number, rates: Float64Array): number {
  const { coefficients, all, step } = quintic;
  let worst = 0;
  for (let i = 0, o = 0; i < all; i++, o += TERMS) {
    const steep = 3 * coefficients[o + 3]! + x * (4 * coefficients[o + 4]! + x * 5 * coefficients[o + 5]!);
    const slope = coefficients[o + 1]! + x * (2 * coefficients[o + 2]! + x * steep);
    const off = x * Math.abs(slope - step.size * rates[i]!);
    const size = sizeOf(quintic, i);
    if (!(off <= worst * size)) worst = off / size;
  }
  return worst;
}

/** Where between two places, at which a straight line in a state has values of two signs, it is zero. */
export function straightRoot(quintic: Quintic, state: number, from: number, a: number, to: number, b: number): number {
  const { coefficients } = quintic;
  const o = TERMS * state;
  const first = valueAt(coefficients, o, from);
  const last = valueAt(coefficients, o, to);
  const wanted = first + (a / (a - b)) * (last - first);
  return findRoot(x => valueAt(coefficients, o, x) - wanted, from, first - wanted, to, last - wanted, 0);
}

/** Cuts the step at `x`: from then on it is over 0..1 again. */
export function cutQuintic(quintic: Quintic, x: number): void {
  const { coefficients, all } = quintic;
  for (let i = 0; i < all; i++) {
    let power = x;
    for (let k = 1; k < TERMS; k++, power *= x) coefficients[TERMS * i + k] = coefficients[TERMS * i + k]! * power;
  }
}

/** Writes the states at `x`, then the time. */
export function statesOnQuintic({ coefficients, n, step }: Quintic, x: number, out: Float64Array): void {
  for (let i = 0, o = 0; i < n; i++, o += TERMS) out[i] = valueAt(coefficients, o, x);
  out[n] = step.start[n]! + x * step.size;
}

/** A polynomial of `TERMS` numbers at `x`. */
function valueAt(terms: Float64Array, o: number, x: number): number {
  const high = terms[o + 2]! + x * (terms[o + 3]! + x * (terms[o + 4]! + x * terms[o + 5]!));
  return terms[o]! + x * (terms[o + 1]! + x * high);
}

function slopesAt(
  { system, step, n, y }: Quintic,
  mode: number,
  dense: Float64Array,
  offset: number,
  x: number,
  out: Float64Array,
): void {
  denseAt(step, n, dense, offset, x, y);
  system.rates(mode, y, out);
  step.evaluations += 1;
}
