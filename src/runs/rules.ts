/** What a value may be: a rule looks at it and complains with the path, what stands there and what would be right. */
import { SpecError } from '../model/fields/spec-error.ts';
import type { SpecCode } from '../model/fields/spec-error.ts';
import { unknownKey, unknownOption } from '../model/fields/unknown-key.ts';
import { kindOf } from '../model/fields/wrong-type.ts';

/** Looks at one value. @throws SpecError at `path`. */
export type Rule = (value: unknown, path: string) => void;

/** A rule for each key. */
export type Rules<T> = { readonly [key in keyof Required<T>]: Rule };

/** The complaint about a value that is not what it may be, or is not there at all. */
export function refused(path: string, value: unknown, expected: string, code: SpecCode = 'outside'): SpecError {
  const missing = value === undefined;
  const is = missing ? 'missing' : kindOf(value);
  return new SpecError(path, `${path} is ${is}; expected ${expected}`, expected, '', missing ? 'missing' : code);
}

/** A number from `low` to `high`, in SI; `unit` is for the complaint. */
export function within(low: number, high: number, unit = ''): Rule {
  return (value, path) => {
    if (typeof value === 'number' && value >= low && value <= high) return;
    const limits = `${Number(low.toPrecision(6))} to ${Number(high.toPrecision(6))}${unit === '' ? '' : ` ${unit}`}`;
    throw refused(path, value, limits);
  };
}

export const SHARE = within(0, 1);

/** A number that is one, of either sign. */
export const FINITE: Rule = (value, path) => {
  if (!Number.isFinite(value)) throw refused(path, value, 'a finite number');
};
export const NOT_BELOW_0: Rule = (value, path) => {
  if (!(typeof value === 'number' && value >= 0 && value < Infinity))
    throw refused(path, value, 'a number not below 0');
};
export const ABOVE_0: Rule = (value, path) => {
  if (!(typeof value === 'number' && value > 0 && value < Infinity)) throw refused(path, value, 'a number above 0');
};
/** Infinity where there is no limit. */
export const UNLIMITED = within(0, Infinity);

/** A share that is not nothing: of what goes in, what comes out. */
export const ABOVE_0_TO_1: Rule = (value, path) => {
  if (!(typeof value === 'number' && value > 0 && value <= 1))
    throw refused(path, value, 'a number above 0, 1 at most');
};
export const YES_OR_NO: Rule = (value, path) => {
  if (typeof value !== 'boolean') throw refused(path, value, 'true or false');
};

/** One word out of some. */
export function oneOf(words: readonly string[]): Rule {
  return (value, path) => {
    if (typeof value === 'string' && words.includes(value)) return;
    throw refused(path, value, `one of ${words.join(', ')}`, 'choice');
  };
}

/** A list, each of which keeps a rule. */
export function each(rule: Rule): Rule {
  return (value, path) => {
    if (!Array.isArray(value)) throw refused(path, value, 'a list');
    for (const [place, one] of value.entries()) rule(one, `${path}[${place}]`);
  };
}

export const TEXT: Rule = (value, path) => {
  if (typeof value !== 'string') throw refused(path, value, 'a text');
};

/** The text of a file: who reads it without its encoding has bytes. */
export const FILE_TEXT: Rule = (value, path) => {
  if (typeof value !== 'string')
    throw refused(path, value, "the text of a file, as readFileSync(file, 'utf8') gives it");
};

/** What may be left out. */
export function optional(rule: Rule): Rule {
  return (value, path) => {
    if (value !== undefined) rule(value, path);
  };
}

/** What may be null: nothing is known. */
export function orNull(rule: Rule): Rule {
  return (value, path) => {
    if (value !== null) rule(value, path);
  };
}

/** A group of values, each with its rule, and nothing else: a misspelled key would be passed over in silence. */
export function group<T extends object>(rules: Rules<T>): Rule {
  const keys = Object.keys(rules) as (keyof T & string)[];
  return (value, path) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      throw refused(path, value, 'a group of values');
    const given = value as { readonly [key in keyof T]?: unknown };
    for (const key of keys) rules[key](given[key], `${path}.${key}`);
    for (const key in value) {
      if (Object.hasOwn(rules, key)) continue;
      const found = unknownKey(value, rules);
      if (found !== null) throw unknownOption(`${path}.${found.key}`, found);
    }
  };
}
