import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { launch } from '../../src/runs/launch/launch.ts';
import * as lean from '../../src/runs/lean.ts';
import type { Result } from '../../src/runs/result.ts';
import { range } from '../../src/runs/trip/range.ts';
import { testCar, testDay } from '../cars.ts';
import { stop, trip } from '../trips.ts';

/** What the lean answer has must stand in the whole one, bit by bit. @returns the figures that it leaves out. */
function leftOut(whole: Result, own: Result): readonly string[] {
  for (const [key, value] of Object.entries(own.summary)) expect([key, value]).toEqual([key, whole.summary[key]]);
  expect(own.ledger).toEqual(whole.ledger);
  expect(own.events).toEqual(whole.events);
  expect(own.warnings).toEqual(whole.warnings);
  expect(own.opinion).toBeNull();
  return Object.keys(whole.summary).filter(key => !(key in own.summary));
}

const currents = expect.arrayContaining(['current_rms', 'current_10_s', 'half_shaft_torque']);

describe('a lean run', () => {
  it('tells of a launch what the whole run tells, but for what stands beside it', () => {
    const options = { surroundings: testDay };
    const [whole, own] = [launch(testCar, options), lean.launch(testCar, options)];
    const missing = leftOut(whole, own);
    expect(own.series['time']).toEqual(whole.series['time']);
    expect(missing).toEqual(currents);
    expect(missing).toEqual(expect.arrayContaining(['friction_enough', 'control_worth']));
    expect(missing).toHaveLength(14);
  });

  it('tells of a range what the whole run tells, seasons too', () => {
    const way = trip(scheduleNamed('wltc_low'), stop(60), scheduleNamed('wltc_medium'));
    const options = { surroundings: testDay, temperatures: [263.15, 303.15] };
    const [whole, own] = [range(testCar, way, options), lean.range(testCar, way, options)];
    const missing = leftOut(whole, own);
    expect(own.series).toEqual(whole.series);
    expect(missing).toEqual(currents);
    expect(missing).toEqual(expect.arrayContaining(['consumption_wall', 'mpg_equivalent']));
  });

  it('says where a trip has a plug that it has none', () => {
    const supply = { voltage: 230, current: 16, phases: 1 } as const;
    const way = trip(scheduleNamed('wltc_low'), { ...stop(600), plug: { supply, to: null, waits: false } });
    expect(() => lean.range(testCar, way, { surroundings: testDay })).toThrow(/trip\.parts\[1\]\.plug: .*'axlewatt'/u);
  });

  it('refuses what the whole run refuses', () => {
    const wrong = { surroundings: testDay, pedal: 5 };
    expect(() => lean.launch(testCar, wrong)).toThrow('pedal is 5; expected a number above 0, 1 at most');
  });

  it('says why there is no answer', () => {
    const stuck = { ...testCar, body: { ...testCar.body, load: 1e6 } };
    const hill = { surroundings: { ...testDay, slope: 0.5 } };
    expect(lean.launch(stuck, hill).reasons).toEqual(launch(stuck, hill).reasons);
  });
});
