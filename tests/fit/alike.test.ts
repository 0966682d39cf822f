/** What all runs leave alike, by hand. */
import { describe, expect, it } from 'vitest';
import { alikeIn } from '../../src/fit/alike.ts';

const time = Float64Array.from({ length: 40 }, (_, i) => i / 4);
const left = (of: (t: number) => number) => ({ time, residuals: time.map(of) });

describe('what all runs leave alike', () => {
  it('is their mean where they are all off the same way', () => {
    const found = alikeIn(
      [left(t => (t >= 4 && t < 6 ? 0.3 : 0)), left(t => (t >= 4 && t < 6 ? 0.5 : 0.01))],
      2,
      0.2,
      0.01,
    );
    expect(found?.off).toBeCloseTo(0.4, 12);
    expect(found?.at).toBe(4);
  });

  it.each([
    ['one of them is not', [left(t => (t < 2 ? 0.9 : 0)), left(() => 0)]],
    ['they are off both ways', [left(() => 0.5), left(() => -0.5)]],
    ['they are off by little', [left(() => 0.15), left(() => 0.15)]],
  ])('is nothing where %s', (_, runs) => {
    expect(alikeIn(runs, 2, 0.2, 0.01)).toBeNull();
  });

  it('is nothing where a row is as noisy as that', () => {
    expect(alikeIn([left(() => 0.3), left(() => 0.3)], 2, 0.2, 0.4)).toBeNull();
    expect(alikeIn([left(() => 0.3), left(() => 0.3)], 2, 0.2, 0.2)).not.toBeNull();
  });
});
