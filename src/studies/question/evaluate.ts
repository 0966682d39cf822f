/** What a study sees of a model: numbers in, numbers out. */
import { item, nth } from '../../columns.ts';

/**
 * Evaluates the model once: reads the inputs `x` and writes every output, both by index and in units of the caller's
 * choice. NaN in an output says that this sample has no such answer (the car never gets there); why is for the caller to
 * keep. The same inputs must give the same outputs, whatever was evaluated before: so any number of workers agree.
 */
export type Evaluate = (x: Float64Array, out: Float64Array) => void;

/** Indices from `from` up to, not including, `to`. */
export interface IndexRange {
  readonly from: number;
  readonly to: number;
}

/**
 * Writes the inputs of evaluation number `index` to `x`. It depends on the index alone, so that a table may be made in any order
 * and by any number of workers.
 */
export type InputsAt = (index: number, x: Float64Array) => void;

/** Evaluates a range of indices; one column per output, each `to - from` long. This is what a worker is given to do. */
export function evaluateRange(
  evaluate: Evaluate,
  inputsAt: InputsAt,
  shape: { readonly inputs: number; readonly outputs: number },
  range: IndexRange,
): Float64Array[] {
  const count = range.to - range.from;
  const columns = Array.from({ length: shape.outputs }, () => new Float64Array(count));
  const x = new Float64Array(shape.inputs);
  const out = new Float64Array(shape.outputs);
  for (let row = 0; row < count; row++) {
    inputsAt(range.from + row, x);
    // An output that is forgotten shows as no answer, not as the answer of the sample before.
    out.fill(Number.NaN);
    evaluate(x, out);
    for (let k = 0; k < shape.outputs; k++) item(columns, k)[row] = nth(out, k);
  }
  return columns;
}
