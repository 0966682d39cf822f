import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { R } from '../../../src/runs/schedule/record.ts';
import { pointsAhead } from '../../../src/runs/schedule/rests.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';
import { profile, trip } from '../../trips.ts';

describe('the rests of a schedule', () => {
  const stops = profile(
    [0, 0, 0, 0, 5, 5, 5, 0, 0, 0, 0, 0, 0].map((speed, time) => [time, speed] as const),
    [0, 0, 0.01, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  );

  it('go on to the next change of slope, or for as long as a step at most', () => {
    expect(Array.from(pointsAhead(stops))).toEqual([2, 2, 3, 4, 5, 6, 7, 9, 10, 11, 12, 12]);
    expect(pointsAhead(stops)).toBe(pointsAhead(stops));
  });

  it('end where a phase does', () => {
    const ahead = pointsAhead({ ...stops, slope: null, phases: [{ name: 'first', from: 0, to: 9 }] });
    expect(Array.from(ahead)).toEqual([2, 3, 3, 4, 5, 6, 7, 9, 9, 11, 12, 12]);
  });

  it('are driven in few steps to the same charge, and the trace has where each phase ends', () => {
    const car = withPackHeat(testCar);
    const wltc = scheduleNamed('wltc');
    const rests = wltc.speed.filter((v, i) => v === 0 && wltc.speed[i + 1] === 0).length;
    expect(rests).toBeGreaterThan(200);
    const run = travelOnce(car, trip(wltc), { surroundings: testDay, record: 1 });
    const finer = travelOnce(car, trip(wltc), { surroundings: testDay, steps: 8 });
    const rows = run.record!.rows();
    expect(rows).toBeLessThan(wltc.time.length - 0.4 * rests);
    expect(Math.abs(run.follower.pack.charge / finer.follower.pack.charge - 1)).toBeLessThan(1e-9);
    // Steps of 4 s are 4e-6 off.
    expect(Math.abs(run.follower.pack.pair1 / finer.follower.pack.pair1 - 1)).toBeLessThan(1e-6);
    for (const { to } of wltc.phases) expect(run.record!.column(R.time)).toContain(to);
  });
});
