import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeCurrent, chargePower, warmCurrent } from '../../../src/model/pack/limits.ts';
import {
  CELL_TEMPERATURE,
  currentAtPower,
  packAt,
  packFigures,
  PackNow,
  powerAtCurrent,
} from '../../../src/model/pack/state.ts';
import { curveAt } from '../../../src/model/tables/curve.ts';
import { testCar, withPackHeat } from '../../cars.ts';

const { pack } = withPackHeat(testCar);
const figures = packFigures(pack);

function at(charge: number, temperature: number, pair1 = 0, now = new PackNow()): PackNow {
  Object.assign(now, { charge, temperature, pair1 });
  packAt(figures, now);
  return now;
}

describe('packAt', () => {
  it('carries the law of Arrhenius along any way through the temperatures, to round-off', () => {
    const now = new PackNow();
    const activation = pack.heat!.resistanceActivation;
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 240, max: 340, noNaN: true }),
        fc.double({ min: -0.3, max: 0.3, noNaN: true }),
        (charge, temperature, change) => {
          for (const T of [temperature, temperature + change]) {
            at(charge, T, 0, now);
            const factor = Math.exp(activation * (1 / T - 1 / CELL_TEMPERATURE));
            const cells = (figures.perCell * curveAt(figures.ohm, charge) * factor + figures.wiring) / now.resistance;
            expect(Math.abs(cells - 1)).toBeLessThan(1e-14);
            expect(now.emf).toBe(pack.series * curveAt(figures.ocv, charge));
          }
        },
      ),
    );
  });

  it('takes the polarisation off the open-circuit voltage', () => {
    const now = at(0.5, 300, 3);
    expect(now.open - now.emf).toBeCloseTo(3, 12);
  });
});

describe('what a pack gives and takes', () => {
  it('finds the current whose power at the terminals is asked for, either way', () => {
    const now = at(0.6, 290, 1);
    for (const power of [-40_000, 0, 100, 60_000]) {
      const I = currentAtPower(now.emf, now.resistance, power);
      expect((now.emf - now.resistance * I) * I).toBeCloseTo(power, 6);
      if (power >= 0) expect(powerAtCurrent(now, I)).toBeCloseTo(power, 6);
    }
    const most = now.emf ** 2 / (4 * now.resistance);
    expect(currentAtPower(now.emf, now.resistance, 2 * most)).toBeGreaterThan(now.emf / (2 * now.resistance));
  });

  it('takes nothing on either side, and nothing when it is full', () => {
    const { none, full } = pack.chargeCold;
    const { derateAt, derateRange } = pack.heat!;
    expect(chargeCurrent(figures, at(0.5, none - 1))).toBe(0);
    expect(chargeCurrent(figures, at(0.5, full))).toBe(pack.maxChargeCurrent);
    expect(chargeCurrent(figures, at(0.5, 0.5 * (none + full)))).toBeCloseTo(0.5 * pack.maxChargeCurrent, 9);
    expect(chargeCurrent(figures, at(0.5, derateAt + 0.5 * derateRange))).toBeCloseTo(0.5 * pack.maxChargeCurrent, 9);
    expect(chargeCurrent(figures, at(0.5, derateAt + derateRange))).toBe(0);
    expect(chargePower(figures, at(0.5, derateAt + 2 * derateRange))).toBe(0);
    expect(chargeCurrent(figures, at(1, 300))).toBe(0);
  });

  it('charges no further than its highest voltage', () => {
    // Polarised by charging, to two volts below the highest.
    const now = at(0.9, 300, at(0.9, 300).open - (pack.maxVoltage - 2));
    const I = chargeCurrent(figures, now);
    expect(I).toBeGreaterThan(0);
    expect(I).toBeLessThan(pack.maxChargeCurrent);
    expect(now.emf + now.resistance * I).toBeCloseTo(pack.maxVoltage, 9);
    expect(chargePower(figures, now)).toBeCloseTo(pack.maxVoltage * I, 6);
  });

  it('takes all that it may at its highest voltage where no resistance would raise it', () => {
    const rigid = packFigures({ ...pack, wiringResistance: 0, resistanceGrowth: 0, maxVoltage: at(0.5, 300).open });
    const now = Object.assign(new PackNow(), { charge: 0.5, temperature: 300 });
    packAt(rigid, now);
    expect(chargeCurrent(rigid, now)).toBe(pack.maxChargeCurrent);
  });

  it('gives less and less over its derating range', () => {
    const { derateAt, derateRange } = pack.heat!;
    expect(warmCurrent(figures, derateAt)).toBe(pack.maxCurrent);
    expect(warmCurrent(figures, derateAt + 0.25 * derateRange)).toBeCloseTo(0.75 * pack.maxCurrent, 9);
    expect(warmCurrent(figures, derateAt + derateRange + 1)).toBe(0);
    expect(warmCurrent(packFigures(testCar.pack), 400)).toBe(Infinity);
  });
});
