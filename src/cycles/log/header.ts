/** Finds out from the header of a log which column is what, and in which unit. */
import { LogError, placeOfCell, throwAll } from './error.ts';
import { type BusKind, type ColumnKind, factorOf, TURNS, unitOf, unitsOf } from './units.ts';
import { axleIn, BUS_KINDS, BY_UNIT, KINDS, WORDS, withoutPlace } from './words.ts';

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
  /** Those of them that would say something about the bus, did they say their unit. */
  readonly unitless: readonly string[];
  /** Beside a bus: whether the speed is that of wheels. */
  readonly ofWheels: boolean;
}

/** Units for the columns whose header names none. */
export type LogUnits = { readonly [kind in 'time' | 'speed' | 'altitude']?: string };

/** Names of columns as the header writes them, for those that are not to be found by their words. */
export type LogColumns = { readonly [kind in ColumnKind]?: string };

/** What is looked for beside a drive in the log of a car's bus. */
export interface BusOptions {
  /** Axles whose wheels are driven: columns that name another are passed over. */
  readonly driven: readonly ('front' | 'rear')[];
  /** Whether the log is of the pack alone: voltage and current in place of a speed. */
  readonly ofPack?: true;
}

const OF_PACK: readonly ColumnKind[] = ['time', 'voltage', 'current'];

const EXAMPLES: { readonly [kind in ColumnKind]: string } = {
  time: 'time [s], time [ms], or times written as 12:34:56 or 2026-01-31T12:34:56',
  speed: 'speed [km/h], speed [mph], speed [m/s] or speed [kn]',
  latitude: 'latitude in decimal degrees',
  longitude: 'longitude in decimal degrees',
  altitude: 'altitude [m] or altitude [ft]',
  wheel: 'wheel speed [km/h] or wheel speed [rpm]',
  power: 'power [kW]',
  voltage: 'voltage [V]',
  current: 'current [A]',
};

/** Headers that are right, for messages. */
export function examplesOf(kind: ColumnKind): string {
  return EXAMPLES[kind];
}

/**
 * @param cells of the header, without quotes. @param named columns that were named. @param bus null for a drive.
 * @throws LogError where a column is missing or stands twice, or a unit in brackets is none.
 */
export function readHeader(
  cells: readonly string[],
  line: number,
  source: string,
  separator: string,
  named: LogColumns = {},
  bus: BusOptions | null = null,
): Header {
  const kinds = bus === null ? KINDS : bus.ofPack === true ? OF_PACK : [...KINDS, ...BUS_KINDS];
  const columns: Column[] = [];
  const passedOver: string[] = [];
  const unitless: string[] = [];
  const doubtful: Doubt[] = [];
  const problems: LogError[] = [];
  const fail = (field: number, kind: string, message: string, expected: string): void =>
    void problems.push(new LogError(placeOfCell(line, source, separator, field), kind, message, expected));
  for (const kind of kinds) {
    const name = named[kind];
    if (name === undefined || cells.some(cell => isNamed(cell, name))) continue;
    fail(0, kind, `no column is called "${name}"`, `one of ${cells.map(cell => `"${cell.trim()}"`).join(', ')}`);
  }
  const recognised = settled(cells.map(text => recognise(text, named, kinds)));
  for (const [field, text] of cells.entries()) {
    const found = recognised[field] ?? null;
    const told = found !== null && isBus(found.kind) && named[found.kind] === undefined;
    const idle = told && isIdle(found, text, bus);
    if (found === null || found.unit === undefined || (told && found.unit === null) || idle) {
      if (told) unitless.push(...(idle ? [] : [text.trim()]));
      else if (found?.bracketed === true) {
        fail(field, found.kind, `"${found.rest}" is no unit of ${found.kind}`, examplesOf(found.kind));
      } else if (found !== null) doubtful.push({ field, kind: found.kind, rest: found.rest });
      passedOver.push(text.trim());
      continue;
    }
    const other = columns.findIndex(column => column.kind === found.kind);
    const column = { kind: found.kind, field, written: text.trim(), unit: found.unit };
    const both = other < 0 || column.kind === 'wheel' ? [column] : wheelApart(columns[other], column, bus);
    if (both === null) {
      const { kind } = column;
      const before = columns[other]?.written ?? '';
      // A word that is something else in another language is hardly what was meant.
      const own = found.also === undefined ? text.trim() : before;
      const message = `a second column of ${kind} beside "${before}"`;
      fail(field, kind, message, `one column of ${kind}: rename or remove the other, or columns: { ${kind}: ${own} }`);
      continue;
    }
    if (both.length > 1) columns.splice(other, 1);
    columns.push(...both);
  }
  throwAll(problems);
  const ofWheels = bus !== null && speedByWheels(columns, passedOver);
  requireColumns(columns, doubtful, cells, fail, bus?.ofPack === true);
  throwAll(problems);
  return { line, source, separator, width: cells.length, columns, passedOver, unitless, ofWheels };
}

