/** Which gear a schedule is driven in hangs on the car and the road alone, not on whether anything is remembered of them. */
import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import type { TravelOptions, TravelRun } from '../../../src/runs/schedule/trip.ts';
import { testCar, testDay, testDrive } from '../../cars.ts';
import { trip } from '../../trips.ts';

const gear = (ratio: number): { ratio: number; efficiency: number; inertia: number; upshift: number } => ({
  ratio,
  efficiency: 0.97,
  inertia: 0.05,
  upshift: 700,
});
const geared = {
  ...testCar,
  drives: [{ ...testDrive, ratio: 4, gearbox: { gears: [3.2, 1.9, 1.2, 0.9].map(gear), shiftTime: 0.7 } }],
};
const driven = (options: Partial<TravelOptions>): TravelRun =>
  travelOnce(geared, trip(scheduleNamed('wltc')), { surroundings: testDay, charge: 0.9, warmTyres: true, ...options });

describe('the gears of a schedule', () => {
  it('are those of the first turn of a range where it is driven once', () => {
    const once = driven({});
    const [first, second] = driven({ untilEmpty: true }).legs;
    expect(once.follower.inner.totals.shifts).toBeGreaterThan(20);
    expect(first?.energy).toBe(once.legs[0]?.energy);
    // Of a car that remembers it the second time as well, but for what the pack takes by then: brakes do what it does not.
    expect(second?.brakes).toBeCloseTo(first?.brakes ?? Number.NaN, 3);
  });
});
