/** Coverage intervals by JCGM 101:2008, 7.7, counted by hand: its y(1), y(2), ... are the samples in ascending order. */
import { describe, expect, it } from 'vitest';
import { checkProbability, coverageInterval } from '../../../src/studies/statistics/coverage.ts';

const ten = Float64Array.of(0, 5, 6, 7, 8, 9, 10, 11, 12, 12.5);

describe('a coverage interval', () => {
  it('leaves as many values below as above: q = pM = 8, r = (M - q)/2 = 1, from y(1) to y(9)', () => {
    expect(coverageInterval(ten, 0.8, 'symmetric')).toEqual({ low: 0, high: 12 });
  });

  it('takes the integer part of (M - q + 1)/2 where M - q is odd: q = 7, r = 2, from y(2) to y(9)', () => {
    expect(coverageInterval(ten, 0.7, 'symmetric')).toEqual({ low: 5, high: 12 });
  });

  it('rounds pM where it is no whole number: 0.75 of 10 are 8', () => {
    expect(coverageInterval(ten, 0.75, 'symmetric')).toEqual(coverageInterval(ten, 0.8, 'symmetric'));
  });

  it('is the shortest of all: y(2) to y(10) are 7.5 apart, y(1) to y(9) 12', () => {
    expect(coverageInterval(ten, 0.8, 'shortest')).toEqual({ low: 5, high: 12.5 });
    const falling = Float64Array.from(ten, value => -value).toReversed();
    expect(coverageInterval(falling, 0.8, 'shortest')).toEqual({ low: -12.5, high: -5 });
  });

  it('is the lowest of several shortest ones', () => {
    expect(coverageInterval(Float64Array.of(1, 2, 3, 4, 5), 0.6, 'shortest')).toEqual({ low: 1, high: 4 });
  });

  it('looks at every place: the shortest may be the last', () => {
    expect(coverageInterval(Float64Array.of(0, 10, 20, 21, 22), 0.4, 'shortest')).toEqual({ low: 20, high: 22 });
    expect(coverageInterval(Float64Array.of(0, 10, 20, 21, 22.5, 22.6), 0.34, 'shortest')).toEqual({
      low: 21,
      high: 22.6,
    });
  });

  it('needs a value inside and one outside: with two there is one for a half, with fewer or for more there is none', () => {
    expect(coverageInterval(Float64Array.of(3, 4), 0.5, 'symmetric')).toEqual({ low: 3, high: 4 });
    expect(coverageInterval(Float64Array.of(3, 4), 0.9, 'symmetric')).toBeNull();
    expect(coverageInterval(Float64Array.of(3, 4), 0.1, 'symmetric')).toBeNull();
    expect(coverageInterval(new Float64Array(), 0.9, 'shortest')).toBeNull();
  });

  it.each([0, 1, -0.5, 1.5, Number.NaN])('covers no share of %s', probability => {
    expect(() => checkProbability(probability)).toThrow('lies between 0 and 1');
    expect(() => coverageInterval(ten, probability, 'symmetric')).toThrow(RangeError);
  });
});
