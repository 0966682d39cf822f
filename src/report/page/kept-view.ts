/**
 * Pictures that follow a moving control: a view of Vega is kept for each, and takes new data, domains and words, which costs a
 * seventh of a new one. What can not follow so is drawn anew; at rest all is.
 */
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';
import * as vega from 'vega';
import { denied, tidied } from './render.ts';
import { tracesOf } from './traces.ts';

type Leaf = number | string;

/** What of a spec changes from drawing to drawing: plain values by their paths, and tables. */
interface Told {
  readonly shape: string;
  readonly leaves: readonly Leaf[];
  readonly tables: readonly (readonly object[])[];
}

interface Kept {
  readonly shape: string;
  readonly fixed: readonly Leaf[];
  /** Leaves that a signal of the view stands for. */
  readonly turning: ReadonlySet<number>;
  readonly view: vega.View;
  /** Names of its data for each table. */
  readonly data: readonly string[];
}

const kept = new Map<string, Kept | null>();
const before = new Map<string, Told>();

/** Null where the picture has to be drawn anew. @param prefix as for `draw`. @param page whose picture it is, where there are several. */
export async function drawKept(spec: object, prefix: string, page = ''): Promise<string | null> {
  const key = page + prefix;
  const told = toldOf(spec);
  const last = before.get(key);
  before.set(key, told);
  let found = kept.get(key);
  if (found === undefined || (found !== null && !fits(found, told))) {
    // Two drawings tell what moves.
    if (last === undefined || last.shape !== told.shape) return null;
    found?.view.finalize();
    const more =
      found !== undefined && found !== null && found.shape === told.shape ? found.turning : new Set<number>();
    found = opened(spec, told, new Set([...more, ...differing(last, told)]));
    kept.set(key, found);
  }
  if (found === null) return null;
  for (const leaf of found.turning) found.view.signal(signalOf(leaf), told.leaves[leaf]);
  for (const [k, table] of told.tables.entries()) {
    const name = found.data[k];
    if (name !== undefined) found.view.data(name, structuredClone(table));
  }
  await found.view.resize().runAsync();
  return tidied(await found.view.toSVG(), prefix, tracesOf(found.view));
}

function fits({ shape, fixed, turning }: Kept, told: Told): boolean {
  return shape === told.shape && told.leaves.every((leaf, k) => leaf === fixed[k] || turning.has(k));
}

function differing(a: Told, b: Told): readonly number[] {
  return b.leaves.flatMap((leaf, k) => (leaf === a.leaves[k] ? [] : [k]));
}

function signalOf(leaf: number): string {
  return `turned_${leaf}`;
}

/** Takes a spec apart: what is left of its shape is the same for every setting. */
function toldOf(spec: object): Told {
  const leaves: Leaf[] = [];
  const tables: (readonly object[])[] = [];
  const shape = JSON.stringify(spec, function (key, value: unknown) {
    if (isTable(key, value)) {
      const at = tables.findIndex(table => JSON.stringify(table) === JSON.stringify(value));
      return `table ${at >= 0 ? at : tables.push(value) - 1}`;
    }
    if (typeof value === 'number' || typeof value === 'string') {
      leaves.push(value);
      return typeof value;
    }
    return value;
  });
  return { shape, leaves, tables };
}

function isTable(key: string, value: unknown): value is readonly object[] {
  return key === 'values' && Array.isArray(value) && value.every(row => typeof row === 'object' && row !== null);
}

/** Stands for a table while a spec is compiled. */
const TABLE = 'kept table';

/** A view in which the leaves that turn are signals; null where one of them stands where no signal may. */
function opened(spec: object, { shape, leaves, tables }: Told, turning: ReadonlySet<number>): Kept | null {
  let at = 0;
  const marked = JSON.parse(
    JSON.stringify(spec, (key, value: unknown) => {
      if (isTable(key, value))
        return [{ [TABLE]: tables.findIndex(table => JSON.stringify(table) === JSON.stringify(value)) }];
      if ((typeof value !== 'number' && typeof value !== 'string') || key === TABLE) return value;
      const leaf = at++;
      return turning.has(leaf) ? mark(leaf, value) : value;
    }),
  ) as TopLevelSpec;
  try {
    const { spec: compiled } = compile(marked, { logger: SILENT });
    const data: string[] = [];
    for (const source of compiled.data ?? []) {
      const values: unknown = 'values' in source ? source.values : undefined;
      const row: unknown = Array.isArray(values) ? values[0] : undefined;
      if (typeof row !== 'object' || row === null || !(TABLE in row)) continue;
      const table = Number(row[TABLE]);
      data[table] = source.name;
      Object.assign(source, { values: tables[table] });
    }
    const placed = new Set<number>();
    const turned = withSignals(compiled, placed) as vega.Spec;
    if (placed.size !== turning.size || tables.some((_, k) => data[k] === undefined)) return null;
    const signals = [...turning].map(leaf => ({ name: signalOf(leaf), value: leaves[leaf] ?? 0 }));
    const runtime = vega.parse({ ...turned, signals: [...(turned.signals ?? []), ...signals] }, undefined, {
      ast: true,
    });
    const view = new vega.View(runtime, {
      renderer: 'none',
      expr: expressionInterpreter,
      loader: denied,
      logger: SILENT,
    });
    return { shape, fixed: leaves, turning, view, data };
  } catch {
    return null;
  }
}

/** A value that is known again after compiling: a number that nobody writes, or a word. */
const ODD = 1.000_000_123e9;

function mark(leaf: number, value: Leaf): Leaf {
  return typeof value === 'number' ? ODD + leaf : `turned leaf ${leaf} turned`;
}

function markedBy(value: unknown): number | null {
  if (typeof value === 'number') {
    const leaf = value - ODD;
    return leaf >= 0 && leaf < 10_000 && Number.isInteger(Math.round(leaf * 1e3) / 1e3) ? Math.round(leaf) : null;
  }
  const found = typeof value === 'string' ? /^turned leaf (\d+) turned$/u.exec(value)?.[1] : undefined;
  return found === undefined ? null : Number(found);
}

/** Signals in the place of marks: `{value: mark}` as a whole, a mark in a list or under a key that takes a signal by itself. */
function withSignals(node: unknown, placed: Set<number>): unknown {
  const own = markedBy(node);
  if (own !== null) {
    placed.add(own);
    return { signal: signalOf(own) };
  }
  if (Array.isArray(node)) return node.map(each => withSignals(each, placed));
  if (typeof node !== 'object' || node === null) return node;
  const entries = Object.entries(node);
  return Object.fromEntries(
    entries.map(([key, value]): [string, unknown] => {
      const leaf = key === 'value' ? markedBy(value) : null;
      if (leaf === null) return [key, withSignals(value, placed)];
      placed.add(leaf);
      return ['signal', signalOf(leaf)];
    }),
  );
}

const quiet = (): vega.LoggerInterface => SILENT;
const SILENT = { level: quiet, error: quiet, warn: quiet, info: quiet, debug: quiet } as vega.LoggerInterface;
