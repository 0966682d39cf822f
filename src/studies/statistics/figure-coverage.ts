/** What samples say of figures: their intervals, and why some have no answer. */
import { item } from '../../columns.ts';
import type { Coverage, Holes, Intervals } from '../../runs/result.ts';
import { readWhyNot } from '../question/why-not.ts';
import { promise } from './confidence.ts';
import { estimate, sortedAnswers } from './estimate.ts';
import { endErrorOf } from './standing.ts';
import { countedReasons } from './unanswered.ts';

/** Samples of figures that were asked together. */
export interface SampledFigures {
  readonly keys: readonly string[];
  /** Of each key in turn, the figure of the run itself; null where it has none. */
  readonly values: readonly (number | null)[];
  /** Of each key in turn, NaN where a sample has no answer. */
  readonly columns: readonly Float64Array[];
  /** Why a sample lacks figures, in the form of `why-not.ts`. */
  readonly code: (sample: number) => string;
}

export function figureCoverages(
  { keys, values, columns, code }: SampledFigures,
  probability: number,
): Pick<Intervals, 'of' | 'holes'> {
  const of: { [key: string]: Coverage } = {};
  const holes: { [key: string]: Holes } = {};
  for (const [place, key] of keys.entries()) {
    const column = item(columns, place);
    const { symmetric, standard, missing } = estimate(column, probability);
    if (symmetric !== null && standard !== null)
      of[key] = {
        ...symmetric,
        promised: {
          atLeast: promise(column, 'at_least', probability),
          atMost: promise(column, 'at_most', probability),
        },
        standard,
        ...endErrorOf(sortedAnswers(column), probability),
        below: shareBelow(column, item(values, place)),
        missing,
      };
    if (missing > 0) holes[key] = { missing, reasons: countedReasons(reasonsOf(column, place, code)) };
  }
  return { of, holes };
}

/** Of the answers; one that is equal counts half. */
function shareBelow(column: Float64Array, value: number | null): number | null {
  if (value === null) return null;
  const answers = column.filter(each => !Number.isNaN(each));
  return answers.reduce((sum, each) => sum + (each < value ? 1 : each === value ? 0.5 : 0), 0) / answers.length;
}

function* reasonsOf(column: Float64Array, place: number, code: SampledFigures['code']): Generator<string> {
  for (const [sample, value] of column.entries()) if (Number.isNaN(value)) yield readWhyNot(code(sample), place);
}
