/**
 * One text for one JSON value, so that equal jobs have equal hashes: keys in the order of their UTF-16 units, numbers as
 * ECMAScript writes them, no blanks (RFC 8785, JSON Canonicalization Scheme, 3.2).
 */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** @throws TypeError naming the place of what JSON cannot carry: NaN, infinities, undefined, typed arrays, functions. */
export function canonicalJson(value: unknown, place = ''): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') {
    if (Number.isFinite(value)) return JSON.stringify(value);
    throw new TypeError(`JSON cannot carry ${value}${at(place)}`);
  }
  if (Array.isArray(value)) {
    // A schedule is thousands of numbers: naming the place of each takes longer than writing it.
    if (value.every(Number.isFinite)) return JSON.stringify(value);
    return `[${value.map((item, k) => canonicalJson(item, `${place}[${k}]`)).join(',')}]`;
  }
  if (!isPlain(value)) throw new TypeError(`JSON cannot carry ${nameOf(value)}${at(place)}`);
  const members = Object.keys(value)
    .toSorted()
    .map(key => `${JSON.stringify(key)}:${canonicalJson(value[key], inside(place, key))}`);
  return `{${members.join(',')}}`;
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

function at(place: string): string {
  return place === '' ? '' : `, at ${place}`;
}

function short(value: unknown): string {
  const text = canonicalJson(value);
  return text.length <= 60 ? text : `${text.slice(0, 57)}...`;
}
