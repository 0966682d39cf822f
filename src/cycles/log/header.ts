/** Finds out from the header of a log which column is what, and in which unit. */
import { LogError, placeOfCell } from './error.ts';
import { type ColumnKind, factorOf, unitOf, unitsOf } from './units.ts';

export interface Column {
  readonly kind: ColumnKind;
  /** Number of the cell in a row, from 0. */
  readonly field: number;
  /** As the header names it. */
  readonly written: string;
  /** As `unitsOf` lists it; null where the header names none. */
  readonly unit: string | null;
}

export interface Header {
  readonly line: number;
  readonly source: string;
  readonly separator: string;
  /** Cells of a row. */
  readonly width: number;
  readonly columns: readonly Column[];
  /** Names of columns that say nothing here. */
  readonly passedOver: readonly string[];
}

/** Units for the columns whose header names none. */
export type LogUnits = { readonly [kind in 'time' | 'speed' | 'altitude']?: string };

const WORDS: { readonly [kind in ColumnKind]: readonly string[] } = {
  time: [
    'time',
    't',
    'timestamp',
    'time stamp',
    'elapsed',
    'elapsed time',
    'date time',
    'datetime',
    'utc',
    'utc time',
    'gps time',
    'clock',
  ],
  speed: ['speed', 'v', 'velocity', 'gps speed', 'ground speed', 'vehicle speed', 'car speed'],
  latitude: ['latitude', 'lat', 'gps latitude'],
  longitude: ['longitude', 'lon', 'lng', 'long', 'gps longitude'],
  altitude: ['altitude', 'alt', 'elevation', 'ele', 'height', 'gps altitude'],
};
const KINDS = Object.keys(WORDS) as ColumnKind[];

const EXAMPLES: { readonly [kind in ColumnKind]: string } = {
  time: 'time [s], time [ms], or times written as 12:34:56 or 2026-01-31T12:34:56',
  speed: 'speed [km/h], speed [mph], speed [m/s] or speed [kn]',
  latitude: 'latitude in decimal degrees',
  longitude: 'longitude in decimal degrees',
  altitude: 'altitude [m] or altitude [ft]',
};

/** Headers that are right, for messages. */
export function examplesOf(kind: ColumnKind): string {
  return EXAMPLES[kind];
}

/**
 * @param cells of the header, without quotes.
 * @throws LogError where a column is missing or stands twice, or a unit in brackets is none.
 */
export function readHeader(cells: readonly string[], line: number, source: string, separator: string): Header {
  const columns: Column[] = [];
  const passedOver: string[] = [];
  const doubtful: Doubt[] = [];
  const fail = (field: number, kind: string, message: string, expected: string): LogError =>
    new LogError(placeOfCell(line, source, separator, field), kind, message, expected);
  for (const [field, text] of cells.entries()) {
    const found = recognise(text);
    if (found === null || found.unit === undefined) {
      if (found?.bracketed === true) {
        throw fail(field, found.kind, `"${found.rest}" is no unit of ${found.kind}`, examplesOf(found.kind));
      }
      if (found !== null) doubtful.push({ field, kind: found.kind, rest: found.rest });
      passedOver.push(text.trim());
      continue;
    }
    const { kind, unit } = found;
    const other = columns.find(column => column.kind === kind);
    if (other !== undefined) {
      const message = `a second column of ${kind} beside "${other.written}"`;
      throw fail(field, kind, message, `one column of ${kind}; rename or remove the other`);
    }
    columns.push({ kind, field, written: text.trim(), unit });
  }
  requireColumns(columns, doubtful, cells, fail);
  return { line, source, separator, width: cells.length, columns, passedOver };
}

interface Doubt {
  readonly field: number;
  readonly kind: ColumnKind;
  readonly rest: string;
}

/** Unit undefined: there is text that is no unit. */
interface Recognised {
  readonly kind: ColumnKind;
  readonly unit: string | null | undefined;
  readonly rest: string;
  readonly bracketed: boolean;
}

