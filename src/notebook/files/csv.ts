/**
 * Reads a CSV file of numbers whose header names each column with its unit, into typed columns in SI. The splitting is
 * d3-dsv's; what is added is where everything stands, for problems that name line and column.
 */
import { dsvFormat } from 'd3-dsv';
import { FILE_TEXT } from '../../runs/rules.ts';
import { readQuantity, UnitError } from '../../units.ts';
import { type Place, problemAt } from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import { NotebookProblem } from '../document/problem.ts';

/** A column that a table may have. */
export interface CsvColumn {
  /** Word of the header. */
  readonly name: string;
  /** SI unit that its numbers are kept in. */
  readonly unit: string;
  /** Headers that are right, for messages: `speed [rpm] or speed [rad/s]`. */
  readonly examples: string;
  /** Whether a cell may be left empty; it is NaN then. */
  readonly blank?: true;
}

export interface CsvTable {
  readonly file: string;
  /** Rows below the header; blank lines do not count. */
  readonly rows: number;
  /** Whether the header has this column. */
  has(name: string): boolean;
  /** SI values of a column; RangeError where there is none. */
  column(name: string): Float64Array;
  /** Place of a cell by its row, counted from 0. */
  place(row: number, name: string): Place;
  /** 1-based line of a row. */
  line(row: number): number;
  /** An SI value of a column in the unit of the file: `3000 rpm`. */
  shown(name: string, value: number): string;
  /** What was understood that could have meant something else. */
  readonly notes: readonly string[];
}

interface Heading extends CsvColumn {
  /** As the header writes it. */
  readonly written: string;
  readonly factor: number;
  /** SI; as long as the file could make it. */
  readonly values: Float64Array;
}

