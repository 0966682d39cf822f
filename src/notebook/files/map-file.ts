/** From the CSV file of a drive-unit map or of a torque table to plain tables in SI, with a problem for each gap. */
import type { LossTable } from '../../model/drive/efficiency-map.ts';
import type { TorqueTable } from '../../model/drive/torque-surface.ts';
import { type CsvColumn, type CsvTable, readCsv } from './csv.ts';
import { problemAt } from '../document/located.ts';
import { NotebookProblem } from '../document/problem.ts';

const SPEED: CsvColumn = { name: 'speed', unit: 'rad/s', examples: 'speed [rpm] or speed [rad/s]' };
const TORQUE: CsvColumn = { name: 'torque', unit: 'N m', examples: 'torque [N m] or torque [lbf ft]' };
const VOLTAGE: CsvColumn = { name: 'voltage', unit: 'V', examples: 'voltage [V]' };
const EFFICIENCY: CsvColumn = {
  name: 'efficiency',
  unit: '1',
  examples: 'efficiency [%] or efficiency [1]',
  blank: true,
};
const LOSS: CsvColumn = { name: 'loss', unit: 'W', examples: 'loss [W] or loss [kW]', blank: true };

/**
 * Reads a map with the columns speed, torque, efficiency or loss, and perhaps voltage. Points are there for every
 * combination, but for those beyond the greatest torque of a speed; the efficiency at standstill and at zero torque says
 * nothing and is passed over.
 * @param file name for messages.
 * @throws NotebookProblem, located in the file.
 */
export function readLossTable(text: string, file: string): { table: LossTable; notes: readonly string[] } {
  const csv = readCsv(text, file, [SPEED, TORQUE, EFFICIENCY, LOSS, VOLTAGE]);
  requireColumns(csv, [SPEED, TORQUE]);
  const stated = ['efficiency', 'loss'].filter(name => csv.has(name));
  const value = stated[0];
  if (value === undefined) throw problem(csv, 0, 'speed', 'no column of efficiency or loss', EFFICIENCY.examples);
  if (stated.length > 1) throw problem(csv, 0, 'loss', 'both an efficiency and a loss', 'one of the two');
  checkSpeeds(csv);
  const { rows, losses, passed } = value === 'loss' ? statedLosses(csv) : lossesOfEfficiency(csv);
  const grid = gridOf(csv, rows, losses, value, [...(csv.has('voltage') ? ['voltage'] : []), 'speed', 'torque']);
  const [voltage = [], speed = [], torque = []] = csv.has('voltage') ? grid.axes : [[], ...grid.axes];
  if (speed.length < 2) throw problem(csv, rows[0]!, 'speed', 'the map has one speed only', 'two speeds or more');
  if (torque.filter(T => T > 0).length < 2) {
    throw problem(csv, rows[0]!, 'torque', 'the map has fewer than two torques above 0', 'two or more');
  }
  checkHoles(grid, torque);
  checkPower(grid, speed, torque);
  const notes = [...csv.notes, ...grid.notes];
  if (passed > 0) notes.push(`${file}: the efficiency of ${passed} rows at standstill or zero torque says nothing`);
  const loss = Array.from(grid.values, each => (Number.isNaN(each) ? null : each));
  return { table: { voltage, speed, torque, loss }, notes };
}

/**
 * Reads a table of peak torque with the columns speed, torque and perhaps voltage; every speed at every voltage.
 * @throws NotebookProblem, located in the file.
 */
