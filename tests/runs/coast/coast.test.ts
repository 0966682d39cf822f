import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { STANDARD_GRAVITY } from '../../../src/model/gravity.ts';
import { coast } from '../../../src/runs/coast/coast.ts';
import { coastOutputs } from '../../../src/runs/coast/outputs.ts';
import { coastStart } from '../../../src/runs/coast/run.ts';
import type { CoastOptions } from '../../../src/runs/coast/run.ts';
import { doubtsOf } from '../../../src/runs/doubts.ts';
import type { Result } from '../../../src/runs/result.ts';
import { numbers } from '../../../src/runs/series.ts';
import { arbitraryBuild, arbitraryDay, testCar, testDay } from '../../cars.ts';
import { idealCar, roadWithDensity } from '../../published/ideal.ts';

const stillDay = roadWithDensity();
const KMH = 1 / 3.6;
const down: CoastOptions = { surroundings: testDay, from: 120 * KMH, to: 20 * KMH, lift: null };
const inGear: CoastOptions = { ...down, lift: 1 };
const number = (result: Result, key: string): number => result.summary[key] as number;
const column = (result: Result, series: string, key: string): number[] => [
  ...numbers(result.series[series] ?? {}, key),
];

/** What a drive brakes with. */
function braking(car: Car, regeneration: Partial<Car['drives'][number]['regeneration']>): Car {
  return {
    ...car,
    drives: car.drives.map(drive => ({ ...drive, regeneration: { ...drive.regeneration, ...regeneration } })),
  };
}

