/** Fills what a specification leaves out, and keeps a list of what was filled in and why. */
import { usualQuantity } from '../../units/usual.ts';
import type { ChoiceField, Field, Fields, NumberField } from './field.ts';
import type { Input, Origin, Spread } from './input.ts';
import { notebookKey } from './keys.ts';
import { type SpecCode, SpecError } from './spec-error.ts';
import { unknownError, unknownKey } from './unknown-key.ts';
import { kindOf, wrongType } from './wrong-type.ts';

export { fieldKey, notebookKey } from './keys.ts';

/** A list that keeps nothing: for the thousands of cars of a study, whose assumptions nobody reads. */
export const UNLISTED: Input[] = Object.assign([], { push: () => 0 });

/** Reads one group of a specification. `K` are the keys of its field table. */
export interface Filler<F extends Fields> {
  readonly path: string;
  /** The given number, or the default of the table. */
  number(key: keyof F & string): number;
  /**
   * The given number, or the value computed here; the table's `derived` text is its source.
   * @param from the arithmetic that it comes from, where this car has another than the table says.
   * @throws SpecError for a value with a spread that lies outside the limits of its field: nobody could draw it, nor write it down.
   */
  derived(key: keyof F & string, value: () => number, spread?: Spread, from?: string): number;
  /** The given word, or `usual` where this car has another default than the table. */
  choice(key: keyof F & string, usual?: ChoiceField['default']): string;
  /** Throws unless the field is there. */
  need(key: keyof F & string): void;
  /** A located complaint about a field. */
  error(key: keyof F & string, message: string, expected?: string, code?: SpecCode): SpecError;
}

/**
 * A filler over the values of `spec`; what it assumes is appended to `inputs` with paths below `path`.
 * @throws SpecError for a key that is no field; the filler throws it when a required field is missing or a number lies outside
 * the limits of its field.
 */
export function filler<F extends Fields>(
  path: string,
  fields: F,
  spec: { readonly [key: string]: unknown },
  inputs: Input[],
): Filler<F> {
  const pathOf = (key: string): string => (path === '' ? notebookKey(key) : `${path}.${notebookKey(key)}`);
  const error = (key: string, message: string, expected = '', code: SpecCode = 'conflict'): SpecError =>
    new SpecError(pathOf(key), message, expected, '', code);
  // The cars of a study differ in values that were found by their path in one that was read here before.
  const unknown = inputs === UNLISTED ? null : unknownKey(spec, fields);
  if (unknown !== null) throw unknownError(pathOf(unknown.key), unknown);
  const wrong = inputs === UNLISTED ? null : wrongType(spec, fields);
  if (wrong !== null) throw error(wrong.key, wrong.message, '', 'outside');
  const numberField = (key: string): NumberField => {
    const field: Field | undefined = fields[key];
    if (field?.kind !== 'number') throw new Error(`${key} is not a number field`);
    return field;
  };
  const given = (key: string): number | undefined => {
    const value = spec[key];
    if (value === undefined) return undefined;
    const { min, max, unit } = numberField(key);
    if (typeof value !== 'number' || !(value >= min && value <= max)) {
      throw error(
        key,
        `${typeof value === 'number' ? value : kindOf(value)} is outside ${min} to ${max}${unit === '1' ? '' : ` ${unit}`}`,
        '',
        'outside',
      );
    }
    return value;
  };
  const refuseOutside = (key: string, value: number): void => {
    const { min, max, unit, display, derived: from = '' } = numberField(key);
    if (value >= min && value <= max) return;
    const [found, least, most] = [value, min, max].map(each => usualQuantity(each, unit, display.metric));
    throw error(
      key,
      `is left out and comes to ${found}, outside ${least} to ${most}`,
      `a value of its own, or other figures where it comes from (${from})`,
      'outside',
    );
  };
  const note = (key: string, value: number | string, origin: Origin, spread?: Spread): void => {
    if (inputs === UNLISTED) return;
    const field = fields[key];
    const [unit, display] = field?.kind === 'number' ? [field.unit, field.display.metric] : ['', ''];
    const base = { path: pathOf(key), value, unit, display, origin };
    inputs.push(spread === undefined ? base : { ...base, spread });
  };
  return {
    path,
    number(key) {
      const value = given(key);
      if (value !== undefined) return value;
      const fallback = numberField(key).default;
      if (fallback === undefined) throw error(key, 'is missing', '', 'missing');
      note(key, fallback.value, assumed(fallback.source), fallback.spread);
      return fallback.value;
    },
    derived(key, value, spread, from) {
      const own = given(key);
      if (own !== undefined) return own;
      const computed = value();
      if (spread !== undefined) refuseOutside(key, computed);
      const origin =
        from === undefined ? derivedOrigin(numberField(key)) : { kind: 'computed' as const, formula: from };
      note(key, computed, origin, spread);
      return computed;
    },
    choice(key, usual) {
      const field = fields[key];
      if (field?.kind !== 'choice') throw new Error(`${key} is not a choice field`);
      const value = spec[key];
      if (value !== undefined) {
        if (typeof value === 'string' && field.choices.includes(value)) return value;
        throw error(
          key,
          `${typeof value === 'string' ? value : kindOf(value)} is none of ${field.choices.join(', ')}`,
          '',
          'choice',
        );
      }
      const fallback = usual ?? field.default;
      if (fallback === undefined) throw error(key, 'is missing', field.choices.join(' or '), 'missing');
      note(key, fallback.value, assumed(fallback.source));
      return fallback.value;
    },
    need(key) {
      if (spec[key] === undefined) throw error(key, 'is missing', fields[key]?.doc ?? '', 'missing');
    },
    error,
  };
}

function assumed(source: string): Origin {
  return { kind: 'assumed', source };
}

function derivedOrigin({ derived = '', computed }: NumberField): Origin {
  return computed === true ? { kind: 'computed', formula: derived } : assumed(derived);
}
