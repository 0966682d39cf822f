/** Slip of a driven axle in the general balance: where it starts, one step on, and what follows from it. */
import { limit } from './limits.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { friction } from '../tyre/friction.ts';

/** Change of slip over slip at the peak below which the next pass is the last. */
const STRETCH_TOLERANCE = 1e-7;

/** Slip over slip at the peak beyond which a first guess is none. */
export const MOST_STRETCH = 10;

/** m/s: below it the slip of a spinning wheel is taken over this speed (ISO 8855 leaves rest undefined). */
const SLIP_SPEED = 0.3;

/** Force at the wheel rim and inertia of the turning parts at the present slip. @param l the limit in force. */
export function drivePass(m: Moving, axle: AxleFigures, at: AxleNow, l: number, v: number, first: boolean): void {
  const r = axle.radius;
  const { gear } = at;
  if (first) {
    // A trial step of the solver may have left anything behind.
    if (!(Math.abs(at.stretch) < MOST_STRETCH)) at.stretch = 0;
    // Negative slip: where the drive is too weak to turn even its own wheels against their rolling resistance.
    at.low = -1;
    at.high = Infinity;
  }
  const slip = at.stretch * axle.slipAtPeak;
  at.motorSpeed = (gear.ratio * v * (1 + slip)) / r;
  limit(m, axle, at, l);
  at.torque = at.limit;
  at.tangent = (gear.efficiency * gear.ratio * (at.limit - axle.dragTorque)) / r;
  at.intercept = (gear.inertia * (1 + slip)) / (r * r);
}

/**
 * One Newton step on the slip over the slip at the peak: the slip is where the tyre gives just the force that the drive puts
 * out at the motor speed of that slip. Past the peak the tyre curve goes on flat, so that a step of the solver may overshoot
 * smoothly before it is cut at the switch. Tells whether the slip stands still.
 */
export function slipSettled(m: Moving, axle: AxleFigures, at: AxleNow, v: number, a: number, inertia: number): boolean {
  const peakSlip = axle.slipAtPeak;
  if (peakSlip === 0) return true;
  const z = at.stretch;
  const N = at.load;
  const F = at.force;
  const q = axle.loadExponent;
  const C = axle.shape;
  const { stiffness } = axle;
  const { gear } = at;
  const r = axle.radius;
  const k = axle.sign * m.car.transfer;
  const G = friction(axle, at, N) * N;
  const slope = at.limitSlope;
  const rising = z < 1;
  const x = stiffness * z;
  const phi = C * Math.atan(x);
  const sigma = rising ? Math.sin(phi) : 1;
  const sigmaSlope = rising ? (Math.cos(phi) * C * stiffness) / (1 + x * x) : 0;
  // Force and load both follow the slip through the acceleration.
  const spin = gear.inertia / (r * r);
  const perTorque = (gear.efficiency * gear.ratio) / r;
  const dWheel = (perTorque * slope * gear.ratio * v * peakSlip) / r;
  const dA = (dWheel - spin * peakSlip * a) / inertia;
  const dF = dWheel - at.rolling * k * dA - spin * (peakSlip * a + (1 + z * peakSlip) * dA);
  const residual = G * sigma - F;
  if (residual > 0) at.high = z;
  else at.low = z;
  const { low, high } = at;
  let next = z - residual / (G * sigmaSlope + ((1 - q) * G * sigma * k * dA) / N - dF);
  // A torque that does not fall with speed may exceed the peak at any slip: then the slip stays at the peak.
  if (slope === 0 && high === Infinity && !(next < 1)) next = 1;
  // At the peak the curve is flat and a Newton step may go anywhere: the bracket takes over.
  else if (!(next >= low && next <= high)) next = high === Infinity ? 2 * Math.abs(low) + 1 : 0.5 * (low + high);
  at.stretch = next;
  return Math.abs(next - z) < STRETCH_TOLERANCE * (1 + z);
}

/**
 * Slip, motor speed and torque of a wheel that turns at `speed` rad/s, before the balance. Slip as in ISO 8855, over a speed
 * that does not fall below `SLIP_SPEED`: sqrt(v^2 + SLIP_SPEED^2).
 * @param l the limit in force. @param open whether the drive is cut off.
 */
export function spinState(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  l: number,
  v: number,
  speed: number,
  open: boolean,
): void {
  const slipSpeed = speed * axle.radius - v;
  const slip = slipSpeed / Math.sqrt(v * v + SLIP_SPEED * SLIP_SPEED);
  at.wheelSpeed = speed;
  at.slipSpeed = slipSpeed;
  at.slip = slip;
  at.stretch = slip / axle.slipAtPeak;
  at.motorSpeed = at.gear.ratio * speed;
  limit(m, axle, at, l);
  at.torque = open ? 0 : at.limit;
}

/** A wheel whose speed is a state: what is left of the torque spins it up. */
export function spinUp(axle: AxleFigures, at: AxleNow, open: boolean): void {
  const { gear } = at;
  const N = at.load;
  at.grip = friction(axle, at, N) * N;
  const wheel = open ? 0 : gear.efficiency * gear.ratio * (at.torque - axle.dragTorque);
  const inertia = open ? gear.wheelInertia : gear.inertia;
  at.wheelSpin = (wheel - (at.force + at.rolling * N) * axle.radius) / inertia;
}

/** So much friction that the load it moves to a driven rear axle brings more than it costs: grip never limits this axle. */
export function unlimited(m: Moving, axle: AxleFigures, at: AxleNow, v: number): void {
  m.now.acceleration = Infinity;
  at.load = at.unloaded;
  at.force = Infinity;
  at.grip = Infinity;
  at.torque = Infinity;
  at.stretch = 0;
  at.motorSpeed = (at.gear.ratio * v) / axle.radius;
}

/** Whether the drive of an axle is cut off while its gear is changed. */
export function isOpen(axle: AxleFigures, breaks: boolean): boolean {
  return breaks && axle.gears.length > 1;
}

/** What an engaged axle does at its slip: wheel and motor speeds. */
export function turn(axle: AxleFigures, at: AxleNow, v: number, a: number): void {
  const perRadius = 1 / axle.radius;
  const slip = at.stretch * axle.slipAtPeak;
  at.slip = slip;
  at.slipSpeed = slip * v;
  at.wheelSpeed = (1 + slip) * v * perRadius;
  at.wheelSpin = (1 + slip) * a * perRadius;
  at.motorSpeed = at.gear.ratio * at.wheelSpeed;
}

/** N m at the motor shaft that put out the present force and spin up what turns with it. */
export function torqueOfForce(axle: AxleFigures, at: AxleNow): number {
  const { gear } = at;
  const moment = (at.force + at.rolling * at.load) * axle.radius + gear.inertia * at.wheelSpin;
  return moment / (gear.efficiency * gear.ratio) + axle.dragTorque;
}
