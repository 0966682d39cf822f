/** Reads what people write: `1010 kg ± 15 kg`, `0.8 .. 1.0 m`, `55 %`, `-12 °C`. */
import type { Spread } from '../model/fields/input.ts';
import { factorTo } from './convert.ts';
import { UnitError } from './error.ts';
import { withoutMoney } from './money.ts';
import { describeUnit, spellings, tradeOf } from './trade.ts';
import { type Unit, unitOf } from './unit.ts';

/** A number in SI with its spread, if it has one. */
export interface Quantity {
  readonly value: number;
  readonly spread?: Spread;
}

const NUMBER = /^[+\-−]?(?:\d+(?:\.(?!\.)\d*)?|\.\d+)(?:[eE][+-]?\d+)?/u;
const SEPARATOR = /±|\+\/?-|\.{2,}|…/gu;
const PERCENT = new Set(['%', 'percent']);

/** One side of a spread: a number and the unit after it, '' when there is none. */
interface Side {
  readonly number: number;
  readonly text: string;
  readonly offset: number;
  readonly unit: string;
  readonly unitOffset: number;
}

/**
 * Reads `text` as a quantity of the SI unit `unit`. `a ± u` has the standard uncertainty u (JCGM 100:2008, 7.2.2), which
 * may be in percent of a; `a .. b` lies anywhere between the two and has their middle as its value. A unit that stands
 * on one side only counts for both. On a temperature scale u is a difference.
 *
 * Throws UnitError; `nearest`, where it is not '', put in the place of the wrong part makes it right.
 */
export function readQuantity(text: string, unit: string): Quantity {
  if (typeof text !== 'string')
    throw new UnitError('no text', 0, 1, 'a number with its unit in a text, such as "1240 kg"');
  const separators = [...text.matchAll(SEPARATOR)];
  const [separator, second] = separators;
  if (separator === undefined) return { value: absolute(readSide(text, 0, unit), unit) };
  if (second !== undefined) throw new UnitError('more than one spread', second.index, second[0].length);
  const end = separator.index + separator[0].length;
  if (separator[0].length > 3)
    throw new UnitError(
      'more than three dots',
      separator.index,
      separator[0].length,
      'two between the ends of a range',
    );
  const left = readSide(text.slice(0, separator.index), 0, unit);
  const right = readSide(text.slice(end), end, unit);
  return /\.|…/u.test(separator[0]) ? between(left, right, unit) : around(left, right, unit);
}

function around(left: Side, right: Side, unit: string): Quantity {
  if (right.number < 0) throw new UnitError('a spread cannot be negative', right.offset, right.text.length);
  const relative = unit !== '1' && PERCENT.has(right.unit);
  const [a, u] = relative ? [left, right] : shareUnit(left, right, unit);
  const value = absolute(a, unit);
  if (relative && resolve(a, unit).zero !== 0) {
    const message = 'a percentage of a temperature depends on its scale';
    throw new UnitError(message, right.offset, right.text.length, 'a spread in K');
  }
  const standard = relative ? (Math.abs(value) * right.number) / 100 : u.number * factor(u, unit);
  return standard === 0 ? { value } : { value, spread: { kind: 'normal', standard: finite(standard, u) } };
}

function between(left: Side, right: Side, unit: string): Quantity {
  const [a, b] = shareUnit(left, right, unit);
  const [low, high] = [absolute(a, unit), absolute(b, unit)];
  if (low >= high) {
    const message = 'the lower end must be below the upper end';
    throw new UnitError(message, left.offset, right.offset + right.text.length - left.offset);
  }
  return { value: low + (high - low) / 2, spread: { kind: 'rectangular', low, high } };
}

function shareUnit(left: Side, right: Side, unit: string): readonly [Side, Side] {
  const bare = left.unit === '' ? left : right;
  const other = left.unit === '' ? right : left;
  if (bare.unit !== '' || other.unit === '') return [left, right];
  if (unit === '1' && PERCENT.has(other.unit)) {
    const message = `it is not clear whether ${bare.text} is in percent`;
    throw new UnitError(
      message,
      bare.offset,
      bare.text.length,
      'a percent sign on both sides or on none',
      `${bare.text} %`,
    );
  }
  const whole = { ...bare, unit: other.unit, unitOffset: other.unitOffset };
  return bare === left ? [whole, right] : [left, whole];
}

