/** A range moves by what its inputs cost: where a curve of it over the mass of the car is steepest it is no step. */
import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Pack } from '../../../src/model/car.ts';
import { createTraveller } from '../../../src/runs/schedule/trip.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';
import { trip } from '../../trips.ts';

const travel = createTraveller();
const way = trip(scheduleNamed('wltc'));

function far(mass: number, pack: Partial<Pack>, temperature: number): number {
  const car = { ...testCar, body: { ...testCar.body, mass }, pack: { ...testCar.pack, ...pack } };
  const surroundings = { ...testDay, temperature };
  return travel(withPackHeat(car), way, { surroundings, charge: 0.4, untilEmpty: true }).distance;
}

describe('a range over the mass of the car', () => {
  const cases = [
    ['whose pack comes to its low end in traffic', {}, 293.15],
    ['whose pack is too weak for its schedule before', { parallel: 4, resistanceGrowth: 2.5, maxCurrent: 150 }, 275],
  ] as const;

  it.each(cases)('has no step for a car %s', (_, pack, temperature) => {
    const at = (mass: number): number => far(mass, pack, temperature);
    const points = Array.from({ length: 41 }, (_, i) => ({ mass: 1000 + 7.5 * i, range: at(1000 + 7.5 * i) }));
    const gap = (i: number): number => Math.abs(points[i + 1]!.range - points[i]!.range);
    const steepest = points.slice(1).reduce((worst, _, i) => (gap(i) > gap(worst) ? i : worst), 0);
    let [low, high] = [points[steepest]!, points[steepest + 1]!];
    for (let halving = 0; halving < 26; halving++) {
      const mass = 0.5 * (low.mass + high.mass);
      const middle = { mass, range: at(mass) };
      if (Math.abs(middle.range - low.range) > Math.abs(high.range - middle.range)) high = middle;
      else low = middle;
    }
    // A tenth of a milligram; a step would be some hundred metres.
    expect(high.mass - low.mass).toBeLessThan(2e-7);
    expect(Math.abs(high.range - low.range) / low.range).toBeLessThan(1e-7);
  });
});
