/** The tornado: each input by itself from its low to its high, the others as they are. */
import { outputsAt } from '../question/evaluate.ts';
import type { Evaluate } from '../question/evaluate.ts';

/** Where an input swings between; for an uncertain one usually the ends of a coverage interval of its draw. */
export interface Swing {
  readonly low: number;
  readonly high: number;
}

/** One bar. Outputs are null where there is no answer. */
export interface TornadoRow {
  /** Index of the input. */
  readonly input: number;
  readonly swing: Swing;
  readonly atLow: number | null;
  readonly atHigh: number | null;
  /** |atHigh - atLow|; null without both. */
  readonly width: number | null;
}

export interface Tornado {
  /** Output with every input as it is. */
  readonly base: number | null;
  /** Widest first; bars without a width, which matter most, before all; inputs of equal width in their order. */
  readonly rows: readonly TornadoRow[];
}

/** One tornado per output. Two evaluations per input and one at `x`. */
export function tornado(
  evaluate: Evaluate,
  x: readonly number[],
  swings: readonly Swing[],
  outputs: number,
): Tornado[] {
  const base = outputsAt(evaluate, x, 0, x[0]!, outputs);
  const ends = swings.map(({ low, high }, k) => ({
    low: outputsAt(evaluate, x, k, low, outputs),
    high: outputsAt(evaluate, x, k, high, outputs),
  }));
  return Array.from(base, (value, output) => {
    const rows = swings.map((swing, input): TornadoRow => {
      const atLow = answer(ends[input]!.low[output]!);
      const atHigh = answer(ends[input]!.high[output]!);
      const width = atLow === null || atHigh === null ? null : Math.abs(atHigh - atLow);
      return { input, swing, atLow, atHigh, width };
    });
    const size = ({ width }: TornadoRow): number => width ?? Number.MAX_VALUE;
    return { base: answer(value), rows: rows.toSorted((a, b) => size(b) - size(a)) };
  });
}

function answer(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
