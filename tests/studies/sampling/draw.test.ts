import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Spread } from '../../../src/model/fields/input.ts';
import { drawOf, leavesNothing } from '../../../src/studies/sampling/draw.ts';
import { normalCumulative, normalQuantile } from '../../../src/studies/sampling/normal.ts';
import { peer } from '../peer.ts';

describe('the normal distribution', () => {
  it.each(peer.normal.quantile)("has SciPy's quantile at %d", (p, x) => {
    expect(Math.abs(normalQuantile(p) - x)).toBeLessThanOrEqual(2e-15 * Math.max(1, Math.abs(x)));
  });

  it.each(peer.normal.cumulative)("has SciPy's probability below %d", (x, p) => {
    expect(Math.abs(normalCumulative(x) / p - 1)).toBeLessThan(1e-11);
    expect(Math.abs(normalCumulative(x) - p)).toBeLessThan(1e-15);
  });

  it('ends at infinity and knows what is no probability', () => {
    expect([normalQuantile(0), normalQuantile(1)]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
    expect([normalQuantile(-0.1), normalQuantile(1.1)]).toEqual([Number.NaN, Number.NaN]);
  });

  it('turns back', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 5, noNaN: true }), x => {
        expect(Math.abs(normalQuantile(normalCumulative(x)) - x)).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('a draw', () => {
  it.each(peer.conditioned)("on condition of limits agrees with SciPy's truncnorm: %o", row => {
    const { value, standard, min, max } = row;
    const draw = drawOf(
      value,
      { kind: 'normal', standard },
      { ...(min === null ? {} : { min }), ...(max === null ? {} : { max }) },
    );
    expect(Math.abs(draw.mean - row.mean)).toBeLessThan(1e-9 * standard);
    expect(Math.abs(draw.standard / row.deviation - 1)).toBeLessThan(1e-9);
    for (const [u, x] of row.quantiles) expect(Math.abs(draw.at(u) - x)).toBeLessThan(1e-9 * standard);
  });

  it('keeps the whole spread without limits, and says how much the limits keep', () => {
    expect(drawOf(5, { kind: 'normal', standard: 2 })).toMatchObject({ mean: 5, standard: 2, kept: 1 });
    expect(drawOf(5, { kind: 'normal', standard: 2 }, { min: 5 }).kept).toBeCloseTo(0.5, 14);
    const cut = drawOf(1, { kind: 'rectangular', low: 0, high: 4 }, { min: 1, max: 9 });
    expect(cut).toMatchObject({ low: 1, high: 4, mean: 2.5, kept: 0.75 });
    // JCGM 100:2008, 4.3.7: half width over the root of 3.
    expect(cut.standard).toBeCloseTo(1.5 / Math.sqrt(3), 14);
  });

  it('has half of its draws on either side of a value that is not the middle of its limits', () => {
    const draw = drawOf(2, { kind: 'rectangular', low: 1, high: 6 });
    expect([0.1, 0.25, 0.5, 0.75, 0.9].map(draw.at)).toEqual([1.2, 1.5, 2, 4, expect.closeTo(5.2, 12) as number]);
    // Two rectangles, each with half of the weight: means 1.5 and 4, variances 1/12 and 16/12.
    expect(draw.mean).toBeCloseTo(2.75, 14);
    expect(draw.standard).toBeCloseTo(Math.sqrt(17 / 24 + 1.25 ** 2), 14);
    // The middle makes the plain rectangle, and so does a value that the limits leave no side.
    expect(drawOf(3.5, { kind: 'rectangular', low: 1, high: 6 }).at(0.1)).toBe(1.5);
    expect(drawOf(2, { kind: 'rectangular', low: 1, high: 6 }, { min: 2 }).at(0.25)).toBe(3);
  });

  const bounds = fc.tuple(fc.double({ min: -8, max: 8, noNaN: true }), fc.double({ min: 1e-6, max: 20, noNaN: true }));
  const spread: fc.Arbitrary<Spread> = fc.oneof(
    fc.double({ min: 1e-3, max: 10, noNaN: true }).map(standard => ({ kind: 'normal' as const, standard })),
    bounds.map(([low, width]) => ({ kind: 'rectangular' as const, low, high: low + width })),
  );

  it('rises with the share and stays within its limits', () => {
    fc.assert(
      fc.property(
        spread,
        bounds,
        fc.array(fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true })),
        (s, [min, width], us) => {
          const overlaps = s.kind === 'normal' || (s.low < min + width && s.high > min);
          fc.pre(overlaps && (s.kind === 'rectangular' || Math.abs(min) / s.standard < 30));
          const draw = drawOf(0, s, { min, max: min + width });
          const values = us.toSorted((a, b) => a - b).map(draw.at);
          values.forEach((value, k) => {
            expect(value).toBeGreaterThanOrEqual(draw.low);
            expect(value).toBeLessThanOrEqual(draw.high);
            if (k > 0) expect(value).toBeGreaterThanOrEqual(values[k - 1]!);
          });
          expect(draw.kept).toBeGreaterThan(0);
          expect(draw.kept).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it('has nothing left where a value at its limit could only be off beyond it', () => {
    const upwards: Spread = { kind: 'rectangular', low: 2, high: 3 };
    expect(leavesNothing(upwards, { max: 2 })).toBe(true);
    expect(leavesNothing(upwards, { min: 2 })).toBe(false);
    expect(leavesNothing({ kind: 'normal', standard: 1 }, { max: 2 })).toBe(false);
    expect(leavesNothing({ kind: 'normal', standard: 1 }, { min: 2, max: 2 })).toBe(true);
  });

  it('refuses what is no spread, and one that lies outside its limits', () => {
    expect(() => drawOf(1, { kind: 'normal', standard: 0 })).toThrow(/above 0, got 1 ± 0/);
    expect(() => drawOf(Number.NaN, { kind: 'normal', standard: 1 })).toThrow(RangeError);
    expect(() => drawOf(1, { kind: 'rectangular', low: 2, high: 2 })).toThrow(/ascending order/);
    expect(() => drawOf(1, { kind: 'rectangular', low: 2, high: 3 }, { max: 2 })).toThrow(/nothing between/);
    expect(() => drawOf(1, { kind: 'normal', standard: 0.001 }, { min: 2 })).toThrow(/nothing between/);
    expect(() => drawOf(1, { kind: 'normal', standard: 1 }, { min: 2, max: 1 })).toThrow(/nothing between/);
  });
});
