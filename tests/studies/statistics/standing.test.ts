import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../src/studies/sampling/normal.ts';
import { coverageInterval } from '../../../src/studies/statistics/coverage.ts';
import { endErrorOf } from '../../../src/studies/statistics/standing.ts';
import { randomStream } from '../../../src/studies/sampling/random-stream.ts';

describe('the error of the ends of an interval', () => {
  const u = new Float64Array(1);
  const drawn = (seed: number, count: number): Float64Array => {
    const stream = randomStream(seed, 1);
    const values = new Float64Array(count);
    for (let k = 0; k < count; k++) {
      stream.fill(k, u);
      values[k] = normalQuantile(u[0] ?? Number.NaN);
    }
    return values.toSorted();
  };

  it('holds the true ends in 19 of 20 samples of a normal distribution', () => {
    // 400 samples of 256: the ends of nine of ten stand at -+1.6449.
    let inside = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const sorted = drawn(seed, 256);
      const interval = coverageInterval(sorted, 0.9, 'symmetric');
      const { error } = endErrorOf(sorted, 0.9);
      if (Math.abs((interval?.low ?? Number.NaN) - normalQuantile(0.05)) <= error) inside++;
    }
    // The wider of two ranges stands for both: 19 of 20 and some more. Two standard deviations of the share: 0.022.
    expect(inside / 400).toBeGreaterThan(0.93);
  });

  it('falls with the root of the number of samples, and is not known from few', () => {
    const [few, many] = [512, 8192].map(count => endErrorOf(drawn(7, count), 0.9));
    expect((few?.error ?? 0) / (many?.error ?? 1)).toBeGreaterThan(2.8);
    expect((few?.error ?? 0) / (many?.error ?? 1)).toBeLessThan(5.6);
    expect([few?.known, many?.known, endErrorOf(drawn(7, 32), 0.9).known]).toEqual([true, true, false]);
  });
});
