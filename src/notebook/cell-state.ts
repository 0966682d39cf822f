/** The cells of a notebook on their way from text to yield, each after what it needs. */
import type { Table } from '../batch/table.ts';
import { BatchProblem } from '../batch/problem.ts';
import { doubtsOf } from '../runs/doubts.ts';
import { CellProblems, type CellKind, isPending, type PreparedCell } from './cells/kind.ts';
import type { CellYield } from './cells/yield.ts';
import { checkPromise } from './cells/comparison.ts';
import { type Cells, needsFailed, type World } from './context.ts';
import type { CellPiece, NotebookDocument } from './document/document.ts';
import { faultAt, type Place, problemAt } from './document/located.ts';
import { type Names, namesOf } from './document/names.ts';
import type { CellBlock } from './document/outcome.ts';
import { orderCells } from './document/order.ts';
import { placeOf, placeOfWord } from './document/place.ts';
import { NotebookProblem, type ProblemData } from './document/problem.ts';
import type { Asking, Turning } from './rows-ask.ts';

/** A cell on its way from text to yield. */
export interface CellState {
  readonly piece: CellPiece;
  readonly prepared: PreparedCell | null;
  problems: readonly ProblemData[];
  given: CellYield | null;
}

export function prepareCell(piece: CellPiece, document: NotebookDocument, kinds: readonly CellKind[]): CellState {
  const kind = kinds.find(({ kind }) => kind === piece.cell);
  const state = { piece, prepared: null, problems: [], given: null };
  if (piece.problem !== null || kind === undefined) {
    return { ...state, problems: piece.problem === null ? [] : [piece.problem] };
  }
  try {
    return { ...state, prepared: kind.prepare({ text: document.text, piece }) };
  } catch (error) {
    return { ...state, problems: problemsOf(error, piece, document) };
  }
}

/** Problems of a cell; the other cells still run. */
export function problemsOf(error: unknown, piece: CellPiece, document: NotebookDocument): readonly ProblemData[] {
  if (error instanceof CellProblems) return error.problems;
  if (error instanceof NotebookProblem) return [error.data, ...error.others];
  const place = placeOf(document.text, piece.line);
  if (error instanceof BatchProblem) return [{ ...problemAt(place, piece.name, error.message), cause: 'files' }];
  return [faultAt(place, piece.name, `this ${piece.cell} cell`, error)];
}

/** The cells of a notebook that are told apart by name, and the order in which they run. */
export interface RunPlan {
  readonly byName: ReadonlyMap<string, CellState>;
  readonly names: Names;
  readonly order: readonly string[];
  readonly circles: readonly (readonly string[])[];
}

export function planOf(states: readonly CellState[]): RunPlan {
  const byName = statesByName(states);
  const known = [...byName.values()].map(({ piece, prepared }) => ({
    name: piece.name,
    kind: piece.cell,
    line: piece.line,
    defines: prepared?.defines ?? [],
  }));
  const names = namesOf(known);
  const needs = [...byName].map(([name, state]) => ({ name, needs: needsOf(state, names) }));
  return { byName, names, ...orderCells(needs) };
}

/** Names of the cells that a cell leans on. */
export function needsOf({ prepared }: CellState, names: Names): readonly string[] {
  return (prepared?.needs ?? []).flatMap(path => names.owner(path)?.name ?? []);
}

/** Runs all cells in the order of their needs, and tells of each one that has run; afterwards each state has its yield or its problems. */
export function* runAll(
  { byName, names, order, circles }: RunPlan,
  cells: Cells,
  document: NotebookDocument,
  told: (state: CellState) => void,
): Turning<void> {
  for (const circle of circles) {
    for (const [k, name] of circle.entries()) {
      const state = byName.get(name);
      const turned = [...circle.slice(k), ...circle.slice(0, k)];
      if (state !== undefined) state.problems = [circleProblem(state, turned, names, document)];
      cells.failed(name);
    }
  }
  for (const name of order) {
    const state = byName.get(name);
    yield null;
    if (state === undefined) continue;
    yield* runCell(state, cells, document);
    told(state);
  }
}

