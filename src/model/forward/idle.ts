/** What drives and consumers draw without any torque, against what the pack gives: it may not even carry that. */
import { dischargePower } from '../pack/limits.ts';
import { motorLoss, powerDrawn, throughInverter } from './drive-unit.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';

/** W at the terminals of the pack. After `rates`. */
export function idlePower({ car, front, rear, atFront, atRear }: Moving): number {
  return car.auxiliaryPower + idleOf(front, atFront) + idleOf(rear, atRear);
}

/**
 * W at the terminals of the pack that are drawn at least: as `idlePower`, but what a drive gives that holds the car back counts. One that turns
 * faster than it may does so. After `rates`.
 */
export function leastPower({ car, front, rear, atFront, atRear }: Moving): number {
  return car.auxiliaryPower + leastOf(front, atFront) + leastOf(rear, atRear);
}

function leastOf(axle: AxleFigures, at: AxleNow): number {
  return axle.driven && at.torque < 0 ? powerDrawn(axle, at) : idleOf(axle, at);
}

/** W at the inverter of an axle that turns without torque. */
export function idleOf(axle: AxleFigures, { motorSpeed }: AxleNow): number {
  return axle.driven ? throughInverter(axle, motorLoss(axle, 0, motorSpeed), false) : 0;
}

/** W that the pack gives at most. After `rates`, which says what its budget leaves. */
export function packGives({ pack, packNow }: Moving): number {
  return dischargePower(pack, packNow);
}
