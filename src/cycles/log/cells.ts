/** The single cells of a log: numbers with a point or a comma, times in three forms, and cells without a reading. */
import { dsvFormat } from 'd3-dsv';
import { clockExample, type ClockForm, clockFormOf, dateOf, readClock } from './clock.ts';
import { LogError, type LogPlace, placeOfCell } from './error.ts';
import { type Column, examplesOf } from './header.ts';

// Each part of these begins with what the part before it can not take, so that a cell is walked through once.
const NUMBER = /^\s*[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?\s*$/u;
const COMMA_NUMBER = /^\s*[+-]?\d+,\d+(?:[eE][+-]?\d+)?\s*$/u;
/** With a comma that may as well set off thousands: `92,125`, but not `0,905`. */
const MAYBE_THOUSANDS = /^\s*[+-]?[1-9]\d{0,2},\d{3}\s*$/u;
/** What loggers write where they have no reading. */
const NO_READING = /^\s*(?:(?:nan|null|none|n\/?a|-+|#n\/a)\s*)?$/iu;
/** A number of seconds that only a calendar gives, and what such a number is rounded to: its last digits are none. */
const CALENDAR = 1e8;
const MICROS = 1e6;

/** Whether a cell says that there was nothing to read. */
export function isBlank(cell: string): boolean {
  return NO_READING.test(cell);
}

/** The row that is being read, for messages. */
export interface Row {
  readonly source: string;
  /** 1-based line. */
  readonly line: number;
  readonly separator: string;
}

/** Cells of a line without quotes. @throws LogError for a quotation mark that is never closed. */
export function cellsOf({ source, line, separator }: Row): readonly string[] {
  if (!source.includes('"')) return source.split(separator);
  if (source.split('"').length % 2 === 0) {
    throw new LogError(placeOfLine(line, source), '', 'a quotation mark that is never closed', 'each row on one line');
  }
  let cells: readonly string[] = [];
  dsvFormat(separator).parseRows(source, fields => {
    cells = fields;
    return null;
  });
  return cells;
}

/** A problem with the cell of a column. */
export function wrongCell(column: Column, row: Row, message: string, expected: string): LogError {
  return new LogError(placeOfCell(row.line, row.source, row.separator, column.field), column.kind, message, expected);
}

function finite(value: number, cell: string, column: Column, row: Row): number {
  if (Number.isFinite(value)) return value;
  throw wrongCell(column, row, `"${cell.trim().slice(0, 40)}" is too large`, 'a number');
}

/** A problem with a line as a whole. */
export function placeOfLine(line: number, source: string): LogPlace {
  return { line, column: 1, length: Math.max(1, source.length), source };
}

/** What stands at a place. */
function quoted({ source, column, length }: LogPlace): string {
  return source.slice(column - 1, column - 1 + length);
}

/** Reads the cells of one log and remembers how its numbers are written. */
export class Cells {
  #clock: ClockForm = 'number';
  /** Date of the first time, where its day and month may be taken for each other. */
  #date = '';
  /** Whole seconds, or the number, that times are counted from. */
  #zero: number | null = null;
  /** Line of the first number with a point, and place of the first one with a comma. */
  #point: number | null = null;
  #comma: LogPlace | null = null;
  /** Whether some comma can be nothing but a decimal one. */
  #commaSure = false;

  /** Decides by its first cell how times are written; false where they need no unit. */
  startTime(cell: string): boolean {
    this.#clock = clockFormOf(cell.trim()) ?? 'number';
    if (this.#clock === 'either') this.#date = dateOf(cell.trim());
    return this.#clock === 'number';
  }

  /** s from the first time; NaN where there is no reading. */
  time(cell: string, factor: number, column: Column, row: Row): number {
    if (this.#clock !== 'number') return this.#clockTime(cell.trim(), this.#clock, column, row);
    const value = this.number(cell, column, row);
    if (Number.isNaN(value)) return value;
    this.#zero ??= value;
    const seconds = (value - this.#zero) * factor;
    return Math.abs(value * factor) < CALENDAR ? seconds : Math.round(seconds * MICROS) / MICROS;
  }

  /** NaN where there is no reading. */
  number(cell: string, column: Column, row: Row): number {
    if (NUMBER.test(cell)) {
      if (this.#point === null && cell.includes('.')) {
        this.#point = row.line;
        this.#refuseBoth();
      }
      return finite(Number(cell), cell, column, row);
    }
    if (isBlank(cell)) return Number.NaN;
    if (COMMA_NUMBER.test(cell)) {
      this.#commaSure ||= !MAYBE_THOUSANDS.test(cell);
      if (this.#comma === null) {
        this.#comma = placeOfCell(row.line, row.source, row.separator, column.field);
        this.#refuseBoth();
      }
      return finite(Number(cell.replace(',', '.')), cell, column, row);
    }
    const expected =
      column.kind === 'time' ? `a number, or ${examplesOf('time')}` : `a number in the column "${column.written}"`;
    throw wrongCell(column, row, `"${cell.trim().slice(0, 40)}" is not a number`, expected);
  }

  /** Whether commas are decimal points. @throws LogError where that cannot be told. */
  finish(): boolean {
    if (this.#comma !== null && !this.#commaSure) {
      const message = `this comma may be decimal or set off thousands: "${quoted(this.#comma)}"`;
      throw new LogError(this.#comma, '', message, 'decimal points, and nothing between thousands');
    }
    return this.#comma !== null;
  }

  #clockTime(text: string, form: Exclude<ClockForm, 'number'>, column: Column, row: Row): number {
    if (isBlank(text)) return Number.NaN;
    const read = readClock(text, form);
    if (read === undefined) {
      const message = `"${text.slice(0, 40)}" is no time as in the first row`;
      throw wrongCell(column, row, message, `a time such as ${clockExample(form)}`);
    }
    if (form === 'either' && dateOf(text) !== this.#date) {
      const message = `the date changes from "${this.#date}" to "${dateOf(text)}", and day or month may come first`;
      throw wrongCell(column, row, message, `times such as ${clockExample(form)}`);
    }
    this.#zero ??= read[0];
    return read[0] - this.#zero + read[1];
  }

  #refuseBoth(): void {
    if (this.#comma === null || this.#point === null) return;
    const message = `a decimal comma here, a decimal point in line ${this.#point}: "${quoted(this.#comma)}"`;
    throw new LogError(this.#comma, '', message, 'one of the two throughout');
  }
}
