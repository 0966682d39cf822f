/** The road under an interval of a schedule. */
import type { FollowParameters } from '../../model/backward/load.ts';
import type { Following } from '../../model/backward/state.ts';
import { leanAxle, leanCar } from '../../model/forward/load.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';

/** Slope of an interval, rise over run, on top of that of the surroundings. */
export function climb({ moving, front, rear }: Following, given: FollowParameters, slope: number): void {
  const { car } = moving;
  const steady = Math.asin(given.car.gradeForce / (car.mass * STANDARD_GRAVITY));
  const angle = steady + Math.atan(slope);
  leanCar(car, angle);
  leanAxle(front.axle, car, angle);
  leanAxle(rear.axle, car, angle);
}
