import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { STANDARD_GRAVITY } from '../../../src/model/gravity.ts';
import { driveTrace } from '../../../src/runs/schedule/series.ts';
import { R } from '../../../src/runs/schedule/record.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { createTraveller, travelOnce } from '../../../src/runs/schedule/trip.ts';
import { arbitraryBuild, arbitraryCar, arbitraryDay, testCar, testDay, withPackHeat } from '../../cars.ts';
import { beginning, hilly, leg, pointsDriven, sampled, stop, trip } from '../../trips.ts';

const warm = withPackHeat;
const car = warm(testCar);
const town = beginning('udds', 505);

const heated: Car = {
  ...car,
  cabin: { ...car.cabin, heater: 'resistive', loss: 60, heatCapacity: 100_000, heaterPower: 5000 },
};
const frost = { ...testDay, temperature: 263.15 };

describe('a trip', () => {
  it('closes its ledger to 1e-6 with stops, changing loads, hills and the heater', () => {
    const way = trip(town, stop(1800), leg(hilly(town, 0.05), 250), stop(8 * 3600), leg(hilly(town, -0.03), 0));
    const run = travelOnce(heated, way, { surroundings: { ...frost, slope: 0.005 } });
    expect(run.status).toBe('done');
    expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-6);
    expect(run.settled).toBeGreaterThan(0);
    expect(run.duration - run.time).toBe(1800 + 8 * 3600);
  });

  it('takes the load of each leg: the heavier costs more, and only where it is carried', () => {
    const energies = (load: number | null): readonly number[] =>
      travelOnce(car, trip(town, leg(town, load), town), { surroundings: testDay }).legs.map(each => each.energy);
    const [empty, laden] = [energies(null), energies(300)];
    expect(laden[0]).toBe(empty[0]);
    expect(laden[1]! / empty[1]!).toBeGreaterThan(1.05);
    expect(laden[2]! / empty[2]!).toBeCloseTo(1, 2);
  });

  it('pays for a climb what the height is worth, and never gets all of it back', () => {
    const up = Array.from({ length: 505 }, () => 0.02);
    const over = (slope: number[] | null): ReturnType<typeof travelLedger> =>
      travelLedger(
        travelOnce(car, trip({ ...town, slope: slope === null ? null : Float64Array.from(slope) }), {
          surroundings: testDay,
        }),
      );
    const metres = travelOnce(car, trip(town), { surroundings: testDay }).distance;
    const lifted = 1125 * STANDARD_GRAVITY * metres * Math.sin(Math.atan(0.02));
    const [level, climb, fall] = [over(null), over(up), over(up.map(each => -each))];
    expect(climb.out['slope']! / lifted).toBeCloseTo(1, 9);
    expect(fall.out['slope']! / -lifted).toBeCloseTo(1, 9);
    const cells = (ledger: typeof level): number => ledger.in['out of the cells']!;
    expect(cells(climb) - cells(level)).toBeGreaterThan(lifted);
    expect(cells(climb) + cells(fall)).toBeGreaterThan(2 * cells(level) + 10_000);
  });

  it('finds the cabin cold again after a long stop and warm after a short one', () => {
    const second = (seconds: number): number =>
      travelOnce(heated, trip(town, stop(seconds), town), { surroundings: frost }).legs[1]!.energy;
    expect(second(12 * 3600)).toBeGreaterThan(second(60) + 150_000);
  });

  it('carries the warmth of the pack from leg to leg and loses it over night', () => {
    const pack = (seconds: number): number =>
      travelOnce(car, trip(town, stop(seconds)), { surroundings: frost }).follower.state().pack;
    expect(pack(0)).toBeGreaterThan(frost.temperature + 0.1);
    expect(pack(200 * 3600)).toBeCloseTo(frost.temperature, 2);
  });

  it('is the same from one memory for all cars as from one of its own', () => {
    const travel = createTraveller();
    const options = { surroundings: testDay };
    for (const each of [car, heated, warm({ ...testCar, pack: { ...testCar.pack, series: 80 } }), car]) {
      const shared = travel(each, trip(town), options).legs[0]!.energy;
      expect(shared).toBe(travelOnce(each, trip(town), options).legs[0]!.energy);
    }
  });
});

