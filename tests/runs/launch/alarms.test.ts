/** No false alarms: a launch that two methods agree upon says nothing of changes that were found late, nor of other ends. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { withTraction } from '../../../src/runs/variant.ts';
import { arbitraryBuild, arbitraryDay } from '../../cars.ts';

const held = arbitraryBuild.map(car => withTraction(car, 'held'));
const isHeated = (car: Car): boolean => car.drives.some(({ unit }) => unit.heat !== undefined);

it.each([
  ['two driven axles', (car: Car) => car.drives.length === 2],
  ['drive units that heat up', isHeated],
] as const)('raises no false alarm with %s', (_, fits) => {
  fc.assert(
    fc.property(held.filter(fits), arbitraryDay, (car, surroundings) => {
      const { opinion, warnings, ended } = launch(car, { surroundings });
      expect(ended).toBeUndefined();
      expect(warnings.filter(each => /found late/u.test(each))).toEqual([]);
      if (opinion !== null) expect(opinion.difference, opinion.where).toBeLessThan(1e-6);
    }),
    { numRuns: 8, endOnFailure: true },
  );
});

it('finds no change of limiter late with two driven axles', () => {
  let late = 0;
  fc.assert(
    fc.property(
      held.filter(car => car.drives.length === 2),
      arbitraryDay,
      (car, surroundings) => {
        const { statistics } = launchOnce(car, { surroundings, tolerance: 1e-9 }).solution;
        if (statistics.lateSwitches > 0) late++;
      },
    ),
    { numRuns: 200 },
  );
  // It was one in forty: a gear that is let go leaves all to the other axle, and drives too hot for any torque have two limits of nothing.
  expect(late).toBe(0);
});
