/** How torques and forces of the axles move with their slips, the acceleration, and what each is told of the other. */
import * as elementary from '../../elementary.ts';
import { lossSlope, lossSpeedSlope } from './drive-unit.ts';
import { powerDrawn } from './drive-unit.ts';
import { limit, wheelTorque } from './limits.ts';
import { isOpen, spinState, torqueOfForce, turn } from './slip-step.ts';
import { slipCurve } from './slip-curve.ts';
import { GRIP, L, LIMIT_BITS, SLIDE } from './state.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { friction, loadShare } from '../tyre/friction.ts';

/** What sets the force of an axle. */
const ROLLS = 0; // nothing: it is not driven, or its drive is cut off
export const SLIPS = 1; // friction: at its grip limit, or with a wheel speed that is a state
export const DRIVES = 2; // the torque of the limit in force

/**
 * Of the load at rest: below it friction is taken as at this one, where a step leads anywhere. Without acceleration drag alone may lift
 * an axle.
 */
const LEAST_LOAD = 0.1;

/** What sets the force of an axle. */
export function kindOf(axle: AxleFigures, bits: number, breaks: boolean): number {
  if (bits === 0 || (isOpen(axle, breaks) && !axle.spin)) return ROLLS;
  return (bits & GRIP) !== 0 || axle.spin ? SLIPS : DRIVES;
}
/** Motor speed: both, before a torque is asked for that two drives share. */
export function speedNow(axle: AxleFigures, at: AxleNow, by: number, v: number): void {
  const { ratio } = at.gear;
  if (axle.spin) at.motorSpeed = ratio * at.wheelSpeed;
  else if (by === ROLLS) at.motorSpeed = (ratio * v) / axle.radius;
  else {
    const perSlip = (ratio * v) / axle.radius;
    at.motorSpeed = perSlip * (1 + at.stretch * axle.slipAtPeak);
    if (by === DRIVES) at.speedPerStretch = perSlip * axle.slipAtPeak;
  }
}

/** Torque and how it moves; at the grip limit it follows from force and acceleration. */
export function torqueNow(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  by: number,
  bits: number,
  v: number,
  open: boolean,
): void {
  at.gripPerPush = 0;
  if (by === DRIVES) {
    limit(m, axle, at, bits & LIMIT_BITS);
    at.torque = at.limit;
    return;
  }
  if (axle.spin) {
    spinState(m, axle, at, bits & ~SLIDE, open);
    if (!open) return;
  }
  at.limitSlope = 0;
  at.limitAcross = 0;
  at.limitTold = 0;
  if (by === ROLLS) at.torque = 0;
  else if (!axle.spin) {
    const a = m.now.acceleration;
    const k = axle.sign * m.car.transfer;
    const { gear } = at;
    slides(m, axle, at, axle.maxShare);
    turn(axle, at, v, a);
    at.torque = torqueOfForce(axle, at);
    const moment = (at.forcePerPush + at.rolling * k) * axle.radius + (gear.inertia * (1 + at.slip)) / axle.radius;
    at.gripPerPush = moment / (gear.efficiency * gear.ratio);
  }
}

/** Load and force where friction sets it; far off any load of an axle along the tangent. @param share of the peak force. */
function slides(m: Moving, axle: AxleFigures, at: AxleNow, share: number): void {
  const k = axle.sign * m.car.transfer;
  const N = at.unloaded + k * m.now.acceleration;
  const pressed = Math.max(N, LEAST_LOAD * axle.staticLoad);
  const mu = friction(axle, at, pressed);
  const s = loadShare(axle, mu);
  at.load = N;
  at.force = share * mu * (s * N + (1 - s) * pressed);
  at.forcePerPush = share * s * mu * k;
}

/** What an axle tells the other one, by how much it was told amiss, and how that moves. @param others bits of the other one. */
export function tells(axle: AxleFigures, at: AxleNow, other: AxleNow, others: number): void {
  other.toldGap = 0;
  if (!axle.driven || others === 0) {
    at.tellsPerTorque = 0;
    at.tellsPerSpeed = 0;
    return;
  }
  if ((others & LIMIT_BITS) === L.split) {
    at.tellsPerTorque = at.gear.efficiency * at.gear.ratio;
    at.tellsPerSpeed = 0;
    other.toldGap = wheelTorque(axle, at) - other.otherWheel;
    return;
  }
  other.toldGap = powerDrawn(axle, at) - other.otherPower;
  if (other.limitTold === 0) {
    at.tellsPerTorque = 0;
    at.tellsPerSpeed = 0;
    return;
  }
  const { torque, motorSpeed } = at;
  at.tellsPerTorque = (motorSpeed + lossSlope(axle, torque, motorSpeed)) / axle.inverter;
  at.tellsPerSpeed = (torque + lossSpeedSlope(axle, torque, motorSpeed)) / axle.inverter;
}

