/** The rows of a log as columns of numbers, SI; nothing is judged here but what cannot be read. */
import { item, nth } from '../../columns.ts';
import { Cells, cellsOf, isBlank, placeOfLine, type Row, wrongCell } from './cells.ts';
import { LogError, placeOfCell, throwAll } from './error.ts';
import {
  type BusOptions,
  type Column,
  factorOfColumn,
  type Header,
  type LogColumns,
  type LogUnits,
  readHeader,
} from './header.ts';
import { counted, type Tally } from './repair.ts';
import { type BusKind, type ColumnKind, unitOf } from './units.ts';

/** NaN stands for a cell without a number in `altitude` and the bus; beside a bus in `speed` as well. */
export interface LogRows {
  readonly rows: number;
  readonly header: Header;
  /** s from the first row, each later than the one before. */
  readonly time: Float64Array;
  /** m/s; null where the log has none. */
  readonly speed: Float64Array | null;
  /** Degrees; null where the log has none. */
  readonly latitude: Float64Array | null;
  readonly longitude: Float64Array | null;
  /** m; null where the log has none. */
  readonly altitude: Float64Array | null;
  /** SI, of the bus; null where the log has none or it was not asked for: wheels by all columns of them, see `TURNS`. */
  readonly bus: { readonly [kind in BusKind]: Float64Array | null };
  /** 1-based lines. */
  readonly line: Uint32Array;
  /** Whether commas are decimal points. */
  readonly commas: boolean;
}