export function readTorqueTable(text: string, file: string): { table: TorqueTable; notes: readonly string[] } {
  const csv = readCsv(text, file, [SPEED, TORQUE, VOLTAGE]);
  requireColumns(csv, [SPEED, TORQUE]);
  checkSpeeds(csv);
  const torque = csv.column('torque');
  const rows = Uint32Array.from({ length: csv.rows }, (_, row) => row);
  for (const row of rows) {
    if (torque[row]! < 0) throw problem(csv, row, 'torque', 'a negative peak torque', 'a torque of 0 or more');
  }
  const axes = [...(csv.has('voltage') ? ['voltage'] : []), 'speed'];
  const grid = gridOf(csv, rows, torque, 'torque', axes);
  const [voltage = [], speed = []] = csv.has('voltage') ? grid.axes : [[], ...grid.axes];
  if (speed[0] !== 0) throw problem(csv, 0, 'speed', 'the table does not start at standstill', 'a row for speed 0');
  if (speed.length < 2) throw problem(csv, 0, 'speed', 'the table has one speed only', 'two speeds or more');
  const at = grid.values.findIndex(value => Number.isNaN(value));
  if (at >= 0) throw hole(grid, at);
  const several = voltage.length > 1;
  const notes = [...csv.notes, ...grid.notes];
  if (voltage.length === 1) notes.push(`${file}: the torque is the same at every voltage, as the table has one only`);
  return { table: { voltage: several ? voltage : [], speed, torque: [...grid.values] }, notes };
}

function problem(csv: CsvTable, row: number, column: string, message: string, expected = ''): NotebookProblem {
  return new NotebookProblem(problemAt(csv.place(row, column), '', message, expected));
}

function requireColumns(csv: CsvTable, columns: readonly CsvColumn[]): void {
  for (const { name, examples } of columns) {
    if (csv.has(name)) continue;
    const { file } = csv;
    const place = { file, line: 1, column: 1, length: 1, source: '' };
    throw new NotebookProblem(problemAt(place, '', `the header has no column of ${name}`, examples));
  }
}

function checkSpeeds(csv: CsvTable): void {
  const speed = csv.column('speed');
  for (let row = 0; row < csv.rows; row++) {
    if (speed[row]! < 0) throw problem(csv, row, 'speed', 'a negative speed', 'speeds from 0 on');
  }
}

interface Losses {
  /** Rows that say something, in the order of the file. */
  readonly rows: Uint32Array;
  /** W by row of the file; NaN for an empty cell. */
  readonly losses: Float64Array;
  /** Number of rows that say nothing. */
  readonly passed: number;
}

function statedLosses(csv: CsvTable): Losses {
  const losses = csv.column('loss');
  const rows = Uint32Array.from({ length: csv.rows }, (_, row) => row);
  for (let row = 0; row < csv.rows; row++) {
    if (losses[row]! < 0) throw problem(csv, row, 'loss', 'a negative loss', 'a loss of 0 or more');
  }
  return { rows, losses, passed: 0 };
}

function lossesOfEfficiency(csv: CsvTable): Losses {
  const [speed, torque, efficiency] = [csv.column('speed'), csv.column('torque'), csv.column('efficiency')];
  const losses = new Float64Array(csv.rows);
  const rows = new Uint32Array(csv.rows);
  const full = csv.shown('efficiency', 1);
  let kept = 0;
  let best = 0;
  for (let row = 0; row < csv.rows; row++) {
    const power = speed[row]! * torque[row]!;
    if (power === 0) continue;
    const eta = efficiency[row]!;
    if (eta <= 0 || eta > 1) {
      const found = csv.shown('efficiency', eta);
      const unit = eta > 1 && full === '1' ? '; percentages stand under efficiency [%]' : '';
      throw problem(csv, row, 'efficiency', `an efficiency of ${found}`, `above 0, at most ${full}${unit}`);
    }
    best = Math.max(best, eta);
    // Driving takes T w / eta, braking gives back T w eta.
    losses[row] = power > 0 ? power * (1 / eta - 1) : -power * (1 - eta);
    rows[kept++] = row;
  }
  if (kept === 0) throw problem(csv, 0, 'efficiency', 'no row has both a speed and a torque');
  if (full !== '1' && best <= 0.0100001 && best > 0) {
    throw problem(
      csv,
      rows[0]!,
      'efficiency',
      `no efficiency is above ${csv.shown('efficiency', best)}`,
      EFFICIENCY.examples,
    );
  }
  return { rows: rows.subarray(0, kept), losses, passed: csv.rows - kept };
}

