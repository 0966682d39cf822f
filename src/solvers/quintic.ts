/**
 * An interpolant for the step in which an event was seen, one order better than the dense output, so that the event is
 * known as accurately as the nodes. Bootstrapping after Shampine, Interpolation for Runge-Kutta methods, SIAM J. Numer.
 * Anal. 22, 1985: two more evaluations of the rates on the dense output, then a polynomial of degree 5 through both ends
 * with the slopes at 0, 1/3, 2/3 and 1.
 */
import type { Step } from './step.ts';
import { denseAt, powersOfDense } from './step.ts';
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
    this.coefficients = new Float64Array(TERMS * all);
  }
}

/** Fits the step just tried, whose dense output stands in `dense` from `offset`. Two calls of `rates`. */
export function fitQuintic(quintic: Quintic, mode: number, dense: Float64Array, offset: number): void {
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