describe('a pack that is emptied', () => {
  it('ends at the very state of charge, in the middle of a second', () => {
    const run = travelOnce(car, trip(town), { surroundings: testDay, charge: 0.08, empty: 0.0723, untilEmpty: true });
    expect(run.status).toBe('empty');
    expect(Math.abs(run.follower.state().charge - 0.0723)).toBeLessThan(1e-10);
    expect(run.time % 1).toBeGreaterThan(0);
    expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-6);
  });

  it('is driven from full to empty with every joule accounted for', () => {
    const run = travelOnce(car, trip(beginning('wltc', 1800)), {
      surroundings: testDay,
      charge: 0.95,
      untilEmpty: true,
    });
    const { gap, in: given, out } = travelLedger(run);
    expect(run.status).toBe('empty');
    expect(run.trips).toBeGreaterThan(3);
    expect(Math.abs(gap)).toBeLessThan(1e-6);
    // 0.9 of 18.7 kWh or so: 96 cells of some 3.7 V in series, 60 A h.
    expect(given['out of the cells']! / 3.6e6).toBeCloseTo(0.9 * 96 * 12 * 5 * 3.7e-3, -1);
    expect(out['drag']).toBeGreaterThan(0);
  });

  it('has nothing to drive where it is empty at the start', () => {
    const run = travelOnce(car, trip(town), { surroundings: testDay, charge: 0.04 });
    expect(run).toMatchObject({ status: 'empty', distance: 0 });
  });

  it('closes its ledger for random cars, whatever ends the trip', () => {
    const ways = fc.record({
      day: arbitraryDay,
      name: fc.constantFrom('us06', 'nycc', 'wltc', 'nedc'),
      steepest: fc.double({ min: 0, max: 0.05, noNaN: true }),
      load: fc.option(fc.double({ min: 0, max: 400, noNaN: true }), { nil: null }),
      rest: fc.integer({ min: 0, max: 40_000 }),
    });
    const ends = new Set<string>();
    fc.assert(
      fc.property(fc.oneof(arbitraryCar, arbitraryBuild), ways, (found, { day, name, steepest, load, rest }) => {
        const part = beginning(name, 300);
        const way = trip(part, stop(rest), leg(hilly(part, steepest), load), stop(rest / 3));
        const run = travelOnce(warm(found), way, {
          surroundings: { ...day, slope: 0.2 * day.slope },
          // The last tenth of a charge: a whole one takes a weak car through days.
          charge: 0.12,
          untilEmpty: true,
        });
        ends.add(run.status);
        expect(run.status, run.reason).not.toBe('failed');
        expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-6);
      }),
      { numRuns: 30, endOnFailure: true },
    );
    expect(ends.has('empty')).toBe(true);
  });
});

describe('what braking gives back', () => {
  const hard = sampled(40, t => (t < 20 ? 1.5 * t : t < 25 ? 30 : Math.max(0, 30 - 3.4 * (t - 25))));
  const braked = (change: Partial<Car['pack']>, surroundings = testDay, charge = 0.6) => {
    const of = warm({ ...testCar, pack: { ...testCar.pack, ...change } });
    const run = travelOnce(of, trip(hard), { surroundings, charge, record: 1 });
    const trace = driveTrace(run.record!, 0);
    const column = (key: string): Float64Array => trace[key]!.values as Float64Array;
    return { run, current: column('pack_current_A'), voltage: column('pack_voltage_V'), ...run.legs[0]! };
  };

  it('never charges with more than the current that the pack takes', () => {
    for (const limit of [120, 60, 25]) {
      const { current, returned, brakes } = braked({ maxChargeCurrent: limit });
      const most = -current.reduce((a, b) => Math.min(a, b), 0);
      expect(most).toBeLessThan(limit * 1.001);
      if (limit < 120) expect(most).toBeGreaterThan(limit * 0.98);
      expect(returned).toBeGreaterThan(0);
      expect(brakes).toBeGreaterThan(0);
    }
    const [free, bound] = [braked({}), braked({ maxChargeCurrent: 25 })];
    expect(bound.returned).toBeLessThan(0.5 * free.returned);
    expect(bound.brakes).toBeGreaterThan(free.brakes);
  });

  it('never lifts the pack above its highest voltage', () => {
    const { voltage, returned } = braked({ maxVoltage: 397 }, testDay, 0.9);
    expect(Math.max(...voltage)).toBeLessThan(397 * 1.001);
    expect(Math.max(...voltage)).toBeGreaterThan(396);
    expect(returned).toBeLessThan(braked({}, testDay, 0.9).returned);
  });

  it('is nothing where the pack is full', () => {
    const { run, brakes } = braked({ maxVoltage: 385 }, testDay, 1);
    // Open, its cells are above the highest voltage.
    expect(run.legs[0]!.returned).toBeLessThan(1);
    expect(brakes).toBeGreaterThan(braked({}).brakes);
  });

  it('is nothing where the pack is too cold to be charged, and all the same from where it is not', () => {
    const cold = { none: 268.15, full: 288.15 };
    const at = (temperature: number) =>
      braked({ chargeCold: cold, resistanceGrowth: 1e-3 }, { ...testDay, temperature });
    expect(at(263.15).returned).toBeLessThan(1);
    expect(at(278.15).returned).toBeGreaterThan(100_000);
    expect(at(278.15).returned).toBeLessThan(0.9 * at(293.15).returned);
  });
});

describe('the record', () => {
  it('is in step with the sums: distance, energy, brakes and the state of the pack', () => {
    const run = travelOnce(car, trip(town, stop(100), town), { surroundings: testDay, record: 1 });
    const record = run.record!;
    const last = (index: number): number => record.column(index).at(-1)!;
    expect(record.rows()).toBe(2 * pointsDriven(town));
    expect(last(R.distance)).toBeCloseTo(run.distance, 8);
    expect(last(R.time)).toBe(run.time);
    expect(last(R.energy)).toBeCloseTo(run.legs[0]!.energy + run.legs[1]!.energy, 5);
    expect(last(R.brakes)).toBeCloseTo(run.legs[0]!.brakes + run.legs[1]!.brakes, 5);
    expect(last(R.charge)).toBe(run.follower.state().charge);
    expect([...record.column(R.asked)]).toEqual([...record.column(R.speed)]);
  });
});
