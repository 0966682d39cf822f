/** A budget of current that is spent where the heat of a drive leaves just what lasts: the two limits are one to the last digits. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { nothingLeft } from '../../../src/model/forward/state.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { solveExtrapolation } from '../../../src/solvers/extrapolation.ts';

it('is driven by both methods alike, without going to and fro between the two', () => {
  const file = new URL('two-limits.json', import.meta.url);
  const { car, surroundings } = JSON.parse(readFileSync(file, 'utf8')) as {
    readonly car: Car;
    readonly surroundings: Surroundings;
  };
  const settings = { surroundings, stop: '1000_m', tolerance: 1e-9 } as const;
  const mine = launchOnce(car, settings);
  // It was 1,869. Where the heat or the pack leaves an axle nothing at all its torque has a corner, which is no other limit.
  const corners = nothingLeft(0) | nothingLeft(1);
  const changes = mine.solution.events.filter(({ from, to }) => ((from ^ to) & ~corners) !== 0);
  expect(changes.length).toBeLessThan(20);
  const theirs = launchOnce(car, settings, solveExtrapolation);
  const [a, b] = [mine, theirs].map(run => run.marks.get('1000_m')?.time ?? Number.NaN);
  expect((a ?? 0) / (b ?? 1)).toBeCloseTo(1, 7);
});
