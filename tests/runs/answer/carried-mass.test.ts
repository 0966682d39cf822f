import { expect, it } from 'vitest';
import { carFields } from '../../../src/model/spec.ts';
import type { CarSpec } from '../../../src/model/spec.ts';
import { carried } from '../../../src/runs/answer/carried-mass.ts';

const before: CarSpec = { mass: 900, frontShare: 0.55, pack: { cell: { mass: 1 }, series: 90, parallel: 1 } };
const after: CarSpec = { ...before, pack: { cell: { mass: 1 }, series: 100, parallel: 1 } };

it('hangs ten more cells and their box half way between the axles of the car with its people', () => {
  const people = { driver: 80, load: 20 };
  const { mass, frontShare } = carried({ ...before, ...people }, { ...after, ...people });
  expect(mass).toBeCloseTo(914, 9);
  // Moments about the rear axle: 0.55 of 1000 kg, and half of the 14 kg that came.
  expect(frontShare).toBeCloseTo((550 + 7) / 1014, 12);
});

it('takes the people that the table of fields assumes where none are told', () => {
  const { driver, load } = carFields;
  const told = { driver: driver.default?.value ?? Number.NaN, load: load.default?.value ?? Number.NaN };
  expect(carried(before, after).frontShare).toBe(carried({ ...before, ...told }, { ...after, ...told }).frontShare);
});
