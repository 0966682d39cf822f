/** Runs a notebook: every cell after what it needs, every problem in its place. */
import { evaluators } from '../batch/evaluators.ts';
import type { Job } from '../batch/job.ts';
import { type Table, tableHere } from '../batch/table.ts';
import type { Input } from '../model/fields/input.ts';
import type { Result } from '../runs/result.ts';
import { FILE_TEXT, TEXT } from '../runs/rules.ts';
import type { System } from '../units.ts';
import { cellBlock, type CellState, planOf, prepareCell, runAll } from './cell-state.ts';
import type { CellKind } from './cells/kind.ts';
import { CELL_KINDS } from './cells/registry.ts';
import { type Cells, noFiles, openCells } from './context.ts';
import { type NotebookDocument, parseDocument } from './document/document.ts';
import { renderProse } from './document/inline.ts';
import type { Block, NotebookOutcome } from './document/outcome.ts';
import type { Ending, RowsAsk, Turning } from './rows-ask.ts';
import type { Memory } from './memory.ts';
import { mostSamples, type Samples } from './samples.ts';
import { spreadAll } from './spread-all.ts';

export interface RunOptions {
  /** Path of the notebook as the user gave it; stands in every message. */
  readonly file: string;
  /** Reads a file of the notebook's folder; without it no cell can read any. See `folderReader`. */
  readonly readFile?: (path: string) => string;
  /** Kinds of cell; default: all that axlewatt knows. */
  readonly kinds?: readonly CellKind[];
  /** Of uncertain inputs for each run, where the front matter says nothing; none if left out. */
  readonly samples?: Samples;
  /** What runs answered before; left out, every run is done. */
  readonly memory?: Memory;
  /** Told of each result as soon as it is there, without the intervals that come later. @param cell its number in the notebook, from 1. */
  readonly onResult?: (result: Result, system: System, cell: number) => void;
}

/**
 * Runs a notebook in this thread. Pure but for `readFile`; never throws for what the user wrote: that stands in `problems`.
 * @param text of the notebook. @param options `{ file: 'first.md' }` at least.
 * @throws SpecError for a text or a file name that is none.
 */
export function runNotebook(text: string, options: RunOptions): NotebookOutcome {
  FILE_TEXT(text, 'text');
  const given: Partial<RunOptions> | null | undefined = options;
  TEXT(given?.file, 'options.file');
  const steps = runSteps(text, options);
  let step = steps.next();
  while (step.done !== true) {
    if (step.value === null) {
      step = steps.next(null);
      continue;
    }
    const asked = here(step.value.job);
    step = 'table' in asked ? steps.next(asked.table) : steps.throw(asked.error);
  }
  return step.value;
}

/**
 * The same, with rows done by `rows`: on other threads, or out of a file. Null from it leaves the cell, and what leans on it,
 * without an answer; what it throws is a problem of the cell.
 * @param signal aborted, it ends the run at the next rows or the next cell: then this throws its reason.
 * @param pause lets others be heard between two cells; left out, nobody is.
 */
export async function runNotebookWith(
  text: string,
  options: RunOptions,
  rows: (ask: RowsAsk) => Promise<Table | null>,
  signal?: Ending,
  pause?: () => Promise<void>,
): Promise<NotebookOutcome> {
  const steps = runSteps(text, options);
  let step = steps.next();
  while (step.done !== true) {
    const ask = step.value;
    if (ask === null) {
      await pause?.();
      signal?.throwIfAborted();
      step = steps.next(null);
      continue;
    }
    const asked = await settled(rows, ask);
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

/** Asks for the rows of each job in turn and ends with the outcome. */
function* runSteps(text: string, options: RunOptions): Turning<NotebookOutcome> {
  const kinds = options.kinds ?? CELL_KINDS;
  const document = parseDocument(text, options.file, kinds);
  const states = document.pieces.flatMap(piece => (piece.kind === 'cell' ? [prepareCell(piece, document, kinds)] : []));
  const most = mostSamples(states.map(({ piece }) => piece.cell));
  const samples = document.frontMatter.samples ?? options.samples ?? 0;
  const plan = planOf(states);
  const asked = typeof samples === 'number' && samples > 0 ? samples : most;
  const cells = openCells(
    plan.names,
    document.frontMatter.system,
    options.readFile ?? noFiles,
    asked,
    () => 'whole',
    options.memory,
  );
  const { system } = document.frontMatter;
  yield* runAll(plan, cells, document, state => {
    const product = state.given?.product;
    if (product?.kind === 'result') options.onResult?.(product.result, system, states.indexOf(state) + 1);
  });
  yield* spreadAll(states, samples, most, document, cells);
  return assemble(document, states, cells, options.file);
}

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
      return state === undefined ? [] : [cellBlock(state, cells)];
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

/** Inputs of the cells that gave a result, each path once, in the order in which they are first met. */
function inputsOfRuns(states: readonly CellState[]): Input[] {
  const inputs = new Map<string, Input>();
  for (const { given } of states) {
    if (given?.product?.kind !== 'result') continue;
    for (const input of given.inputs) if (!inputs.has(input.path)) inputs.set(input.path, input);
  }
  return [...inputs.values()];
}
