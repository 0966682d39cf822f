/** The road under an interval of a schedule. */
import * as elementary from '../../elementary.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import type { Following } from '../../model/backward/state.ts';
import { leanAxle, leanCar } from '../../model/forward/load.ts';

/** Slope of an interval, rise over run, on top of that of the surroundings. */
export function climb({ moving, front, rear }: Following, given: FollowParameters, slope: number): void {
  const { car } = moving;
  const angle = given.car.angle + elementary.atan(slope);
  leanCar(car, angle);
  leanAxle(front.axle, car, angle);
  leanAxle(rear.axle, car, angle);
}
