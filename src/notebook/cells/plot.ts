/** `yaml plot`: a picture over the series of a result, as a Vega-Lite specification. */
import type { Column, Series } from '../../runs/result.ts';
import { toDisplay, unitLabel, type System } from '../../units.ts';
import type { World } from '../context.ts';
import { problemAt, type Place } from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import { placeOf } from '../document/place.ts';
import { NotebookProblem } from '../document/problem.ts';
import { readCell } from './fields.ts';
import { type CellKind, type CellText } from './kind.ts';
import { NOTHING } from './yield.ts';
import { readPlot, type PlotShape, type View } from './plot-shape.ts';

/** Rows that a plot takes of one series. */
const MOST_ROWS = 20_000;
/** Rows that all views of a plot may have together, behind their transforms. */
const MOST_DRAWN = 100_000;

export const plot: CellKind = {
  kind: 'plot',
  language: 'yaml',
  named: false,
  doc: 'a picture over a result, as a Vega-Lite specification',
  fields: {},
  beside: 'grammar',
  notes: [
    'data: a cell with a result (dash), or one of its series (dash.time)',
    'mark, encoding, transform, layer, hconcat, vconcat, resolve, title, width, height as in Vega-Lite; what could load',
    'files or addresses or run code is refused; expressions are arithmetic over datum.COLUMN',
    'columns: speed in the units of the notebook (the axis says which), speed_m_s in SI, as in the CSV',
  ],
  prepare(cell) {
    const shape = readPlot(readCell(cell), cell.piece.name);
    if (shape.data.length === 0) {
      const expected = 'data: the name of a cell with a result';
      throw new NotebookProblem(problemAt(placeOf(cell.text, cell.piece.line), 'data', 'is missing', expected));
    }
    return {
      needs: shape.data,
      run(world) {
        const series = new Map(shape.data.map(name => [name, columnsOf(name, world, cell)]));
        checkColumns(shape, series);
        checkRows(shape, series, cell);
        const datasets = Object.fromEntries([...series].map(([name, columns]) => [name, rows(columns, shape)]));
        const spec = { ...dressed(shape.spec, series, ''), datasets };
        const { title } = shape.spec;
        return { ...NOTHING, chart: { title: typeof title === 'string' ? title : cell.piece.name, spec } };
      },
    };
  },
};

/** A column as a plot sees it, under the name that the plot uses. */
interface PlotColumn {
  readonly title: string;
  readonly values: (row: number) => number | string | null;
  readonly length: number;
  readonly nominal: boolean;
}

function columnsOf(reference: string, world: World, cell: CellText): ReadonlyMap<string, PlotColumn> {
  const [name = '', seriesName] = reference.split('.');
  const place = dataPlace(cell, reference);
  const fail = (message: string, expected: string, cure = '') =>
    new NotebookProblem(problemAt(place, `${cell.piece.name}.data`, message, expected, cure));
  const product = world.given(name)?.product;
  if (product?.kind !== 'result') throw fail(`"${name}" is no cell with a result`, 'such as a launch cell');
  const { series } = product.result;
  const found = seriesName === undefined ? Object.values(series)[0] : own(series, seriesName);
  const names = Object.keys(series);
  if (found === undefined) {
    const [why = 'it has no result over time or distance'] = Object.values(product.result.reasons);
    if (names.length === 0) throw fail(`${name} has nothing to draw: ${why}`, 'a run with an answer');
    throw fail(`${name} has no series "${seriesName}"`, names.join(' or '), nearest(seriesName ?? '', names));
  }
  return plotColumns(found, world.system);
}

