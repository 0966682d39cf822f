/**
 * An interpolant for the step in which an event was seen, one order better than the dense output, so that the event is
 * known as accurately as the nodes. Bootstrapping after Shampine, Interpolation for Runge-Kutta methods, SIAM J. Numer.
 * Anal. 22, 1985: two more evaluations of the rates on the dense output, then a polynomial of degree 5 through both ends
 * with the slopes at 0, 1/3, 2/3 and 1.
 */
import type { Step } from './step.ts';
import { interpolate, powersOfDense } from './step.ts';
import type { SwitchedSystem } from './system.ts';

export interface Quintic {
  /** Fits the step just tried, whose dense output stands in `dense` from `offset`. Two calls of `rates`. */
  fit(mode: number, dense: Float64Array, offset: number): void;
  /** Copies the six coefficients of one state or quadrature (what it gained since the start), lowest power first. */
  pick(component: number, into: Float64Array): void;
  /** Writes all components at `x`. */
  evaluate(x: number, out: Float64Array): void;
}

export function createQuintic(system: SwitchedSystem, step: Step): Quintic {
  const n = system.states;
  const all = n + system.quadratures;
  const y = new Float64Array(n + 1);
  const third = new Float64Array(all);
  const twoThirds = new Float64Array(all);
  const coefficients = new Float64Array(6 * all);

  function slopesAt(mode: number, dense: Float64Array, offset: number, x: number, out: Float64Array): void {
    for (let i = 0, o = offset; i < n; i++, o += 3) {
      y[i] = interpolate(step.start[i]!, step.end[i]!, dense[o]!, dense[o + 1]!, dense[o + 2]!, x);
    }
    y[n] = step.start[n]! + x * step.size;
    system.rates(mode, y, out);
    step.evaluations += 1;
  }

  function fit(mode: number, dense: Float64Array, offset: number): void {
    slopesAt(mode, dense, offset, 1 / 3, third);
    slopesAt(mode, dense, offset, 2 / 3, twoThirds);
    const h = step.size;
    for (let i = 0; i < all; i++) {
      const from = i < n ? step.start[i]! : 0;
      const rise = i < n ? step.end[i]! - from : step.gained[i - n]!;
      const s0 = h * step.startRates[i]!;
      const s1 = h * third[i]!;
      const s2 = h * twoThirds[i]!;
      const s3 = h * step.endRates[i]!;
      // The slope: a cubic through the four values, plus c x (x - 1/3) (x - 2/3) (x - 1), which vanishes there and
      // whose integral over the step, -c/270, makes up what the 3/8 rule leaves of the rise.
      const c = -270 * (rise - (s0 + 3 * (s1 + s2) + s3) / 8);
      const o = 6 * i;
      if (!Number.isFinite(c)) {
        // A rate that is none between two good ends, as next to rest: the dense output did without it.
        powersOfDense(from, rise, dense, offset + 3 * i, coefficients, o);
        continue;
      }
      coefficients[o] = from;
      coefficients[o + 1] = s0;
      coefficients[o + 2] = ((-11 * s0 + 18 * s1 - 9 * s2 + 2 * s3) / 2 - (2 / 9) * c) / 2;
      coefficients[o + 3] = (4.5 * (2 * s0 - 5 * s1 + 4 * s2 - s3) + (11 / 9) * c) / 3;
      coefficients[o + 4] = (4.5 * (-s0 + 3 * s1 - 3 * s2 + s3) - 2 * c) / 4;
      coefficients[o + 5] = c / 5;
    }
  }

  return {
    fit,
    pick(component, into) {
      for (let p = 0; p < 6; p++) into[p] = coefficients[6 * component + p]!;
    },
    evaluate(x, out) {
      for (let i = 0; i < all; i++) {
        let value = 0;
        for (let p = 5; p >= 0; p--) value = value * x + coefficients[6 * i + p]!;
        out[i] = value;
      }
    },
  };
}
