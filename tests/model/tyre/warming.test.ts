import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meanCold, rootAfter, rootStood } from '../../../src/model/tyre/warming.ts';

const root = fc.double({ min: 0, max: 1, noNaN: true });
const seconds = fc.double({ min: 0, max: 8000, noNaN: true });

describe('a tyre that was cold', () => {
  it('is warm after its time, and until then has left the square of what is left of it', () => {
    expect(rootAfter(1, 450, 1800) ** 2).toBeCloseTo(0.5625, 12);
    expect(rootAfter(1, 1800, 1800)).toBe(0);
    expect(rootAfter(1, 5000, 1800)).toBe(0);
  });

  it('rolls harder as long in all as with a decay of a third of its time as time constant', () => {
    // The integral of (1 - t/T)^2 from 0 to T is T/3, that of exp(-t/tau) is tau.
    expect(3600 * meanCold(1, 0, 3600, 1800)).toBeCloseTo(600, 9);
    expect(1800 * meanCold(1, 0, 1800, 1800)).toBeCloseTo(600, 9);
  });

  it('has the mean of its shares, whatever piece of the way is looked at', () => {
    fc.assert(
      fc.property(root, seconds, seconds, (start, one, other) => {
        const [from, to] = [Math.min(one, other), Math.max(one, other)];
        const steps = 4000;
        let sum = 0;
        for (let k = 0; k < steps; k++) sum += rootAfter(start, from + ((k + 0.5) / steps) * (to - from), 1800) ** 2;
        expect(meanCold(start, from, to, 1800)).toBeCloseTo(sum / steps, 6);
      }),
    );
  });

  it('warms and cools in two parts as in one', () => {
    fc.assert(
      fc.property(root, seconds, seconds, (start, one, other) => {
        expect(rootAfter(rootAfter(start, one, 1800), other, 1800)).toBeCloseTo(
          rootAfter(start, one + other, 1800),
          12,
        );
        // A root near 0 or 1 has lost half of its digits.
        expect(rootStood(rootStood(start, one, 10_800), other, 10_800) ** 2).toBeCloseTo(
          rootStood(start, one + other, 10_800) ** 2,
          7,
        );
      }),
    );
    expect(rootStood(0, 10_800, 10_800)).toBe(1);
    expect(rootStood(0, 0, 10_800)).toBe(0);
  });
});
