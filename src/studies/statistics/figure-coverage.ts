/** What samples say of figures: their intervals, and why some have no answer. */
import { item } from '../../columns.ts';
import type { Coverage, Holes, Intervals } from '../../runs/result.ts';
import { readWhyNot } from '../question/why-not.ts';
import { estimate } from './estimate.ts';
import { countedReasons } from './unanswered.ts';

/** Samples of figures that were asked together. */
export interface SampledFigures {
  readonly keys: readonly string[];
  /** Of each key in turn, NaN where a sample has no answer. */
  readonly columns: readonly Float64Array[];
  /** Why a sample lacks figures, in the form of `why-not.ts`. */
  readonly code: (sample: number) => string;
}

export function figureCoverages(
  { keys, columns, code }: SampledFigures,
  probability: number,
): Pick<Intervals, 'of' | 'holes'> {
  const of: { [key: string]: Coverage } = {};
  const holes: { [key: string]: Holes } = {};
  for (const [place, key] of keys.entries()) {
    const column = item(columns, place);
    const { symmetric, standard, missing } = estimate(column, probability);
    if (symmetric !== null && standard !== null) of[key] = { ...symmetric, standard, missing };
    if (missing > 0) holes[key] = { missing, reasons: countedReasons(reasonsOf(column, place, code)) };
  }
  return { of, holes };
}

function* reasonsOf(column: Float64Array, place: number, code: SampledFigures['code']): Generator<string> {
  for (const [sample, value] of column.entries()) if (Number.isNaN(value)) yield readWhyNot(code(sample), place);
}
