import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curveAt, curveSlopeAt, curveThrough } from '../../../src/model/tables/curve.ts';

interface PeerTable {
  readonly x: number[];
  readonly y: number[];
  readonly at: number[];
  readonly value: number[];
  readonly slope: number[];
}

const peer = JSON.parse(readFileSync(new URL('../../published/peer/pchip.json', import.meta.url), 'utf8')) as {
  tables: { [name: string]: PeerTable };
};

/** Strictly ascending x with any y. */
const table = fc
  .array(fc.tuple(fc.double({ min: 0.01, max: 10, noNaN: true }), fc.double({ min: -100, max: 100, noNaN: true })), {
    minLength: 2,
    maxLength: 12,
  })
  .map(pairs => {
    let x = -5;
    return { x: pairs.map(([step]) => (x += step)), y: pairs.map(([, y]) => y) };
  });

describe('the curve', () => {
  it.each(Object.entries(peer.tables))("agrees with SciPy's PchipInterpolator: %s", (_, t) => {
    const curve = curveThrough(t.x, t.y);
    t.at.forEach((x, k) => {
      expect(curveAt(curve, x)).toBeCloseTo(t.value[k] as number, 11);
      expect(curveSlopeAt(curve, x)).toBeCloseTo(t.slope[k] as number, 9);
    });
  });

  it('passes through its points and stays between neighbours', () => {
    fc.assert(
      fc.property(table, fc.double({ min: 0, max: 1, noNaN: true }), ({ x, y }, share) => {
        const curve = curveThrough(x, y);
        for (let k = 0; k < x.length; k++) {
          const [x0, y0] = [x[k] as number, y[k] as number];
          expect(curveAt(curve, x0) === y0, `point ${k + 1}`).toBe(true);
          if (k === x.length - 1) break;
          const [x1, y1] = [x[k + 1] as number, y[k + 1] as number];
          const between = curveAt(curve, x0 + share * (x1 - x0));
          const slack = 1e-9 * (1 + Math.abs(y0) + Math.abs(y1));
          expect(between).toBeGreaterThanOrEqual(Math.min(y0, y1) - slack);
          expect(between).toBeLessThanOrEqual(Math.max(y0, y1) + slack);
        }
      }),
    );
  });

  it('is continuous with its slope at every point, ends included', () => {
    fc.assert(
      fc.property(table, ({ x, y }) => {
        const curve = curveThrough(x, y);
        for (const point of x) {
          const step = 1e-9;
          const slope = curveSlopeAt(curve, point);
          const bend = Math.abs(curveSlopeAt(curve, point - step) - slope);
          // The slope may change by the second derivative times the step, at most 6 x (range / shortest gap^2) here.
          expect(bend).toBeLessThan(step * 6 * (200 / 0.01 ** 2) * 2);
        }
      }),
    );
  });

  it('goes on as a straight line beyond its ends', () => {
    const curve = curveThrough([0, 1, 3], [0, 2, 3]);
    const left = curveSlopeAt(curve, 0);
    const right = curveSlopeAt(curve, 3);
    expect(left).toBeGreaterThan(0);
    expect(curveAt(curve, -2)).toBeCloseTo(-2 * left, 14);
    expect(curveSlopeAt(curve, -2)).toBe(left);
    expect(curveAt(curve, 5)).toBeCloseTo(3 + 2 * right, 14);
    expect(curveSlopeAt(curve, 5)).toBe(right);
  });

  it('is constant through one point', () => {
    const curve = curveThrough([0.5], [7]);
    expect([curveAt(curve, -3), curveAt(curve, 0.5), curveAt(curve, 9)]).toEqual([7, 7, 7]);
    expect(curveSlopeAt(curve, 9)).toBe(0);
  });

  it('gives NaN for NaN', () => {
    expect(curveAt(curveThrough([0, 1], [0, 1]), Number.NaN)).toBeNaN();
  });

  it.each([
    [[], [], /at least one/],
    [[0, 1], [0], /as many y as x/],
    [[0, 1, 1], [0, 1, 2], /point 3 has 1 after 1/],
    [[0, 2, 1], [0, 1, 2], /ascend/],
    [[0, Number.NaN], [0, 1], /point 2/],
    [[0, 1], [Number.NaN, 1], /point 1/],
    [[0, Infinity], [0, 1], /point 2/],
  ])('refuses the table %j, %j', (x, y, message) => {
    expect(() => curveThrough(x, y)).toThrow(RangeError);
    expect(() => curveThrough(x, y)).toThrow(message);
  });
});
