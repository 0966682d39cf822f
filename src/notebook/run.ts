/** Runs a notebook: every cell after what it needs, every problem in its place. */
import { evaluators } from '../batch/evaluators.ts';
import type { Job } from '../batch/job.ts';
import { type Table, tableHere } from '../batch/table.ts';
import { BatchProblem } from '../batch/problem.ts';
import type { Input } from '../model/fields/input.ts';
import { doubtsOf } from '../runs/doubts.ts';
import type { Intervals } from '../runs/result.ts';
import { CELL_KINDS } from './cells/registry.ts';
import { CellProblems, type CellKind, type CellYield, isPending, type PreparedCell } from './cells/kind.ts';
import { type Cells, needsFailed, openCells } from './context.ts';
import { type CellPiece, type NotebookDocument, parseDocument } from './document/document.ts';
import { renderProse } from './document/inline.ts';
import { type IntervalPlan, intervalPlan } from './intervals.ts';
import { faultAt, type Place, problemAt } from './document/located.ts';
import { type Names, namesOf } from './document/names.ts';
import { orderCells } from './document/order.ts';
import { intervalRounds, sharesFigures, type Spread, type Spreading, withSpreads } from './interval-rounds.ts';
import { mostSamples, type Samples } from './samples.ts';
import type { Block, CellBlock, NotebookOutcome } from './document/outcome.ts';
import { placeOf, placeOfWord } from './document/place.ts';
import { NotebookProblem, type ProblemData } from './document/problem.ts';

export interface RunOptions {
  /** Path of the notebook as the user gave it; stands in every message. */
  readonly file: string;
  /** Reads a file of the notebook's folder; without it no cell can read any. See `folderReader`. */
  readonly readFile?: (path: string) => string;
  /** Kinds of cell; default: all that axlewatt knows. */
  readonly kinds?: readonly CellKind[];
  /** Of uncertain inputs for each run, where the front matter says nothing; none if left out. */
  readonly samples?: Samples;
}

/** Runs a notebook in this thread. Pure but for `readFile`; never throws for what the user wrote. */
export function runNotebook(text: string, options: RunOptions): NotebookOutcome {
  const steps = runSteps(text, options);
  let step = steps.next();
  while (step.done !== true) {
    const { job } = step.value;
    const asked = here(job);
    step = 'table' in asked ? steps.next(asked.table) : steps.throw(asked.error);
  }
  return step.value;
}

/** Rows that a cell waits for. */
export interface RowsAsk {
  /** Name of the cell. */
  readonly cell: string;
  readonly job: Job;
  /** Whether they are worth a file, and can be shared out among machines. */
  readonly whole: boolean;
}

/**
 * The same, with rows done by `rows`: on other threads, or out of a file. Null from it leaves the cell, and what leans on it,
 * without an answer; what it throws is a problem of the cell.
 * @param signal aborted, it ends the run at the next rows: then this throws its reason.
 */
export async function runNotebookWith(
  text: string,
  options: RunOptions,
  rows: (ask: RowsAsk) => Promise<Table | null>,
  signal?: AbortSignal,
): Promise<NotebookOutcome> {
  const steps = runSteps(text, options);
  let step = steps.next();
  while (step.done !== true) {
    const asked = await settled(rows, step.value);
    signal?.throwIfAborted();
    step = 'table' in asked ? steps.next(asked.table) : steps.throw(asked.error);
  }
  return step.value;
}

type Asked = { readonly table: Table | null } | { readonly error: unknown };

function here(job: Job): Asked {
  try {
    return { table: tableHere(job, evaluators) };
  } catch (error) {
    return { error };
  }
}

async function settled(rows: (ask: RowsAsk) => Promise<Table | null>, ask: RowsAsk): Promise<Asked> {
  try {
    return { table: await rows(ask) };
  } catch (error) {
    return { error };
  }
}

type Asking<T> = Generator<RowsAsk, T, Table | null>;

/** Asks for the rows of each job in turn and ends with the outcome. */
function* runSteps(text: string, options: RunOptions): Asking<NotebookOutcome> {
  const kinds = options.kinds ?? CELL_KINDS;
  const document = parseDocument(text, options.file, kinds);
  const states = document.pieces.flatMap(piece => (piece.kind === 'cell' ? [prepareCell(piece, document, kinds)] : []));
  const most = mostSamples(states.map(({ piece }) => piece.cell));
  const samples = document.frontMatter.samples ?? options.samples ?? 0;
  const cells = yield* runAll(states, document, options, typeof samples === 'number' && samples > 0 ? samples : most);
  yield* spreadAll(states, samples, most, document);
  return assemble(document, states, cells, options.file);
}

/** A cell on its way from text to yield. */
interface CellState {
  readonly piece: CellPiece;
  readonly prepared: PreparedCell | null;
  problems: readonly ProblemData[];
  given: CellYield | null;
}

