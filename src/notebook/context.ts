/** What a running cell sees of the rest of the notebook. */
import { shippedPart, shippedParts } from '../model/parts/shipped.ts';
import type { Effort } from '../runs/kind.ts';
import { RUN_KINDS, renamedFigure } from '../runs/kinds.ts';
import type { Coverage, Output } from '../runs/result.ts';
import { nearest } from '../units/nearest.ts';
import type { System } from '../units.ts';
import type { CellYield } from './cells/yield.ts';
import { isComplaint, seriesValue } from './formula/series-value.ts';
import { evaluateFormula, FormulaError, formulaNames, type FormulaValue, NeedsFailed } from './formula/formula.ts';
import { type Place, problemAt } from './document/located.ts';
import { headOf, type KnownCell, type Names, tailOf } from './document/names.ts';
import { NotebookProblem } from './document/problem.ts';
import type { Memory } from './memory.ts';
import type { Part, ReadContext } from './fields/read.ts';

/** What a figure of a result is, with its interval where it has one, and the probability that this covers. */
export interface Quoted {
  readonly output: Output;
  readonly ends: Coverage | undefined;
  /** NaN without an interval. */
  readonly probability: number;
}

export interface World {
  readonly system: System;
  /** Of uncertain inputs, where a cell says no number of its own. */
  readonly samples: number;
  /** How much of the answer of the run with this name is wanted. */
  effort(name: string): Effort;
  /** What a cell gave; undefined while there is no such cell or it has failed. */
  given(name: string): CellYield | undefined;
  /** Evaluates a formula over the values of all cells; `own` is asked first. Throws FormulaError. */
  evaluate(formula: string, own?: ReadonlyMap<string, FormulaValue>): FormulaValue;
  /** Null for any path but that of a figure of a result. */
  figure(path: string): Quoted | null;
  /** For `readFields` in the cell with this name. */
  reading(cell: string): ReadContext;
  /** Text of a file in the folder of the notebook; throws UnreadableFile. */
  readFile(path: string): string;
  /** What runs answered before. */
  readonly memory: Memory | undefined;
}

/** The cells of one notebook while it runs. */
export interface Cells extends World {
  /** Notes that a cell has run. */
  done(name: string, given: CellYield): void;
  /** Notes that a cell has failed. */
  failed(name: string): void;
  /** The first of these paths that leads to a failed cell, with that cell. */
  failedNeed(paths: readonly string[]): { readonly path: string; readonly cell: KnownCell } | undefined;
}