/** How both torques move with both slips and the acceleration, what they are told of each other included. */
export function torquesMove(front: AxleNow, rear: AxleNow): void {
  const toFront = front.limitTold * rear.tellsPerTorque;
  const toRear = rear.limitTold * front.tellsPerTorque;
  const loop = 1 - toFront * toRear;
  const frontByFront = front.limitSlope * front.speedPerStretch;
  const frontByRear = (front.limitAcross + front.limitTold * rear.tellsPerSpeed) * rear.speedPerStretch;
  const rearByRear = rear.limitSlope * rear.speedPerStretch;
  const rearByFront = (rear.limitAcross + rear.limitTold * front.tellsPerSpeed) * front.speedPerStretch;
  const frontGap = front.limitTold * front.toldGap;
  const rearGap = rear.limitTold * rear.toldGap;
  front.torquePerFront = (frontByFront + toFront * rearByFront) / loop;
  front.torquePerRear = (frontByRear + toFront * rearByRear) / loop;
  front.torquePerPush = (front.gripPerPush + toFront * rear.gripPerPush) / loop;
  front.torqueGap = (frontGap + toFront * rearGap) / loop;
  rear.torquePerFront = (rearByFront + toRear * frontByFront) / loop;
  rear.torquePerRear = (rearByRear + toRear * frontByRear) / loop;
  rear.torquePerPush = (rear.gripPerPush + toRear * front.gripPerPush) / loop;
  rear.torqueGap = (rearGap + toRear * frontGap) / loop;
}

/** Load and force, and how they move; where a drive sets the force also what the tyre would give at this slip. */
export function forceNow(m: Moving, axle: AxleFigures, at: AxleNow, by: number): void {
  const a = m.now.acceleration;
  const k = axle.sign * m.car.transfer;
  const { gear } = at;
  const r = axle.radius;
  at.forcePerTorque = 0;
  at.forcePerStretch = 0;
  at.spare = 0;
  if (by === SLIPS) {
    slides(m, axle, at, shareInUse(axle, at));
    return;
  }
  const N = at.unloaded + k * a;
  at.load = N;
  if (by === ROLLS) {
    // Undriven wheels are in the mass already.
    const spin = axle.driven ? gear.wheelInertia / (r * r) : 0;
    at.force = -at.rolling * N - axle.hubDrag - spin * a;
    at.forcePerPush = -at.rolling * k - spin;
    return;
  }
  const spin = gear.inertia / (r * r);
  const slip = at.stretch * axle.slipAtPeak;
  at.forcePerTorque = (gear.efficiency * gear.ratio) / r;
  at.forcePerPush = -at.rolling * k - spin * (1 + slip);
  at.forcePerStretch = -spin * axle.slipAtPeak * a;
  at.force = at.forcePerTorque * (at.torque - axle.dragTorque) - at.rolling * N - axle.hubDrag - spin * (1 + slip) * a;
  const pressed = Math.max(N, LEAST_LOAD * axle.staticLoad);
  const mu = friction(axle, at, pressed);
  at.grip = mu * pressed;
  if (axle.slipAtPeak === 0) return;
  let sigma = Math.sign(at.stretch);
  let slope = 0;
  let bend = 0;
  if (Math.abs(at.stretch) < 1) {
    slipCurve(axle, at, axle.stiffness * at.stretch);
    sigma = at.share;
    slope = at.shareSlope * axle.stiffness;
    bend = at.shareBend * axle.stiffness * axle.stiffness;
  }
  at.spare = at.grip * sigma - at.force;
  at.sparePerPush = loadShare(axle, mu) * mu * sigma * k - at.forcePerPush;
  at.sparePerStretch = at.grip * slope - at.forcePerStretch;
  at.spareBend = at.grip * bend;
  if (at.stretch > 1 && at.spare > 0) at.high = at.stretch;
  if (at.stretch < -1 && at.spare < 0) at.low = at.stretch;
}

/** Share of the peak force that is in use where friction sets the force. */
function shareInUse(axle: AxleFigures, at: AxleNow): number {
  if (!axle.spin) return axle.maxShare;
  return elementary.sin(axle.shape * elementary.atan(axle.stiffness * at.stretch));
}
