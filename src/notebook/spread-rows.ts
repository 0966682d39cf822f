/** The intervals of studies of several rows: of each car of a comparison, of each point of a sweep. */
import { jobOf } from '../batch/evaluators.ts';
import { effort } from '../model/effort.ts';
import { createSubject, sampled } from '../studies/question/study-model.ts';
import { oneBlock } from '../studies/sampling/sample.ts';
import { type CellState, problemsOf } from './cell-state.ts';
import type { RowSamples } from '../studies/answers/row-samples.ts';
import type { Varied } from './cells/varied.ts';
import type { Cells } from './context.ts';
import type { NotebookDocument } from './document/document.ts';
import { SEED } from './intervals.ts';
import type { Asking } from './rows-ask.ts';
import { FEWEST, FIRST, MOST_WORK } from './samples.ts';

/** Units of effort that a page takes for these unasked: what stands beside the runs may cost them an eighth. Common practice, no source. */
const MOST_BESIDE = MOST_WORK / 8;

/** Takes the samples of the studies that can bear them. */
export function* spreadRows(
  states: readonly CellState[],
  document: NotebookDocument,
  cells: Pick<Cells, 'done'>,
): Asking<void> {
  let left = MOST_BESIDE;
  for (const state of states) {
    const product = state.given?.product;
    if (state.given === null || state.problems.length > 0 || product?.kind !== 'result') continue;
    const { varied } = product;
    if (varied === undefined) continue;
    try {
      const work = varied.asked === null ? workOf(varied) : 0;
      const count = varied.asked ?? Math.min(FIRST, Math.floor(left / work));
      if (count < FEWEST) {
        const result = { ...product.result, unsampled: true } as const;
        state.given = { ...state.given, product: { ...product, result } };
        cells.done(state.piece.name, state.given);
        continue;
      }
      left -= count * work;
      const found = yield* sampledRows(state.piece.name, varied, count);
      if (found === null) continue;
      state.given = { ...state.given, product: { ...product, result: varied.read(found) } };
      cells.done(state.piece.name, state.given);
    } catch (error) {
      state.problems = problemsOf(error, state.piece, document);
    }
  }
}

/** Of one sample of every row. */
function workOf({ subject, rows, keys }: Varied): number {
  const before = effort.spent;
  createSubject(sampled(subject))(rows[0] ?? [], new Float64Array(keys.length));
  return Math.max(1, effort.spent - before) * rows.length;
}

function* sampledRows(cell: string, varied: Varied, count: number): Asking<RowSamples | null> {
  const { subject, inputs, keys, rows } = varied;
  const plan = { seed: SEED, samples: { fixed: count }, block: oneBlock(count) };
  const columns: Float64Array[][] = [];
  const codes: string[][] = [];
  for (const changes of rows) {
    const payload = { subject: sampled(subject), inputs, plan, changes };
    const table = yield { cell, job: jobOf('samples', payload, count, keys), whole: false };
    if (table === null) return null;
    columns.push(keys.map(key => table.column(key)));
    codes.push(Array.from({ length: count }, (_, row) => table.code(row)));
  }
  return { samples: count, seed: SEED, columns, codes };
}