/** Starts with nothing run. */
export function openCells(
  names: Names,
  system: System,
  readFile: (path: string) => string,
  samples: number,
  effort: (name: string) => Effort = () => 'whole',
  memory?: Memory,
): Cells {
  const yields = new Map<string, CellYield>();
  const failures = new Set<string>();
  const seriesAt = (full: string): ReturnType<typeof seriesValue> => {
    const product = yields.get(headOf(full))?.product;
    return product?.kind === 'result' ? seriesValue(product.result, tailOf(full), system) : null;
  };
  const readSeries = (full: string): FormulaValue | undefined => {
    const found = seriesAt(full);
    return found === null || isComplaint(found) ? undefined : found;
  };
  const whyNotThere = (path: string): Complaint | null => {
    const full = names.fullPath(path);
    const [cell, tail] = [names.cell(headOf(full)), tailOf(full)];
    const values = yields.get(headOf(full))?.values;
    if (cell === undefined || values === undefined || values.has(tail) || seriesAt(full) !== null) return null;
    return nothingCalled(tail, cell, [...values.keys()]);
  };
  const whyNoSeries = (path: string): Complaint | null => {
    const full = names.fullPath(path);
    // What stands among the values of a cell is no series, whatever its name.
    if (yields.get(headOf(full))?.values.has(tailOf(full)) === true) return null;
    const found = seriesAt(full);
    return found !== null && isComplaint(found) ? found : null;
  };
  const evaluate: World['evaluate'] = (formula, own = new Map()) => {
    for (const path of formulaNames(formula)) {
      const complaint = own.has(path)
        ? null
        : (whyNoValue(path, names, yields, failures) ?? whyNoSeries(path) ?? whyNotThere(path));
      if (complaint === null) continue;
      const Wrong = complaint.needs === true ? NeedsFailed : FormulaError;
      const { message, expected, meant } = complaint;
      throw new Wrong(message, formula.indexOf(path), path.length, expected, meant);
    }
    const find = (path: string): FormulaValue | undefined => {
      const full = names.fullPath(path);
      return own.get(path) ?? yields.get(headOf(full))?.values.get(tailOf(full)) ?? readSeries(full);
    };
    // A name by itself keeps the unit that people read it in; a formula has only the dimension of what it reckons.
    const whole = find(formula.trim());
    if (whole !== undefined) return whole;
    try {
      return evaluateFormula(formula, find);
    } catch (error) {
      if (!(error instanceof FormulaError)) throw error;
      // Only now are all the names worth gathering: the nearest of them may be the cure.
      return evaluateFormula(formula, find, [...own.keys(), ...valuePaths(yields), ...names.alone()]);
    }
  };
  return {
    system,
    samples,
    effort,
    memory,
    readFile,
    evaluate,
    given: name => yields.get(name),
    figure(path) {
      const full = names.fullPath(path);
      const product = yields.get(headOf(full))?.product;
      const result = product?.kind === 'result' ? product.result : null;
      const output = result?.outputs[tailOf(full)];
      if (output === undefined) return null;
      const { of, probability = Number.NaN } = result?.intervals ?? {};
      return { output, ends: of?.[tailOf(full)], probability };
    },
    reading: cell => ({
      path: cell,
      system,
      part: (kind, name) => findPart(kind, name, yields),
      parts: kind => partNames(kind, yields),
      cell: name => names.cell(name)?.kind,
      cells: kinds => names.cells.filter(({ kind }) => kinds.includes(kind)).map(({ name }) => name),
      formula: text => evaluate(text),
    }),
    done: (name, given) => void yields.set(name, given),
    failed: name => void failures.add(name),
    failedNeed: paths => {
      for (const path of paths) {
        const cell = names.owner(path);
        if (cell !== undefined && failures.has(cell.name)) return { path, cell };
      }
      return undefined;
    },
  };
}

/** For `readFields` where there is no notebook: parts that ship, formulas of numbers alone. @param path in front of all others. */
export function readingAlone(path: string, system: System = 'metric'): ReadContext {
  const none: Yields = new Map();
  return {
    path,
    system,
    part: (kind, name) => findPart(kind, name, none),
    parts: kind => partNames(kind, none),
    cell: () => undefined,
    cells: () => [],
    formula: text => evaluateFormula(text, () => undefined),
  };
}

type Yields = ReadonlyMap<string, CellYield>;

/** Why a name has no value. */
interface Complaint {
  readonly message: string;
  readonly expected: string;
  readonly meant?: string;
  readonly needs?: true;
}

/** A cell has run and has no value of a name. */
function nothingCalled(tail: string, { name, kind }: KnownCell, keys: readonly string[]): Complaint {
  const now = renamedFigure(kind, tail);
  if (now !== '') return { message: `${name}.${tail} is called ${name}.${now} now`, expected: `${name}.${now}` };
  const joined = tail.replaceAll('.', '_');
  const meant = keys.includes(joined) ? joined : nearest(tail, keys);
  const message = `${name}, a ${kind} cell, has no "${tail}"`;
  if (meant !== '') return { message, expected: '', meant: `${name}.${meant}` };
  // `winter.range` is the end of `big_winter_range`: the name of the car is left out, or dots stand for what joins them.
  const tails = keys.filter(key => key.endsWith(`_${joined}`));
  const [only, ...others] = tails;
  if (only !== undefined && others.length === 0) return { message, expected: '', meant: `${name}.${only}` };
  if (only !== undefined) return { message, expected: `one of ${tails.map(key => `${name}.${key}`).join(', ')}` };
  const isRun = RUN_KINDS.some(each => each.kind === kind);
  const many = `one of those that \`axlewatt cells ${kind} --outputs\` lists`;
  return { message, expected: keys.length > 8 && isRun ? many : `one of ${keys.join(', ')}` };
}

