/** Which design choice moves a result most: per cent of the result per per cent of the parameter. */
import { outputsAt } from '../question/evaluate.ts';
import type { Evaluate } from '../question/evaluate.ts';

export interface Elasticity {
  /** d ln y / d ln x: per cent of y for one per cent of x. Null where y or x is 0 or a point has no answer. */
  readonly value: number | null;
  /** dy/dx, in the units of both. Null where a point has no answer. */
  readonly slope: number | null;
  /**
   * Difference between the slopes over the whole and over half the step, in per cent per per cent (in units of the slope where
   * `value` is null): how far the number may be trusted. Large at a kink.
   */
  readonly uncertainty: number | null;
}

export interface StepOptions {
  /** Half width of the difference, as a share of the parameter; 0.01 unless stated: well above what a solver rounds off. */
  readonly relative?: number;
  /** Half width for a parameter that is 0, in its unit; required there. */
  readonly absolute?: number;
}

/**
 * Elasticities of all outputs to parameter `k` about `x`, by central differences over a step and over half of it, extrapolated to a
 * step of nothing (Richardson; error of fourth order). Four evaluations and one at `x`. Throws a RangeError for a step
 * that is none.
 */
export function elasticities(
  evaluate: Evaluate,
  x: readonly number[],
  k: number,
  outputs: number,
  { relative = 0.01, absolute }: StepOptions = {},
): Elasticity[] {
  const at = x[k]!;
  const h = at === 0 ? (absolute ?? 0) : Math.abs(at) * relative;
  if (!(h > 0)) throw new RangeError(`parameter ${k} at ${at} needs a step above 0`);
  const here = outputsAt(evaluate, x, k, at, outputs);
  const whole = slopes(evaluate, x, k, outputs, h);
  const half = slopes(evaluate, x, k, outputs, h / 2);
  return Array.from(here, (y, output) => {
    const slope = (4 * half[output]! - whole[output]!) / 3;
    const difference = Math.abs(half[output]! - whole[output]!);
    if (!Number.isFinite(slope)) return { value: null, slope: null, uncertainty: null };
    if (at === 0 || y === 0 || !Number.isFinite(y)) return { value: null, slope, uncertainty: difference };
    return { value: (slope * at) / y, slope, uncertainty: Math.abs((difference * at) / y) };
  });
}

function slopes(evaluate: Evaluate, x: readonly number[], k: number, outputs: number, h: number): Float64Array {
  const at = x[k]!;
  const above = outputsAt(evaluate, x, k, at + h, outputs);
  const below = outputsAt(evaluate, x, k, at - h, outputs);
  return above.map((value, output) => (value - below[output]!) / (at + h - (at - h)));
}