/** The rows of a table set out on their axes. */
interface RowGrid {
  readonly csv: CsvTable;
  readonly rows: Uint32Array;
  readonly names: readonly string[];
  readonly axes: readonly (readonly number[])[];
  /** The last axis runs fastest; NaN where there is no row, or an empty cell. */
  readonly values: Float64Array;
  /** Column of the values. */
  readonly value: string;
  /** Axes from the one that changes least from row to row on. */
  readonly order: readonly number[];
  /** Position in `values` of a row of the file. */
  at(row: number): number;
  readonly notes: string[];
}

/** Rows for which the grid would be mostly gaps are no grid. */
const MOST_GAPS = 4;

function gridOf(
  csv: CsvTable,
  rows: Uint32Array,
  column: Float64Array,
  value: string,
  names: readonly string[],
): RowGrid {
  const columns = names.map(name => csv.column(name));
  const order = orderOf(rows, columns);
  const axes = columns.map((each, k) => axisOf(csv, rows, names[k]!, each));
  const repeated = checkOrder(csv, rows, names, columns, order, column, value);
  const size = axes.reduce((product, axis) => product * axis.length, 1);
  if (size > MOST_GAPS * rows.length + 100) {
    const sizes = axes.map(axis => axis.length).join(' x ');
    const message = `${rows.length} rows for a grid of ${sizes} points (${names.join(' x ')})`;
    throw problem(csv, rows[0]!, names[0]!, message, 'the same speeds and torques throughout');
  }
  const indices = axes.map(axis => new Map(axis.map((each, k) => [each, k])));
  const at = (row: number): number => {
    let position = 0;
    for (let k = 0; k < axes.length; k++) {
      position = position * axes[k]!.length + indices[k]!.get(columns[k]![row]!)!;
    }
    return position;
  };
  const values = new Float64Array(size).fill(Number.NaN);
  for (const row of rows) values[at(row)] = column[row]!;
  const notes = repeated === 0 ? [] : [`${csv.file}: ${repeated} rows stand twice`];
  return { csv, rows, names, axes, values, value, order, at, notes };
}

/** The columns from the one that changes least often on, the given order where two change as often. */
function orderOf(rows: Uint32Array, columns: readonly Float64Array[]): readonly number[] {
  const changes = columns.map(column => {
    let count = 0;
    for (let k = 1; k < rows.length; k++) if (column[rows[k]!] !== column[rows[k - 1]!]) count++;
    return count;
  });
  return columns.map((_, k) => k).toSorted((a, b) => changes[a]! - changes[b]!);
}

/** Every row comes after the one before; returns how many stand twice. */
function checkOrder(
  csv: CsvTable,
  rows: Uint32Array,
  names: readonly string[],
  columns: readonly Float64Array[],
  order: readonly number[],
  values: Float64Array,
  value: string,
): number {
  let repeated = 0;
  for (let k = 1; k < rows.length; k++) {
    const [row, before] = [rows[k]!, rows[k - 1]!];
    const axis = order.find(each => columns[each]![row] !== columns[each]![before]);
    if (axis === undefined) {
      if (values[row] !== values[before] && !(Number.isNaN(values[row]) && Number.isNaN(values[before]))) {
        const line = `line ${csv.line(before)}`;
        throw problem(csv, row, value, `the same point as ${line} with another ${value}`, 'each point once');
      }
      repeated++;
    } else if (columns[axis]![row]! < columns[axis]![before]!) {
      const name = names[axis]!;
      const [from, to] = [csv.shown(name, columns[axis]![before]!), csv.shown(name, columns[axis]![row]!)];
      const sorted = order.map(each => names[each]).join(', then ');
      throw problem(csv, row, name, `the ${name} falls from ${from} to ${to}`, `rows that rise in ${sorted}`);
    }
  }
  return repeated;
}