/** Takes the first column of wheels for the speed where there is no other; whether the speed is that of wheels. */
function speedByWheels(columns: Column[], passedOver: string[]): boolean {
  const speed = columns.find(({ kind }) => kind === 'speed');
  if (speed !== undefined) return wheelName(speed) !== '';
  const wheels = columns.filter(({ kind, unit }) => kind === 'wheel' && unit !== TURNS);
  const [first, ...others] = wheels;
  if (first === undefined) return false;
  for (const each of others) {
    columns.splice(columns.indexOf(each), 1);
    passedOver.push(each.written);
  }
  columns.splice(columns.indexOf(first), 1, { ...first, kind: 'speed' });
  return true;
}

/** What a column is called but for its unit and the place of its wheel; by two words at least, for `v` is anything. */
function wheelName({ written }: Column): string {
  const name = withoutPlace(bracketOf(written)?.name ?? plain(written));
  return WORDS.wheel.find(word => word.includes(' ') && (name === word || name.startsWith(`${word} `))) ?? '';
}

function isBus(kind: ColumnKind): kind is BusKind {
  return BUS_KINDS.some(each => each === kind);
}

/** Whether a column tells of wheels that are not driven. */
function isIdle({ kind }: Recognised, text: string, bus: BusOptions | null): boolean {
  const axle = kind === 'wheel' ? axleIn(plain(text)) : null;
  return axle !== null && bus?.driven.includes(axle) === false;
}

/** Of two columns of speed on a bus the one that is called by the wheels is theirs; null where neither or both are. */
function wheelApart(other: Column | undefined, column: Column, bus: BusOptions | null): readonly Column[] | null {
  if (bus === null || column.kind !== 'speed' || other === undefined) return null;
  const wheels = [other, column].filter(each => wheelName(each) !== '');
  if (wheels.length !== 1) return null;
  return [other, column].map(each => (wheels.includes(each) ? { ...each, kind: 'wheel' as const } : each));
}

function isNamed(cell: string, name: string): boolean {
  return cell.trim().toLowerCase() === name.trim().toLowerCase();
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
  /** What the same word is in another language, where the unit does not tell. */
  readonly also?: ColumnKind;
}

/** "Tempo" is the time in Italian and the speed in German: beside a column that is surely the time it is the speed. */
function settled(found: readonly (Recognised | null)[]): readonly (Recognised | null)[] {
  const sure = (kind: ColumnKind): boolean => found.some(each => each?.kind === kind && each.also === undefined);
  return found.map(each => {
    if (each?.also === undefined || !sure(each.kind) || sure(each.also)) return each;
    return otherwise(each, each.also);
  });
}

function otherwise({ unit, rest, bracketed }: Recognised, kind: ColumnKind): Recognised {
  return { kind, unit, rest, bracketed };
}

/** A column that was named is what it was named for, and no other column is that; the rest by its words. */
function recognise(text: string, named: LogColumns, kinds: readonly ColumnKind[]): Recognised | null {
  const asked = kinds.find(kind => isNamed(text, named[kind] ?? ''));
  if (asked === undefined) {
    const found = byWords(text, kinds);
    if (found === null || named[found.kind] === undefined) return found;
    return found.also === undefined || named[found.also] !== undefined ? null : otherwise(found, found.also);
  }
  const { name, unit: rest } = bracketOf(text) ?? { name: plain(text), unit: '' };
  const written =
    unitOf(asked, rest) ??
    name
      .split(' ')
      .map((_, i, words) => unitOf(asked, words.slice(i).join(' ')))
      .find(unit => unit !== undefined);
  return { kind: asked, unit: written ?? null, rest, bracketed: false };
}

