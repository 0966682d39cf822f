/** What a drive brakes with at most. */
import { motorLoss } from '../forward/drive-unit.ts';
import { BRAKED, DECIDE, KIND } from './state.ts';
import type { BrakingFigures, Following, Side } from './state.ts';

/**
 * N at an axle, own rolling resistance included, below which it is braked: without torque at the motor the road speeds up what turns with it
 * and turns the gears. Above that the drive pushes, though the road pulls. Slip left aside; nothing where what turns brings more than it takes.
 */
export function coastingForce({ axle, at: { gear } }: Side, acceleration: number): number {
  const wheelSpin = acceleration * axle.perRadius;
  const geared = axle.rotorInertia * gear.ratio * wheelSpin + axle.dragTorque;
  const moment = geared / gear.dragged + gear.wheelInertia * wheelSpin;
  return moment > 0 ? -moment * axle.perRadius : 0;
}

/** Whether the force that an axle is asked for brakes it: as its bits say, or as that force does. @param coasting N, see `coastingForce`. */
export function isBraked(asked: number, coasting: number, bits: number): boolean {
  return bits === DECIDE ? asked < coasting : (bits & BRAKED) !== 0;
}

/**
 * N of a force that the drive of an axle is asked for: all of it, but of what brakes it its share. A drive that has no share in the braking
 * is asked for all of it and gives nothing (`brakingKind`): a product with 0 would have lost which way it goes.
 */
export function partOfDrive({ share }: BrakingFigures, asked: number, coasting: number, braked: boolean): number {
  return braked && share > 0 ? coasting + share * (asked - coasting) : asked;
}

/**
 * N m that the drive brakes with at most, at the speed of the wheels at hand. @param kind as in `KIND`. Speeds are read here: numbers
 * that are handed over are boxed where a call is not inlined.
 */
export function brakingTorque({ braking, at }: Side, kind: number, { speed: v }: Following): number {
  const omega = at.gear.ratio * at.wheelSpeed;
  if (kind === KIND.torque) return braking.torque;
  if (kind === KIND.power) return braking.power / omega;
  if (kind === KIND.off) return 0;
  return fadingTorque(braking, kind, v, omega);
}

/** Apart: it is seldom, and what is left of the other the engine takes in where it is called. */
function fadingTorque(braking: BrakingFigures, kind: number, v: number, omega: number): number {
  const share = fade(braking, v);
  return kind === KIND.fadingTorque ? share * braking.torque : (share * braking.power) / omega;
}

/** Share of its torque that a drive brakes with at a low speed: 1 at `fadeFrom`, nothing at `fadeTo`, on a straight line. */
function fade({ fadeFrom, fadeTo }: BrakingFigures, v: number): number {
  return (v - fadeTo) / (fadeFrom - fadeTo);
}

/** N m that the drive brakes with at most at the point at hand, whatever limits it there. */
export function hardestBraking({ braking, at }: Side, { speed }: Following): number {
  return braking.share === 0 ? 0 : brakingAt(braking, speed, at.gear.ratio * at.wheelSpeed);
}

/**
 * N m that the drive may brake with all the way between two speeds of the car in m/s, slip left as it is: the least is at one of the ends,
 * as it fades to nothing below and falls with the power above.
 */
export function brakingBetween(
  side: Side,
  { speed }: Following,
  { v0, v1 }: { readonly v0: number; readonly v1: number },
): number {
  if (side.braking.share === 0) return 0;
  const turned = side.at.motorSpeed / speed;
  return Math.min(brakingAt(side.braking, v0, turned * v0), brakingAt(side.braking, v1, turned * v1));
}

function brakingAt(braking: BrakingFigures, v: number, omega: number): number {
  const { torque, power } = braking;
  const most = omega * torque > power ? power / omega : torque;
  return v < braking.fadeFrom ? Math.max(0, fade(braking, v)) * most : most;
}

/** What limits it there, as in `KIND`. */
export function brakingKind({ braking, at }: Side, { speed: v }: Following): number {
  const omega = at.gear.ratio * at.wheelSpeed;
  if (v <= braking.fadeTo || braking.share === 0) return KIND.off;
  const byPower = omega * braking.torque > braking.power;
  if (v < braking.fadeFrom) return byPower ? KIND.fadingPower : KIND.fadingTorque;
  return byPower ? KIND.power : KIND.torque;
}

/** Of the speed squared: nearer to the torque that gives most the root of what is left is round-off. */
const LEAST_ROOM = 1e-6;

/**
 * How far above nothing is the greatest power that a drive could give, of its speed squared, where it brakes beyond the torque at which it
 * gives that: braking harder it gives less, and draws in the end. -1 where it does not brake as hard as that.
 */
export function overdone({ axle, at: { torque, motorSpeed: omega } }: Side): number {
  if (axle.loss !== null || !(omega + 2 * axle.copper * torque < 0)) return -1;
  return 1 - (4 * axle.copper * motorLoss(axle, 0, omega)) / (omega * omega) - LEAST_ROOM;
}

/** N m that makes the inverter draw a power below what it draws at no torque: (T w + loss) eta = power. */
export function torqueGiving({ axle }: Side, power: number, omega: number, guess: number): number {
  const wanted = power < 0 ? power / axle.inverter : power * axle.inverter;
  if (axle.loss === null) {
    const useful = wanted - motorLoss(axle, 0, omega);
    if (useful >= 0) return 0;
    return (2 * useful) / (omega + Math.sqrt(Math.max(0, omega * omega + 4 * axle.copper * useful)));
  }
  // The loss changes little with the torque: a fixed-point iteration gains a digit or more each time.
  let T = guess;
  for (let pass = 0; pass < 12; pass++) T = Math.min(0, (wanted - motorLoss(axle, T, omega)) / omega);
  return T;
}