/** `speed [km/h]`, `speed_kmh`, `Speed (mph)`, `speedKmh`, `time_s`; null where it starts with no word that is known. */
function recognise(text: string): Recognised | null {
  const bracket = /^(?<name>[^[(]*)[[(](?<unit>[^\])]*)[\])]\s*$/u.exec(text)?.groups;
  const name = plain(bracket?.['name'] ?? text);
  for (const kind of KINDS) {
    if (!WORDS[kind].includes(name)) continue;
    const rest = bracket?.['unit'] ?? '';
    // A format in brackets, such as (hh:mm:ss) or [ISO 8601], is no unit but says so by itself.
    const isFormat = kind === 'time' && /:|iso|utc|gmt/iu.test(rest);
    const unit = bracket === undefined || isFormat ? null : unitOf(kind, rest);
    return { kind, unit, rest, bracketed: bracket !== undefined };
  }
  if (bracket !== undefined) return null;
  let best: Recognised | null = null;
  let longest = 0;
  for (const kind of KINDS) {
    for (const word of WORDS[kind]) {
      if (!name.startsWith(`${word} `) || word.length <= longest) continue;
      const rest = name.slice(word.length + 1);
      best = { kind, unit: unitOf(kind, rest), rest, bracketed: false };
      longest = word.length;
    }
  }
  return best;
}

function plain(text: string): string {
  return text
    .replace(/(?<=[a-z])(?=[A-Z])/gu, ' ')
    .replace(/[\s_]+/gu, ' ')
    .trim()
    .toLowerCase();
}

function requireColumns(
  columns: readonly Column[],
  doubtful: readonly Doubt[],
  cells: readonly string[],
  fail: (field: number, kind: string, message: string, expected: string) => LogError,
): void {
  const has = (kind: ColumnKind): boolean => columns.some(column => column.kind === kind);
  const named = `the header names ${cells.map(cell => `"${cell.trim()}"`).join(', ')}`;
  const need = (kind: ColumnKind, expected: string): void => {
    if (has(kind)) return;
    const doubt = doubtful.find(each => each.kind === kind);
    if (doubt !== undefined) throw fail(doubt.field, kind, `"${doubt.rest}" is no unit of ${kind}`, examplesOf(kind));
    throw fail(0, kind, `there is no column of ${kind}: ${named}`, expected);
  };
  need('time', examplesOf('time'));
  if (has('speed')) return;
  const position = has('latitude') || has('longitude');
  if (!position) need('speed', `${examplesOf('speed')}, or latitude and longitude`);
  need('latitude', examplesOf('latitude'));
  need('longitude', examplesOf('longitude'));
}

/**
 * What the numbers of a column are multiplied by.
 * @throws LogError for a unit that neither header nor options name, or that they name differently.
 */
export function factorOfColumn(column: Column, header: Header, units: LogUnits): number {
  const { kind, field } = column;
  if (kind === 'latitude' || kind === 'longitude') return 1;
  const place = placeOfCell(header.line, header.source, header.separator, field);
  const asked = units[kind];
  const option = asked === undefined ? null : unitOf(kind, asked);
  if (option === undefined) throw new RangeError(`"${asked}" is no unit of ${kind}: ${unitsOf(kind).join(', ')}`);
  if (column.unit !== null && option !== null && option !== column.unit) {
    throw new LogError(
      place,
      kind,
      `the header says ${column.unit}, but ${kind} was said to be in ${option}`,
      'one of the two',
    );
  }
  const unit = column.unit ?? option;
  if (unit === null) {
    const expected = `${examplesOf(kind)}, or ${kind}_unit: ${unitsOf(kind)[0]} beside the name of the log`;
    throw new LogError(place, kind, `the column ${kind} has no unit`, expected);
  }
  return factorOf(kind, unit);
}
