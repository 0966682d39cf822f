/** The trail of a charge. */
import { nth } from '../../columns.ts';
import type { Trail, TrailPoint } from '../trail/trail.ts';
import type { ChargeRun } from './run.ts';

/** s; a charge changes over minutes. */
const LONGEST = 120;

/** Adds a charge. */
export function addCharge(trail: Trail, { plant, solution, wall }: ChargeRun): void {
  const row = new Float64Array(plant.states + plant.quadratures);
  const y = new Float64Array(plant.states + 1);
  let mode = 0;
  const look = (time: number, point: TrailPoint): void => {
    solution.at(time, row);
    y.set(row.subarray(0, plant.states));
    const { current, voltage, wallPower, drawn } = plant.instant(mode, y);
    point.pack = -current;
    point.voltage = voltage;
    point.consumers = drawn / voltage;
    // What goes past the chargers on board is no duty of theirs.
    point.wall = wall.by === 'station' ? 0 : wallPower;
  };
  trail.rest(0, 0);
  for (let k = 0; k + 1 < solution.nodes; k++) {
    const [start, end] = [nth(solution.times, k), nth(solution.times, k + 1)];
    mode = nth(solution.modes, k);
    trail.addBetween(start, end, LONGEST, look);
  }
}
