/** The cheap ranking: the law of propagation of uncertainty, two evaluations per input. */
import type { Draw } from '../sampling/draw.ts';
import { outputsAt } from '../question/evaluate.ts';
import type { Evaluate } from '../question/evaluate.ts';

/** One input's part in the uncertainty of one output. */
export interface LocalShare {
  /** What one standard uncertainty of the input does to the output, with its sign, in the unit of the output. */
  readonly effect: number;
  /** Share of the variance. */
  readonly share: number;
}

export interface LocalShares {
  /** Combined standard uncertainty, in the unit of the output. */
  readonly standard: number;
  /** One per input; null where nothing varies. */
  readonly shares: readonly LocalShare[] | null;
}

/**
 * Uncertainty of each output by JCGM 100:2008, equation (10), with the effects by its 5.1.3, note 2: half the difference between the
 * outputs at one standard uncertainty above and below `x`. Exact for models that are straight within the uncertainties;
 * for others use `varianceShares`. A point that would fall outside the limits of its input is moved to the limit, and the
 * difference is scaled accordingly. Null for an output that has no answer at one of the points.
 */
export function localShares(
  evaluate: Evaluate,
  x: readonly number[],
  draws: readonly Draw[],
  outputs: number,
): (LocalShares | null)[] {
  const effects = draws.map((draw, k) => effectsOf(evaluate, x, k, draw, outputs));
  return Array.from({ length: outputs }, (_, output) => {
    const column = effects.map(effect => effect[output]!);
    if (column.some(effect => !Number.isFinite(effect))) return null;
    const variance = column.reduce((sum, effect) => sum + effect ** 2, 0);
    if (variance === 0) return { standard: 0, shares: null };
    const shares = column.map(effect => ({ effect, share: effect ** 2 / variance }));
    return { standard: Math.sqrt(variance), shares };
  });
}

function effectsOf(evaluate: Evaluate, x: readonly number[], k: number, draw: Draw, outputs: number): Float64Array {
  const at = x[k]!;
  const above = Math.min(at + draw.standard, draw.high);
  const below = Math.max(at - draw.standard, draw.low);
  if (!(above > below)) throw new RangeError(`input ${k} at ${at} lies outside its spread ${draw.low} .. ${draw.high}`);
  const high = outputsAt(evaluate, x, k, above, outputs);
  const low = outputsAt(evaluate, x, k, below, outputs);
  return high.map((value, output) => ((value - low[output]!) / (above - below)) * draw.standard);
}
