/** How far the marks of a launch are off at the tolerance of the rows of a sweep: against runs at a hundred-thousandth of it. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { MARKS } from '../../../src/runs/launch/marks.ts';
import { createLauncher } from '../../../src/runs/launch/run.ts';
import { ROW_SETTINGS } from '../../../src/studies/question/study-model.ts';
import { arbitraryCar } from '../../cars.ts';

const options = {
  surroundings: { temperature: 293.15, altitude: 0, humidity: 0.5, wind: 0, slope: 0, surface: 'dry' },
  stop: 'quarter_mile',
} as const;

it('finds the same marks where what comes next at the grip limit is no mode of its own', () => {
  const [told, alone] = [createLauncher(), createLauncher(MARKS)];
  let spared = 0;
  for (const car of fc.sample(arbitraryCar, { numRuns: 100, seed: 6 })) {
    const sharp = { ...options, tolerance: 1e-11 };
    const [whole, bare] = [told(car, sharp), alone(car, sharp)];
    spared += whole.solution.statistics.switches - bare.solution.statistics.switches;
    for (const [mark, { time }] of whole.marks)
      expect(Math.abs(bare.marks.get(mark)!.time / time - 1)).toBeLessThan(1e-9);
  }
  expect(spared).toBeGreaterThan(50);
});

it.each([0, -12])('tells the marks of 300 cars to 1e-6, half of them to 1e-8, with a wind of %d m/s', wind => {
  const surroundings = { ...options.surroundings, wind };
  const [exact, quick] = [createLauncher(), createLauncher(MARKS)];
  const errors: number[] = [];
  for (const car of fc.sample(arbitraryCar, { numRuns: 300, seed: 5 })) {
    const { marks } = exact(car, { ...options, surroundings, tolerance: 1e-12 });
    const found = quick(car, { ...options, surroundings, tolerance: ROW_SETTINGS.markTolerance! });
    for (const [mark, { time }] of marks) errors.push(Math.abs(found.marks.get(mark)!.time / time - 1));
  }
  errors.sort((a, b) => a - b);
  expect(errors.length).toBeGreaterThan(2000);
  expect(errors.at(-1)).toBeLessThan(1e-6);
  expect(errors[errors.length >> 1]).toBeLessThan(1e-8);
});
