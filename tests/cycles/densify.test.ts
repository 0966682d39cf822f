import { describe, expect, it } from 'vitest';
import { refine, refineTrip } from '../../src/cycles/densify.ts';
import { speedAt } from '../../src/cycles/join.ts';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { distanceOf } from '../../src/cycles/statistics.ts';
import { steadySchedule } from '../../src/cycles/steady.ts';
import { leg, profile, stop, trip } from '../trips.ts';

describe('a refined schedule', () => {
  const hill = profile(
    [
      [0, 0],
      [25, 20],
      [26, 20],
      [60, 3],
    ],
    [0.05, 0, -0.02],
  );

  it('has the same speeds, slopes and length, and no far points', () => {
    const finer = refine(hill, 10);
    expect(finer.time.length).toBe(1 + 3 + 1 + 4);
    expect(Math.max(...finer.time.slice(1).map((t, i) => t - finer.time[i]!))).toBeLessThanOrEqual(10);
    for (const t of [0, 3, 12.5, 25, 25.5, 33, 60]) expect(speedAt(finer, t)).toBeCloseTo(speedAt(hill, t), 12);
    expect(distanceOf(finer)).toBeCloseTo(distanceOf(hill), 9);
    expect(Array.from(finer.slope!)).toEqual([0.05, 0.05, 0.05, 0, -0.02, -0.02, -0.02, -0.02]);
  });

  it('is itself where the points are close', () => {
    const udds = scheduleNamed('udds');
    expect(refine(udds, 10)).toBe(udds);
  });

  it('is one and the same for all legs that share one', () => {
    const long = steadySchedule(20, 600);
    const { parts } = refineTrip(trip(long, stop(60), leg(long, 80)), 10);
    expect(parts.map(part => part.kind)).toEqual(['leg', 'stop', 'leg']);
    const [first, , last] = parts;
    if (first?.kind !== 'leg' || last?.kind !== 'leg') throw new Error('no legs');
    expect(first.schedule).toBe(last.schedule);
    expect(first.schedule.time.length).toBe(61);
    expect(last.load).toBe(80);
  });
});
