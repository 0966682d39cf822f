/** Slip of a driven axle: of a wheel whose speed is a state, and what follows from it. */
import { limit } from './limits.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';

/** Slip over slip at the peak beyond which a first guess is none. */
export const MOST_STRETCH = 10;

/** m/s: below it the slip of a spinning wheel is taken over this speed (ISO 8855 leaves rest undefined). */
const SLIP_SPEED = 0.3;

/**
 * Slip, motor speed and torque of a wheel whose speed is a state, before the balance. Slip as in ISO 8855, over a speed
 * that does not fall below `SLIP_SPEED`: sqrt(v^2 + SLIP_SPEED^2).
 * @param l the limit in force. @param open whether the drive is cut off.
 */
export function spinState(m: Moving, axle: AxleFigures, at: AxleNow, l: number, open: boolean): void {
  const v = m.now.speed;
  const slipSpeed = at.wheelSpeed * axle.radius - v;
  const slip = slipSpeed / Math.sqrt(v * v + SLIP_SPEED * SLIP_SPEED);
  at.slipSpeed = slipSpeed;
  at.slip = slip;
  at.stretch = slip / axle.slipAtPeak;
  at.motorSpeed = at.gear.ratio * at.wheelSpeed;
  limit(m, axle, at, l);
  at.torque = open ? 0 : at.limit;
}

/** A wheel whose speed is a state: what is left of the torque spins it up. */
export function spinUp(axle: AxleFigures, at: AxleNow, open: boolean): void {
  const { gear } = at;
  const wheel = open ? 0 : gear.efficiency * gear.ratio * (at.torque - axle.dragTorque);
  const inertia = open ? gear.wheelInertia : gear.inertia;
  at.wheelSpin = (wheel - (at.force + at.rolling * at.load + axle.hubDrag) * axle.radius) / inertia;
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
  const { perRadius } = axle;
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
  const moment = (at.force + at.rolling * at.load + axle.hubDrag) * axle.radius + gear.inertia * at.wheelSpin;
  return moment * gear.driving + axle.dragTorque;
}
