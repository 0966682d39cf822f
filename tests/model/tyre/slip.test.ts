import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  frictionAtLoad,
  shapeFactor,
  shareAtSlip,
  shareSlope,
  slipAtShare,
  stiffnessFactor,
} from '../../../src/model/tyre/slip.ts';

const slideOverPeak = fc.double({ min: 0.3, max: 0.98, noNaN: true });
const slipAtPeak = fc.double({ min: 0.02, max: 0.4, noNaN: true });

describe('the slip curve', () => {
  it('peaks at the stated slip and nowhere else', () => {
    fc.assert(
      fc.property(slideOverPeak, slipAtPeak, (slide, peak) => {
        const C = shapeFactor(slide);
        const B = stiffnessFactor(peak, C);
        expect(shareAtSlip(peak, B, C)).toBeCloseTo(1, 12);
        expect(shareSlope(peak, B, C) * peak).toBeCloseTo(0, 10);
        expect(shareAtSlip(peak * 0.9, B, C)).toBeLessThan(1);
        expect(shareAtSlip(peak * 1.1, B, C)).toBeLessThan(1);
      }),
    );
  });

  it('falls to the sliding value', () => {
    fc.assert(
      fc.property(slideOverPeak, slipAtPeak, (slide, peak) => {
        const C = shapeFactor(slide);
        const B = stiffnessFactor(peak, C);
        expect(shareAtSlip(1e12, B, C)).toBeCloseTo(slide, 8);
      }),
    );
  });

  it('is inverted on its rising branch', () => {
    fc.assert(
      fc.property(
        slideOverPeak,
        slipAtPeak,
        fc.double({ min: -0.999, max: 0.999, noNaN: true }),
        (slide, peak, share) => {
          const C = shapeFactor(slide);
          const B = stiffnessFactor(peak, C);
          const kappa = slipAtShare(share, B, C);
          expect(Math.abs(kappa)).toBeLessThanOrEqual(peak);
          expect(shareAtSlip(kappa, B, C)).toBeCloseTo(share, 12);
        },
      ),
    );
    const C = shapeFactor(0.75);
    expect(slipAtShare(1, stiffnessFactor(0.1, C), C)).toBeCloseTo(0.1, 14);
  });

  it('has the slope that differences give, and B C at the origin', () => {
    const C = shapeFactor(0.8);
    const B = stiffnessFactor(0.12, C);
    expect(shareSlope(0, B, C)).toBe(B * C);
    for (const kappa of [0.01, 0.08, 0.12, 0.3, -0.05]) {
      const difference = (shareAtSlip(kappa + 1e-6, B, C) - shareAtSlip(kappa - 1e-6, B, C)) / 2e-6;
      expect(shareSlope(kappa, B, C)).toBeCloseTo(difference, 6);
    }
  });

  it('is a rigid tyre where sliding costs nothing', () => {
    const C = shapeFactor(1);
    const B = stiffnessFactor(0.1, C);
    expect(slipAtShare(0.99, B, C)).toBeLessThan(1e-15);
    expect(slipAtShare(1, B, C)).toBeCloseTo(0.1, 12);
    expect(shareAtSlip(0.3, B, C)).toBeCloseTo(1, 14);
    expect(shareAtSlip(0, B, C)).toBe(0);
  });

  it('gives no slip beyond the peak force', () => {
    expect(slipAtShare(1.001, 10, 1.5)).toBeNaN();
  });

  it.each([0, 1.2, -0.5, Number.NaN])('has no shape for a sliding ratio of %d', ratio => {
    expect(() => shapeFactor(ratio)).toThrow(RangeError);
  });

  it('has no stiffness without a slip at the peak', () => {
    for (const slip of [0, -0.1, Number.NaN, Infinity]) expect(() => stiffnessFactor(slip, 1.5)).toThrow(RangeError);
    for (const C of [0.9, 2, Number.NaN]) expect(() => stiffnessFactor(0.1, C)).toThrow(RangeError);
  });
});

describe('frictionAtLoad', () => {
  it('is the stated friction at the reference load and falls beyond it', () => {
    expect(frictionAtLoad(0.9, 5000, 5000, 0.1)).toBe(0.9);
    expect(frictionAtLoad(0.9, 10_000, 5000, 0.1)).toBeCloseTo(0.9 / 2 ** 0.1, 14);
    expect(frictionAtLoad(0.9, 10_000, 5000, 0)).toBe(0.9);
  });
});