function own<T>(record: { readonly [key: string]: T }, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

function dataPlace({ text, piece }: CellText, reference: string): Place {
  const last = piece.line + piece.source.split('\n').length;
  for (let line = piece.line + 1; line <= last; line += 1) {
    if (/\bdata\s*:/.test(text.lines[line - 1] ?? '')) {
      const place = placeOf(text, line, reference);
      if (place.length === reference.length) return place;
    }
  }
  return placeOf(text, piece.line);
}

/** Each column twice: under its key in SI units, and under the key without the unit in those of the notebook. */
function plotColumns(series: Series, system: System): ReadonlyMap<string, PlotColumn> {
  const columns = new Map<string, PlotColumn>();
  for (const [key, column] of Object.entries(series)) {
    const display = column.display[system];
    columns.set(
      key,
      plotColumn(column, column.unit, value => value),
    );
    const base = baseKey(key, column);
    if (base !== key || display !== column.unit) {
      columns.set(
        base,
        plotColumn(column, display, value => toDisplay(value, column.unit, display)),
      );
    }
  }
  return columns;
}

/** `speed_m_s` with the unit m/s is `speed`. */
function baseKey(key: string, { unit }: Column): string {
  const ending = `_${unit.replace(/[^A-Za-z0-9]+/g, '_')}`;
  return unit !== '' && key.endsWith(ending) ? key.slice(0, -ending.length) : key;
}

function plotColumn({ label, values }: Column, unit: string, convert: (value: number) => number): PlotColumn {
  const shown = unitLabel(unit);
  return {
    title: shown === '' ? label : `${label} (${shown})`,
    length: values.length,
    nominal: !(values instanceof Float64Array),
    values: row => {
      const value = values[row];
      if (typeof value !== 'number') return value ?? null;
      return Number.isFinite(value) ? convert(value) : null;
    },
  };
}

function checkColumns(
  { columns, made }: PlotShape,
  series: ReadonlyMap<string, ReadonlyMap<string, PlotColumn>>,
): void {
  for (const { column, place, data } of columns) {
    const known = [...(series.get(data)?.keys() ?? []), ...made];
    if (known.includes(column)) continue;
    const where = data === '' ? 'a view without data' : data;
    const message = `${where} has no column "${column}"`;
    throw new NotebookProblem(problemAt(place, '', message, known.join(', '), nearest(column, known)));
  }
}

/** Before the transforms of each series, and behind them of all views together: each row takes memory and time to draw. */
function checkRows(
  { growth }: PlotShape,
  series: ReadonlyMap<string, ReadonlyMap<string, PlotColumn>>,
  { text, piece }: CellText,
): void {
  for (const [name, columns] of series) {
    const count = rowCount(columns.values());
    if (count <= MOST_ROWS) continue;
    const message = `the series ${name} has ${count} rows, more than the ${MOST_ROWS} that a plot takes`;
    throw new NotebookProblem(problemAt(placeOf(text, piece.line), piece.name, message));
  }
  let drawn = 0;
  for (const { data, factor, place } of growth) {
    const columns = series.get(data);
    drawn += columns === undefined ? 0 : rowCount(columns.values()) * factor;
    if (drawn <= MOST_DRAWN) continue;
    const message = `the transforms up to here make ${drawn.toPrecision(2)} rows`;
    throw new NotebookProblem(problemAt(place, piece.name, message, `at most ${MOST_DRAWN} in all views of a plot`));
  }
}

function rowCount(columns: Iterable<PlotColumn>): number {
  let most = 0;
  for (const { length } of columns) most = Math.max(most, length);
  return most;
}

/** The columns in use, row by row. */
function rows(columns: ReadonlyMap<string, PlotColumn>, { columns: uses }: PlotShape): object[] {
  const used = [...columns].filter(([name]) => uses.some(({ column }) => column === name));
  const count = rowCount(used.map(([, column]) => column));
  return Array.from({ length: count }, (_, row) =>
    Object.fromEntries(used.map(([name, { values }]) => [name, values(row)])),
  );
}

/** The view with the types and titles that its columns suggest, where it gives none. */
function dressed(view: View, series: ReadonlyMap<string, ReadonlyMap<string, PlotColumn>>, outer: string): View {
  const data = view.data?.name ?? outer;
  const columns = series.get(data);
  const channel = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(channel);
    const field = (value as { field?: unknown }).field;
    const column = typeof field === 'string' ? columns?.get(field) : undefined;
    if (column === undefined) return value;
    return { type: column.nominal ? 'nominal' : 'quantitative', title: column.title, ...(value as object) };
  };
  // Vega-Lite cannot draw a line that has no encoding at all.
  const encoding = view.encoding ?? ('mark' in view ? {} : undefined);
  const each = (views: readonly View[] | undefined) => views?.map(inner => dressed(inner, series, data));
  const whole = {
    ...view,
    encoding: encoding && Object.fromEntries(Object.entries(encoding).map(([key, v]) => [key, channel(v)])),
    layer: each(view.layer),
    hconcat: each(view.hconcat),
    vconcat: each(view.vconcat),
  };
  return Object.fromEntries(Object.entries(whole).filter(([, value]) => value !== undefined));
}
