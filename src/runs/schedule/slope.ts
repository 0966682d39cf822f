/** The road under an interval of a schedule. */
import type { FollowParameters } from '../../model/backward/load.ts';
import type { Following } from '../../model/backward/state.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';

/** Slope of an interval, rise over run, on top of that of the surroundings. */
export function climb({ moving, front, rear }: Following, given: FollowParameters, slope: number): void {
  const { car } = moving;
  const weight = car.mass * STANDARD_GRAVITY;
  const steep = given.car.gradeForce / weight; // the sine of its angle
  const angle = Math.asin(steep) + Math.atan(slope);
  const lever = car.transfer / car.mass; // height over wheelbase
  car.gradeForce = weight * Math.sin(angle);
  for (const [axle, level] of [
    [front.axle, given.front],
    [rear.axle, given.rear],
  ] as const) {
    const share = (level.staticLoad / weight - level.sign * steep * lever) / Math.sqrt(1 - steep * steep);
    axle.staticLoad = weight * (share * Math.cos(angle) + level.sign * Math.sin(angle) * lever);
  }
}