/** `speed (GPS) [km/h]`: the last bracket holds the unit, others belong to the name. */
function bracketOf(text: string): { readonly name: string; readonly unit: string } | null {
  const found = /^(?<name>.*)[[(](?<unit>[^[\](]*)[\])]\s*$/u.exec(text)?.groups;
  if (found === undefined) return null;
  return { name: plain((found['name'] ?? '').replace(/[[\]()]/gu, ' ')), unit: found['unit'] ?? '' };
}

/** `speed [km/h]`, `speed_kmh`, `Speed (mph)`, `speedKmh`, `time_s`; null where it starts with no word that is known. */
function byWords(text: string, kinds: readonly ColumnKind[]): Recognised | null {
  const bracket = bracketOf(text);
  const name = bracket?.name ?? plain(text);
  const alone = bracket === null ? BY_UNIT.get(name) : undefined;
  if (alone !== undefined) return { kind: alone, unit: unitOf(alone, name), rest: name, bracketed: false };
  const rest = bracket?.unit ?? '';
  const fitting = kinds.flatMap((kind): Recognised[] => {
    if (!WORDS[kind].includes(called(name, kind))) return [];
    // A format in brackets, such as (hh:mm:ss) or [ISO 8601], is no unit but says so by itself.
    const isFormat = kind === 'time' && /:|iso|utc|gmt/iu.test(rest);
    const unit = bracket === null || isFormat ? null : unitOf(kind, rest);
    return [{ kind, unit, rest, bracketed: bracket !== null }];
  });
  // A word may be a time in one language and a speed in another: the unit tells.
  const [first, second] = fitting;
  let best = fitting.find(({ unit }) => unit !== undefined) ?? first ?? null;
  if (first?.kind === 'time' && second?.kind === 'speed' && first.unit === null && second.unit === null)
    best = { ...first, also: 'speed' };
  if (best !== null || bracket !== null) return best;
  let longest = 0;
  for (const kind of kinds) {
    const own = called(name, kind);
    for (const word of WORDS[kind]) {
      if (!own.startsWith(`${word} `) || word.length < longest) continue;
      const unit = unitOf(kind, own.slice(word.length + 1));
      if (word.length === longest && unit === undefined) continue;
      best = { kind, unit, rest: own.slice(word.length + 1), bracketed: false };
      longest = word.length;
    }
  }
  return best;
}

/** A name as the words of a kind have it: which wheel it is tells no kind. */
function called(name: string, kind: ColumnKind): string {
  return kind === 'wheel' ? withoutPlace(name) : name;
}

/** In lower case, without accents, words apart. */
function plain(text: string): string {
  return text
    .replace(/(?<=[a-z])(?=[A-Z])/gu, ' ')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[\s_]+/gu, ' ')
    .trim()
    .toLowerCase();
}

function requireColumns(
  columns: readonly Column[],
  doubtful: readonly Doubt[],
  cells: readonly string[],
  fail: (field: number, kind: string, message: string, expected: string) => void,
  ofPack: boolean,
): void {
  if (cells.length > 1 && cells.every(cell => /^\s*[+-]?\d+(?:[.,]\d+)?\s*$/u.test(cell))) {
    const example = ofPack ? 'time [s], voltage [V], current [A]' : 'time [s], speed [km/h]';
    fail(0, 'header', 'the first line holds numbers alone, no header', `a line above it such as ${example}`);
    return;
  }
  const has = (kind: ColumnKind): boolean => columns.some(column => column.kind === kind);
  const named = `the header names ${cells.map(cell => `"${cell.trim()}"`).join(', ')}`;
  const need = (kind: ColumnKind, expected: string): void => {
    if (has(kind)) return;
    const doubt = doubtful.find(each => each.kind === kind);
    if (doubt !== undefined) fail(doubt.field, kind, `"${doubt.rest}" is no unit of ${kind}`, examplesOf(kind));
    else fail(0, kind, `there is no column of ${kind}: ${named}`, expected);
  };
  const names = ofPack ? 'voltage: NAME, current: NAME' : 'speed: NAME';
  const cure = `or columns: { time: NAME, ${names} } beside the name of the log`;
  need('time', `${examplesOf('time')}, ${cure}`);
  if (ofPack) {
    need('voltage', `${examplesOf('voltage')}, ${cure}`);
    need('current', `${examplesOf('current')}, ${cure}`);
    return;
  }
  if (has('speed')) return;
  const position = has('latitude') || has('longitude');
  if (!position) {
    need('speed', `${examplesOf('speed')}, or latitude and longitude`);
    return;
  }
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
  const asked = isBus(kind) ? undefined : units[kind];
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
    const expected = isBus(kind)
      ? examplesOf(kind)
      : `${examplesOf(kind)}, or ${kind}_unit: ${unitsOf(kind)[0]} beside the name of the log`;
    throw new LogError(place, kind, `the column ${kind} has no unit`, expected);
  }
  return factorOf(kind, unit);
}