const COMMENT = /^\s*(?:#|\/\/)/u;
/** What a row must tell to be one. */
const MUST: ReadonlySet<ColumnKind> = new Set(['time', 'speed', 'latitude', 'longitude']);
/** m/s below nothing that a sensor may read at rest: 1 km/h. */
const TRACE = 1 / 3.6;
const START = 1024;
/** Problems after which reading ends. */
const MOST_TOLD = 20;

/** Reads the lines of one log, in order. */
export class LogTable {
  readonly #units: LogUnits;
  readonly #named: LogColumns;
  readonly #bus: BusOptions | null;
  readonly #tally: Tally;
  /** What is wrong in single rows, told together at the end. */
  readonly #problems: LogError[] = [];
  readonly #cells = new Cells();
  #header: Header | null = null;
  /** Of the columns, once the first row has been read. */
  #factors: readonly number[] | null = null;
  #values: Float64Array[] = [];
  /** Number of the column of the time, and of its cell in a row. */
  #time = 0;
  #timeField = 0;
  #lines = new Uint32Array(START);
  #rows = 0;
  /** How many readings are in the last row: those of one time are averaged. */
  #merged = 1;
  /** A row with too few cells; wrong unless it is the last one. */
  #short: LogError | null = null;
  #lastLine = 1;
  /** Whether the clock has run back already. */
  #backwards = false;
  /** Numbers of the row that is being read, by column. */
  readonly #row: number[] = [];

  constructor(units: LogUnits, columns: LogColumns, tally: Tally, bus: BusOptions | null = null) {
    this.#bus = bus;
    this.#units = units;
    this.#named = columns;
    this.#tally = tally;
  }

  /** Takes the next line. @throws LogError. */
  take(source: string, line: number): void {
    this.#lastLine = line;
    if (COMMENT.test(source) || source.trim() === '') return;
    if (this.#short !== null) this.#blame(this.#short);
    this.#short = null;
    if (this.#header === null) this.#takeHeader(source, line);
    else this.#tryRow({ source, line, separator: this.#header.separator }, this.#header);
  }

  /** Goes on behind a row that is wrong, as there may be more. */
  #tryRow(row: Row, header: Header): void {
    try {
      this.#takeRow(row, header);
    } catch (error) {
      if (!(error instanceof LogError)) throw error;
      this.#blame(error);
      // Where not even the units are known no other row can be read.
      if (this.#factors === null) throwAll(this.#problems);
    }
  }

  #blame(error: LogError): void {
    this.#problems.push(error, ...error.others);
    if (this.#problems.length < MOST_TOLD) return;
    const { place, field } = error;
    this.#problems.push(new LogError(place, field, `${MOST_TOLD} problems up to here; the rest was not read`));
    throwAll(this.#problems);
  }

  /** @throws LogError for a log without rows, or with commas that may mean either. */
  finish(): LogRows {
    const header = this.#header;
    if (header === null) throw new LogError(placeOfLine(1, ''), '', 'the log is empty', 'a header and rows of numbers');
    if (this.#short !== null) {
      this.#tally.note('cut off', this.#short.place.line, () => 'the last row is cut off and was left out');
    }
    throwAll(this.#problems);
    if (this.#rows < 2) {
      const message = this.#rows === 0 ? 'the log has no rows of numbers' : 'the log has one row only';
      throw new LogError(placeOfLine(this.#lastLine, ''), '', message, 'two rows or more below the header');
    }
    const commas = this.#cells.finish();
    const read = this.#values.map(values => values.subarray(0, this.#rows));
    const column = (kind: ColumnKind): Float64Array | null => read[indexOf(header, kind)] ?? null;
    return {
      rows: this.#rows,
      header,
      time: item(read, indexOf(header, 'time')),
      speed: column('speed'),
      latitude: column('latitude'),
      longitude: column('longitude'),
      altitude: column('altitude'),
      bus: {
        wheel: meanOf(read.filter((_, k) => header.columns[k]?.kind === 'wheel')),
        power: column('power'),
        voltage: column('voltage'),
        current: column('current'),
      },
      line: this.#lines.subarray(0, this.#rows),
      commas,
    };
  }

  #takeHeader(source: string, line: number): void {
    const used = ['\t', ';', ','].filter(separator => source.includes(separator));
    const separator = used[0];
    if (separator === undefined || used.length > 1) {
      const message =
        used.length === 0 ? 'the header names a single column' : 'the header has more than one kind of separator';
      throw new LogError(placeOfLine(line, source), '', message, 'names with units, such as "time_s, speed_km_h"');
    }
    this.#header = readHeader(cellsOf({ source, line, separator }), line, source, separator, this.#named, this.#bus);
    this.#values = this.#header.columns.map(() => new Float64Array(START));
    this.#time = indexOf(this.#header, 'time');
    this.#timeField = item(this.#header.columns, this.#time).field;
  }

  #takeRow(row: Row, header: Header): void {
    const cells = cellsOf(row);
    if (!this.#fits(cells, row, header.width)) return;
    if (this.#factors === null && this.#takeUnits(cells, header)) return;
    const time = item(cells, this.#timeField);
    if (isBlank(time)) return this.#leaveOut(row);
    this.#factors ??= this.#start(time, header);
    let [missing, found] = [false, false];
    for (const [k, column] of header.columns.entries()) {
      this.#row[k] = this.#read(item(cells, column.field), column, nth(this.#factors, k), row);
      const none = Number.isNaN(this.#row[k]);
      missing ||= none && MUST.has(column.kind);
      found ||= !none && column.kind !== 'time';
    }
    // What is on a bus comes each at its own time.
    if (this.#bus !== null) missing = !found;
    if (missing || this.#hasNoFix(header)) {
      this.#leaveOut(row);
    } else this.#keep(row, header);
  }

  #leaveOut({ line }: Row): void {
    this.#tally.note('missing', line, n => `${counted(n, 'row')} without a reading left out`);
  }

  #fits(cells: readonly string[], row: Row, width: number): boolean {
    if (cells.length >= width && cells.slice(width).every(cell => cell.trim() === '')) return true;
    const few = cells.length < width;
    const cure =
      few || row.separator !== ','
        ? ', as in the header'
        : '; where commas are decimal, semicolons set off the columns';
    const place = placeOfCell(row.line, row.source, row.separator, Math.min(cells.length, width) - 1);
    const error = new LogError(
      place,
      '',
      `a row of ${counted(cells.length, 'cell')}, "${row.source.slice(0, 40)}"`,
      `${width}${cure}`,
    );
    if (!few) throw error;
    this.#short = error;
    return false;
  }

  /** A second line of the header that holds the units: `s;km/h`. */
  #takeUnits(cells: readonly string[], header: Header): boolean {
    const written = header.columns.map(({ field }) =>
      item(cells, field)
        .trim()
        .replace(/^[[(](.*)[\])]$/u, '$1'),
    );
    const units = header.columns.map(({ kind }, k) => (written[k] === '' ? null : unitOf(kind, item(written, k))));
    if (units.includes(undefined) || units.every(unit => unit === null)) return false;
    const columns = header.columns.map((column, k) => ({ ...column, unit: column.unit ?? units[k] ?? null }));
    this.#header = { ...header, columns };
    return true;
  }

  #start(time: string, header: Header): readonly number[] {
    const needsUnit = this.#cells.startTime(time);
    const problems: LogError[] = [];
    const factors = header.columns.map(column => {
      if (column.kind === 'time' && !needsUnit) return 1;
      try {
        return factorOfColumn(column, header, this.#units);
      } catch (error) {
        if (!(error instanceof LogError)) throw error;
        problems.push(error);
        return Number.NaN;
      }
    });
    throwAll(problems);
    return factors;
  }

  /** SI; NaN where there is no reading. */
  #read(cell: string, column: Column, factor: number, row: Row): number {
    const { kind } = column;
    if (kind === 'time') return this.#cells.time(cell, factor, column, row);
    const written = this.#cells.number(cell, column, row);
    const most = kind === 'latitude' ? 90 : kind === 'longitude' ? 180 : Infinity;
    if (Math.abs(written) > most) {
      throw wrongCell(column, row, `${written} is no ${kind}`, `decimal degrees from -${most} to ${most}`);
    }
    const value = written * factor;
    if (kind !== 'speed' || !(value < 0)) return value;
    // A sensor may read a trace below nothing at rest; a car that drives backwards is another matter.
    if (value < -TRACE) throw wrongCell(column, row, `the speed ${written} is negative`, 'speeds of 0 or more');
    this.#tally.note('negative', row.line, n => `${counted(n, 'speed')} between -1 and 0 km/h taken as 0`);
    return 0;
  }

  /** Receivers write 0, 0 for a position that they do not know. */
  #hasNoFix(header: Header): boolean {
    if (indexOf(header, 'speed') >= 0) return false;
    return this.#row[indexOf(header, 'latitude')] === 0 && this.#row[indexOf(header, 'longitude')] === 0;
  }

  #keep(row: Row, header: Header): void {
    const k = this.#time;
    const now = nth(this.#row, k);
    const last = this.#rows === 0 ? -Infinity : nth(item(this.#values, k), this.#rows - 1);
    if (now > last) {
      this.#append(row.line);
      return;
    }
    if (now === last) this.#merge(header);
    else if (!this.#isRepeated()) {
      const back = Number((last - now).toPrecision(6));
      const cure = 'times that grow; across midnight, times with the date, such as 2026-01-31T23:59:59';
      // Behind a clock that was set back every row would be another such problem.
      if (this.#backwards) return;
      this.#backwards = true;
      const cell = cellsOf(row)[header.columns[k]?.field ?? 0] ?? '';
      throw wrongCell(item(header.columns, k), row, `the clock runs back by ${back} s, to "${cell.trim()}"`, cure);
    }
    this.#tally.note('duplicate', row.line, n => `${counted(n, 'row')} with the time of another row averaged with it`);
  }

  #append(line: number): void {
    if (this.#rows === this.#lines.length) {
      const more = new Uint32Array(2 * this.#rows);
      more.set(this.#lines);
      this.#lines = more;
      this.#values = this.#values.map(column => {
        const grown = new Float64Array(2 * this.#rows);
        grown.set(column);
        return grown;
      });
    }
    for (let k = 0; k < this.#values.length; k++) item(this.#values, k)[this.#rows] = nth(this.#row, k);
    this.#lines[this.#rows++] = line;
    this.#merged = 1;
  }

  /** Takes the reading into the mean of the last row. */
  #merge({ columns }: Header): void {
    this.#merged++;
    const last = this.#rows - 1;
    for (const [k, { kind }] of columns.entries()) {
      if (kind === 'time') continue;
      const column = item(this.#values, k);
      const step = nth(this.#row, k) - nth(column, last);
      const around = kind === 'longitude' && Math.abs(step) > 180 ? step - Math.sign(step) * 360 : step;
      if (Number.isNaN(nth(column, last))) column[last] = nth(this.#row, k);
      else if (!Number.isNaN(around)) column[last] = nth(column, last) + around / this.#merged;
    }
  }

  /** Whether the row is the one before the last once more, as some loggers send it. */
  #isRepeated(): boolean {
    const before = this.#rows - 2;
    return before >= 0 && this.#values.every((column, k) => Object.is(column[before], this.#row[k]));
  }
}

/** Row by row the mean of those that tell something; null for no columns. */
function meanOf(columns: readonly Float64Array[]): Float64Array | null {
  const [first] = columns;
  if (first === undefined) return null;
  return first.map((_, i) => {
    const told = columns.map(each => nth(each, i)).filter(each => !Number.isNaN(each));
    return told.reduce((all, each) => all + each, 0) / told.length;
  });
}

function indexOf({ columns }: Header, kind: ColumnKind): number {
  return columns.findIndex(each => each.kind === kind);
}
