/** A notebook that is run again and again with other settings: each time only what they reach. */
import { type CellState, needsOf, planOf, prepareCell, type RunPlan, runCell } from './cell-state.ts';
import { resultYield } from './cells/result.ts';
import { CELL_KINDS } from './cells/registry.ts';
import { type Cells, noFiles, openCells } from './context.ts';
import { type NotebookDocument, parseDocument } from './document/document.ts';
import { headOf, tailOf } from './document/names.ts';
import { type Setting, withSetting } from './document/written-setting.ts';
import type { Asking, Turning } from './rows-ask.ts';
import type { RunOptions } from './run.ts';
import { mostSamples } from './samples.ts';
import { spreadAll } from './spread-all.ts';
import type { Wanted } from '../runs/kind.ts';
import { quotedFormulas } from './document/inline.ts';
import { askedIn } from './document/quote.ts';
import { formulaNames } from './formula/formula.ts';
import type { Result } from '../runs/result.ts';

/** What came of a notebook with other settings. */
export interface Turned {
  /** All cells, by name: those that were reached as they are now, the others as they were. */
  readonly states: ReadonlyMap<string, CellState>;
  /** Cells that ran. */
  readonly fresh: ReadonlySet<string>;
  /** Cells that are reached, but stand as they were: what takes its time, and what leans on it. */
  readonly late: ReadonlySet<string>;
  /** For formulas. */
  readonly cells: Cells;
}

/** As `Effort`, for all of a notebook: its core leaves the studies out too. */
export type Depth = 'whole' | 'core';

export interface Again {
  readonly document: NotebookDocument;
  /** As the notebook stands. */
  readonly own: Turned;
  /**
   * With settings in the place of its own words. The core leaves out what only checks, and the studies: they are late.
   * @param settings one at most for a path.
   */
  turn(settings: readonly Setting[], effort: Depth): Turning<Turned>;
  /** Gives the runs that ran their intervals. */
  spread(turned: Turned): Asking<void>;
  /** The cells as they would be written, by name. */
  written(settings: readonly Setting[]): ReadonlyMap<string, string>;
}

/**
 * Runs the notebook once, without what takes its time.
 * @param kept what those cells gave when the notebook was run, by name.
 */
export function openAgain(text: string, options: RunOptions, kept: ReadonlyMap<string, Result>): Again {
  const kinds = options.kinds ?? CELL_KINDS;
  const document = parseDocument(text, options.file, kinds);
  const first = document.pieces.flatMap(piece => (piece.kind === 'cell' ? [prepareCell(piece, document, kinds)] : []));
  const most = mostSamples(first.map(({ piece }) => piece.cell));
  const samples = document.frontMatter.samples ?? options.samples ?? 0;
  const plan = planOf(first);
  const wanted = wantedOf(plan, document);
  const opened = (effort: Depth): Cells =>
    openCells(
      plan.names,
      document.frontMatter.system,
      options.readFile ?? noFiles,
      typeof samples === 'number' && samples > 0 ? samples : most,
      name => (effort === 'whole' ? 'whole' : { wanted: wanted(name) }),
    );

  /** What stands in a car with all that it starts from. */
  const meantBy = (state: CellState | undefined) => {
    const product = state?.given?.product;
    return product?.kind === 'car' ? product.map : null;
  };
  const written: Again['written'] = settings => {
    const sources = new Map<string, string>();
    for (const { path, text: setting } of settings) {
      const name = headOf(path);
      const state = plan.byName.get(name);
      if (state === undefined) continue;
      const source = sources.get(name) ?? state.piece.source;
      sources.set(name, withSetting(source, tailOf(path).split('.'), setting, meantBy(state)));
    }
    return sources;
  };

  const run = function* (changed: ReadonlyMap<string, CellState>, effort: Depth, cells: Cells): Turning<Turned> {
    const states = new Map(plan.byName);
    const [fresh, late] = [new Set<string>(), new Set<string>()];
    for (const name of plan.order) {
      const before = plan.byName.get(name);
      if (before === undefined) continue;
      const needs = needsOf(before, plan.names);
      const waits = needs.some(need => late.has(need));
      const reached = changed.has(name) || waits || needs.some(need => fresh.has(need));
      const state = changed.get(name) ?? { ...before, problems: [], given: null };
      if (reached && effort === 'whole') yield null;
      if (reached && !waits && before.piece.cell !== 'knobs' && (yield* ran(state, effort, cells, document))) {
        fresh.add(name);
        states.set(name, state);
        continue;
      }
      if (reached && before.piece.cell !== 'knobs') late.add(name);
      if (before.given === null) cells.failed(name);
      else cells.done(name, before.given);
    }
    return { states, fresh, late, cells };
  };

  begin(plan, opened('core'), document, kept);
  const own: Turned = { states: plan.byName, fresh: new Set(plan.order), late: new Set(), cells: opened('core') };
  for (const [name, { given }] of plan.byName) {
    if (given === null) own.cells.failed(name);
    else own.cells.done(name, given);
  }
  return {
    document,
    own,
    written,
    turn(settings, effort) {
      const changed = new Map<string, CellState>();
      for (const [name, source] of written(settings)) {
        const state = plan.byName.get(name);
        if (state !== undefined) changed.set(name, prepareCell({ ...state.piece, source }, document, kinds));
      }
      return run(changed, effort, opened(effort));
    },
    spread: ({ states, fresh, cells }) =>
      spreadAll(
        [...states.values()].filter(({ piece }) => fresh.has(piece.name)),
        samples,
        most,
        document,
        cells,
      ),
  };
}

/** Cells that take no figure of a run by itself: they ask it again. */
const STUDIES: readonly string[] = ['compare', 'sweep', 'spread', 'rank', 'seek', 'knobs'];

/** Figures of a run that formulas and quotations lean on; undefined, which is all of them, where a cell takes it as a whole. */
function wantedOf({ byName, names }: RunPlan, document: NotebookDocument): (name: string) => Wanted {
  const quoted = document.pieces.flatMap(piece =>
    piece.kind === 'prose' ? quotedFormulas(piece.tokens).map(askedIn).flatMap(formulaNames) : [],
  );
  const needed = [...byName.values()].flatMap(({ piece, prepared }) =>
    STUDIES.includes(piece.cell) ? [] : (prepared?.needs ?? []),
  );
  const found = new Map<string, Set<string>>();
  for (const path of [...quoted, ...needed].map(each => names.fullPath(each))) {
    const keys = found.get(headOf(path)) ?? new Set();
    found.set(headOf(path), keys.add(tailOf(path)));
  }
  return name => {
    const keys = found.get(name) ?? new Set();
    return keys.has('') ? undefined : [...keys];
  };
}

/** Whether a cell ran to its end; in the core nothing waits for rows. */
function* ran(state: CellState, effort: Depth, cells: Cells, document: NotebookDocument): Asking<boolean> {
  const steps = runCell(state, cells, document);
  if (effort === 'whole') {
    yield* steps;
    return true;
  }
  if (steps.next().done === true) return true;
  steps.return();
  return false;
}

/** Runs what needs no rows; what needs some is taken from what was kept. */
function begin(plan: RunPlan, cells: Cells, document: NotebookDocument, kept: ReadonlyMap<string, Result>): void {
  for (const name of plan.order) {
    const state = plan.byName.get(name);
    if (state === undefined) continue;
    const found = kept.get(name);
    if (found !== undefined) {
      const given = resultYield(found, [], document.frontMatter.system);
      state.given = given;
      cells.done(name, given);
    } else if (runCell(state, cells, document).next().done !== true) {
      state.problems = [];
      cells.failed(name);
    }
  }
}
