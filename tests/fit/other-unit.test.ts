import { describe, expect, it } from 'vitest';
import { otherUnit, slowingThrough } from '../../src/fit/coast/other-unit.ts';

const MILE = 1.609344;
const assumed = { level: 150, square: 0.43 };

describe('a coast-down in another unit than it says', () => {
  it('is known by its resistance at rest and its drag, which go opposite ways', () => {
    // v' = v / 1.609 in the same time: F'(v') = F(1.609 v') / 1.609.
    const force = (v: number): number => 160 + 0.4 * v * v;
    const miles = slowingThrough(v => force(MILE * v) / MILE, [5, 30]);
    expect(miles.level).toBeCloseTo(160 / MILE, 9);
    expect(miles.square).toBeCloseTo(0.4 * MILE, 9);
    expect(otherUnit(miles, assumed)?.what).toContain('in mph but says km/h');
    const kilometres = slowingThrough(v => MILE * force(v / MILE), [5, 30]);
    expect(otherUnit(kilometres, assumed)?.what).toContain('in km/h but says mph');
  });

  it('is not thought of where drag or rolling resistance alone is another one, or the mass is', () => {
    for (const [level, square] of [
      [1, 1],
      [1.5, 1],
      [0.7, 1],
      [1, 1.5],
      [1, 0.7],
      [1.6, 1.6],
      [0.6, 0.6],
      [0.8, 1.25],
    ] as const)
      expect(otherUnit({ level: 150 * level, square: 0.43 * square }, assumed)).toBeNull();
  });
});
