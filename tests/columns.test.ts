import { describe, expect, it } from 'vitest';
import { item, lastOf, named, nth } from '../src/columns.ts';
import { numbers, texts } from '../src/runs/series.ts';
import type { Series } from '../src/runs/result.ts';

describe('a reader of columns', () => {
  it('gives what stands at a place, holes of a column among them', () => {
    expect(nth(Float64Array.of(4, Number.NaN), 1)).toBeNaN();
    expect(lastOf([4, 5])).toBe(5);
    expect(item([['a'], ['b']], 1)).toEqual(['b']);
    expect(named({ drag: 7 }, 'drag')).toBe(7);
  });

  it.each([
    [() => nth(Float64Array.of(4, 5), 2), 'there is no place 2 among 2'],
    [() => nth([4, 5], -1), 'there is no place -1 among 2'],
    [() => lastOf([]), 'there is no place -1 among 0'],
    [() => item(['a'], 0.5), 'there is no place 0.5 among 1'],
    [() => named({ drag: 7, slope: 1 }, 'brakes'), 'there is no "brakes" among drag, slope'],
  ])('says what is missing: %#', (read, message) => {
    expect(read).toThrow(new RangeError(message));
  });
});

describe('a reader of a series', () => {
  const about = { label: '', unit: '', display: { metric: '', imperial: '' } };
  const series: Series = { speed: { ...about, values: Float64Array.of(1) }, limiter: { ...about, values: ['grip'] } };

  it('tells numbers from words', () => {
    expect(numbers(series, 'speed')).toEqual(Float64Array.of(1));
    expect(texts(series, 'limiter')).toEqual(['grip']);
    expect(() => numbers(series, 'limiter')).toThrow('column limiter is text');
    expect(() => texts(series, 'speed')).toThrow('column speed is no text');
    expect(() => numbers(series, 'load')).toThrow('the series has no column load');
  });
});