describe('a coast-down in neutral', () => {
  it('is a closed form where nothing resists but rolling: even deceleration', () => {
    const result = coast(idealCar({ mass: 1000, rolling: { c0: 0.012 } }), { ...down, surroundings: stillDay });
    const a = 0.012 * STANDARD_GRAVITY;
    expect(number(result, 'time') / ((100 * KMH) / a)).toBeCloseTo(1, 10);
    expect(number(result, 'mean_deceleration') / a).toBeCloseTo(1, 10);
    expect(number(result, 'force_end') / (1000 * a)).toBeCloseTo(1, 10);
  });

  it('takes longer by all that turns: rotor through the gears, and wheels', () => {
    const wheels = { mass: 1000, rolling: { c0: 0.012 }, radius: 0.3, ratio: 9, wheelInertia: 0.9, rotorInertia: 0.05 };
    const result = coast(idealCar(wheels), { ...down, surroundings: stillDay });
    const moved = 1000 + (4 * 0.9 + 81 * 0.05) / 0.3 ** 2;
    expect(number(result, 'mean_deceleration') / ((0.012 * STANDARD_GRAVITY * 1000) / moved)).toBeCloseTo(1, 10);
    // The force at the road is what it was.
    expect(number(result, 'force_start') / (0.012 * STANDARD_GRAVITY * 1000)).toBeCloseTo(1, 10);
  });

  it('slows down as the forward model does at no torque', () => {
    const car = { ...testCar, drives: testCar.drives.map(drive => ({ ...drive, dragTorque: 0, efficiency: 0.97 })) };
    const result = coast(car, down);
    const plant = plantFor(plantParameters(car, testDay, 0));
    const y = plant.initial(0);
    const out = new Float64Array(plant.states + plant.quadratures);
    const [speeds, found] = [column(result, 'time', 'speed_m_s'), column(result, 'time', 'deceleration_m_s2')];
    for (const k of [0, 50, 100, 150]) {
      y[0] = speeds[k] ?? Number.NaN;
      y[2] = column(result, 'time', 'charge_1')[k] ?? Number.NaN;
      plant.rates(plant.modeAt(y), y, out);
      expect(-(out[0] ?? 0) / (found[k] ?? 0)).toBeCloseTo(1, 9);
    }
  });

  it('leaves the motor behind where a gearbox is out of gear', () => {
    const gears = [3, 1.8, 1.1].map(ratio => ({ ratio, efficiency: 0.98, inertia: 0, upshift: 500 }));
    const gearbox = { gears, shiftTime: 0.4 };
    const geared = { ...testCar, drives: testCar.drives.map(drive => ({ ...drive, ratio: 4, gearbox })) };
    const heavy = {
      ...geared,
      drives: geared.drives.map(drive => ({ ...drive, dragTorque: 9, unit: { ...drive.unit, inertia: 0.2 } })),
    } as unknown as Car;
    const [light, other] = [geared as unknown as Car, heavy].map(car => coast(car, down));
    expect(number(other as Result, 'time')).toBe(number(light as Result, 'time'));
    // Its losses with it: what is left is what stands still.
    expect(light?.ledger.out['gears and shafts']).toBeCloseTo(0, 6);
    const left = coast(braking(heavy, { share: 0 }), inGear);
    expect(number(left, 'time')).not.toBe(number(other as Result, 'time'));
  });

  it('tells each ten kilometres an hour, and every output or why there is none', () => {
    const result = coast(testCar, { ...down, from: 65 * KMH, to: 38 * KMH });
    expect(column(result, 'marks', 'speed_m_s').map(speed => Math.round(3600 * speed * 1e-3))).toEqual([
      65, 60, 50, 40, 38,
    ]);
    expect(column(result, 'marks', 'time_s').at(-1)).toBe(number(result, 'time'));
    expect(Object.keys(result.summary)).toEqual(Object.keys(coastOutputs));
    // From 60 to 40 alone is as long as the same stretch inside.
    const [, first = 0, , third = 0] = column(result, 'marks', 'time_s');
    expect(number(coast(testCar, { ...down, from: 60 * KMH, to: 40 * KMH }), 'time') / (third - first)).toBeCloseTo(
      1,
      6,
    );
  });

  it('comes to rest', () => {
    const result = coast(testCar, { ...down, to: 0 });
    expect(number(result, 'end_speed')).toBe(0);
    expect(number(result, 'time')).toBeGreaterThan(number(coast(testCar, down), 'time'));
    expect(doubtsOf(result)).toEqual([]);
  });

  it('does not slow down where the road falls: at all, or only to where the air holds it', () => {
    const steep = coast(testCar, { ...down, surroundings: { ...testDay, slope: -0.1 } });
    expect(steep.reasons['time']).toMatch(/^at 120 km\/h the car does not slow down: slope or wind push/u);
    const car = idealCar({ mass: 1000, rolling: { c0: 0.01 }, dragArea: 0.6 });
    const slope = -0.02;
    const result = coast(car, { ...down, surroundings: { ...stillDay, slope } });
    expect(result.reasons['time']).toMatch(/^the car does not slow down to 20 km\/h: at \d\d\.\d+ km\/h slope/u);
    // There the air holds what the slope pushes: m g (sin - c0 cos) = drag.
    const angle = Math.atan(0.02);
    const push = 1000 * STANDARD_GRAVITY * (Math.sin(angle) - 0.01 * Math.cos(angle));
    const drag = (column(result, 'time', 'drag_N').at(-1) ?? 0) / push;
    expect(drag - 1).toBeGreaterThan(0);
    expect(drag - 1).toBeLessThan(2e-3);
    expect(doubtsOf(result)).toEqual([]);
  });
});

