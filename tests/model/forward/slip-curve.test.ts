/** The slip curve in pieces against sin(C atan x) itself, and its derivatives in closed form. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { AxleFigures } from '../../../src/model/forward/figures.ts';
import { AxleNow } from '../../../src/model/forward/instant.ts';
import { slipCurve, slipShare } from '../../../src/model/forward/slip-curve.ts';

it('is the curve to a few units of its last place wherever it is asked for, for one tyre after the other', () => {
  const axle = new AxleFigures();
  const at = new AxleNow();
  fc.assert(
    fc.property(
      fc.double({ min: 1.01, max: 1.99, noNaN: true }),
      fc.array(fc.double({ min: -0.5, max: 9, noNaN: true }), { minLength: 1, maxLength: 20 }),
      fc.integer({ min: 0, max: 1_000_000 }),
      (C, places, before) => {
        axle.shape = C;
        // The piece that holds the peak as well, whose middle may lie past it.
        const peak = Math.tan(Math.PI / (2 * C));
        for (const x of [...places, peak - before / 64e6]) {
          const angle = C * Math.atan(x);
          // Only up to the peak is it ever asked for.
          if (Math.abs(angle) > Math.PI / 2) continue;
          slipCurve(axle, at, x);
          const r = 1 / (1 + x * x);
          expect(Math.abs(at.share - Math.sin(angle))).toBeLessThan(5e-15);
          expect(Math.abs(at.shareSlope - C * r * Math.cos(angle))).toBeLessThan(1e-11);
          const bend = -C * r * r * (C * Math.sin(angle) + 2 * x * Math.cos(angle));
          expect(Math.abs(at.shareBend - bend)).toBeLessThan(1e-4);
        }
      },
    ),
    { numRuns: 2000 },
  );
});

it('gives its share to a few units of the last place at any slip, far past the peak too', () => {
  const axle = new AxleFigures();
  const at = new AxleNow();
  axle.stiffness = 1.5;
  fc.assert(
    fc.property(
      fc.double({ min: 1.01, max: 1.99, noNaN: true }),
      fc.array(fc.double({ min: -12, max: 12, noNaN: true }), { minLength: 1, maxLength: 20 }),
      (C, powers) => {
        axle.shape = C;
        // Where the pieces end, and what a wheel at rest under a car that rolls back, or one off the road, comes to.
        for (const x of [...powers.map(power => 10 ** power), 4, 4 - 1e-15, Infinity, -0.3, 0]) {
          at.stretch = x / axle.stiffness;
          slipShare(axle, at);
          expect(Math.abs(at.share - Math.sin(C * Math.atan(axle.stiffness * at.stretch)))).toBeLessThan(5e-15);
        }
      },
    ),
    { numRuns: 2000 },
  );
});
