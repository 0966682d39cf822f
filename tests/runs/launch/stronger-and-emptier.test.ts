/**
 * More power is quicker only while the pack lasts: whoever draws more loses more in it, and has less charge left at the same speed. Where
 * the pack at its lowest voltage is then all that limits, for a minute, the stronger car comes last.
 */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { CHARGE } from '../../../src/model/forward/state.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { totalPower, withPower } from '../../../src/runs/variant.ts';
import { testDay } from '../../cars.ts';

it('comes last with a fifth more power and an emptier pack, and first with a pack that does not run down', () => {
  const file = new URL('stronger-and-emptier.json', import.meta.url);
  const { car } = JSON.parse(readFileSync(file, 'utf8')) as { readonly car: Car };
  const { pack } = car;
  const lasting = { ...car, pack: { ...pack, cell: { ...pack.cell, capacity: 1e6 * pack.cell.capacity } } };
  const reached = (each: Car): { readonly time: number; readonly charge: number } => {
    const { plant, solution, marks } = launchOnce(each, { surroundings: testDay, stop: '100_km_h' });
    return {
      time: marks.get('100_km_h')?.time ?? Number.NaN,
      charge: solution.states[(solution.nodes - 1) * plant.states + CHARGE] ?? Number.NaN,
    };
  };
  const stronger = (each: Car): Car => withPower(each, 1.2 * totalPower(each));
  const [weak, strong] = [reached(car), reached(stronger(car))];
  expect(strong.charge).toBeLessThan(weak.charge - 5e-4);
  expect(strong.time).toBeGreaterThan(1.005 * weak.time);
  expect(reached(stronger(lasting)).time).toBeLessThan(0.997 * reached(lasting).time);
});
