/** The trail of a launch, and of launches in a row. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { addStretch, wheelsOf } from '../trail/forward.ts';
import { Trail } from '../trail/trail.ts';
import type { LaunchRun } from './run.ts';
import { greatestShaftTorques } from './summary.ts';

/** From where the car moves off to the end of the run. */
export function launchTrail(run: LaunchRun, car: Car): Trail {
  const trail = new Trail();
  addLaunch(trail, run, car);
  return trail;
}

function addLaunch(trail: Trail, run: LaunchRun, car: Car): void {
  const { plant, solution } = run;
  const pieces = trail.pieces;
  const greatest = greatestShaftTorques(run, car);
  const span = [nth(solution.times, 0), nth(solution.times, solution.nodes - 1)] as const;
  addStretch(trail, plant, wheelsOf(car), solution, span);
  trail.knowGreatest(pieces, greatest);
}

/** Launches with a pause between each two, in which lights and pumps draw on; the stop takes no time. @param pause s. */
export function repeatTrail(runs: readonly LaunchRun[], pause: number, car: Car): Trail {
  const trail = new Trail();
  runs.forEach((run, i) => {
    if (i > 0) stand(trail, run, pause);
    addLaunch(trail, run, car);
  });
  return trail;
}

/** @param next the launch after it: at its start the pack is as the pause left it. */
function stand(trail: Trail, { plant }: LaunchRun, seconds: number): void {
  const { first, second } = trail;
  const voltage = plant.moving.packNow.open;
  trail.rest(0, voltage);
  for (const point of [first, second]) {
    point.consumers = plant.moving.car.auxiliaryPower / voltage;
    point.pack = point.consumers;
  }
  trail.add(seconds);
}