// Each part of these begins with what the part before it can not take, so that a cell is walked through once.
const NUMBER = /^[ \t]*[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?[ \t]*$/;
const COMMA_NUMBER = /^[ \t]*[+-]?\d+,\d+(?:[eE][+-]?\d+)?[ \t]*$/;
/** With a comma that may as well set off thousands: `92,125`, but not `0,905`. */
const MAYBE_THOUSANDS = /^[ \t]*[+-]?[1-9]\d{0,2},\d{3}[ \t]*$/;

/** Inside quotes; it would put every line below it out of count. */
const LINE_BREAK = /[\r\n]/u;
const BROKEN = ['a cell with a line break', 'each row on one line'] as const;

/**
 * @param file name for messages.
 * @throws NotebookProblem, located in the file.
 */
export function readCsv(text: string, file: string, columns: readonly CsvColumn[]): CsvTable {
  FILE_TEXT(text, 'text');
  return new CsvReader(text.replace(/^\uFEFF/u, ''), file).read(columns);
}

interface Spot {
  readonly line: number;
  readonly field: number;
}

class CsvReader {
  readonly #text: string;
  readonly #file: string;
  #separator = ',';
  #headings: readonly Heading[] = [];
  #lines = new Uint32Array(0);
  #rows = 0;
  /** First number with a point, and first one with a comma. */
  #point: Spot | null = null;
  #comma: Spot | null = null;
  /** Whether some comma can be nothing but a decimal one. */
  #commaSure = false;

  constructor(text: string, file: string) {
    this.#text = text;
    this.#file = file;
  }

  read(columns: readonly CsvColumn[]): CsvTable {
    const capacity = countLines(this.#text);
    this.#separator = this.#findSeparator();
    this.#lines = new Uint32Array(capacity);
    dsvFormat(this.#separator).parseRows(this.#text, (fields, index) => {
      const line = index + 1;
      if (this.#headings.length === 0) this.#readHeader(fields, line, columns, capacity);
      else if (fields.length > 1 || !/^[ \t]*$/u.test(fields[0] ?? '')) this.#readRow(fields, line);
      return null;
    });
    if (this.#rows === 0)
      throw this.#problem({ line: 1, field: 0 }, 'the table has no rows', 'numbers below the header');
    this.#checkCommas();
    return this.#table();
  }

  #table(): CsvTable {
    const at = (name: string): number => this.#headings.findIndex(heading => heading.name === name);
    const heading = (name: string): Heading => {
      const found = this.#headings[at(name)];
      if (found === undefined) throw new RangeError(`the table has no column ${name}`);
      return found;
    };
    const line = (row: number): number => this.#lines[row] ?? 1;
    return {
      file: this.#file,
      rows: this.#rows,
      has: name => this.#headings.some(heading => heading.name === name),
      column: name => heading(name).values.subarray(0, this.#rows),
      place: (row, name) => this.#place({ line: line(row), field: at(name) }),
      line,
      shown: (name, value) => {
        const { written, factor } = heading(name);
        const number = Number((value / factor).toPrecision(6));
        return written === '1' ? `${number}` : `${number} ${written}`;
      },
      notes: this.#notes(),
    };
  }

  #notes(): string[] {
    const word = this.#separator === ';' ? 'semicolons' : this.#separator === '\t' ? 'tabs' : '';
    if (word === '') return [];
    return [`${this.#file}: ${word} set off the columns${this.#comma === null ? '' : ', commas are decimal points'}`];
  }

  /** The one of comma, semicolon and tab that the first line has. */
  #findSeparator(): string {
    const header = /^[^\r\n]*/u.exec(this.#text)?.[0] ?? '';
    const used = ['\t', ';', ','].filter(separator => header.includes(separator));
    const [only] = used;
    if (only !== undefined && used.length === 1) return only;
    const message =
      used.length === 0 ? 'the header names a single column' : 'the header has more than one kind of separator';
    const place = { file: this.#file, line: 1, column: 1, length: Math.max(1, header.length), source: header };
    throw new NotebookProblem(
      problemAt(place, '', message, 'names with units, set off by commas, such as "speed_rpm, torque_N_m"'),
    );
  }

  #readHeader(fields: readonly string[], line: number, columns: readonly CsvColumn[], capacity: number): void {
    const headings: Heading[] = [];
    for (const [field, text] of fields.entries()) {
      const heading = this.#heading(text, { line, field }, columns, capacity);
      if (headings.some(other => other.name === heading.name)) {
        throw this.#problem({ line, field }, `a second column of ${heading.name}`, 'each column once');
      }
      headings.push(heading);
    }
    this.#headings = headings;
  }

  #heading(text: string, spot: Spot, columns: readonly CsvColumn[], capacity: number): Heading {
    if (LINE_BREAK.test(text)) throw this.#problem(spot, ...BROKEN);
    const { name, unit } = nameAndUnit(text);
    const column = columns.find(each => each.name === name.toLowerCase());
    const all = columns.map(({ examples }) => examples).join(', ');
    if (column === undefined) {
      const cure = nearest(
        name,
        columns.map(each => each.name),
      );
      throw this.#problem(spot, `unknown column "${shortened(text)}"`, all, cure);
    }
    if (unit === '') throw this.#problem(spot, `the column ${column.name} has no unit`, column.examples);
    return { ...column, ...this.#unit(unit, column, spot), values: new Float64Array(capacity) };
  }

  #unit(text: string, { name, unit, examples }: CsvColumn, spot: Spot): { written: string; factor: number } {
    const written = /^rad[_ ]s$/u.test(text) ? 'rad/s' : text.replaceAll('_', ' ').trim();
    if (unit === '1' && written === '1') return { written, factor: 1 };
    try {
      const { value, spread } = readQuantity(`1 ${written}`, unit);
      if (spread === undefined && value > 0 && !written.startsWith('/')) return { written, factor: value };
    } catch (error) {
      if (!(error instanceof UnitError)) throw error;
    }
    throw this.#problem(spot, `"${shortened(written)}" is no unit of the column ${name}`, examples);
  }

  #readRow(fields: readonly string[], line: number): void {
    const wanted = this.#headings.length;
    if (fields.length !== wanted) {
      const cure =
        this.#separator === ',' && fields.length > wanted
          ? `${wanted}; where commas are decimal, semicolons set off the columns`
          : `${wanted}, as in the header`;
      throw this.#problem(
        { line, field: Math.min(fields.length, wanted) - 1 },
        `a row of ${fields.length} cells`,
        cure,
      );
    }
    const row = this.#rows++;
    this.#lines[row] = line;
    for (const [field, heading] of this.#headings.entries()) {
      const cell = fields[field] ?? '';
      const spot = { line, field };
      const isNumber = NUMBER.test(cell);
      const value = (isNumber ? Number(cell) : this.#unusual(cell, heading, spot)) * heading.factor;
      if (isNumber && this.#point === null && cell.includes('.')) this.#point = spot;
      if (Math.abs(value) === Infinity) throw this.#problem(spot, `"${shortened(cell)}" is too large`, 'a number');
      heading.values[row] = value;
    }
  }

  /** An empty cell, a decimal comma, or a problem. */
  #unusual(cell: string, heading: Heading, spot: Spot): number {
    if (LINE_BREAK.test(cell)) throw this.#problem(spot, ...BROKEN);
    const blank = cell.trim() === '';
    if (blank && heading.blank === true) return Number.NaN;
    if (COMMA_NUMBER.test(cell)) {
      this.#comma ??= spot;
      this.#commaSure ||= !MAYBE_THOUSANDS.test(cell);
      return Number(cell.replace(',', '.'));
    }
    const message = blank ? `the ${heading.name} is empty` : `"${shortened(cell)}" is not a number`;
    const cure =
      heading.blank === true
        ? 'a number, or an empty cell beyond what the unit can do'
        : `a number, for ${heading.name}`;
    throw this.#problem(spot, message, cure);
  }

  #checkCommas(): void {
    if (this.#comma === null) return;
    if (this.#point !== null) {
      const other = `${this.#file}:${this.#point.line}`;
      throw this.#problem(
        this.#comma,
        `a decimal comma here, a decimal point in ${other}`,
        'one of the two throughout',
      );
    }
    if (!this.#commaSure) {
      const message = 'this comma may be decimal or set off thousands';
      throw this.#problem(this.#comma, message, 'decimal points, and nothing between thousands');
    }
  }

  #problem(spot: Spot, message: string, expected = '', cure = ''): NotebookProblem {
    return new NotebookProblem(problemAt(this.#place(spot), '', message, expected, cure));
  }

  /** Found only for problems: splitting the lines once more costs less than keeping all places. */
  #place({ line, field }: Spot): Place {
    const source = this.#text.split(/\r\n|\r|\n/u, line)[line - 1] ?? '';
    let start = 0;
    let quoted = false;
    let end = 0;
    for (let left = field; end < source.length; end++) {
      const sign = source.charAt(end);
      if (sign === '"') quoted = !quoted;
      else if (sign === this.#separator && !quoted) {
        if (left === 0) break;
        left--;
        start = end + 1;
      }
    }
    const cell = source.slice(start, end);
    const lead = cell.length - cell.trimStart().length;
    const column = 1 + start + (cell.trim() === '' ? 0 : lead);
    return { file: this.#file, line, column, length: Math.max(1, cell.trim().length), source };
  }
}

/** `speed_rpm`, `speed [rpm]`, `speed (rpm)`, `speed rpm`; no name where it is none of these. */
function nameAndUnit(text: string): { readonly name: string; readonly unit: string } {
  const all = text.trim();
  const name = /^[A-Za-z]+/u.exec(all)?.[0] ?? '';
  const rest = all.slice(name.length).replace(/^[\s_]+/u, '');
  const opened = /^[[(]/u.test(rest) ? 1 : 0;
  const closed = /[\])]$/u.test(rest) ? 1 : 0;
  const unit = rest.slice(opened, Math.max(opened, rest.length - closed)).trim();
  return /[\])]/u.test(unit) ? { name: '', unit: '' } : { name, unit };
}

/** Of what a stranger wrote, as much as a message holds. */
function shortened(text: string): string {
  return text.trim().slice(0, 40);
}

/** At least as many as there are rows, a lone carriage return ending one as well. */
function countLines(text: string): number {
  let count = 1;
  for (let k = 0; k < text.length; k++) {
    const sign = text.charCodeAt(k);
    if (sign === 10 || sign === 13) count++;
  }
  return count;
}
