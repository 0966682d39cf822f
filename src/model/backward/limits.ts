/** Whether a car can do what a schedule asks: the torque that is needed against every limit. */
import { limit } from '../forward/limits.ts';
import { voltsFor } from '../forward/sag.ts';
import { L } from '../forward/state.ts';
import { lowestVoltage } from '../pack/state.ts';
import type { Following, Side } from './state.ts';

/** Below this share of every limit nothing needs to be looked at closely. */
export const EASY = 0.6;

/** Share of the force by which a limit may be missed: round-off. */
const TIE = 1e-9;

/** Whether the torques that `demand` found lie beyond a limit. */
export function beyond(f: Following): boolean {
  f.fastest = f.speed;
  if (isEasy(f)) return false;
  noteClose(f);
  const { front, rear, moving, powers } = f;
  moving.car.auxiliaryPower = powers.auxiliaries;
  const least = -TIE * f.force;
  const ofFront = front.axle.driven ? roomOf(f, front) : 0;
  const ofRear = rear.axle.driven ? roomOf(f, rear) : 0;
  const both = front.axle.driven && rear.axle.driven;
  f.room = ofFront + ofRear - least;
  if (both && front.axle.torqueShare !== 0 && !(ofFront >= least && ofRear >= least)) return true;
  // Two axles that are free to share the force make up for each other, but draw on one pack. Not a number is no room.
  if (both && drawsTooMuch(f)) return true;
  return !(ofFront + ofRear >= least);
}

/** Close to limits of the drives' own nothing but the voltage that they take tells whether another pack leaves them as free. */
function noteClose(f: Following): void {
  const { front, rear, powers } = f;
  if (!isEasyForPack(f, powers.power) || !isOwn(front) || !isOwn(rear)) f.freely = false;
  f.volts = Math.max(f.volts, voltsFor(front.axle, front.at), voltsFor(rear.axle, rear.at));
}

/** Whether neither heat nor a table, which a voltage moves in another way, has a say in what a drive can. */
function isOwn(side: Side): boolean {
  return !side.axle.driven || (!side.axle.tabled && !isHot(side));
}

/** Whether heat limits a drive unit, or may once it has so many J more. */
export function isHot({ axle, at }: Side, heat = 0): boolean {
  if (!axle.driven || axle.unitRange === Infinity) return false;
  return at.temperature + heat / axle.unitCapacity > axle.unitDerate;
}

/**
 * Whether what is drawn is more than the pack gives. Of a car whose drives are asked for nothing what turns and what is switched on take
 * it all the same.
 */
export function drawsTooMuch({ pack, powers: { power } }: Following): boolean {
  return power > (1 + TIE) * pack.gives && power > 0;
}

/** N that the drive of an axle could add at the wheels to what it is asked for; negative where it can not. */
function roomOf({ moving, powers }: Following, { axle, at }: Side): number {
  const { gear, torque } = at;
  let room = axle.maxShare * at.grip - at.force;
  at.otherPower = powers.power - powers.auxiliaries - at.power;
  at.otherAtPack = false;
  at.otherFollows = false;
  const perTorque = (gear.efficiency * gear.ratio) / axle.radius;
  for (const l of axle.used) {
    if (l === L.split) continue;
    limit(moving, axle, at, l);
    room = Math.min(room, (at.limit - torque) * perTorque);
  }
  return room;
}

/** Of what a drive gives by itself: so far beyond it there is no doubt. */
const FAR = 1.001;

/** Whether the drives could not bring their torques with any pack, hot or cold: by what they give at their full voltage. After `beyond`. */
export function isOutOfReach({ front, rear }: Following): boolean {
  return (!front.axle.driven || isBeyondDrive(front)) && (!rear.axle.driven || isBeyondDrive(rear));
}

function isBeyondDrive({ axle, at: { torque, motorSpeed, gear } }: Side): boolean {
  if (axle.tabled) return false;
  if (torque > FAR * Math.min(axle.peakTorque, axle.pedalTorque, gear.shaftTorque)) return true;
  return torque * motorSpeed > FAR * (axle.powerAtRest - axle.powerFall * motorSpeed);
}

/** Far from every limit, up to the speed `fastest` in `f`. Passes over most of a schedule at the price of a few products. */
export function isEasy(f: Following): boolean {
  const { pack, front, rear } = f;
  const lowest = lowestVoltage(f.moving.pack, pack);
  if (!isEasyForPack(f, f.powers.power)) return false;
  const ahead = f.speed > 0 ? f.fastest / f.speed : 1;
  if (front.axle.driven && !isEasyAt(front, lowest, ahead)) return false;
  return !rear.axle.driven || isEasyAt(rear, lowest, ahead);
}

/** The same of the pack. @param power W out of it. */
export function isEasyForPack({ pack, moving }: Following, power: number): boolean {
  const figures = moving.pack;
  if (!(power <= EASY * pack.gives)) return false;
  return !(pack.temperature >= figures.derateAt && figures.derateRange !== Infinity);
}

/** The same of an axle. @param lowest V of the pack. @param ahead the speed that is looked at over the present one, as above. */
function isEasyAt({ axle, at }: Side, lowest: number, ahead: number): boolean {
  if (axle.tabled) return false;
  const T = at.torque;
  const omega = at.motorSpeed;
  if (T > EASY * axle.peakTorque || T > at.gear.shaftTorque || T > axle.pedalTorque) return false;
  const most = ahead > 0 ? ahead * omega : omega;
  const power = axle.powerAtRest * Math.min(1, lowest / axle.referenceVoltage) - axle.powerFall * most;
  if (T * most > EASY * power) return false;
  if (ahead > 0 && most > axle.taperFrom && T > EASY * axle.taperSlope * (axle.maxSpeed - most)) return false;
  if (!(at.force <= EASY * axle.maxShare * at.grip)) return false;
  return !(at.temperature > axle.unitDerate && axle.unitRange !== Infinity);
}
