import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canonicalCopy,
  canonicalJson,
  differences,
  type Json,
  writtenAs,
  writtenBefore,
} from '../../src/batch/canonical.ts';

describe('the canonical text', () => {
  it('is that of RFC 8785, 3.2.2 and 3.2.3', () => {
    const sample = JSON.parse(
      String.raw`{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]}`,
    ) as Json;
    expect(canonicalJson(sample)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],` +
        String.raw`"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
    const keys = { '\u20ac': 1, '\r': 2, '\ufb33': 3, '1': 4, '\u{1f600}': 5, '\u0080': 6, '\u00f6': 7 };
    const order = Object.keys(keys).toSorted((a, b) => canonicalJson(keys).indexOf(a) - canonicalJson(keys).indexOf(b));
    // As printed in the RFC: carriage return, 1, control, o with dots, euro, face, dalet with dagesh.
    expect(order.filter(key => key !== '\r')).toEqual(['1', '\u0080', '\u00f6', '\u20ac', '\u{1f600}', '\ufb33']);
    expect(canonicalJson(keys)).toMatch(/^\{"\\r":2,/u);
  });

  it('is the same whatever the order of keys, and reads back as the same value', () => {
    const shuffled = (value: Json): Json => {
      if (Array.isArray(value)) return value.map(shuffled);
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(
        Object.entries(value as Record<string, Json>)
          .toReversed()
          .map(([k, v]) => [k, shuffled(v)]),
      );
    };
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 3 }), value => {
        const text = canonicalJson(value);
        expect(canonicalJson(shuffled(value as Json))).toBe(text);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
  });

  it('is not written twice of what was written before', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 3 }), value => {
        const whole = { a: 1, inside: { value } };
        const copy = canonicalCopy({ value });
        expect(copy).toEqual(JSON.parse(JSON.stringify({ value })));
        for (const inside of [writtenBefore(copy), writtenBefore({ value }), writtenAs(canonicalJson({ value }))])
          expect(canonicalJson({ inside, a: 1 })).toBe(canonicalJson(whole));
      }),
    );
  });

  it.each([
    [{ a: [1, Number.NaN] }, 'NaN, at a[1]'],
    [{ a: { b: undefined } }, 'a value of type undefined, at a.b'],
    [[Number.POSITIVE_INFINITY], 'Infinity, at [0]'],
    [{ a: new Float64Array(2) }, 'a Float64Array, at a'],
  ])('refuses what JSON cannot carry: %j', (value, message) => {
    expect(() => canonicalJson(value)).toThrow(`JSON cannot carry ${message}`);
  });
});

describe('differences', () => {
  it('names the place and both values', () => {
    expect(
      differences({ car: { mass: 1010, name: 'a' }, rows: [1, 2] }, { car: { mass: 1020, tyre: null }, rows: [1, 3] }),
    ).toEqual([
      'car.mass: 1010 there, 1020 here',
      'car.name: "a" there, not here',
      'car.tyre: not there, null here',
      'rows[1]: 2 there, 3 here',
    ]);
    expect(differences({ rows: [1] }, { rows: [1, 2] })).toEqual(['rows: [1] there, [1,2] here']);
  });

  it('finds none exactly where the canonical texts are equal', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 2 }), fc.jsonValue({ maxDepth: 2 }), (a, b) => {
        expect(differences(a as Json, a as Json)).toEqual([]);
        expect(differences(a as Json, b as Json).length === 0).toBe(canonicalJson(a) === canonicalJson(b));
      }),
    );
  });
});
