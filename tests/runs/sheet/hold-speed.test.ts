import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { STANDARD_GRAVITY as g } from '../../../src/model/gravity.ts';
import { balanceOf } from '../../../src/runs/sheet/balance.ts';
import { hold, steadyPedal } from '../../../src/runs/sheet/hold-speed.ts';
import { nearTopTime, thirtyMinutes } from '../../../src/runs/sheet/thirty-minutes.ts';
import { topSpeed } from '../../../src/runs/sheet/top-speed.ts';
import { solveExtrapolation } from '../../../src/solvers/extrapolation.ts';
import { idealCar, testCar, testDay } from '../../cars.ts';
import { roadWithDensity } from '../../published/ideal.ts';

/** 1 kg/m3: half the drag area is k in k v^2. */
const road = roadWithDensity(1);

/** A pack for half a day, and heat with so much cooling that nothing gets warm, unless told otherwise. */
function warm(car: Car, cooling: number, parallel = 400): Car {
  const heat = { capacity: 30_000, cooling, derateAt: 380, derateRange: 20, continuousShare: 0.3 };
  return {
    ...car,
    drives: car.drives.map(drive => ({ ...drive, unit: { ...drive.unit, heat } })),
    pack: { ...car.pack, parallel },
  };
}

const thirty = (car: Car, day = testDay): number => {
  const top = topSpeed(balanceOf(car, day))!;
  return thirtyMinutes(car, day, top).hold!.speed;
};

describe('a held speed', () => {
  it('takes the pedal that the closed form says: m g c + k v^2 over the greatest force', () => {
    const car = idealCar({ mass: 1000, force: 4000, power: 1e9, rolling: 0.01, drag: 0.8 });
    fc.assert(
      fc.property(fc.double({ min: 1, max: 90, noNaN: true }), v => {
        expect(steadyPedal(car, road, v)! / ((1000 * g * 0.01 + 0.4 * v * v) / 4000)).toBeCloseTo(1, 10);
      }),
    );
    // Above sqrt((4000 - 98) / 0.4) = 98.8 m/s no pedal holds it; down a hill none is needed.
    expect(steadyPedal(car, road, 99)).toBeNull();
    expect(steadyPedal(car, { ...road, slope: -0.2 }, 5)).toBe(0);
  });

  it('stays where it is, while the pack empties by force times way', () => {
    const car = idealCar({ mass: 1000, force: 4000, power: 1e9, rolling: 0.01, drag: 0.8 });
    const found = hold(car, road, 30, 1800);
    expect(found).toMatchObject({ held: true, limiter: 'driver', time: 1800, unitTemperature: null });
    expect(found.endSpeed).toBeCloseTo(30, 9);
    const energy = (1000 * g * 0.01 + 0.4 * 900) * 30 * 1800;
    // A pack of 400.8 V at charge 0.9 (of 399 to 401 V) that hardly empties.
    expect(((0.9 - found.charge) * 3.6e9 * 400.8) / energy).toBeCloseTo(1, 4);
  });

  it('ends where the pack is empty or too weak, and says so', () => {
    const { held, time, limiter } = hold({ ...testCar, pack: { ...testCar.pack, parallel: 4 } }, testDay, 25, 3600);
    expect(held).toBe(false);
    expect(time).toBeGreaterThan(60);
    expect(['pack voltage', 'pack current', 'empty pack']).toContain(limiter);
  });

  it('comes to the same temperatures by another integrator', () => {
    const car = warm(testCar, 40);
    const [a, b] = [hold(car, testDay, 30, 1800), hold(car, testDay, 30, 1800, solveExtrapolation)];
    expect(a.unitTemperature! / b.unitTemperature!).toBeCloseTo(1, 7);
    expect(a.charge / b.charge).toBeCloseTo(1, 7);
  });
});

describe('the 30-minute speed', () => {
  it('is the maximum speed where the rating is generous', () => {
    // Limited by the speed of the motor, so that the emptying pack does not come into it.
    const car = warm({ ...testCar, drives: [{ ...testCar.drives[0]!, ratio: 14 }] }, 1e5);
    const top = topSpeed(balanceOf(car, testDay))!;
    expect(top.limiter).toBe('motor speed');
    expect(thirtyMinutes(car, testDay, top)).toMatchObject({ hold: { speed: top.speed }, limiter: 'motor speed' });
  });

  it('is held, and a little more is not', () => {
    const car = warm(testCar, 40);
    const top = topSpeed(balanceOf(car, testDay))!;
    const { hold: best, limiter } = thirtyMinutes(car, testDay, top);
    expect(limiter).toBe('heat');
    expect(best!.speed).toBeLessThan(top.speed - 1);
    expect(hold(car, testDay, best!.speed, 1800).held).toBe(true);
    expect(hold(car, testDay, best!.speed + 0.01, 1800)).toMatchObject({ held: false, limiter: 'heat' });
  });

  it('stands beside for how long nearly the maximum speed lasts: until heat takes its power', () => {
    const car = warm(testCar, 40);
    const top = topSpeed(balanceOf(car, testDay))!;
    const time = nearTopTime(car, testDay, top.speed);
    expect(time).toBeGreaterThan(60);
    expect(time).toBeLessThan(1800);
    expect(hold(car, testDay, 0.99 * top.speed, time - 1)).toMatchObject({ held: true });
    expect(hold(car, testDay, 0.99 * top.speed, time + 1)).toMatchObject({ held: false, limiter: 'heat' });
    expect(nearTopTime(warm(testCar, 1e5), testDay, 0.8 * top.speed)).toBe(1800);
  });

  it('does not fall with more cooling, nor rise with warmer air, more mass or a smaller pack', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 1.1, max: 2, noNaN: true }),
        (cooling, more) => {
          const own = thirty(warm(testCar, cooling));
          const slack = 1e-3;
          expect(thirty(warm(testCar, more * cooling))).toBeGreaterThan(own - slack);
          expect(
            thirty(warm(testCar, cooling), { ...testDay, altitude: 0, temperature: 298.15 + 10 * more }),
          ).toBeLessThan(own + 1);
          const heavy = { ...testCar, body: { ...testCar.body, mass: more * testCar.body.mass } };
          expect(thirty(warm(heavy, cooling))).toBeLessThan(own + slack);
          expect(thirty(warm(testCar, cooling, 12))).toBeLessThan(own + slack);
        },
      ),
      { numRuns: 2 },
    );
  });

  it('is not told without a continuous rating', () => {
    const found = thirtyMinutes(testCar, testDay, topSpeed(balanceOf(testCar, testDay))!);
    expect(found).toEqual({
      hold: null,
      limiter: null,
      reason: 'the heat of the drive unit is not modelled: continuous_power is not given',
    });
  });
});
