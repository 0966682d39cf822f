/**
 * What the driver (`integrate.ts`) knows of a one-step method. All numbers pass through fields and arrays that live as
 * long as the solver, so that a step allocates nothing; fields that hold doubles start as NaN to make the engine keep
 * them unboxed.
 */
import type { SwitchedSystem } from './system.ts';

/** One step of a one-step method. Arrays are owned by the method and never replaced. */
export interface Step {
  /** Order of the error estimate plus one: the error falls with this power of the step size. */
  readonly power: number;
  /** Whether what is stiff is integrated: then rates along the dense output tell how far it is off, and little else. */
  readonly stiff: boolean;
  /** States, then time, at the start of the step: `states + 1`. */
  readonly start: Float64Array;
  /** The same at the end of the step that was tried last. */
  readonly end: Float64Array;
  /** Rates at the start and at the end: `states + quadratures`. */
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;
  /** What each quadrature gained over the step: `quadratures`. */
  readonly gained: Float64Array;
  /** The greatest rate of each quadrature so far, never below its scale: `quadratures`. */
  readonly peaks: Float64Array;
  /** Relative tolerance. Set by the driver before the first step. */
  tolerance: number;
  /** Step size, and time at the end of the step (it is copied, not computed, so that targets are hit exactly). */
  size: number;
  until: number;
  /** Time against which the error of a quadrature is weighed. Set by the driver. */
  horizon: number;
  /** Error over tolerance of the step tried last; above 1 or not a number means the step is of no use. */
  error: number;
  /** Calls of `rates` so far. */
  evaluations: number;
  /** Prepares a new run: forgets all that was learned. */
  reset(): void;
  /** Evaluates `startRates` at `start`; to be called at the start and after every change of mode or state. */
  begin(mode: number): void;
  /** Tries a step of `size` from `start` to `until`. The last call of `rates` is the one at `end`. */
  attempt(mode: number): void;
  /** Makes the end of the step the start of the next one. */
  advance(): void;
  /**
   * Writes the dense output of the step just tried, three numbers a2, a3, a4 for each state and quadrature, into `out` from
   * `offset`. With x from 0 to 1 over the step: y = y0 + x (y1 - y0 + (1 - x) (a2 + x (a3 + (1 - x) a4))).
   */
  dense(out: Float64Array, offset: number): void;
}

/** Makes the step of a method for one system. */
export type Method = (system: SwitchedSystem) => Step;

/** Dense output of one component at `x`; see `Step.dense`. */
export function interpolate(y0: number, y1: number, a2: number, a3: number, a4: number, x: number): number {
  const rest = 1 - x;
  return y0 + x * (y1 - y0 + rest * (a2 + x * (a3 + rest * a4)));
}

/** The states, then the time, at `x` within the step just tried, whose dense output stands in `dense` from `offset`. */
export function denseAt(
  { start, end, size }: Step,
  states: number,
  dense: Float64Array,
  offset: number,
  x: number,
  out: Float64Array,
): void {
  for (let i = 0, o = offset; i < states; i++, o += 3) {
    out[i] = interpolate(start[i]!, end[i]!, dense[o]!, dense[o + 1]!, dense[o + 2]!, x);
  }
  out[states] = start[states]! + x * size;
}

/** The dense output of one component in powers of x: six coefficients, lowest power first, the last of them 0. */
export function powersOfDense(
  from: number,
  rise: number,
  dense: Float64Array,
  offset: number,
  into: Float64Array,
  place: number,
): void {
  const a2 = dense[offset]!;
  const a3 = dense[offset + 1]!;
  const a4 = dense[offset + 2]!;
  into[place] = from;
  into[place + 1] = rise + a2;
  into[place + 2] = a3 + a4 - a2;
  into[place + 3] = -a3 - 2 * a4;
  into[place + 4] = a4;
  into[place + 5] = 0;
}
