/** What flows and turns in the tests of a sheet that load the parts most: from rest to 100 km/h, then half an hour at the speed that it holds for so long. */
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { launchOnce } from '../launch/run.ts';
import { launchTrail } from '../launch/trail.ts';
import { addStretch, wheelsOf } from '../trail/forward.ts';
import type { Trail } from '../trail/trail.ts';
import { holding } from './hold-speed.ts';

const HALF_AN_HOUR = 1800;

/** @param speed m/s held for half an hour; null where there is none. */
export function sheetTrail(car: Car, level: Surroundings, speed: number | null): Trail {
  const trail = launchTrail(launchOnce(car, { surroundings: level, stop: '100_km_h' }), car);
  const run = speed === null ? null : holding(car, level, speed, HALF_AN_HOUR);
  if (run === null || run.solution === null) return trail;
  const { plant, solution } = run;
  addStretch(trail, plant, wheelsOf(car), solution, [0, nth(solution.times, solution.nodes - 1)]);
  return trail;
}
