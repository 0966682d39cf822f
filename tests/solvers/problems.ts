/** Small systems with known answers, shared by the tests of the solvers. */
import type { Level, SwitchedSystem } from '../../src/solvers/system.ts';

type Rates = (mode: number, y: Float64Array, out: Float64Array) => void;

export function smooth(states: number, quadratures: number, rates: Rates, scale = 1): SwitchedSystem {
  return { states, quadratures, guards: 0, rates, scales: new Float64Array(states).fill(scale) };
}

/** x'' = -x as (x, v); the quadratures are x and v^2. From (1, 0): cos t, sin t, t/2 - sin(2t)/4. */
export const oscillator = smooth(2, 2, (_mode, y, out) => {
  out[0] = y[1]!;
  out[1] = -y[0]!;
  out[2] = y[0]!;
  out[3] = y[1]! ** 2;
});

/** y' = y cos t, so y = y0 exp(sin t); the quadrature is y cos t, which gains y - y0. */
export const swing = smooth(1, 1, (_mode, y, out) => {
  out[0] = y[0]! * Math.cos(y[1]!);
  out[1] = out[0];
});

/** A ball that falls with 1 and keeps `restitution` of its speed; states height, velocity; the quadrature is v^2. */
export function ball(restitution: number): SwitchedSystem {
  return {
    states: 2,
    quadratures: 1,
    guards: 1,
    scales: new Float64Array([1, 1]),
    rates(_mode, y, out) {
      out[0] = y[1]!;
      out[1] = -1;
      out[2] = y[1]! ** 2;
    },
    guard(_mode, y, out) {
      out[0] = y[0]!;
    },
    switched(mode, _fired, y) {
      y[0] = 0;
      y[1] = -restitution * y[1]!;
      return mode;
    },
  };
}

/**
 * A mass on a spring with dry friction: x'' = -x -+ mu. Modes: 0 slides forward, 1 slides back, 2 sticks. Each half cycle
 * lasts pi and takes 2 mu off the amplitude, until |x| <= mu at a reversal (Den Hartog, Mechanical Vibrations, section 8.7).
 * The quadrature is the work of friction.
 */
export function dryFriction(mu: number): SwitchedSystem {
  return {
    states: 2,
    quadratures: 1,
    guards: 2,
    scales: new Float64Array([1, 1]),
    rates(mode, y, out) {
      const friction = mode === 0 ? mu : mode === 1 ? -mu : 0;
      out[0] = mode === 2 ? 0 : y[1]!;
      out[1] = mode === 2 ? 0 : -y[0]! - friction;
      out[2] = friction * out[0];
    },
    guard(mode, y, out) {
      out[0] = mode === 0 ? y[1]! : Infinity;
      out[1] = mode === 1 ? -y[1]! : Infinity;
    },
    switched(mode, _fired, y) {
      y[1] = 0;
      if (Math.abs(y[0]!) <= mu) return 2;
      return mode === 0 ? 1 : 0;
    },
  };
}

export const level = (name: string, state: number, value: number, more: Partial<Level> = {}): Level => ({
  name,
  state,
  value,
  direction: 'rising',
  action: 'record',
  ...more,
});

/** Slope of log(error) over log(step) from pairs. */
export function observedOrder(steps: readonly number[], errors: readonly number[]): number {
  const x = steps.map(Math.log);
  const y = errors.map(Math.log);
  const meanX = x.reduce((a, b) => a + b) / x.length;
  const meanY = y.reduce((a, b) => a + b) / y.length;
  const top = x.reduce((sum, xi, i) => sum + (xi - meanX) * (y[i]! - meanY), 0);
  return top / x.reduce((sum, xi) => sum + (xi - meanX) ** 2, 0);
}
