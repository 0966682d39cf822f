import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dischargeTime, precharged, storedEnergy } from '../../../src/model/duty/precharge.ts';

const near = (found: number | null, wanted: number, share = 1e-9): void =>
  expect(Math.abs((found ?? Number.NaN) - wanted)).toBeLessThan(share * Math.max(1, Math.abs(wanted)));

const pack = { voltage: 403.2, capacitance: 1.2e-3, resistance: 47, share: 0.95, loop: 0.1 };

/** The same by classical Runge-Kutta in small steps: V at which it is after so many seconds, and J in the resistor. */
function integrated(given: Parameters<typeof precharged>[0], seconds: number): { V: number; J: number } {
  const { voltage: E, capacitance: C, resistance: R, bleed = Infinity, load } = given;
  const steps = 20_000;
  const h = seconds / steps;
  const rate = (V: number): number =>
    ((E - V) / R - V / bleed - (load !== undefined && V >= load.from ? load.power / V : 0)) / C;
  let [V, J] = [0, 0];
  for (let i = 0; i < steps; i++) {
    const k1 = rate(V);
    const k2 = rate(V + 0.5 * h * k1);
    const k3 = rate(V + 0.5 * h * k2);
    const next = V + (h / 6) * (k1 + 2 * k2 + 2 * k3 + rate(V + h * k3));
    J += (h * ((E - V) ** 2 + 4 * (E - 0.5 * (V + next)) ** 2 + (E - next) ** 2)) / (6 * R);
    V = next;
  }
  return { V, J };
}

describe('pre-charge', () => {
  // -R C ln(1 - x), C E^2/2 (1 - (1 - x)^2), E^2/R; by hand with 30 digits.
  it('is that of one resistor and one capacitor', () => {
    const found = precharged(pack);
    near(found.time, 0.1689593002284451);
    near(found.energy, 97.29828864);
    near(storedEnergy(403.2, 1.2e-3), 97.542144);
    near(found.peakPower, 3458.9412765957445);
    near(found.closingCurrent, (0.05 * 403.2) / 0.1);
  });

  it('never gets there with a load of 200 W, and ends where the two balance', () => {
    const found = precharged({ ...pack, load: { power: 200, from: 150 } });
    expect(found.time).toBeNull();
    expect(found.energy).toBeNull();
    near(found.settles, 378.35565054617064);
    near(found.stayingPower, (403.2 - 378.35565054617064) ** 2 / 47);
  });

  it('stays where a load begins that takes more than the resistor gives there', () => {
    // 4 P R > E^2: no voltage at which the resistor feeds it.
    near(precharged({ ...pack, load: { power: 900, from: 250 } }).settles, 250);
    // Below the lower balance of 24.8 V a load of 200 W pulls the capacitors down.
    near(precharged({ ...pack, load: { power: 200, from: 20 } }).settles, 20);
  });

  it('never gets there with a bleed resistor that holds it below', () => {
    const found = precharged({ ...pack, bleed: 470 });
    expect(found.time).toBeNull();
    near(found.settles, (403.2 * 470) / 517);
  });

  it('takes the longer the more is drawn meanwhile: the integral of C dV over the current that is left', () => {
    for (const [power, bleed] of [
      [100, 1500],
      [150, Infinity],
      [20, 5000],
    ] as const) {
      const [from, to] = [150, 0.8 * pack.voltage];
      const slowness = (V: number): number => {
        const left = (pack.voltage - V) / pack.resistance - V / bleed - (V >= from ? power / V : 0);
        return pack.capacitance / left;
      };
      // Simpson's rule on both sides of the voltage at which the load begins.
      const simpson = (low: number, high: number, rate: (V: number) => number): number => {
        const n = 2000;
        const h = (high - low) / n;
        let sum = rate(low) + rate(high);
        for (let i = 1; i < n; i++) sum += (i % 2 === 0 ? 2 : 4) * rate(low + i * h);
        return (h / 3) * sum;
      };
      const idle = (V: number): number => pack.capacitance / ((pack.voltage - V) / pack.resistance - V / bleed);
      const found = precharged({ ...pack, bleed, share: 0.8, load: { power, from } });
      near(found.time, simpson(0, from, idle) + simpson(from, to, slowness));
    }
  });

  it('is the same as its differential equation, with any bleed resistor and load', () => {
    const from = (low: number, high: number): fc.Arbitrary<number> => fc.double({ min: low, max: high, noNaN: true });
    fc.assert(
      fc.property(from(1500, 60_000), from(0, 100), from(60, 250), from(0.5, 0.85), (bleed, power, least, share) => {
        const given = { ...pack, bleed, share, load: { power, from: least } };
        const found = precharged(given);
        expect(found.time).not.toBeNull();
        const { V, J } = integrated(given, found.time ?? 0);
        near(V, share * pack.voltage, 1e-4);
        near(J, found.energy ?? Number.NaN, 1e-4);
      }),
      { numRuns: 20 },
    );
  });
});

describe('discharge', () => {
  // R C ln(V0/60 V).
  it('to 60 V takes minutes through a bleed resistor, a second through a switched one', () => {
    near(dischargeTime(403.2, 60, 1.2e-3, 56_000), 128.02192398475592);
    near(dischargeTime(403.2, 60, 1.2e-3, 470), 1.0744697191577728);
    expect(dischargeTime(48, 60, 1.2e-3, 470)).toBe(0);
    near(storedEnergy(60, 1.2e-3), 2.16);
  });
});
