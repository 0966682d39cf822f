import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { range, rangeFigures } from '../../../src/runs/trip/range.ts';
import type { RangeOptions } from '../../../src/runs/trip/range.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';
import { profile, trip } from '../../trips.ts';

const cabin: Car['cabin'] = {
  heater: 'resistive',
  cooled: true,
  temperature: 293.15,
  loss: 55,
  heatCapacity: 100_000,
  heaterPower: 5000,
  heatPumpFactor: 2.4,
  heatPumpSlope: 0.05,
  coolerFactor: 2.5,
  sun: 200,
};
const car = withPackHeat({ ...testCar, cabin });
const mix = trip(scheduleNamed('wltc_low'), scheduleNamed('wltc_extra_high'));
const reached = (of: Car, options: RangeOptions): number => {
  const ranged = rangeFigures(of, mix, options, ['range']);
  return 'none' in ranged ? Number.NaN : Number(ranged.summary['range']);
};
const far = (of: Car, day: Partial<Surroundings> = {}): number => reached(of, { surroundings: { ...testDay, ...day } });
const body = (change: Partial<Car['body']>): Car => ({ ...car, body: { ...car.body, ...change } });
const pack = (change: Partial<Car['pack']>): Car => ({ ...car, pack: { ...car.pack, ...change } });

describe('the range', () => {
  const plain = far(car);

  it('shrinks with mass, with age, with a headwind, with drag, with lights, and uphill', () => {
    const shorter: readonly (readonly [string, number])[] = [
      ['heavier', far(body({ mass: 1350 }))],
      ['aged capacity', far(pack({ health: 0.8 }))],
      ['aged resistance', far(pack({ resistanceGrowth: 2 }))],
      ['headwind', far(car, { wind: 5 })],
      ['drag', far(body({ dragArea: 0.9 }))],
      ['consumers', far({ ...car, auxiliaries: { power: 900, converterEfficiency: 0.9 } })],
      ['uphill', far(car, { slope: 0.01 })],
    ];
    for (const [name, distance] of shorter) expect(distance, name).toBeLessThan(0.995 * plain);
    expect(far(pack({ health: 0.8 })) / plain).toBeCloseTo(0.8, 1);
    expect(far(car, { wind: -4 })).toBeGreaterThan(plain);
    expect(far(car, { slope: -0.005 })).toBeGreaterThan(plain);
    expect(far(car, { altitude: 2000 })).toBeGreaterThan(plain);
  });

  it('is shorter the colder it is, and in the heat by what cooling takes', () => {
    const found = [253.15, 263.15, 273.15, 283.15, 293.15].map(temperature => far(car, { temperature }));
    for (let i = 1; i < found.length; i++) expect(found[i]).toBeGreaterThan(found[i - 1]!);
    expect(found[0]! / found[4]!).toBeLessThan(0.75);
    // Thinner air and less resistance in the cells may outweigh it.
    const windows: Car = { ...car, cabin: { ...cabin, cooled: false } };
    expect(far(car, { temperature: 313.15 })).toBeLessThan(0.98 * far(windows, { temperature: 313.15 }));
  });

  it('is longer with a heat pump in the frost', () => {
    const pump: Car = { ...car, cabin: { ...cabin, heater: 'heat pump' } };
    expect(far(pump, { temperature: 268.15 })).toBeGreaterThan(1.05 * far(car, { temperature: 268.15 }));
  });

  it('keeps a reserve of the window', () => {
    const kept = reached(car, { surroundings: testDay, reserve: 0.2 });
    expect(kept / plain).toBeGreaterThan(0.77);
    expect(kept / plain).toBeLessThan(0.84);
  });

  it('begins where it is told to, and splits in two', () => {
    const upper = travelOnce(car, mix, { surroundings: testDay, charge: 0.95, empty: 0.5, untilEmpty: true }).distance;
    const lower = travelOnce(car, mix, { surroundings: testDay, charge: 0.5, untilEmpty: true }).distance;
    // The way begins anew, and the pack is at the temperature of the air again.
    expect((upper + lower) / plain).toBeCloseTo(1, 1);
  });
});

describe('a range with all that goes with it', () => {
  const result = range(car, mix, { surroundings: testDay, temperatures: [263.15, 293.15] });
  const { summary, series, ledger } = result;

  it('ends empty at the low end of the window, with its ledger closed', () => {
    expect(summary).toMatchObject({ ended_by: 'empty', charge_start: 0.95 });
    expect(summary['charge_end']).toBeCloseTo(0.05, 9);
    expect(Math.abs(ledger.gap)).toBeLessThan(1e-6);
    expect(result.warnings).toEqual([]);
    expect(result.opinion).toMatchObject({ agrees: true });
  });

  it('is energy over consumption', () => {
    const used = (summary['energy'] as number) / (summary['consumption'] as number);
    expect(used).toBeCloseTo(summary['range'] as number, 6);
    const perTrip = (summary['range'] as number) / (summary['trips'] as number);
    expect(perTrip).toBeCloseTo(travelOnce(car, mix, { surroundings: testDay }).distance, 3);
  });

  it('is the same in the curve over the seasons as alone', () => {
    const found = series['temperature']!['range_m']!.values as Float64Array;
    expect(found[1]).toBe(summary['range']);
    expect(found[0]).toBe(far(car, { temperature: 263.15 }));
  });

  it('has a trace that ends at the range, with the state of charge falling', () => {
    const trace = series['distance']!;
    expect((trace['distance_m']!.values as Float64Array).at(-1)).toBeCloseTo(summary['range'] as number, 6);
    expect((trace['charge_1']!.values as Float64Array)[0]).toBe(0.95);
  });
});

describe('a range without an answer', () => {
  it('says that nothing is left above window and reserve', () => {
    const { summary, reasons } = range(car, mix, { surroundings: testDay, charge: 0.2, reserve: 0.5 });
    expect(summary['range']).toBeNull();
    expect(Object.values(reasons)[0]).toMatch(/empty at the start/);
  });

  it('says that a car that only rolls down a hill does not get empty', () => {
    const down = {
      ...profile([
        [0, 10],
        [600, 10],
      ]),
      slope: Float64Array.of(-0.08),
    };
    const idle: Car = { ...car, auxiliaries: { power: 0, converterEfficiency: 1 } };
    const { summary, reasons } = range(idle, trip(down), { surroundings: testDay, charge: 0.5 });
    expect(summary['range']).toBeNull();
    expect(Object.values(reasons)[0]).toMatch(/does not get empty/);
  }, 120_000);

  it('says that a car can not begin', () => {
    const wall = {
      ...profile([
        [0, 0],
        [10, 10],
      ]),
      slope: Float64Array.of(0.6),
    };
    const { reasons } = range(car, trip(wall), { surroundings: testDay });
    expect(Object.values(reasons)[0]).toMatch(/can not begin/);
  });
});