/** Reads a number and takes the rest as its unit. `from` is where `text` starts in what the user wrote. */
function readSide(text: string, from: number, unit: string): Side {
  const offset = from + text.length - text.trimStart().length;
  const body = text.trim();
  if (unit === '1') refuseProportion(body, offset);
  if (body === '') throw new UnitError('no value', Math.max(0, offset - 1), 1, describeUnit(unit));
  refuseMoney(body, offset, unit);
  refuseTrimmings(body, offset, unit);
  refuseDecoratedDigits(body, offset);
  const written = NUMBER.exec(body)?.[0];
  if (written === undefined) throw new UnitError(`"${body}" is no number`, offset, body.length, describeUnit(unit));
  const rest = body.slice(written.length);
  refuseMarks(Number(written.replace('−', '-')), written, rest.trim(), offset);
  const divisor = unit === '1' ? /^\s*\/\s*(\d+(?:\.\d+)?)$/u.exec(rest) : null;
  const number = Number(written.replace('−', '-')) / Number(divisor?.[1] ?? 1);
  const spelled = divisor === null ? rest.trim() : '';
  const unitOffset = offset + body.length - spelled.length;
  refuseMore(spelled, unitOffset, offset, unit);
  const side = { number, text: divisor === null ? written : body, offset, unit: spelled, unitOffset };
  if (divisor !== null && Number(divisor[1]) === 0) throw new UnitError('division by zero', offset, body.length);
  finite(number, side);
  if (number === 0 && /^[^eE]*[1-9]/u.test(written)) {
    throw new UnitError(`${written} is too small`, offset, written.length, 'a number from 1e-300 on, or 0');
  }
  return side;
}

/** `-1300 kg` and `to 80 %`, `% to 80 %` and `kg - 1300 kg` behind a first number; not the power in `m s-2`. */
const RANGE = /^(?:(to(?=\s)|[-\u2013\u2014])(?=\s*[\d.])|(\D*\s)(to|[-\u2013\u2014])(?=\s+[\d.]))/u;

