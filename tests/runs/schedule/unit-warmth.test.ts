import { describe, expect, it } from 'vitest';
import { followParameters } from '../../../src/model/backward/load.ts';
import { createFollower } from '../../../src/runs/schedule/follower.ts';
import { warmUp } from '../../../src/runs/schedule/instant.ts';
import { FIRST, SECOND } from '../../../src/solvers/gauss.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';

describe('the warmth of a drive unit', () => {
  const heat = { capacity: 20_000, cooling: 40, derateAt: 390, derateRange: 40, continuousShare: 0.5 };
  const car = withPackHeat({
    ...testCar,
    drives: testCar.drives.map(drive => ({ ...drive, unit: { ...drive.unit, heat } })),
  });

  /** Newton's law of cooling under a heat a + b t, in closed form: C T' = a + b t - k (T - T0). */
  const exact = (from: number, a: number, b: number, t: number): number => {
    const rate = heat.cooling / heat.capacity;
    const left = Math.exp(-rate * t);
    return testDay.temperature + from * left + ((a - b / rate) * (1 - left) + b * t) / heat.cooling;
  };

  it.each([
    [0, 0, 8000, 1],
    [60, 2000, -1500, 1],
    [30, 500, 900, 4],
  ])(
    'has in it what comes late in a step, from %s K above the air under %s W + %s W/s, after %s s',
    (from, a, b, seconds) => {
      const follower = createFollower();
      follower.load(followParameters(car, testDay));
      const { temperature } = testDay;
      const units = [temperature + from, temperature + from] as const;
      follower.setState({ charge: 0.5, polarisation: [0, 0], pack: temperature, units });
      const { front, rear } = follower.inner.following;
      const side = front.axle.driven ? front : rear;
      warmUp(follower.inner, side, a + b * FIRST * seconds, a + b * SECOND * seconds, seconds);
      // The fourth power of the share that cools, of the heat: 3e-9 K where a heat given evenly is off by 7e-5 K.
      expect(Math.abs(side.at.temperature - exact(from, a, b, seconds))).toBeLessThan(1e-8);
    },
  );
});