/** Neighbours of an axis that are as near as this, beside its greatest value, are one value rounded in two ways. */
const ROUNDING = 1e-7;

function axisOf(csv: CsvTable, rows: Uint32Array, name: string, column: Float64Array): readonly number[] {
  const found = new Set<number>();
  for (const row of rows) found.add(column[row]!);
  const axis = Float64Array.from(found).toSorted();
  const size = Math.max(Math.abs(axis[0]!), Math.abs(axis.at(-1)!));
  for (let k = 1; k < axis.length; k++) {
    if (axis[k]! - axis[k - 1]! > ROUNDING * size) continue;
    const row = rows.find(each => column[each] === axis[k]) ?? rows[0]!;
    const message = `this ${name} and another one differ by ${((axis[k]! - axis[k - 1]!) / size).toExponential(0)} of the largest`;
    throw problem(csv, row, name, message, 'one value for both');
  }
  return [...axis];
}

/** The problem of a missing point: at the row before which it should stand, or at the last row. */
function hole(grid: RowGrid, at: number): NotebookProblem {
  const { csv, rows, names, axes, value, order } = grid;
  const place = coordinates(grid, at);
  const after = (row: number): boolean => {
    for (const k of order) {
      const difference = csv.column(names[k]!)[row]! - place[k]!;
      if (difference !== 0) return difference > 0;
    }
    return true;
  };
  const row = rows.find(after) ?? rows[rows.length - 1]!;
  const point = names.map((name, k) => csv.shown(name, place[k]!)).join(', ');
  const whole = axes.map(axis => axis.length).join(' x ');
  const empty = grid.at(row) === at;
  const message = empty ? `the ${value} is empty` : `there is no ${value} for ${point}`;
  const column = empty ? value : names[order.at(-1)!]!;
  return problem(csv, row, column, message, `each of the ${whole} points of ${names.join(', ')}`);
}

function coordinates({ axes }: RowGrid, at: number): number[] {
  const place: number[] = [];
  let rest = at;
  for (const axis of axes.toReversed()) {
    place.unshift(axis[rest % axis.length]!);
    rest = Math.floor(rest / axis.length);
  }
  return place;
}

/**
 * At each speed the torques reach from the innermost one up to some torque without a gap, and no further than at any lower
 * speed: what a drive unit can give does not grow with its speed, so that a torque which is missing below is a gap.
 */
function checkHoles(grid: RowGrid, torque: readonly number[]): void {
  const { values, axes } = grid;
  const nt = torque.length;
  const speeds = axes.at(-2)?.length ?? 1;
  const zero = torque.findIndex(T => T >= 0);
  for (let row = 0; row * nt < values.length; row += speeds) {
    let [top, bottom] = [-1, nt];
    for (let i = row + speeds - 1; i >= row; i--) {
      const here = (j: number): boolean => !Number.isNaN(values[i * nt + j]);
      for (let j = nt - 1; j > top; j--) if (here(j)) top = j;
      for (let j = 0; j < bottom; j++) if (here(j)) bottom = j;
      for (let j = Math.min(bottom, zero); j <= Math.max(top, zero); j++) if (!here(j)) throw hole(grid, i * nt + j);
    }
  }
}

/** More torque at one speed takes more power, or the map is wrong there. */
function checkPower(grid: RowGrid, speed: readonly number[], torque: readonly number[]): void {
  const { csv, rows, values, value } = grid;
  const nt = torque.length;
  for (let at = 1; at < values.length; at++) {
    const j = at % nt;
    const w = speed[Math.floor(at / nt) % speed.length]!;
    if (j === 0 || w === 0 || torque[j - 1]! < 0) continue;
    const rise = (torque[j]! - torque[j - 1]!) * w + values[at]! - values[at - 1]!;
    if (!(rise <= 0)) continue;
    const row = rows.find(each => grid.at(each) === at)!;
    const less = csv.shown('torque', torque[j - 1]!);
    throw problem(csv, row, value, `more torque takes less power here than ${less} does`, 'a possible value');
  }
}
