import { describe, expect, it } from 'vitest';
import { checkAxle, tooSlow } from '../../../src/model/body/axle-check.ts';

const LIMITS = { permitted: 600, loadIndex: 78, speedSymbol: 'S', radius: null };

describe('an axle', () => {
  it('is held against its plate and against both tyres (load index 78 carries 425 kg)', () => {
    expect(checkAxle(700, LIMITS)).toEqual({
      load: 700,
      permitted: 600,
      margin: -100,
      tyres: 850,
      tyreMargin: 150,
      // 350 kg a tyre: 71 carries 345 kg, 72 carries 355 kg.
      indexNeeded: 72,
      tyreSpeed: 50,
    });
  });

  it('is not held against what is not known', () => {
    const check = checkAxle(700, { permitted: null, loadIndex: null, speedSymbol: null, radius: null });
    expect(check).toMatchObject({ margin: null, tyres: null, tyreMargin: null, tyreSpeed: null, indexNeeded: 72 });
  });

  it('carries exactly its limit', () => {
    expect(checkAxle(600, LIMITS).margin).toBe(0);
    expect(checkAxle(4000, LIMITS).indexNeeded).toBeNull();
  });
});

describe('a speed symbol', () => {
  it.each([
    ['S', 180, null],
    ['S', 181, { needed: 'T' }],
    ['Q', 200, { needed: 'U' }],
    ['Q', 201, { needed: 'H' }],
    ['T', 301, { needed: null }],
  ])('%s at %i km/h', (symbol, speed, expected) => {
    expect(tooSlow(symbol, speed / 3.6)).toEqual(expected);
  });
});