/** What follows a number and is no unit, where more can be said of it than the reader of units would. */
function refuseMore(rest: string, at: number, start: number, unit: string): void {
  // A unit may begin as `1/min` does; any other number there would be multiplied: 3 2 kg is not 6 kg.
  const second = /^[(\s]*(?!1\s*\/\s*[^\d\s])\.?\d[\d.]*/u.exec(rest)?.[0];
  if (second !== undefined) {
    throw new UnitError('two numbers and nothing between them', start, at + second.length - start, describeUnit(unit));
  }
  const [whole, near, before = '', far] = RANGE.exec(rest) ?? [];
  if (whole === undefined) return;
  const sign = near ?? far ?? '';
  const what = sign === 'to' ? '"to" makes no range' : 'a dash is no range';
  throw new UnitError(what, at + before.length, sign.length, 'two dots between the ends of what is not known better');
}

/** `95.7"` and `7'11"`: signs of the workshop for inches and feet. */
function refuseMarks(number: number, written: string, rest: string, offset: number): void {
  const [whole, feet, inches] = /^(?:(['’′])\s*(?:(\d+(?:\.\d+)?)\s*(?:["″”]|''|$))?|["″”]|''|’’)$/u.exec(rest) ?? [];
  if (whole === undefined) return;
  const cure =
    feet === undefined
      ? `${written} in`
      : inches === undefined
        ? `${written} ft`
        : `${12 * number + Number(inches)} in`;
  const what = feet === undefined ? 'inches' : 'feet';
  throw new UnitError(`${what} are written with their unit`, offset, written.length + rest.length, '', cure);
}

/** `€6900`, `6900 EUR`, `0.32 €/kWh`. */
function refuseMoney(body: string, offset: number, unit: string): void {
  const alone = withoutMoney(body);
  if (alone === null) return;
  const right = isRight(alone, unit) ? alone : '';
  throw new UnitError(
    'money is written without its currency',
    offset,
    body.length,
    right === '' ? describeUnit(unit) : '',
    right,
  );
}

/** `1:4`, as slopes stand on signs and gears in catalogues. */
function refuseProportion(body: string, offset: number): void {
  const [whole, rise = '', run = ''] = /^(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)$/u.exec(body) ?? [];
  if (whole === undefined) return;
  const [expected, cure] =
    run === '1' ? ['the number alone', rise] : ['a share or a quotient such as "25 %" or "1/4"', `${rise}/${run}`];
  throw new UnitError('a colon divides nothing here', offset, whole.length, expected, cure);
}

/** Words and signs that people put around a number. */
const BEFORE =
  /^(?:(?:about|approx\.?|approximately|around|circa|ca\.?|roughly|some)\s+|[~≈„“”"'‘’]\s*)+(?=[\d.+−-])/iu;
const BEHIND = /\s*[“”"'‘’,;]$/u;
/** A bracket with words, apart from what stands before it. */
const NOTE = /\s+\(([^()]*\p{L}{2}[^()]*)\)$/u;

/** `about 1240 kg`, `“1240 kg”`, `1240 kg,` and `1240 kg (weighed)`, where what is left would be right. */
function refuseTrimmings(body: string, offset: number, unit: string): void {
  const note = NOTE.exec(body);
  const bare = body.replace(NOTE, '').replace(BEFORE, '').replace(BEHIND, '').trim();
  if (bare === body || !isRight(bare, unit)) return;
  if (note !== null) {
    const cure = `${bare} # ${note[1] ?? ''}`;
    throw new UnitError('a note in brackets', offset, body.length, 'a note behind " #"', cure);
  }
  throw new UnitError(`"${body}" is no number`, offset, body.length, describeUnit(unit), bare);
}

function isRight(text: string, unit: string): boolean {
  try {
    readQuantity(text, unit);
    return true;
  } catch (error) {
    if (error instanceof UnitError) return false;
    throw error;
  }
}

/** `1,5`, `1 010` and `1.010,5`: what a sign between digits means differs from country to country. */
function refuseDecoratedDigits(body: string, offset: number): void {
  const grouped = /^[+\-−]?\d{1,3}(?:[ _'’]\d{3})+(?![\d,.])/u.exec(body)?.[0];
  if (grouped !== undefined) {
    const joined = grouped.replace(/[ _'’]/gu, '');
    throw new UnitError('digits are written without a gap', offset, grouped.length, '', joined);
  }
  const expected = 'a decimal point, and nothing between thousands';
  const pointed = /^[+\-−]?\d{1,3}(?:\.\d{3})+,\d+(?![\d,.])/u.exec(body)?.[0];
  if (pointed !== undefined) {
    const plain = pointed.replaceAll('.', '').replace(',', '.');
    throw new UnitError('a comma between digits', offset, pointed.length, expected, plain);
  }
  const comma = /^[+\-−]?\d+(?:,\d+)+(?:\.\d+)?/u.exec(body)?.[0];
  if (comma === undefined) return;
  // 1,010 may be a thousand and ten or just over one: no cure is offered where it would be a guess.
  const decimal = /^[+\-−]?\d+,(?!\d{3}$)\d+$/u.test(comma);
  throw new UnitError('a comma between digits', offset, comma.length, expected, decimal ? comma.replace(',', '.') : '');
}

/** The side as a point on the scale of its unit, in SI. */
function absolute(side: Side, unit: string): number {
  return finite((side.number + resolve(side, unit).zero) * factor(side, unit), side);
}

function finite(value: number, side: Side): number {
  if (!Number.isFinite(value)) throw new UnitError(`${side.text} is too large`, side.offset, side.text.length);
  return value;
}

/** What the side's number is multiplied by to be in the SI unit `unit`. */
function factor(side: Side, unit: string): number {
  const found = resolve(side, unit);
  const result = factorTo(found, unitOf(unit));
  if (result !== undefined) return result;
  if (side.unit === '') {
    throw new UnitError(`${side.text} has no unit`, side.offset, side.text.length, describeUnit(unit));
  }
  const message = `"${side.text} ${side.unit}" is ${tradeOf(side.unit).noun}`;
  throw new UnitError(message, side.unitOffset, side.unit.length, describeUnit(unit), meant(side.unit, unit));
}

function resolve(side: Side, unit: string): Unit {
  try {
    return unitOf(side.unit, () => spellings(unit));
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    const { message, offset, length, expected, nearest } = error;
    const spoken = SPOKEN.get(side.unit.toLowerCase());
    if (spoken !== undefined) {
      const { unit: written, unitOffset } = side;
      throw new UnitError(
        `unknown unit "${written}"`,
        unitOffset,
        written.length,
        expected || describeUnit(unit),
        spoken,
      );
    }
    throw new UnitError(message, side.unitOffset + offset, length, expected || describeUnit(unit), nearest);
  }
}

/** What is no unit, but spoken as one. */
const SPOKEN: ReadonlyMap<string, string> = new Map([
  ['kgm', 'kgf m'],
  ['mkg', 'kgf m'],
  ['kpm', 'kgf m'],
  ['mkp', 'kgf m'],
  ['kmh', 'km/h'],
  ['kph', 'km/h'],
  ['ftlb', 'lbf ft'],
  ['ftlbs', 'lbf ft'],
  ['lbs', 'lb'],
  ['u/min', 'rpm'],
  ['upm', 'rpm'],
  ['km/hr', 'km/h'],
  ['kilo', 'kg'],
  ['kilos', 'kg'],
  ['tonnes', 't'],
  ['tons', 't'],
  ['pounds', 'lb'],
  ['pound', 'lb'],
  ['sq ft', 'ft^2'],
  ['sqft', 'ft^2'],
  ['sq m', 'm^2'],
  ['sqm', 'm^2'],
  ['meters', 'm'],
  ['metres', 'm'],
]);

/** Units that are written for another one, in whatever case. */
const MISTAKEN: { readonly [written: string]: string } = {
  c: '°C',
  '°': '°C',
  deg: '°C',
  degrees: '°C',
  f: '°F',
  'ft lb': 'lbf ft',
  'lb ft': 'lbf ft',
  'ft*lb': 'lbf ft',
  'lb*ft': 'lbf ft',
  lb: 'lbf',
  kg: 'kgf',
  g: 'g0',
  hz: 'rev/s',
  '1/s': 'rev/s',
};

/** The unit of the right kind that `written` was probably meant to be: another case, or the start of it. */
function meant(written: string, unit: string): string {
  const { spellings: right } = tradeOf(unit);
  const lower = written.toLowerCase();
  const mistaken = Object.hasOwn(MISTAKEN, lower) ? (MISTAKEN[lower] ?? '') : '';
  if (mistaken !== '' && factorTo(unitOf(mistaken), unitOf(unit)) !== undefined) return mistaken;
  return (
    right.find(spelling => spelling.toLowerCase() === lower) ??
    (lower.length < 2 ? undefined : right.find(spelling => spelling.toLowerCase().startsWith(lower))) ??
    ''
  );
}
