/** Reads the numbers of a cell: written with a unit, or computed by a formula. */
import type { NumberField, NumbersField } from '../../model/fields/field.ts';
import type { Origin } from '../../model/fields/input.ts';
import {
  describeUnit,
  dimensionName,
  formatQuantity,
  type Quantity,
  readQuantity,
  sameDimension,
  UnitError,
} from '../../units.ts';
import { describeField, describeLimits, describeNumber, displayOf } from './describe.ts';
import { type LocatedScalar, placeWithin, problemAt } from '../document/located.ts';
import type { ProblemData } from '../document/problem.ts';
import type { ReadContext } from './read-context.ts';
import { endsMeant, numberMeant, outsideMeant } from './slips.ts';

type AnyNumber = NumberField | NumbersField;

/** A number that was read, or what is wrong with it. */
export type NumberRead =
  | {
      readonly quantity: Quantity;
      readonly origin: Origin;
      /** Source of the spread, where it was not written. */
      readonly spreadSource?: string;
      readonly problem?: never;
    }
  | { readonly problem: ProblemData };

/**
 * Reads one number. `text` is taken in place of what the scalar says, where a unit that stands elsewhere was added to it.
 */
export function readNumber(
  scalar: LocatedScalar,
  field: AnyNumber,
  path: string,
  context: ReadContext,
  text = scalar.text,
): NumberRead {
  const word = field.kind === 'number' ? wordOf(field, text) : undefined;
  if (word !== undefined) return word;
  const formula = /^\s*=\s*/u.exec(text)?.[0];
  try {
    const quantity =
      formula === undefined ? readQuantity(text, field.unit) : computed(text.slice(formula.length), field, context);
    const shown =
      formula === undefined ? text : formatQuantity(quantity.value, field.unit, displayOf(field, context.system));
    const problem = outside(quantity, field, shown, scalar, path, context);
    if (problem !== undefined) return { problem };
    const read = { quantity: onLimits(quantity, field), origin: originOf(scalar, text, formula) };
    if (field.kind !== 'number') return read;
    if (field.whole === true && quantity.spread !== undefined) {
      return { problem: problemAt(scalar, path, 'a count has no spread', 'a whole number') };
    }
    return formula === undefined && !SPREAD.test(text) ? withStated(read, field) : read;
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    const place = placeWithin(scalar, error.offset + (formula ?? '').length, error.length);
    const plain = error.expected === describeUnit(field.unit) ? describeNumber(field) : error.expected;
    const expected = field.kind === 'number' && field.words !== undefined ? describeField(field) : plain;
    const ends = formula === undefined ? endsMeant(text, path, field) : '';
    if (ends !== '') return { problem: problemAt(scalar, path, 'these are two ends', ends) };
    const cure = (formula === undefined && numberMeant(text, field)) || error.nearest;
    return { problem: problemAt(place, path, error.message, expected, cure) };
  }
}

/** A spread was written, be it `± 0`. */
const SPREAD = /±|\+\/?-|\.\.|…/u;

/** A maker's figure without a spread gets the one that such figures have. */
function withStated(read: { readonly quantity: Quantity; readonly origin: Origin }, field: NumberField): NumberRead {
  const { value } = read.quantity;
  if (field.stated === undefined || value === 0) return read;
  const { share, source } = field.stated;
  const [low, high] = [value - share * Math.abs(value), value + share * Math.abs(value)];
  const spread = { kind: 'rectangular', low: Math.max(low, field.min), high: Math.min(high, field.max) } as const;
  return { ...read, quantity: { value, spread }, spreadSource: source };
}

/** The value that a word stands for. */
function wordOf({ words }: NumberField, text: string): NumberRead | undefined {
  const word = text.trim();
  if (words === undefined || !Object.hasOwn(words, word)) return undefined;
  const found = words[word];
  if (found === undefined) return undefined;
  const { value, spread, source } = found;
  return { quantity: spread === undefined ? { value } : { value, spread }, origin: { kind: 'assumed', source } };
}

function originOf({ file, line, column }: LocatedScalar, text: string, formula: string | undefined): Origin {
  if (formula === undefined) return { kind: 'given', file, line, column };
  return { kind: 'computed', formula: text.slice(formula.length).trim() };
}

function computed(text: string, field: AnyNumber, context: ReadContext): Quantity {
  const { value, unit } = context.formula(text);
  if (typeof value !== 'number') throw new UnitError('this formula gives no number', 0, text.length);
  if (sameDimension(unit, field.unit)) return { value };
  const message = `this formula gives ${article(dimensionName(unit))}`;
  throw new UnitError(message, 0, text.length, article(dimensionName(field.unit)));
}

function article(noun: string): string {
  return `${/^[aeiou]/u.test(noun) ? 'an' : 'a'} ${noun}`;
}

/** Rounding in the conversion of a limit must not refuse the limit itself: -50 degC is 223.14999999999998 K. */
const ROUNDING = 1e-12;

/** A value that lies beyond a limit by rounding alone is that limit, for the model compares exactly. */
function onLimits({ value, spread }: Quantity, { min, max }: AnyNumber): Quantity {
  const on = (x: number): number => Math.min(max, Math.max(min, x));
  if (spread === undefined) return { value: on(value) };
  if (spread.kind === 'normal') return { value: on(value), spread };
  return { value: on(value), spread: { ...spread, low: on(spread.low), high: on(spread.high) } };
}

function outside(
  { value, spread }: Quantity,
  field: AnyNumber,
  shown: string,
  scalar: LocatedScalar,
  path: string,
  { system }: ReadContext,
): ProblemData | undefined {
  const [low, high] = spread?.kind === 'rectangular' ? [spread.low, spread.high] : [value, value];
  const small = low < field.min - ROUNDING * Math.abs(field.min);
  const large = high > field.max + ROUNDING * Math.abs(field.max);
  if (!small && !large) return undefined;
  const message = `${shown} is too ${small ? 'small' : 'large'}`;
  const cure =
    large && displayOf(field, system) === '%' ? inPercent(shown, field) : small ? inThousands(shown, field) : '';
  const meant = cure || outsideMeant(shown, path, field);
  return problemAt(scalar, path, message, describeLimits(field, system), meant);
}

/** `1.240 kg` where 1240 kg would be right: a point between thousands, as some countries write it. */
function inThousands(shown: string, { unit, min, max }: AnyNumber): string {
  if (!/^\s*\d{1,3}\.\d{3}(?!\d)/u.test(shown)) return '';
  const whole = shown.trim().replace('.', '');
  const { value } = readQuantity(whole, unit);
  return value >= min && value <= max ? whole : '';
}

/** A bare number that would be right as a percentage: 90 for 90 %. */
function inPercent(shown: string, { min, max }: AnyNumber): string {
  const share = /^\s*\d+(?:\.\d+)?\s*$/u.test(shown) ? Number(shown) / 100 : Number.NaN;
  return share >= min && share <= max ? `${shown.trim()} %` : '';
}
