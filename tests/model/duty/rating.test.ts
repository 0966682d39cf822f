import { describe, expect, it } from 'vitest';
import { spentOf, timeAt } from '../../../src/model/duty/rating.ts';
import { trackOfLevels } from '../../../src/model/duty/track.ts';

const pulse = { current: 360, time: 10 };

describe('a rating of a current for ever and a pulse', () => {
  // (360^2 - 120^2) 10 / (178^2 - 120^2), by hand with 30 digits.
  it('lasts for 66.65 s at 178 A', () => {
    expect(timeAt(178, 120, pulse)).toBeCloseTo(66.6512381393196, 12);
    expect(timeAt(360, 120, pulse)).toBeCloseTo(10, 12);
    expect(timeAt(120, 120, pulse)).toBe(Infinity);
  });

  it('is spent in a run after as long, and tells the share', () => {
    const spent = spentOf(trackOfLevels([[100, 178]]), 120, pulse);
    expect(spent.after).toBeCloseTo(66.6512381393196, 9);
    expect(spent.share).toBeCloseTo(100 / 66.6512381393196, 12);
    const less = spentOf(trackOfLevels([[33.3256190696598, -178]]), 120, pulse);
    expect(less.after).toBeNull();
    expect(less.share).toBeCloseTo(0.5, 12);
  });

  it('recovers below the current for ever, and gets no fuller than whole', () => {
    // Half is spent, then rest gives 120^2 a second back: whole again after 40 s, however long it rests.
    const half = 33.3256190696598;
    const rested = spentOf(
      trackOfLevels([
        [half, 178],
        [1000, 0],
        [half, 178],
      ]),
      120,
      pulse,
    );
    expect(rested.share).toBeCloseTo(0.5, 12);
    const barely = spentOf(
      trackOfLevels([
        [half, 178],
        [30, 0],
        [half, 178],
      ]),
      120,
      pulse,
    );
    expect(barely.share).toBeCloseTo(1 - (30 * 120 ** 2) / (10 * (360 ** 2 - 120 ** 2)), 12);
  });

  it('counts only what is above in a piece that passes through, either way', () => {
    // 0 to 360 A in 3 s: above 120 A from 1 s on: integral of (120 t)^2 - 120^2 from 1 to 3 s.
    const track = { length: Float64Array.of(3), from: Float64Array.of(0), to: Float64Array.of(360) };
    const wanted = (120 ** 2 * (26 / 3 - 2)) / (10 * (360 ** 2 - 120 ** 2));
    expect(spentOf(track, 120, pulse).share).toBeCloseTo(wanted, 12);
    const back = { length: Float64Array.of(6), from: Float64Array.of(-360), to: Float64Array.of(360) };
    expect(spentOf(back, 120, pulse).share).toBeCloseTo(
      wanted + Math.max(0, wanted - (2 * 120 ** 2 * (1 - 1 / 3)) / (10 * (360 ** 2 - 120 ** 2))),
      12,
    );
  });

  it('refuses a pulse that is none', () => {
    expect(() => spentOf(trackOfLevels([[1, 1]]), 360, pulse)).toThrow('above the current');
  });
});
