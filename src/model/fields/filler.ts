/** Fills what a specification leaves out, and keeps a list of what was filled in and why. */
import { usualQuantity } from '../../units/usual.ts';
import type { ChoiceField, Field, Fields, NumberField } from './field.ts';
import type { Input, Origin, Spread } from './input.ts';
import { notebookKey } from './keys.ts';
import { type SpecCode, SpecError } from './spec-error.ts';
import { keyMeant } from './synonyms.ts';
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
  const fill = new GroupFiller(path, fields, spec, inputs);
  // The cars of a study differ in values that were found by their path in one that was read here before.
  if (inputs === UNLISTED) return fill;
  const unknown = unknownKey(spec, fields, keyMeant);
  if (unknown !== null) throw unknownError(fill.pathOf(unknown.key), unknown);
  const wrong = wrongType(spec, fields);
  if (wrong !== null) throw fill.error(wrong.key, wrong.message, '', 'outside');
  return fill;
}

/** A class, and no closures: a study makes some of them for each of its rows. */
class GroupFiller<F extends Fields> implements Filler<F> {
  readonly path: string;
  readonly #fields: Fields;
  readonly #spec: { readonly [key: string]: unknown };
  readonly #inputs: Input[];

  constructor(path: string, fields: F, spec: { readonly [key: string]: unknown }, inputs: Input[]) {
    this.path = path;
    this.#fields = fields;
    this.#spec = spec;
    this.#inputs = inputs;
  }

  pathOf(key: string): string {
    return this.path === '' ? notebookKey(key) : `${this.path}.${notebookKey(key)}`;
  }

  number(key: string): number {
    const value = this.#given(key);
    if (value !== undefined) return value;
    const { default: fallback, doc } = this.#numberField(key);
    if (fallback === undefined) throw this.error(key, 'is missing', doc, 'missing');
    if (this.#inputs !== UNLISTED) this.#note(key, fallback.value, assumed(fallback.source), fallback.spread);
    return fallback.value;
  }

  derived(key: string, value: () => number, spread?: Spread, from?: string): number {
    const own = this.#given(key);
    if (own !== undefined) return own;
    const computed = value();
    if (spread !== undefined) this.#refuseOutside(key, computed);
    if (this.#inputs === UNLISTED) return computed;
    const origin =
      from === undefined ? derivedOrigin(this.#numberField(key)) : { kind: 'computed' as const, formula: from };
    this.#note(key, computed, origin, spread);
    return computed;
  }

  choice(key: string, usual?: ChoiceField['default']): string {
    const field = this.#fields[key];
    if (field?.kind !== 'choice') throw new Error(`${key} is not a choice field`);
    const value = this.#spec[key];
    if (value !== undefined) {
      if (typeof value === 'string' && field.choices.includes(value)) return value;
      throw this.error(
        key,
        `${typeof value === 'string' ? value : kindOf(value)} is none of ${field.choices.join(', ')}`,
        '',
        'choice',
      );
    }
    const fallback = usual ?? field.default;
    if (fallback === undefined) throw this.error(key, 'is missing', field.choices.join(' or '), 'missing');
    if (this.#inputs !== UNLISTED) this.#note(key, fallback.value, assumed(fallback.source));
    return fallback.value;
  }

  need(key: string): void {
    if (this.#spec[key] === undefined) throw this.error(key, 'is missing', this.#fields[key]?.doc ?? '', 'missing');
  }

  error(key: string, message: string, expected = '', code: SpecCode = 'conflict'): SpecError {
    return new SpecError(this.pathOf(key), message, expected, '', code);
  }

  #numberField(key: string): NumberField {
    const field: Field | undefined = this.#fields[key];
    if (field?.kind !== 'number') throw new Error(`${key} is not a number field`);
    return field;
  }

  #given(key: string): number | undefined {
    const value = this.#spec[key];
    if (value === undefined) return undefined;
    const { min, max, unit } = this.#numberField(key);
    if (typeof value !== 'number' || !(value >= min && value <= max)) {
      throw this.error(
        key,
        `${typeof value === 'number' ? value : kindOf(value)} is outside ${min} to ${max}${unit === '1' ? '' : ` ${unit}`}`,
        '',
        'outside',
      );
    }
    return value;
  }

  #refuseOutside(key: string, value: number): void {
    const { min, max, unit, display, derived: from = '' } = this.#numberField(key);
    if (value >= min && value <= max) return;
    const [found, least, most] = [value, min, max].map(each => usualQuantity(each, unit, display.metric));
    throw this.error(
      key,
      `is left out and comes to ${found}, outside ${least} to ${most}`,
      `a value of its own, or other figures where it comes from (${from})`,
      'outside',
    );
  }

  #note(key: string, value: number | string, origin: Origin, spread?: Spread): void {
    const field = this.#fields[key];
    const [unit, display] = field?.kind === 'number' ? [field.unit, field.display.metric] : ['', ''];
    const base = { path: this.pathOf(key), value, unit, display, origin };
    this.#inputs.push(spread === undefined ? base : { ...base, spread });
  }
}

function assumed(source: string): Origin {
  return { kind: 'assumed', source };
}

function derivedOrigin({ derived = '', computed }: NumberField): Origin {
  return computed === true ? { kind: 'computed', formula: derived } : assumed(derived);
}
