/** A car that can not do what its schedule asks, for most of the way: it is driven in long steps, and to the same end. */
import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Schedule } from '../../../src/cycles/schedule.ts';
import type { Car } from '../../../src/model/car.ts';
import type { FollowMethod } from '../../../src/runs/schedule/journey.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import type { TravelRun } from '../../../src/runs/schedule/trip.ts';
import { solveExplicit } from '../../../src/solvers/explicit.ts';
import { testCar, testDay, testDrive, withPackHeat } from '../../cars.ts';
import { hilly, trip } from '../../trips.ts';
import { methodStep } from '../../../src/runs/schedule/method-step.ts';

const wltc = scheduleNamed('wltc');

function withUnit(change: Partial<(typeof testDrive)['unit']>, ratio = testDrive.ratio): Car {
  return withPackHeat({ ...testCar, drives: [{ ...testDrive, ratio, unit: { ...testDrive.unit, ...change } }] });
}

/** Its motor turns as fast as it may at 39 km/h. */
const short = withUnit({ maxSpeed: 500, taperSpeed: 475 }, 14);
const weak = withUnit({ peakPower: 9000 });
const both: Car = {
  ...short,
  drives: [...short.drives, ...short.drives.map(drive => ({ ...drive, axle: 'rear' as const }))],
  frontTorqueShare: 0.6,
};
const heated: Car = {
  ...weak,
  cabin: { ...weak.cabin, heater: 'resistive', loss: 60, heatCapacity: 100_000, heaterPower: 5000 },
};

/** Its pulses are spent and recover on the way: out of a pack that is too weak, and in a car that changes gear. */
const pulsing = (car: Car, maxCurrent: number): Car => ({
  ...car,
  pack: { ...car.pack, maxCurrent, pulses: { continuous: 0.4 * maxCurrent, continuousCharge: 30, time: 15 } },
});
const gears = [3.2, 1.8, 1].map((ratio, i) => ({
  ratio,
  efficiency: 0.97,
  inertia: 0.02,
  upshift: [900, 850, 1e4][i]!,
}));
const geared: Car = {
  ...weak,
  drives: weak.drives.flatMap(drive =>
    (['front', 'rear'] as const).map(axle => ({ ...drive, axle, ratio: 4, gearbox: { gears, shiftTime: 0.4 } })),
  ),
  frontTorqueShare: 0.45,
};

function driven(car: Car, schedule: Schedule, method?: FollowMethod): TravelRun {
  const surroundings = { ...testDay, temperature: 268 };
  return travelOnce(car, trip(schedule), { surroundings, ...(method !== undefined && { method }) });
}

/** The steps of our own, but every interval by itself. */
const closely: FollowMethod = { solve: solveExplicit, step: methodStep, cut: 1 / 4096 };

describe('a car that is late most of the way', () => {
  const cases = [
    ['whose motor turns no faster', short, wltc],
    ['whose two motors turn no faster', both, wltc],
    ['whose motor turns no faster, in hills', short, hilly(wltc, 0.04)],
    ['that is too weak', weak, wltc],
    ['that is too weak, in hills', weak, hilly(wltc, 0.04)],
    ['that is too weak, and heated', heated, wltc],
    ['that spends its pulses', pulsing(withUnit({}), 60), wltc],
    ['that is too weak and spends its pulses, in hills', pulsing(weak, 45), hilly(wltc, 0.04)],
    ['that changes gear at both axles', geared, wltc],
    ['that changes gear at both axles and spends its pulses, in hills', pulsing(geared, 60), hilly(wltc, 0.04)],
  ] as const;

  it.each(cases)('%s gets as far and takes as much as if each second were looked at by itself', (_, car, schedule) => {
    const [far, close] = [driven(car, schedule), driven(car, schedule, closely)];
    const [a, b] = [travelLedger(far), travelLedger(close)];
    const cells = 'out of the cells';
    expect(far.status).toBe(close.status);
    expect(far.follower.inner.totals.late).toBeGreaterThan(300);
    expect(Math.abs(far.distance / close.distance - 1)).toBeLessThan(1e-7);
    expect(Math.abs(a.in[cells]! / b.in[cells]! - 1)).toBeLessThan(2e-7);
    expect(Math.abs(far.follower.inner.totals.late / close.follower.inner.totals.late - 1)).toBeLessThan(1e-6);
    expect(Math.abs(a.gap)).toBeLessThan(1e-7);
  });

  it('asks the forward model a few times a second of what it is late', () => {
    for (const car of [short, weak]) {
      const { evaluations, beyond } = driven(car, wltc).follower.inner.totals;
      expect(beyond).toBeGreaterThan(400);
      // 31 of both where every second is begun anew.
      expect(evaluations / beyond).toBeLessThan(12);
    }
  });

  it('is not held up by how quickly a motor comes to its greatest speed', () => {
    const warming = { rise: 0.2, warmAfter: 1800, coldAfter: 10_800 };
    const sharp = withUnit({ maxSpeed: 500, taperSpeed: 499.9 }, 14);
    const { front, rear } = sharp.tyres;
    const cold: Car = { ...sharp, tyres: { front: { ...front, warming }, rear: { ...rear, warming } } };
    // Faster than it can go, for a quarter of an hour.
    const time = Float64Array.of(0, 40, 940, 980);
    const run = driven(cold, { ...wltc, time, speed: Float64Array.of(0, 20, 20, 0), slope: null, phases: [] });
    const { evaluations, beyond } = run.follower.inner.totals;
    // Cold tyres change all the while: it is never held there for good. 21 with explicit steps.
    expect(evaluations / beyond).toBeLessThan(18);
    expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-10);
  });
});
