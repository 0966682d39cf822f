/** A study of several rows, each of which gets intervals: the cars of a comparison, the points of a sweep. */
import { number } from '../../model/fields/table.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { Result } from '../../runs/result.ts';
import type { RowSamples } from '../../studies/answers/row-samples.ts';
import type { Subject } from '../../studies/question/study-model.ts';
import type { Uncertain } from '../../studies/sampling/uncertain.ts';
import { FEWEST, FIRST } from '../samples.ts';

/** What a study of several rows varies, and what it makes of samples. */
export interface Varied {
  readonly subject: Subject;
  readonly keys: readonly string[];
  readonly inputs: readonly Uncertain[];
  /** What makes a row of the subject. */
  readonly rows: readonly (readonly Change[])[];
  /** Samples that the cell asks for itself; null where it says nothing. */
  readonly asked: number | null;
  read(found: RowSamples): Result;
}

/** Where nobody says how many. */
const UNASKED = `${FIRST}, where they take less than an eighth of what a page takes for its runs; else none`;

export const samplesField = number(
  '1',
  ['1', '1'],
  [FEWEST, 1e5],
  'samples of the uncertain inputs, by the same draws in each row: intervals of its figures',
  { derived: UNASKED },
);
