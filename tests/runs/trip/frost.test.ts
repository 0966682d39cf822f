/** A pack that is too cold to be charged takes nothing: a range in frost is driven in no more steps for that. */
import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { effort } from '../../../src/model/effort.ts';
import { createTraveller } from '../../../src/runs/schedule/trip.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';
import { trip } from '../../trips.ts';

const travel = createTraveller();
/** Its pack warms so little that it stays as cold as it is. */
const heavy = { ...withPackHeat(testCar).pack.heat!, capacity: 1e8 };
const car = { ...testCar, pack: { ...testCar.pack, heat: heavy } };

/** What the model is asked on one WLTC from half a charge on. */
function workOf(of: typeof car, temperature: number): number {
  const before = effort.spent;
  travel(of, trip(scheduleNamed('wltc')), { surroundings: { ...testDay, temperature }, charge: 0.5 });
  return effort.spent - before;
}

function stepsASecond(name: 'wltc' | 'udds' | 'nycc', temperature: number): number {
  const options = { surroundings: { ...testDay, temperature }, charge: 0.9, untilEmpty: true };
  const run = travel(car, trip(scheduleNamed(name)), options);
  expect(run.status).toBe('empty');
  return run.follower.inner.totals.steps / run.time;
}

describe('a range in frost', () => {
  it.each(['wltc', 'udds', 'nycc'] as const)('takes at most half as many steps again on %s', name => {
    const mild = stepsASecond(name, 293.15);
    expect(mild).toBeGreaterThan(0.25);
    for (const temperature of [248.15, 258.15, testCar.pack.chargeCold.none - 1]) {
      expect(stepsASecond(name, temperature) / mild).toBeLessThan(1.5);
    }
  });

  it.each([
    [-0.5, 2],
    [0.1, 2.1],
    [0.3, 1.5],
    [0.6, 1.3],
  ])(
    'asks little more of the model where the pack is at %s of the way to where it takes all, at most %s times as much',
    (share, most) => {
      const { none, full } = testCar.pack.chargeCold;
      expect(workOf(car, none + share * (full - none)) / workOf(car, 293.15)).toBeLessThan(most);
    },
  );
});
