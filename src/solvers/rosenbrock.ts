/** The integrator for stiff systems: the Rosenbrock method RODAS 4(3), with the switches and events of the fast one. */
import { createIntegrator } from './integrate.ts';
import { decompose, substitute } from './linear.ts';
import { RODAS } from './rodas.ts';
import type { Step } from './step.ts';
import type { Solution, Solve, SolveOptions, SwitchedSystem } from './system.ts';

/** Integrates once; the solution owns its arrays. */
export const solveRosenbrock: Solve = (system, options) => createRosenbrock(system)(options);

/** Makes an integrator for many runs of one system; a solution is valid until the next run, as with `createExplicit`. */
export function createRosenbrock(system: SwitchedSystem): (options: SolveOptions) => Solution {
  return createIntegrator(system, rodas);
}

const STAGES = 6;
/** Relative increment of the one-sided differences: the square root of the rounding unit. */
const INCREMENT = 2 ** -26;

/**
 * The step. The Jacobian is taken by one-sided differences at the start of each step, over the states and the time; the
 * quadratures feed back into nothing, so only the states need a linear system. Errors are weighed as in `explicit.ts`.
 */
function rodas(system: SwitchedSystem): Step {
  const n = system.states;
  const all = n + system.quadratures;
  const { scales } = system;
  const start = new Float64Array(n + 1);
  const end = new Float64Array(n + 1);
  const y = new Float64Array(n + 1);
  const startRates = new Float64Array(all);
  const endRates = new Float64Array(all);
  const rates = new Float64Array(all);
  const gained = new Float64Array(all - n);
  const peaks = new Float64Array(all - n);
  /** Row by row, a row for each state and quadrature: derivatives with the states, then with the time. */
  const jacobian = new Float64Array(all * (n + 1));
  const matrix = new Float64Array(n * n);
  const pivots = new Int32Array(n);
  /** The six vectors u, one after the other. */
  const u = new Float64Array(STAGES * all);
  let known = false;

  function begin(mode: number): void {
    system.rates(mode, start, startRates);
    step.evaluations += 1;
    known = false;
  }

  function differentiate(mode: number): void {
    y.set(start);
    for (let j = 0; j <= n; j++) {
      const size = j < n ? Math.max(Math.abs(start[j]!), scales[j]!) : Math.max(Math.abs(start[n]!), step.size);
      // The increment as it is after rounding.
      y[j] = start[j]! + INCREMENT * size;
      const increment = y[j]! - start[j]!;
      system.rates(mode, y, rates);
      y[j] = start[j]!;
      for (let i = 0; i < all; i++) jacobian[i * (n + 1) + j] = (rates[i]! - startRates[i]!) / increment;
    }
    step.evaluations += n + 1;
    known = true;
  }

  function attempt(mode: number): void {
    const h = step.size;
    if (!known) differentiate(mode);
    const diagonal = 1 / (RODAS.GAMMA * h);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) matrix[i * n + j] = (i === j ? diagonal : 0) - jacobian[i * (n + 1) + j]!;
    }
    if (!decompose(matrix, n, pivots)) {
      step.error = Number.NaN;
      return;
    }
    for (let s = 0; s < STAGES; s++) stage(mode, s);
    const last = (STAGES - 1) * all;
    for (let i = 0; i < n; i++) end[i] = y[i]! + u[last + i]!;
    end[n] = step.until;
    system.rates(mode, end, endRates);
    step.evaluations += STAGES;
    measure();
  }

  /** Solves for u of one stage; leaves its argument in `y`. */
  function stage(mode: number, s: number): void {
    const h = step.size;
    const here = s * all;
    const a = RODAS.A[s]!;
    const c = RODAS.C[s]!;
    for (let i = 0; i < n; i++) {
      let value = start[i]!;
      for (let j = 0; j < s; j++) value += a[j]! * u[j * all + i]!;
      y[i] = value;
    }
    y[n] = RODAS.ALPHA[s] === 1 ? step.until : start[n]! + RODAS.ALPHA[s]! * h;
    if (s > 0) system.rates(mode, y, rates);
    const from = s > 0 ? rates : startRates;
    for (let i = 0; i < all; i++) {
      let value = from[i]! + RODAS.TIME[s]! * h * jacobian[i * (n + 1) + n]!;
      for (let j = 0; j < s; j++) value += (c[j]! / h) * u[j * all + i]!;
      u[here + i] = value;
    }
    substitute(matrix, n, pivots, u, here);
    for (let i = n; i < all; i++) {
      let value = u[here + i]!;
      for (let j = 0; j < n; j++) value += jacobian[i * (n + 1) + j]! * u[here + j]!;
      u[here + i] = RODAS.GAMMA * h * value;
    }
  }

  /** Error of the step, the u of the last stage, and gain of the quadratures. */
  function measure(): void {
    const last = (STAGES - 1) * all;
    const a = RODAS.A[STAGES - 1]!;
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
      for (let j = 0; j < STAGES - 1; j++) gain += a[j]! * u[j * all + i]!;
      gained[i - n] = gain;
      peaks[i - n] = Math.max(peaks[i - n]!, Math.abs(startRates[i]!), Math.abs(endRates[i]!));
      if (error !== 0) worst = Math.max(worst, Math.abs(error) / (peaks[i - n]! * step.horizon));
    }
    for (let i = 0; i < all; i++) poison += endRates[i]! - endRates[i]!;
    step.error = worst / step.tolerance + poison;
  }

  function dense(out: Float64Array, offset: number): void {
    for (let i = 0, o = offset; i < all; i++, o += 3) {
      let a2 = 0;
      let a3 = 0;
      for (let j = 0; j < STAGES - 1; j++) {
        a2 += RODAS.D2[j]! * u[j * all + i]!;
        a3 += RODAS.D3[j]! * u[j * all + i]!;
      }
      out[o] = a2;
      out[o + 1] = a3;
      out[o + 2] = 0;
    }
  }

  const step: Step = {
    power: 4,
    start,
    end,
    startRates,
    endRates,
    gained,
    tolerance: Number.NaN,
    size: Number.NaN,
    until: Number.NaN,
    horizon: Number.NaN,
    error: Number.NaN,
    evaluations: 0,
    reset() {
      for (let j = 0; j < all - n; j++) peaks[j] = scales[n + j] ?? 0;
      step.evaluations = 0;
    },
    begin,
    attempt,
    advance() {
      start.set(end);
      startRates.set(endRates);
      known = false;
    },
    dense,
  };
  return step;
}