describe('a coast-down in gear', () => {
  it('is a closed form under an even braking torque, and all of it comes back', () => {
    const car = braking(idealCar({ mass: 1000, radius: 0.3, ratio: 9 }), { torque: 20, fadeFrom: 0, fadeTo: -1 });
    const result = coast(car, { ...inGear, surroundings: stillDay });
    const a = (20 * 9) / 0.3 / 1000;
    expect(number(result, 'time') / ((100 * KMH) / a)).toBeCloseTo(1, 10);
    expect(number(result, 'recovered')).toBeCloseTo(1, 9);
    const half = coast(car, { ...inGear, lift: 0.5, surroundings: stillDay });
    expect(number(half, 'time') / number(result, 'time')).toBeCloseTo(2, 9);
  });

  it('is a closed form at an even power: m (v0^2 - v1^2) / 2 P', () => {
    const car = braking(idealCar({ mass: 1000, radius: 0.3, ratio: 9 }), { torque: 1e6, power: 12_000, gripShare: 1 });
    const result = coast(car, { ...inGear, surroundings: stillDay });
    const motion = 500 * ((120 * KMH) ** 2 - (20 * KMH) ** 2);
    expect(number(result, 'time') / (motion / 12_000)).toBeCloseTo(1, 9);
    expect(number(result, 'peak_power_back')).toBeCloseTo(12_000, 5);
  });

  it('gives no more than the pack takes: nothing to a cold one, and then it coasts as in neutral', () => {
    const surroundings = { ...testDay, soaked: 250 };
    const cold = coast(testCar, { ...inGear, surroundings });
    expect(number(cold, 'energy_back')).toBe(0);
    expect(number(cold, 'time')).toBeGreaterThan(1.5 * number(coast(testCar, inGear), 'time'));
    // It still feeds what is drawn beside it.
    expect(number(cold, 'time')).toBeLessThan(number(coast(testCar, { ...down, surroundings }), 'time'));
    expect(doubtsOf(cold)).toEqual([]);
  });

  it('holds the continuous charge current when the budget of its peak is spent', () => {
    const { pack } = testCar;
    const pulses = { time: 0.3, continuous: Infinity, continuousCharge: 20 };
    const car = { ...testCar, pack: { ...pack, pulses } } as Car;
    const result = coast(braking(car, { torque: 60, power: 40_000 }), inGear);
    const current = column(result, 'time', 'charge_current_A');
    expect(current[0]).toBeGreaterThan(25);
    expect(Math.max(...current.slice(-100))).toBeLessThan(20 + 1e-6);
    expect(doubtsOf(result)).toEqual([]);
  });

  it('says that the motor bears no such speed', () => {
    expect(coast(testCar, { ...inGear, from: 140 }).reasons['time']).toMatch(
      /a motor would be turned faster than it may/u,
    );
  });
});

const anyCoast = fc.property(
  arbitraryBuild,
  arbitraryDay,
  fc.constantFrom(null, 0.3, 1),
  fc.double({ min: 8, max: 30, noNaN: true }),
  (car, surroundings, lift, from) => {
    // At the very peak of friction two decelerations may be in balance with one braking power: no driver brakes there.
    fc.pre(car.drives.every(({ regeneration }) => regeneration.gripShare < 0.9));
    const result = coast(car, { surroundings, from, to: 3, lift });
    expect(doubtsOf(result)).toEqual([]);
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-8);
  },
);

it('the energies of any car add up, and another method says the same', { timeout: 120_000 }, () => {
  fc.assert(anyCoast, { numRuns: 60, endOnFailure: true });
});

it('so do those of two that were wrong: a pack takes nothing, and a drive braking hard gives less, or nothing at all', () => {
  for (const [seed, path] of [
    [7, '51'],
    [328, '37'],
  ] as const)
    fc.assert(anyCoast, { seed, path, numRuns: 1 });
});

it('holds a lossy drive to what a cold pack takes up to where all of its braking gives no more', () => {
  const surroundings = { ...testDay, soaked: 250 };
  for (const copper of [0.3, 1, 2]) {
    const lossy = {
      ...testCar,
      drives: testCar.drives.map(drive => ({
        ...drive,
        unit: { ...drive.unit, losses: { ...drive.unit.losses, copper, fixed: 100 } },
      })),
    };
    const result = coast(braking(lossy, { fadeFrom: 1, fadeTo: 0, gripShare: 0.8 }), { ...inGear, surroundings });
    expect(doubtsOf(result)).toEqual([]);
    expect(result.opinion?.difference).toBeLessThan(1e-8);
  }
});

it('is as it is at a state, whatever a trial step of a solver asked before', () => {
  const { coasting } = coastStart(testCar, inGear);
  const y = coasting.initial(inGear.from);
  const mode = coasting.modeAt(y);
  const rates = (at: Float64Array): Float64Array => {
    const out = new Float64Array(coasting.states + coasting.quadratures);
    coasting.rates(mode, at, out);
    return out;
  };
  const before = rates(y);
  expect(rates(y.map(() => Number.NaN))[0]).toBeNaN();
  rates(y).forEach((rate, i) => expect(Math.abs(rate - before[i]!)).toBeLessThan(1e-9 * (1 + Math.abs(rate))));
});

it('refuses to coast up to a speed, and options that it does not have', () => {
  expect(() => coast(testCar, { ...down, to: 40 })).toThrow(/coasts down to a lower speed/u);
  expect(() => coast(testCar, { ...down, pedal: 0 } as CoastOptions)).toThrow(/pedal/u);
});
