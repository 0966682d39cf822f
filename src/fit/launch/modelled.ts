/** The speed of a launch as a receiver tells it. */
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { DISTANCE, SPEED } from '../../model/forward/state.ts';
import { createLauncher } from '../../runs/launch/run.ts';

/** m/s at s since the pedal went down. */
export type ToldSpeed = (time: number) => number;

/**
 * A function that launches one car after the other; what it gives is good until its next call. A receiver that averages over some time tells
 * the way of that time over it: the smoothing is part of the model, and the log is left as it is.
 * @param to m/s up to which it is launched. @param over s, 0 for none.
 */
export function createTold(to: number, over: number): (car: Car, surroundings: Surroundings) => ToldSpeed {
  const launch = createLauncher();
  return (car, surroundings) => {
    const { solution, plant } = launch(car, { surroundings, to, stop: 'to', tolerance: 1e-8 });
    const row = new Float64Array(plant.states + plant.quadratures);
    const begin = nth(solution.times, 0);
    const end = nth(solution.times, solution.nodes - 1);
    const at = (time: number): readonly [way: number, speed: number] => {
      if (time <= begin) return [0, 0];
      solution.at(Math.min(time, end), row);
      const speed = nth(row, SPEED);
      // Beyond the end, where no row of the log lies once the fit has come near, it goes on as it ended.
      return [nth(row, DISTANCE) + Math.max(0, time - end) * speed, speed];
    };
    return time => (over > 0 ? (at(time)[0] - at(time - over)[0]) / over : at(time)[1]);
  };
}
