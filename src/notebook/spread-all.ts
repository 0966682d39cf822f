/** The intervals of all runs of a page. */
import { intervalsOn } from '../runs/kind.ts';
import { runKindOf } from '../runs/kinds.ts';
import type { Intervals } from '../runs/result.ts';
import { type CellState, problemsOf } from './cell-state.ts';
import type { Cells } from './context.ts';
import type { NotebookDocument } from './document/document.ts';
import { intervalRounds, sharesFigures, type Spread, type Spreading } from './interval-rounds.ts';
import { type IntervalPlan, intervalPlan, USUAL_POINTS } from './intervals.ts';
import { spreadRows } from './spread-rows.ts';
import type { Asking } from './rows-ask.ts';
import { FEWEST, FIRST, type Samples } from './samples.ts';

const HEAVY = `No intervals: ${FEWEST} samples of this run are more work than a page takes unasked; --samples ${FIRST}, or samples: ${FIRST} at its head, takes them all the same`;

/** Gives every run the intervals that the spreads of its inputs mean. */
export function* spreadAll(
  states: readonly CellState[],
  samples: Samples,
  most: number,
  document: NotebookDocument,
  cells: Pick<Cells, 'done' | 'memory'>,
): Asking<void> {
  if (samples === 0) return;
  const spreads = spreadsOf(states);
  const groups = new Map<number | null, Spreading[]>();
  for (const state of states) {
    if (state.problems.length > 0 || state.given === null) continue;
    const { product } = state.given;
    if (product?.kind !== 'result' || product.question === undefined) continue;
    const { name } = state.piece;
    const { question } = product;
    // A spread that says a number of its own says it for its runs too: the same figure has the same interval all over the page.
    const own = spreads.find(spread => sharesFigures(name, spread))?.result.intervals;
    const asked = own?.samples ?? (samples === 'enough' ? null : samples);
    const failed = (error: unknown): void => void (state.problems = problemsOf(error, state.piece, document));
    let plan: IntervalPlan | null = null;
    try {
      plan = intervalPlan(product.question, product.result, state.given.inputs, asked ?? most, own ?? USUAL_POINTS);
    } catch (error) {
      failed(error);
    }
    if (plan === null) continue;
    const done = (intervals: Intervals): void => {
      if (state.given === null) return;
      const result = intervalsOn(runKindOf(question.run.kind), product.result, intervals);
      state.given = { ...state.given, product: { ...product, result } };
    };
    const heavy = (): void => {
      const notes = [...(product.result.notes ?? []), HEAVY];
      if (state.given !== null)
        state.given = { ...state.given, product: { ...product, result: { ...product.result, notes } } };
    };
    groups.set(asked, [...(groups.get(asked) ?? []), { cell: name, plan, done, failed, heavy }]);
  }
  // One number for the page: that of its spreads goes for the runs of which nobody says it, if they can bear it.
  const [said = null] = [...groups.keys()].filter(asked => asked !== null && asked <= most);
  for (const [asked, runs] of groups) yield* intervalRounds(runs, asked ?? said, most, cells.memory);
  for (const { piece, given, problems } of states)
    if (given !== null && problems.length === 0) cells.done(piece.name, given);
  yield* spreadRows(states, document, cells);
}
/** The spreads of the page, by which figures of its runs have been sampled already. */
function spreadsOf(states: readonly CellState[]): readonly Spread[] {
  return states.flatMap(({ given, prepared, problems }) => {
    const product = given?.product;
    if (problems.length > 0 || product?.kind !== 'result' || product.result.kind !== 'spread') return [];
    return [{ runs: prepared?.needs ?? [], result: product.result }];
  });
}
