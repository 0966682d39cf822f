/** Currents that last: what is above the current for ever fills a budget by I^2 - Ic^2, and it falls to that when the budget is spent. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car, Pack } from '../../../src/model/car.ts';
import { packBalance, recovered } from '../../../src/model/pack/balance.ts';
import { chargeCurrent, dischargeCurrent } from '../../../src/model/pack/limits.ts';
import { packAt, packFigures, PackNow } from '../../../src/model/pack/state.ts';
import { budgetAt } from '../../../src/model/pack/limits.ts';
import { atCurrent, axleMode, SPENT } from '../../../src/model/forward/state.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { launchAgain, secondOpinion } from '../../../src/runs/second-opinion.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { ledgerOf } from '../../../src/runs/ledger.ts';
import { balanceOf } from '../../../src/runs/sheet/balance.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { drive } from '../../../src/runs/trip/drive.ts';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { arbitraryBuild, arbitraryDay, idealCar, testCar, testDay, withPackHeat } from '../../cars.ts';
import { profile, trip } from '../../trips.ts';

/** s for which 178 A last that are 360 A for 10 s over 120 A: (360^2 - 120^2) 10 / (178^2 - 120^2). */
const LASTS = 66.651238139319602;

const ideal = idealCar({ mass: 1250, force: 1e5, power: 178 * 400 });
const flat = { charge: [0, 1], voltage: [400, 400] };
const pulses = { time: 10, continuous: 120, continuousCharge: 120 };
const withPack = (car: Car, pack: Partial<Pack>): Car => ({ ...car, pack: { ...car.pack, ...pack } });
const limited = withPack(ideal, {
  cell: { ...ideal.pack.cell, ocv: flat },
  maxCurrent: 360,
  maxChargeCurrent: 360,
  maxVoltage: 800,
  pulses,
});

/** W of the slope at 25 m/s: 178 A. */
const rise = (178 * 400) / (1250 * 9.80665 * 25);
const climbing = { ...testDay, slope: Math.tan(Math.asin(rise)) };
const steady = trip(
  profile([
    [0, 25],
    [100, 25],
  ]),
);

describe('a budget of current', () => {
  const figures = packFigures(limited.pack);
  const at = (current: number, spent = 0, spentCharge = 0): PackNow => {
    const now = Object.assign(new PackNow(), { charge: 0.5, temperature: 298.15, air: 298.15, current });
    Object.assign(now, { spent, spentCharge });
    packAt(figures, now);
    packBalance(figures, now);
    budgetAt(figures, now);
    return now;
  };

  it('is spent by 360 A in 10 s, by 178 A in 66.65 s, and by 120 A never', () => {
    expect(1 / at(360).spending).toBeCloseTo(10, 12);
    expect(1 / at(178).spending / LASTS).toBeCloseTo(1, 12);
    expect(at(120).spending).toBe(0);
    expect(1 / at(-178).chargeSpending / LASTS).toBeCloseTo(1, 12);
    expect(at(-178).spending).toBe(at(0).spending);
  });

  it('falls to just the current for ever when it is spent, and not before', () => {
    expect(dischargeCurrent(figures, at(0, 1 - 1e-9))).toBe(360);
    expect(dischargeCurrent(figures, at(0, 1))).toBe(120);
    expect(chargeCurrent(figures, at(0, 0, 1))).toBe(120);
    expect(chargeCurrent(figures, at(0, 1, 0.5))).toBe(360);
  });

  it('is whole again after a rest, and no fuller', () => {
    // 120 A for ever over what 360 A leave in 10 s: 80 s.
    const [out, back] = recovered(figures, 1, 0.5, 20);
    expect(out).toBeCloseTo(0.75, 12);
    expect(back).toBeCloseTo(0.25, 12);
    expect(recovered(figures, 1, 0.5, 80)[0]).toBeCloseTo(0, 12);
    expect(recovered(figures, 1, 0.5, 800)).toEqual([0, 0]);
  });

  it('lets a cold and a nearly empty pack give less', () => {
    const weak = { cold: { none: 233.15, full: 283.15 }, low: { charge: 0.2, share: 0.4 } };
    const of = packFigures({ ...limited.pack, weak });
    const most = (charge: number, temperature: number, spent = 0): number => {
      const now = Object.assign(new PackNow(), { charge, temperature, spent });
      packAt(of, now);
      budgetAt(of, now);
      return dischargeCurrent(of, now);
    };
    expect(most(0.5, 300)).toBe(360);
    expect(most(0.5, 258.15)).toBeCloseTo(180, 9);
    expect(most(0.1, 300)).toBeCloseTo(0.7 * 360, 9);
    expect(most(0, 300)).toBeCloseTo(0.4 * 360, 9);
    expect(most(0.5, 233)).toBe(0);
    // What it gives for ever is no more than that, and never chatters about it.
    expect(most(0.5, 258.15, 1)).toBe(120);
    expect(most(0.5, 240, 1)).toBeCloseTo((360 * 6.85) / 50, 9);
  });
});

