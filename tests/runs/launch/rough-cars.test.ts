/** Random cars whose launch at the tolerance of samples was once further off than that: each stands in `rough/` with what was wrong. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import type { Mark } from '../../../src/runs/launch/marks.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { testDay } from '../../cars.ts';

interface Rough {
  readonly what: string;
  readonly mark: Mark;
  readonly car: Car;
}

const folder = new URL('rough/', import.meta.url);

/** JSON has no Infinity. */
const rough = (file: string): Rough =>
  JSON.parse(readFileSync(new URL(file, folder), 'utf8'), (_, value) => (value === 'Infinity' ? Infinity : value));

it.each(readdirSync(folder))('%s is as quick at the tolerance of samples as at a fine one', file => {
  const { what, mark, car } = rough(file);
  const [loose, fine] = [1e-6, 1e-9].map(tolerance => {
    const run = launchOnce(car, { surroundings: testDay, stop: mark, tolerance });
    expect(run.solution.status, what).toBe('level');
    return run.marks.get(mark)?.time ?? Number.NaN;
  });
  expect(Math.abs((loose ?? Number.NaN) / (fine ?? Number.NaN) - 1), what).toBeLessThan(1e-6);
});
