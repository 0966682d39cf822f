/** The torque that builds up when the pedal goes down: when it comes to what resists. */
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { gearAt } from './gear-at.ts';
import { engage } from './rates.ts';
import { road } from './balance.ts';
import { friction } from '../tyre/friction.ts';
import { SPEED } from './state.ts';
import { nth } from '../../columns.ts';

/**
 * s after the pedal at which the torques hold the car at the speed of a state; 0 where all of them are there at once, or where
 * the car gains speed by itself. Loads are those without acceleration, and no slip counts: forces and torques alone.
 */
export function standingTime(m: Moving, y: Float64Array): number {
  const { front, rear, atFront, atRear, car, now } = m;
  const driven = [
    ...(front.driven ? [{ axle: front, at: atFront }] : []),
    ...(rear.driven ? [{ axle: rear, at: atRear }] : []),
  ];
  if (driven.every(({ axle }) => isThere(axle))) return 0;
  now.speed = nth(y, SPEED);
  now.pushed = false;
  engage(m, gearAt(m, now.speed));
  road(m);
  const resistance = atFront.rolling * atFront.unloaded + atRear.rolling * atRear.unloaded + now.drag + car.gradeForce;
  const time = driven.every(({ axle }) => axle.torqueShare !== 0)
    ? sharedTime(driven, resistance)
    : freeTime(driven, resistance);
  const longest = Math.max(...driven.map(({ axle }) => axle.peakTorque / axle.torqueGrowth));
  return Math.min(Math.max(0, time), longest);
}

type Driven = readonly { readonly axle: AxleFigures; readonly at: AxleNow }[];

/** Whether the torque needs no time to build up. */
function isThere({ torqueGrowth }: AxleFigures): boolean {
  return torqueGrowth === Infinity;
}

/** Each axle has all that its own torque gives, one whose torque is there at once as far as its tyres grip. */
function freeTime(driven: Driven, resistance: number): number {
  let lost = resistance;
  let growth = 0;
  for (const { axle, at } of driven) {
    const perTorque = (at.gear.efficiency * at.gear.ratio) / axle.radius;
    if (isThere(axle)) {
      const force = perTorque * (Math.min(axle.peakTorque, axle.pedalTorque) - axle.dragTorque);
      const grip = at.unloaded > 0 ? friction(axle, at, at.unloaded) * at.unloaded : 0;
      lost -= Math.min(force, grip);
    } else {
      lost += perTorque * axle.dragTorque;
      growth += perTorque * axle.torqueGrowth;
    }
  }
  return lost / growth;
}

/** The wheel torques keep their shares: the axle that is later has the say. */
function sharedTime(driven: Driven, resistance: number): number {
  const perWheelTorque = driven.reduce((sum, { axle }) => sum + axle.torqueShare / axle.radius, 0);
  const times = driven.map(({ axle, at }) => {
    const wheel = (axle.torqueShare * resistance) / perWheelTorque;
    return (wheel / (at.gear.efficiency * at.gear.ratio) + axle.dragTorque) / axle.torqueGrowth;
  });
  return Math.max(...times);
}
