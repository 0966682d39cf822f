/**
 * One text for one JSON value, so that equal jobs have equal hashes: keys in the order of their UTF-16 units, numbers as
 * ECMAScript writes them, no blanks (RFC 8785, JSON Canonicalization Scheme, 3.2).
 */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** A value that was written already: it stands for itself inside of another one. */
class Written {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }
}

/** What was written of copies that nobody changes. */
const known = new WeakMap<object, Written>();

/** @throws TypeError naming the place of what JSON cannot carry: NaN, infinities, undefined, typed arrays, functions. */
export function canonicalJson(value: unknown): string {
  return write(value, []);
}

/** The value as JSON carries it; `writtenBefore` knows its text. @throws TypeError as `canonicalJson`. */
export function canonicalCopy(value: object): Json {
  const text = canonicalJson(value);
  const copy = JSON.parse(text) as Json & object;
  known.set(copy, new Written(text));
  return copy;
}

/** Takes the place of a canonical copy in what is to be written; of anything else it is that itself. */
export function writtenBefore(value: unknown): unknown {
  return typeof value === 'object' && value !== null ? (known.get(value) ?? value) : value;
}

/** Takes the place of a value whose canonical text is at hand. */
export function writtenAs(text: string): unknown {
  return new Written(text);
}

/** @param place keys and numbers that lead to the value. */
function write(value: unknown, place: (string | number)[]): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') {
    if (Number.isFinite(value)) return JSON.stringify(value);
    throw new TypeError(`JSON cannot carry ${value}${at(place)}`);
  }
  if (Array.isArray(value)) {
    // A schedule is thousands of numbers: naming the place of each takes longer than writing it.
    if (value.every(Number.isFinite)) return JSON.stringify(value);
    return `[${value.map((item, k) => writeAt(item, k, place)).join(',')}]`;
  }
  if (value instanceof Written) return value.text;
  if (!isPlain(value)) throw new TypeError(`JSON cannot carry ${nameOf(value)}${at(place)}`);
  const members = Object.keys(value)
    .toSorted()
    .map(key => `${JSON.stringify(key)}:${writeAt(value[key], key, place)}`);
  return `{${members.join(',')}}`;
}

function writeAt(value: unknown, key: string | number, place: (string | number)[]): string {
  place.push(key);
  const text = write(value, place);
  place.pop();
  return text;
}

/** Paths of the values in which two JSON texts differ, with both values: `payload.mass: 1010 there, 1020 here`. */
export function differences(there: Json, here: Json, place = ''): string[] {
  if (isPlain(there) && isPlain(here)) {
    const keys = [...new Set([...Object.keys(there), ...Object.keys(here)])].toSorted();
    return keys.flatMap(key => {
      const path = inside(place, key);
      if (!Object.hasOwn(there, key)) return [`${path}: not there, ${short(here[key])} here`];
      if (!Object.hasOwn(here, key)) return [`${path}: ${short(there[key])} there, not here`];
      return differences(there[key] as Json, here[key] as Json, path);
    });
  }
  if (Array.isArray(there) && Array.isArray(here) && there.length === here.length) {
    return there.flatMap((item: Json, k) => differences(item, here[k] as Json, `${place}[${k}]`));
  }
  if (canonicalJson(there) === canonicalJson(here)) return [];
  return [`${place}: ${short(there)} there, ${short(here)} here`];
}

function isPlain(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const parent: unknown = Object.getPrototypeOf(value);
  return parent === Object.prototype || parent === null;
}

function nameOf(value: unknown): string {
  return typeof value === 'object' && value !== null
    ? `a ${value.constructor.name}`
    : `a value of type ${typeof value}`;
}

function inside(place: string, key: string): string {
  return place === '' ? key : `${place}.${key}`;
}

function at(place: readonly (string | number)[]): string {
  const path = place.reduce<string>(
    (path, key) => (typeof key === 'number' ? `${path}[${key}]` : inside(path, key)),
    '',
  );
  return path === '' ? '' : `, at ${path}`;
}

function short(value: unknown): string {
  const text = canonicalJson(value);
  return text.length <= 60 ? text : `${text.slice(0, 57)}...`;
}