function prepareCell(piece: CellPiece, document: NotebookDocument, kinds: readonly CellKind[]): CellState {
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
function problemsOf(error: unknown, piece: CellPiece, document: NotebookDocument): readonly ProblemData[] {
  if (error instanceof CellProblems) return error.problems;
  if (error instanceof NotebookProblem) return [error.data, ...error.others];
  const place = placeOf(document.text, piece.line);
  if (error instanceof BatchProblem) return [{ ...problemAt(place, piece.name, error.message), cause: 'files' }];
  return [faultAt(place, piece.name, `this ${piece.cell} cell`, error)];
}

/** Runs all cells in the order of their needs; afterwards each state has its yield or its problems. */
function* runAll(
  states: readonly CellState[],
  document: NotebookDocument,
  options: RunOptions,
  samples: number,
): Asking<Cells> {
  const byName = statesByName(states);
  const known = [...byName.values()].map(({ piece, prepared }) => ({
    name: piece.name,
    kind: piece.cell,
    line: piece.line,
    defines: prepared?.defines ?? [],
  }));
  const names = namesOf(known);
  const cells = openCells(names, document.frontMatter.system, options.readFile ?? noFiles, samples);
  const needs = [...byName].map(([name, { prepared }]) => ({
    name,
    needs: (prepared?.needs ?? []).flatMap(path => names.owner(path)?.name ?? []),
  }));
  const { order, circles } = orderCells(needs);
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
    if (state === undefined) continue;
    yield* runCell(state, cells, document);
    if (state.given === null || state.problems.length > 0) cells.failed(name);
    else cells.done(name, state.given);
  }
  return cells;
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

function* runCell(state: CellState, cells: Cells, document: NotebookDocument): Asking<void> {
  const { piece, prepared } = state;
  if (prepared === null) return;
  const failed = cells.failedNeed(prepared.needs);
  if (failed !== undefined) {
    state.problems = [problemAt(placeInCell(document, piece, failed.path), piece.name, needsFailed(failed.cell))];
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

/** Gives every run the intervals that the spreads of its inputs mean. */
function* spreadAll(
  states: readonly CellState[],
  samples: Samples,
  most: number,
  document: NotebookDocument,
): Asking<void> {
  if (samples === 0) return;
  const spreads = spreadsOf(states);
  const groups = new Map<number | null, Spreading[]>();
  for (const state of states) {
    if (state.problems.length > 0 || state.given === null) continue;
    const { product } = state.given;
    if (product?.kind !== 'result' || product.question === undefined) continue;
    const { name } = state.piece;
    // A spread that says a number of its own says it for its runs too.
    const own = spreads.find(spread => sharesFigures(name, spread))?.result.intervals?.samples;
    const asked = own ?? (samples === 'enough' ? null : samples);
    const failed = (error: unknown): void => void (state.problems = problemsOf(error, state.piece, document));
    let plan: IntervalPlan | null = null;
    try {
      plan = intervalPlan(product.question, product.result, state.given.inputs, asked ?? most);
    } catch (error) {
      failed(error);
    }
    if (plan === null) continue;
    const done = (found: Intervals): void => {
      const intervals = withSpreads(name, found, spreads);
      if (state.given !== null)
        state.given = { ...state.given, product: { ...product, result: { ...product.result, intervals } } };
    };
    groups.set(asked, [...(groups.get(asked) ?? []), { cell: name, plan, done, failed }]);
  }
  // One number for the page: that of its spreads goes for the runs of which nobody says it, if they can bear it.
  const [said = null] = [...groups.keys()].filter(asked => asked !== null && asked <= most);
  for (const [asked, runs] of groups) yield* intervalRounds(runs, asked ?? said, most);
}
/** The spreads of the page, by which figures of its runs have been sampled already. */
function spreadsOf(states: readonly CellState[]): readonly Spread[] {
  return states.flatMap(({ given, prepared, problems }) => {
    const product = given?.product;
    if (problems.length > 0 || product?.kind !== 'result' || product.result.kind !== 'spread') return [];
    return [{ runs: prepared?.needs ?? [], result: product.result }];
  });
}

const noFiles = (path: string): never => {
  throw new Error(`no file can be read here: ${path}`);
};

function assemble(
  document: NotebookDocument,
  states: readonly CellState[],
  cells: Cells,
  file: string,
): NotebookOutcome {
  const byPiece = new Map(states.map(state => [state.piece, state]));
  const problems = [...document.problems, ...states.flatMap(state => state.problems)];
  const blocks = document.pieces.flatMap((piece): Block[] => {
    if (piece.kind === 'cell') {
      const state = byPiece.get(piece);
      return state === undefined ? [] : [cellBlock(state)];
    }
    const prose = renderProse(piece.tokens, document.text, cells);
    problems.push(...prose.problems);
    return [piece.answers ? { ...prose.block, answers: true } : prose.block];
  });
  return {
    file,
    title: document.frontMatter.title || document.heading || file.replace(/^.*[/\\]/, '').replace(/\.[^.]*$/, ''),
    system: document.frontMatter.system,
    blocks,
    inputs: inputsOfRuns(states),
    problems: problems.toSorted((a, b) => a.line - b.line || a.column - b.column),
    failedChecks: states.flatMap(({ given }) => given?.checks ?? []).filter(({ holds }) => !holds).length,
  };
}

function cellBlock({ piece, problems, given }: CellState): CellBlock {
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
    checks: given?.checks ?? [],
    ...(given !== null && given.knobs.length > 0 && { knobs: given.knobs }),
  };
}

/** Inputs of the cells that gave a result, each path once, in the order in which they are first met. */
function inputsOfRuns(states: readonly CellState[]): Input[] {
  const inputs = new Map<string, Input>();
  for (const { given } of states) {
    if (given?.product?.kind !== 'result') continue;
    for (const input of given.inputs) if (!inputs.has(input.path)) inputs.set(input.path, input);
  }
  return [...inputs.values()];
}