/** Why a name that stands in the notebook has no value here; null where it has one or where nothing is known of it. */
function whyNoValue(path: string, names: Names, yields: Yields, failures: ReadonlySet<string>): Complaint | null {
  const cell = names.owner(path);
  const definers = names.definers(path);
  if (cell === undefined) {
    if (definers.length < 2) return null;
    const expected = definers.map(definer => `${definer}.${path}`).join(' or ');
    return { message: `"${path}" is defined in ${definers.length} cells`, expected };
  }
  if (failures.has(cell.name)) return { message: needsFailed(cell), expected: '', needs: true };
  const given = yields.get(cell.name);
  const full = names.fullPath(path);
  const reason = given?.absent.get(tailOf(full));
  if (reason !== undefined) return { message: `${full} has no value: ${reason}`, expected: '' };
  if (full !== cell.name) return null;
  const [example] = given?.values.keys() ?? [];
  const expected = example === undefined ? '' : `one of its values, such as ${cell.name}.${example}`;
  return { message: `${cell.name} is a ${cell.kind} cell, not a value`, expected };
}

/** What stands with a cell or an inline result that leans on a failed cell. */
export function needsFailed(cell: KnownCell): string {
  return `needs ${cell.name}, which failed (line ${cell.line})`;
}

function valuePaths(yields: Yields): string[] {
  return [...yields].flatMap(([cell, { values }]) => [...values.keys()].map(path => `${cell}.${path}`));
}

const SHIPPED_KINDS = ['cabin', 'cell', 'pack', 'tyre', 'unit'] as const;

function findPart(kind: string, name: string, yields: Yields): Part | undefined {
  const product = yields.get(name)?.product;
  if (product?.kind === 'part' && product.part === kind) return { kind: 'written', map: product.map };
  const measured = product?.kind === 'result' ? product.parts?.get(kind) : undefined;
  if (measured !== undefined) return { kind: 'written', map: measured.map };
  const shippedKind = SHIPPED_KINDS.find(word => word === kind);
  const shipped = shippedKind === undefined ? null : shippedPart(shippedKind, name);
  if (shipped === null) return undefined;
  return { kind: 'shipped', values: shipped.values, spreads: shipped.spreads, source: shipped.source };
}

function partNames(kind: string, yields: Yields): string[] {
  const written = [...yields].filter(([, { product }]) =>
    product?.kind === 'part' ? product.part === kind : product?.kind === 'result' && product.parts?.has(kind) === true,
  );
  const shipped = shippedParts().filter(part => part.kind === kind);
  return [...written.map(([name]) => name), ...shipped.map(({ name }) => name)];
}

/**
 * The problem behind an error that was thrown by a formula; other errors are thrown on.
 * @param place of a part of the formula, by its 0-based offset and its length.
 */
export function formulaProblem(
  error: unknown,
  place: (offset: number, length: number) => Place,
  path = '',
): NotebookProblem {
  if (!(error instanceof FormulaError)) throw error;
  const { message, offset, length, expected, nearest } = error;
  const data = problemAt(place(offset, length), path, message, expected, nearest);
  return new NotebookProblem(error instanceof NeedsFailed ? { ...data, cause: 'need' } : data);
}

/** In the place of a folder, where there is none. */
export const noFiles = (path: string): never => {
  throw new Error(`no file can be read here: ${path}`);
};
