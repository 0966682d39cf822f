/** From the CSV file of a drive-unit map or of a torque table to plain tables in SI, with a problem for each gap. */
import type { LossTable } from '../../model/drive/efficiency-map.ts';
import type { TorqueTable } from '../../model/drive/torque-surface.ts';
import { type CsvColumn, type CsvTable, readCsv } from './csv.ts';
import { problemAt } from '../document/located.ts';
import { NotebookProblem } from '../document/problem.ts';
import { cellOf, gridOf, hole, problem, type RowGrid } from './row-grid.ts';

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
 * @throws NotebookProblem, located in the file; SpecError for a text that is none.
 */
export function readLossTable(text: string, file: string): { table: LossTable; notes: readonly string[] } {
  const csv = readCsv(text, file, [SPEED, TORQUE, EFFICIENCY, LOSS, VOLTAGE]);
  requireColumns(csv, [SPEED, TORQUE]);
  const stated = ['efficiency', 'loss'].filter(name => csv.has(name));
  const value = stated[0];
  if (value === undefined) throw problem(csv, 0, 'speed', 'no column of efficiency or loss', EFFICIENCY.examples);
  if (stated.length > 1) throw problem(csv, 0, 'loss', 'both an efficiency and a loss', 'one of the two');
  notNegative(csv, 'speed', 'a negative speed', 'speeds from 0 on');
  const { rows, losses, passed } = value === 'loss' ? statedLosses(csv) : lossesOfEfficiency(csv);
  const grid = gridOf(csv, rows, losses, value, [...(csv.has('voltage') ? ['voltage'] : []), 'speed', 'torque']);
  const [first = 0] = rows;
  const levels = grid.axes.map(axis => axis.levels);
  const [voltage = [], speed = [], torque = []] = csv.has('voltage') ? levels : [[], ...levels];
  if (speed.length < 2) throw problem(csv, first, 'speed', 'the map has one speed only', 'two speeds or more');
  if (torque.filter(T => T > 0).length < 2) {
    throw problem(csv, first, 'torque', 'the map has fewer than two torques above 0', 'two or more');
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
  notNegative(csv, 'speed', 'a negative speed', 'speeds from 0 on');
  const torque = csv.column('torque');
  const rows = Uint32Array.from({ length: csv.rows }, (_, row) => row);
  notNegative(csv, 'torque', 'a negative peak torque', 'a torque of 0 or more');
  const axes = [...(csv.has('voltage') ? ['voltage'] : []), 'speed'];
  const grid = gridOf(csv, rows, torque, 'torque', axes);
  const levels = grid.axes.map(axis => axis.levels);
  const [voltage = [], speed = []] = csv.has('voltage') ? levels : [[], ...levels];
  if (speed[0] !== 0) throw problem(csv, 0, 'speed', 'the table does not start at standstill', 'a row for speed 0');
  if (speed.length < 2) throw problem(csv, 0, 'speed', 'the table has one speed only', 'two speeds or more');
  const at = grid.values.findIndex(value => Number.isNaN(value));
  if (at >= 0) throw hole(grid, at);
  const several = voltage.length > 1;
  const notes = [...csv.notes, ...grid.notes];
  if (voltage.length === 1) notes.push(`${file}: the torque is the same at every voltage, as the table has one only`);
  return { table: { voltage: several ? voltage : [], speed, torque: [...grid.values] }, notes };
}

function requireColumns(csv: CsvTable, columns: readonly CsvColumn[]): void {
  for (const { name, examples } of columns) {
    if (csv.has(name)) continue;
    const { file } = csv;
    const place = { file, line: 1, column: 1, length: 1, source: '' };
    throw new NotebookProblem(problemAt(place, '', `the header has no column of ${name}`, examples));
  }
}

/** @throws NotebookProblem at the first negative number of a column. */
function notNegative(csv: CsvTable, name: string, message: string, expected: string): void {
  const row = csv
    .column(name)
    .subarray(0, csv.rows)
    .findIndex(value => value < 0);
  if (row >= 0) throw problem(csv, row, name, message, expected);
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
  notNegative(csv, 'loss', 'a negative loss', 'a loss of 0 or more');
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
    const power = cellOf(speed, row) * cellOf(torque, row);
    if (power === 0) continue;
    const eta = cellOf(efficiency, row);
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
      rows[0] ?? 0,
      'efficiency',
      `no efficiency is above ${csv.shown('efficiency', best)}`,
      EFFICIENCY.examples,
    );
  }
  return { rows: rows.subarray(0, kept), losses, passed: csv.rows - kept };
}

/**
 * At each speed the torques reach from the innermost one up to some torque without a gap, and no further than at any lower
 * speed: what a drive unit can give does not grow with its speed, so that a torque which is missing below is a gap.
 */
function checkHoles(grid: RowGrid, torque: readonly number[]): void {
  const { values, axes } = grid;
  const nt = torque.length;
  const speeds = axes.at(-2)?.levels.length ?? 1;
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
    const w = cellOf(speed, Math.floor(at / nt) % speed.length);
    const [less, more] = [cellOf(torque, j - 1), cellOf(torque, j)];
    if (j === 0 || w === 0 || less < 0) continue;
    const rise = (more - less) * w + cellOf(values, at) - cellOf(values, at - 1);
    if (!(rise <= 0)) continue;
    const row = rows.find(each => grid.at(each) === at) ?? 0;
    throw problem(
      csv,
      row,
      value,
      `more torque takes less power here than ${csv.shown('torque', less)} does`,
      'a possible value',
    );
  }
}
