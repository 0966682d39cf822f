import { describe, expect, it } from 'vitest';
import { followParameters } from '../../../src/model/backward/load.ts';
import { createFollower } from '../../../src/runs/schedule/follower.ts';
import { testCar, testDay } from '../../cars.ts';
import { beginning } from '../../trips.ts';

describe('a depletion', () => {
  it('ends at the low end of the pack, wherever on a schedule that is: also where a car at rest moves off', () => {
    const schedule = beginning('udds', 200);
    const follower = createFollower();
    const parameters = followParameters(testCar, testDay);
    const options = { auxiliaries: 300, cabin: { steady: 0, extra: 0, time: 1 }, since: 0, keen: true };
    const from = (empty: number): { readonly status: string; readonly missed: number } => {
      follower.load(parameters);
      follower.setState({ charge: 0.6, polarisation: [0, 0], pack: 293.15, units: [293.15, 293.15] });
      const { status } = follower.follow(schedule, { ...options, empty });
      return { status, missed: Math.abs(follower.pack.charge - empty) };
    };
    const ends = Array.from({ length: 400 }, (_, i) => from(0.6 - 1e-5 * (i + 0.5)));
    const empty = ends.filter(({ status }) => status === 'empty');
    expect(empty.length).toBeGreaterThan(300);
    // Bisection to 1e-12 of a step.
    expect(Math.max(...empty.map(({ missed }) => missed))).toBeLessThan(1e-12);
  });
});
