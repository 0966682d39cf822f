/** A car at full pedal behind its schedule changes gear as it does in a launch, whatever points the schedule has meanwhile. */
import { describe, expect, it } from 'vitest';
import type { Schedule } from '../../../src/cycles/schedule.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import type { TravelOptions, TravelRun } from '../../../src/runs/schedule/trip.ts';
import { solveExtrapolation } from '../../../src/solvers/extrapolation.ts';
import { testCar, testDay, testDrive, withPackHeat } from '../../cars.ts';
import { beginning, hilly, profile, trip } from '../../trips.ts';
import { methodStep } from '../../../src/runs/schedule/method-step.ts';

const gear = (ratio: number): { ratio: number; efficiency: number; inertia: number; upshift: number } => ({
  ratio,
  efficiency: 0.97,
  inertia: 0.05,
  upshift: 700,
});
const geared = withPackHeat({
  ...testCar,
  drives: [{ ...testDrive, ratio: 4, gearbox: { gears: [3.2, 1.9, 1.2, 0.9].map(gear), shiftTime: 0.7 } }],
});

/** Far faster than it can, with a point every so many seconds. */
const rush = (spacing: number): Schedule => {
  const points = Array.from({ length: Math.round(42 / spacing) }, (_, i) => [1 + (i + 1) * spacing, 70] as const);
  return profile([[0, 0], [1, 70], ...points]);
};
const driven = (schedule: Schedule, options: Partial<TravelOptions> = {}): TravelRun =>
  travelOnce(geared, trip(schedule), { surroundings: testDay, ...options });

describe('a change of gear under way at a point of the schedule', () => {
  const [whole, often, odd] = [driven(rush(21)), driven(rush(0.25)), driven(rush(0.6))];

  it('goes on: the points of a schedule that is out of reach change nothing', () => {
    expect(whole.follower.inner.gear).toBe(3);
    for (const run of [often, odd]) {
      expect(run.follower.inner.gear).toBe(3);
      expect(Math.abs(run.distance / whole.distance - 1)).toBeLessThan(1e-6);
      expect(Math.abs(run.follower.inner.speed / whole.follower.inner.speed - 1)).toBeLessThan(1e-6);
      const [a, b] = [run, whole].map(each => travelLedger(each).in['out of the cells'] ?? Number.NaN);
      expect(Math.abs((a ?? 0) / (b ?? 0) - 1)).toBeLessThan(1e-6);
    }
  });

  it('costs what clutch and synchromesh take up, once', () => {
    const { synchronised } = whole.follower.inner.totals;
    expect(synchronised).toBeGreaterThan(1000);
    for (const run of [often, odd]) {
      expect(Math.abs(run.follower.inner.totals.synchronised / synchronised - 1)).toBeLessThan(1e-6);
    }
  });

  it('closes its ledger, and another method says the same', () => {
    for (const schedule of [rush(0.25), rush(0.6)]) {
      const [x, y] = [{}, { method: { solve: solveExtrapolation, step: methodStep, cut: 1e-8 } }].map(more =>
        travelLedger(driven(schedule, more)),
      );
      expect(Math.abs(x?.gap ?? 1)).toBeLessThan(1e-7);
      for (const [name, energy] of Object.entries(x?.out ?? {})) {
        const apart = Math.abs(energy - (y?.out[name] ?? Number.NaN)) / (x?.in['out of the cells'] ?? Number.NaN);
        expect(apart, name).toBeLessThan(1e-6);
      }
    }
  });
});

describe('a change of gear where the way does not count, the pack being too weak', () => {
  it('does not count either: the ledger of a range closes', () => {
    const pack = { ...geared.pack, maxCurrent: 40 };
    const weak = { ...geared, pack };
    const way = trip(hilly(beginning('us06', 400), 0.08));
    const run = travelOnce(weak, way, { surroundings: testDay, charge: 0.12, untilEmpty: true });
    const { raised, synchronised, skippedWay } = run.follower.inner.totals;
    expect(skippedWay).toBeGreaterThan(1000);
    expect(raised).toBeGreaterThan(1000);
    expect(synchronised).toBeGreaterThan(1000);
    expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-6);
  });
});
