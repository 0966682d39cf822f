/** Wind across the road: what it hides, and what a coast-down makes of it when it is said. */
import { describe, expect, it } from 'vitest';
import { item, nth } from '../../src/columns.ts';
import { type CoastDown, coastDown } from '../../src/fit/coast/coast-down.ts';
import type { Terms } from '../../src/fit/coast/measured.ts';
import { sideWindAdds, withoutSideWind } from '../../src/fit/coast/side-wind.ts';
import { CALM, measuredOn } from './coast-logs.ts';

const TERMS: Terms = [150, 1.2, 0.45];
const NONE = [0, 1, 2].map(() => [0, 0, 0]);

describe('wind across the road', () => {
  it('is taken off as the closed form has it: a tenth more drag at ten degrees of yaw', () => {
    const c = 3;
    // F2 (v^2 + c^2) (1 + r psi^2), psi^2 = c^2 / (v^2 + c^2), at 20 m/s, by hand.
    const air = 20 ** 2 + c ** 2;
    const whole = 0.45 * air * (1 + (0.1 / (Math.PI / 18) ** 2) * (c ** 2 / air));
    expect(sideWindAdds(TERMS, c)).toBeCloseTo(whole - 0.45 * 400, 9);
    const found = withoutSideWind([150 + whole - 0.45 * 400, 1.2, 0.45], NONE, { value: c, standard: 0 });
    expect(found.terms[0]).toBeCloseTo(150, 9);
  });

  it('widens the interval by how little is known of it, and leaves the other terms', () => {
    const sharp = withoutSideWind(TERMS, NONE, { value: 3, standard: 0.2 });
    const loose = withoutSideWind(TERMS, NONE, { value: 3, standard: 1.5 });
    const of = ({ covariance }: typeof sharp): number => Math.sqrt(nth(item(covariance, 0), 0));
    expect(of(loose)).toBeGreaterThan(2 * of(sharp));
    expect(sharp.terms.slice(1)).toEqual(TERMS.slice(1));
  });

  it('leaves the truth inside where it is said, and outside a narrow interval where it is not', () => {
    const across = 4;
    const felt: [number, number, number] = [150 + sideWindAdds(TERMS, across), 1.2, 0.45];
    const day = { ...CALM, terms: felt, rate: 2 };
    const off = (sideWind?: { value: number; standard: number }): number => {
      const measured = { ...measuredOn(day, 3), ...(sideWind && { sideWind }) };
      const found = coastDown(measured) as CoastDown;
      return (found.day[0] - 150) / Math.sqrt(nth(item(found.dayCovariance, 0), 0));
    };
    expect(Math.abs(off({ value: across, standard: 1 }))).toBeLessThan(1.96);
    expect(off()).toBeGreaterThan(1.96);
  });
});
