/** The rows of a CSV table set out on their axes: in order, each point once, and where one is missing. */
import { NotebookProblem } from '../document/problem.ts';
import { problemAt } from '../document/located.ts';
import type { CsvTable } from './csv.ts';

/** An axis of the grid. */
export interface RowAxis {
  readonly name: string;
  /** SI value of each row of the file. */
  readonly column: Float64Array;
  /** Each value once, in order. */
  readonly levels: readonly number[];
}

export interface RowGrid {
  readonly csv: CsvTable;
  /** Rows that say something. */
  readonly rows: Uint32Array;
  readonly axes: readonly RowAxis[];
  /** The last axis runs fastest; NaN where there is no row, or an empty cell. */
  readonly values: Float64Array;
  /** Column of the values. */
  readonly value: string;
  /** Axes from the one that changes least from row to row on. */
  readonly order: readonly RowAxis[];
  /** Position in `values` of a row of the file. */
  at(row: number): number;
  readonly notes: readonly string[];
}

/** A value of a column; NaN where the column has no such row. */
export function cellOf(column: ArrayLike<number>, row: number): number {
  return column[row] ?? Number.NaN;
}

/** The problem of a cell. @param row counted from 0. */
export function problem(csv: CsvTable, row: number, column: string, message: string, expected = ''): NotebookProblem {
  return new NotebookProblem(problemAt(csv.place(row, column), '', message, expected));
}

/** Rows for which the grid would be mostly gaps are no grid. */
const MOST_GAPS = 4;

/** @param rows of the file, one or more. @param column values by row. @param value their name. @param names of the axes. */
export function gridOf(
  csv: CsvTable,
  rows: Uint32Array,
  column: Float64Array,
  value: string,
  names: readonly string[],
): RowGrid {
  const axes = names.map(name => axisOf(csv, rows, name));
  const order = orderOf(rows, axes);
  const repeated = checkOrder(csv, rows, order, column, value);
  const size = axes.reduce((product, axis) => product * axis.levels.length, 1);
  if (size > MOST_GAPS * rows.length + 100) {
    const sizes = axes.map(axis => axis.levels.length).join(' x ');
    const message = `${rows.length} rows for a grid of ${sizes} points (${names.join(' x ')})`;
    throw problem(csv, rows[0] ?? 0, names[0] ?? '', message, 'the same speeds and torques throughout');
  }
  const places = axes.map(({ levels }) => new Map(levels.map((each, k) => [each, k])));
  const at = (row: number): number =>
    axes.reduce(
      (position, { column: own, levels }, k) =>
        position * levels.length + (places[k]?.get(cellOf(own, row)) ?? Number.NaN),
      0,
    );
  const values = new Float64Array(size).fill(Number.NaN);
  for (const row of rows) values[at(row)] = cellOf(column, row);
  const notes = repeated === 0 ? [] : [`${csv.file}: ${repeated} rows stand twice`];
  return { csv, rows, axes, values, value, order, at, notes };
}

/** The axes from the one that changes least often on, the given order where two change as often. */
function orderOf(rows: Uint32Array, axes: readonly RowAxis[]): readonly RowAxis[] {
  const counted = axes.map(axis => {
    let changes = 0;
    rows.forEach((row, k) => {
      if (k > 0 && axis.column[row] !== axis.column[rows[k - 1] ?? row]) changes++;
    });
    return { axis, changes };
  });
  return counted.toSorted((a, b) => a.changes - b.changes).map(({ axis }) => axis);
}

/** Every row comes after the one before; returns how many stand twice. */
function checkOrder(
  csv: CsvTable,
  rows: Uint32Array,
  order: readonly RowAxis[],
  values: Float64Array,
  value: string,
): number {
  let repeated = 0;
  for (const [k, row] of rows.entries()) {
    const before = rows[k - 1];
    if (before === undefined) continue;
    const axis = order.find(({ column }) => column[row] !== column[before]);
    if (axis === undefined) {
      if (!Object.is(cellOf(values, row), cellOf(values, before)) && values[row] !== values[before]) {
        const line = `line ${csv.line(before)}`;
        throw problem(csv, row, value, `the same point as ${line} with another ${value}`, 'each point once');
      }
      repeated++;
      continue;
    }
    const [was, is] = [cellOf(axis.column, before), cellOf(axis.column, row)];
    if (is < was) {
      const { name } = axis;
      const sorted = order.map(each => each.name).join(', then ');
      const message = `the ${name} falls from ${csv.shown(name, was)} to ${csv.shown(name, is)}`;
      throw problem(csv, row, name, message, `rows that rise in ${sorted}`);
    }
  }
  return repeated;
}

/** Neighbours of an axis that are as near as this, beside its greatest value, are one value rounded in two ways. */
const ROUNDING = 1e-7;

function axisOf(csv: CsvTable, rows: Uint32Array, name: string): RowAxis {
  const column = csv.column(name);
  const found = new Set<number>();
  for (const row of rows) found.add(cellOf(column, row));
  const levels = [...Float64Array.from(found).toSorted()];
  const size = Math.max(...[levels[0], levels.at(-1)].map(end => Math.abs(end ?? 0)));
  for (const [k, level] of levels.entries()) {
    const gap = level - (levels[k - 1] ?? -Infinity);
    if (gap > ROUNDING * size) continue;
    const row = rows.find(each => column[each] === level) ?? rows[0] ?? 0;
    const message = `this ${name} and another one differ by ${(gap / size).toExponential(0)} of the largest`;
    throw problem(csv, row, name, message, 'one value for both');
  }
  return { name, column, levels };
}

/** The problem of a missing point: at the row before which it should stand, or at the last row. */
export function hole(grid: RowGrid, at: number): NotebookProblem {
  const { csv, rows, axes, value, order } = grid;
  const wanted = coordinates(grid, at);
  const after = (row: number): boolean => {
    for (const axis of order) {
      const difference = cellOf(axis.column, row) - (wanted.get(axis) ?? Number.NaN);
      if (difference !== 0) return difference > 0;
    }
    return true;
  };
  const row = rows.find(after) ?? rows.at(-1) ?? 0;
  const point = axes.map(axis => csv.shown(axis.name, wanted.get(axis) ?? Number.NaN)).join(', ');
  const whole = axes.map(axis => axis.levels.length).join(' x ');
  const empty = grid.at(row) === at;
  const message = empty ? `the ${value} is empty` : `there is no ${value} for ${point}`;
  const column = empty ? value : (order.at(-1)?.name ?? value);
  const names = axes.map(({ name }) => name).join(', ');
  return problem(csv, row, column, message, `each of the ${whole} points of ${names}`);
}

function coordinates({ axes }: RowGrid, at: number): ReadonlyMap<RowAxis, number> {
  const place = new Map<RowAxis, number>();
  let rest = at;
  for (const axis of axes.toReversed()) {
    place.set(axis, cellOf(axis.levels, rest % axis.levels.length));
    rest = Math.floor(rest / axis.levels.length);
  }
  return place;
}