/** Where two cells claim a name, it means the one that has no problem in its head, else the first. */
function statesByName(states: readonly CellState[]): ReadonlyMap<string, CellState> {
  const byName = new Map<string, CellState>();
  for (const state of states) {
    const before = byName.get(state.piece.name);
    if (before === undefined || (before.piece.problem !== null && state.piece.problem === null)) {
      byName.set(state.piece.name, state);
    }
  }
  return byName;
}

/** Runs one cell, whose needs have run, and tells the others how it went. */
export function* runCell(state: CellState, cells: Cells, document: NotebookDocument): Asking<void> {
  yield* attempt(state, cells, document);
  const { given, problems, piece } = state;
  if (given === null || problems.length > 0) cells.failed(piece.name);
  else cells.done(piece.name, given);
}

function* attempt(state: CellState, cells: Cells, document: NotebookDocument): Asking<void> {
  const { piece, prepared } = state;
  if (prepared === null) return;
  const failed = cells.failedNeed(prepared.needs);
  if (failed !== undefined) {
    const problem = problemAt(placeInCell(document, piece, failed.path), piece.name, needsFailed(failed.cell));
    state.problems = [{ ...problem, cause: 'need' }];
    return;
  }
  try {
    let given = prepared.run(cells);
    while (isPending(given)) {
      const table: Table | null = yield { cell: piece.name, job: given.job, whole: given.whole === true };
      if (table === null) {
        const problem = problemAt(placeOf(document.text, piece.line), piece.name, 'its rows are not done');
        state.problems = [{ ...problem, cause: 'rows' }];
        return;
      }
      given = given.finish(table);
    }
    state.given = given;
    state.problems = doubtful(given, piece, document);
  } catch (error) {
    state.problems = problemsOf(error, piece, document);
  }
}

/** A result that is not to be relied on is shown, but nothing leans on it. */
function doubtful({ product }: CellYield, piece: CellPiece, { text }: NotebookDocument): readonly ProblemData[] {
  if (product?.kind !== 'result') return [];
  return doubtsOf(product.result).map(doubt => problemAt(placeOf(text, piece.line), piece.name, doubt));
}

/** Names of a circle that are shown. */
const LONGEST_CIRCLE = 8;

/** `a -> b -> a`, told in each cell of the circle at the name it uses. */
function circleProblem(
  { piece, prepared }: CellState,
  circle: readonly string[],
  names: Names,
  document: NotebookDocument,
): ProblemData {
  const [own = '', next = own] = circle;
  const path = prepared?.needs.find(need => names.owner(need)?.name === next) ?? next;
  const shown = circle.length > LONGEST_CIRCLE ? [...circle.slice(0, LONGEST_CIRCLE - 1), '...'] : circle;
  const message = `cells need each other in a circle: ${[...shown, own].join(' -> ')}`;
  return problemAt(placeInCell(document, piece, path), own, message);
}

/** Where a cell says a path; its fence where it is not found. */
function placeInCell({ text }: NotebookDocument, piece: CellPiece, path: string): Place {
  const first = piece.line + 1;
  const last = piece.line + piece.source.split('\n').length;
  return placeOfWord(text, path, first, last) ?? placeOf(text, piece.line);
}

/** A cell as the report takes it, when the intervals of its page are known. */
export function cellBlock({ piece, problems, given }: CellState, world: World): CellBlock {
  return {
    kind: 'cell',
    cell: piece.cell,
    name: piece.name,
    line: piece.line,
    source: piece.source,
    problem: problems[0] ?? null,
    result: given?.product?.kind === 'result' ? given.product.result : null,
    values: given?.named ?? [],
    chart: given?.chart ?? null,
    checks: (given?.checks ?? []).map(check => checkPromise(check, world)),
    ...(given?.product?.kind === 'car' && { sketch: given.product.sketch }),
    ...(given !== null && given.knobs.length > 0 && { knobs: given.knobs }),
  };
}