describe('a car under its pedal', () => {
  const options = { surroundings: testDay, from: 20, to: 100, stop: 'to', tolerance: 1e-11 } as const;
  const run = launchOnce(limited, options);

  it('gives 178 A for as long as they last, then 120 A', () => {
    const spent = run.solution.events.filter(({ kind, to }) => kind === 'switch' && (to & SPENT) !== 0);
    expect(spent).toHaveLength(1);
    expect(spent[0]!.time / LASTS).toBeCloseTo(1, 9);
    expect([0, 1].some(axle => atCurrent(axleMode(spent[0]!.to, axle)))).toBe(true);
    const y = new Float64Array(run.plant.states + 1);
    y.set(run.solution.states.subarray((run.solution.nodes - 1) * run.plant.states));
    run.plant.rates(run.solution.modes.at(-2)!, y, new Float64Array(run.plant.states + run.plant.quadratures));
    expect(run.plant.now.current).toBeCloseTo(120, 6);
    expect(Math.abs(ledgerOf(run).gap)).toBeLessThan(1e-9);
    expect(secondOpinion(run, launchAgain(limited, options)).difference).toBeLessThan(1e-8);
  });

  it('has no such state where it can not come near its limits', () => {
    expect(run.plant.budgetState).toBeGreaterThan(0);
    const { pack } = limited;
    const rich = withPack(limited, { minVoltage: 300, pulses: { ...pulses, continuous: 420 }, maxCurrent: 1000 });
    expect(launchOnce(rich, options).plant.budgetState).toBe(-1);
    expect(launchOnce(withPack(limited, { maxCurrent: 120, minVoltage: 300 }), options).plant.budgetState).toBe(-1);
    expect(pack.pulses).toBe(pulses);
  });
});

describe('a car on a schedule', () => {
  it('keeps its speed for as long as 178 A last, and no longer', () => {
    const result = travelOnce(limited, steady, { surroundings: climbing });
    const { totals } = result.follower.inner;
    expect((100 - totals.beyond) / LASTS).toBeCloseTo(1, 9);
    expect(result.follower.pack.spent).toBe(1);
    expect(Math.abs(travelLedger(result).gap)).toBeLessThan(1e-9);
  });

  it('brakes with 178 A for as long as they last, then with 120 A and its brakes', () => {
    const down = { ...testDay, slope: -climbing.slope };
    const { follower, legs } = travelOnce(withPack(limited, { charge: 0.5 }), steady, { surroundings: down });
    expect(follower.pack.spentCharge).toBe(1);
    const back = 400 * (178 * LASTS + 120 * (100 - LASTS));
    expect(-legs[0]!.energy / back).toBeCloseTo(1, 8);
    expect(follower.sums.brakes / (400 * 58 * (100 - LASTS))).toBeCloseTo(1, 7);
  });

  it('is agreed on by the second method, with a pack that is small for its schedule', () => {
    const warm = withPackHeat(testCar);
    const small = withPack(warm, {
      maxCurrent: 120,
      maxChargeCurrent: 60,
      pulses: { time: 10, continuous: 50, continuousCharge: 15 },
      weak: { cold: { none: 233.15, full: 298.15 }, low: { charge: 0.6, share: 0.4 } },
    });
    const result = drive(small, trip(scheduleNamed('us06')), { surroundings: { ...testDay, temperature: 278.15 } });
    const free = drive(warm, trip(scheduleNamed('us06')), { surroundings: { ...testDay, temperature: 278.15 } });
    expect(Number(result.summary['time_too_slow'])).toBeGreaterThan(Number(free.summary['time_too_slow']) + 5);
    expect(Number(result.summary['returned'])).toBeLessThan(0.9 * Number(free.summary['returned']));
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-6);
    expect(result.opinion?.agrees).toBe(true);
    expect(result.warnings.filter(warning => warning.includes('found late'))).toEqual([]);
  });
});

it('neither chatters nor is found late, in launches of random cars', () => {
  fc.assert(
    fc.property(arbitraryBuild, arbitraryDay, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (build, day, share) => {
      const { maxCurrent, maxChargeCurrent } = build.pack;
      const car = withPack(build, {
        pulses: { time: 3, continuous: share * maxCurrent, continuousCharge: share * maxChargeCurrent },
      });
      const surroundings = { ...day, slope: 0 };
      fc.pre(balanceOf(car, surroundings)(0).acceleration > 0.5);
      const { solution, plant } = launchOnce(car, { surroundings, stop: '400_m' });
      expect(solution.status).not.toBe('failed');
      if (plant.budgetState < 0) return;
      for (let k = 0; k < solution.nodes; k++) {
        const spent = solution.states[k * plant.states + plant.budgetState]!;
        expect(spent).toBeGreaterThan(-1e-9);
        expect(spent).toBeLessThan(1 + 1e-9);
      }
    }),
    { numRuns: 80 },
  );
});
