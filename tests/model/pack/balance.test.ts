import { describe, expect, it } from 'vitest';
import { packBalance } from '../../../src/model/pack/balance.ts';
import { CELL_TEMPERATURE, packAt, packFigures, PackNow } from '../../../src/model/pack/state.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { drive } from '../../../src/runs/trip/drive.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Car } from '../../../src/model/car.ts';
import { idealCar, testCar, testDay, withPackHeat } from '../../cars.ts';
import { profile, trip } from '../../trips.ts';

const lossy = (car: Car, coulombicEfficiency: number): Car => ({
  ...car,
  pack: { ...car.pack, cell: { ...car.pack.cell, coulombicEfficiency } },
});

describe('what a current does to a pack', () => {
  const { pack } = lossy(withPackHeat(testCar), 0.98);
  const figures = packFigures(pack);
  const at = (current: number, temperature: number, pair1 = 0): PackNow => {
    const now = Object.assign(new PackNow(), { charge: 0.5, temperature, pair1, air: temperature, current });
    packAt(figures, now);
    packBalance(figures, now);
    return now;
  };

  it('loses a share of the charge on the way in and none on the way out, and the share is heat', () => {
    const [out, back] = [at(100, 298.15), at(-100, 298.15)];
    expect(out.chargeRate * figures.capacity).toBeCloseTo(-100, 9);
    expect(back.chargeRate * figures.capacity).toBeCloseTo(98, 9);
    expect(out.lost).toBeCloseTo(out.resistance * 1e4, 9);
    expect(back.lost).toBeCloseTo(back.resistance * 1e4 + 2 * back.open, 9);
  });

  it('polarises over a resistance that follows the temperature as the ohmic one does, by one law', () => {
    const { resistance, timeConstant } = pack.cell.pairs[0]!;
    const perCell = (pack.series / pack.parallel) * pack.resistanceGrowth;
    for (const temperature of [258.15, 278.15, 298.15, 318.15]) {
      const warmth = Math.exp(pack.heat!.resistanceActivation * (1 / temperature - 1 / CELL_TEMPERATURE));
      // Where the current through the resistance is that of the pack, the voltage stands still.
      const settled = at(80, temperature, 80 * resistance * perCell * warmth);
      expect(Math.abs(settled.pairRate1)).toBeLessThan(1e-12);
      expect(settled.lost - settled.resistance * 6400).toBeCloseTo(6400 * resistance * perCell * warmth, 9);
      // At rest it fades with resistance times capacity, and the capacity is what it was.
      expect(at(0, temperature, 3).pairRate1).toBeCloseTo(-3 / (timeConstant * warmth), 12);
    }
  });
});

describe('a car that speeds up and brakes', () => {
  const schedule = profile([
    [0, 0],
    [20, 20],
    [40, 0],
  ]);

  it('without any other loss takes out of its cells what they lose of the charge that braking brings back', () => {
    const car = lossy(idealCar({ mass: 1250, force: 1e5, power: 1e9 }), 0.98);
    const run = travelOnce(car, trip(schedule), { surroundings: testDay });
    const { capacity } = run.parameters.pack;
    const motion = 0.5 * 1250 * 20 ** 2;
    // Within the volt by which the open circuit changes over the whole charge.
    expect(((0.9 - run.follower.pack.charge) * capacity * 400.8) / (0.02 * motion)).toBeCloseTo(1, 4);
    expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-6);
  });

  it('is agreed on by the second method, however much the cells lose', () => {
    const car = lossy(withPackHeat(testCar), 0.9);
    const result = drive(car, trip(scheduleNamed('wltc_medium')), { surroundings: testDay });
    expect(result.opinion?.agrees).toBe(true);
    expect(result.opinion?.difference).toBeLessThan(1e-6);
    const whole = drive(lossy(car, 1), trip(scheduleNamed('wltc_medium')), { surroundings: testDay });
    const returned = Number(whole.summary['returned']);
    const more = (result.ledger.in['out of the cells'] ?? 0) - (whole.ledger.in['out of the cells'] ?? 0);
    expect(more / (0.1 * returned)).toBeCloseTo(1, 1);
  });
});
