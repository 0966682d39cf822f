/**
 * The balance of forces at an instant: acceleration, axle loads, slips and torques that fit together. Longitudinal balance and
 * load transfer as in Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 1 and 2.
 */
import { drivePass, isOpen, slipSettled, spinUp, torqueOfForce, turn, unlimited } from './slip-step.ts';
import { AXLE_BITS, BREAK, GRIP, REAR_SHIFT } from './state.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { friction } from '../tyre/friction.ts';

/** Change of load over load below which the next pass is the last. */
const LOAD_TOLERANCE = 1e-6;

const MOST_PASSES = 40;

/** What sets the force of an axle. */
const ROLLS = 0; // nothing: it is not driven, or its drive is cut off
const SLIPS = 1; // friction: at its grip limit, or with a wheel speed that is a state
const DRIVES = 2; // the torque of the limit in force

/** Drag, and for each axle the load without acceleration and the rolling coefficient. */
export function road(m: Moving, v: number): void {
  const { car } = m;
  const air = v + car.wind;
  const drag = car.halfRhoCdA * air * Math.abs(air);
  m.now.drag = drag;
  standing(m.front, m.atFront, v, air, car.dragMoment * drag);
  standing(m.rear, m.atRear, v, air, car.dragMoment * drag);
}

function standing(axle: AxleFigures, at: AxleNow, v: number, air: number, moved: number): void {
  at.unloaded = axle.staticLoad + axle.sign * moved - axle.liftFactor * air * air;
  at.rolling = axle.c0 + v * (axle.c1 + v * axle.c2);
}

/**
 * Solves the balance in a mode. Each axle adds to one linear equation for the acceleration: rolling resistance where it is
 * not driven; friction times load, linearised over load, where it is at its grip limit or its wheel speed is a state; the
 * torque of its limit less what spins up where the drive is weaker than the tyre. Then loads and slips follow, and the
 * passes go on until they stand still. For one axle without load sensitivity at the grip limit this is the closed form
 * m a = s mu N - c N' - drag - grade.
 */
export function balance(m: Moving, mode: number, v: number): void {
  const { car, front, rear, atFront, atRear } = m;
  const breaks = (mode & BREAK) !== 0;
  const bitsFront = mode & AXLE_BITS;
  const bitsRear = (mode >> REAR_SHIFT) & AXLE_BITS;
  const byFront = kindOf(front, bitsFront, breaks);
  const byRear = kindOf(rear, bitsRear, breaks);
  const push0 = -m.now.drag - car.gradeForce;
  let last = false;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    add(m, front, atFront, byFront, bitsFront, v, pass === 0);
    add(m, rear, atRear, byRear, bitsRear, v, pass === 0);
    const inertia = car.inertialMass + atFront.addedInertia + atRear.addedInertia;
    if (inertia <= 0) {
      neverLimited(m, front, atFront, bitsFront, v);
      neverLimited(m, rear, atRear, bitsRear, v);
      return;
    }
    const a = (push0 + atFront.addedForce + atRear.addedForce) / inertia;
    m.now.acceleration = a;
    const settledFront = follow(m, front, atFront, byFront, v, a, inertia, last);
    const settledRear = follow(m, rear, atRear, byRear, v, a, inertia, last);
    if (last) break;
    // A drive-limited axle takes one pass more with its final slip; at the grip limit the force is final already.
    if (settledFront && settledRear) {
      if (byFront !== DRIVES && byRear !== DRIVES) break;
      last = true;
    }
  }
  finish(m, front, atFront, bitsFront, v, breaks);
  finish(m, rear, atRear, bitsRear, v, breaks);
}

function kindOf(axle: AxleFigures, bits: number, breaks: boolean): number {
  if (bits === 0 || (isOpen(axle, breaks) && !axle.spin)) return ROLLS;
  return (bits & GRIP) !== 0 || axle.spin ? SLIPS : DRIVES;
}

/** What an axle adds to force and inertia. */
function add(m: Moving, axle: AxleFigures, at: AxleNow, by: number, bits: number, v: number, first: boolean): void {
  const k = axle.sign * m.car.transfer;
  if (by === ROLLS) {
    const c = at.rolling;
    // Undriven wheels are in the mass already.
    const spin = bits === 0 ? 0 : at.gear.wheelInertia / (axle.radius * axle.radius);
    at.addedForce = -c * at.unloaded;
    at.addedInertia = c * k + spin;
    at.intercept = spin;
  } else if (by === SLIPS) {
    const known = at.load;
    const floor = 0.1 * at.unloaded;
    const N = known > floor ? known : floor;
    const q = axle.loadExponent;
    const g = shareInUse(axle, at) * friction(axle, at, N);
    const tangent = (1 - q) * g;
    at.tangent = tangent;
    at.intercept = q * g * N;
    at.addedForce = tangent * at.unloaded + q * g * N;
    at.addedInertia = -tangent * k;
  } else {
    drivePass(m, axle, at, bits, v, first);
    at.addedForce = at.tangent - at.rolling * at.unloaded;
    at.addedInertia = at.rolling * k + at.intercept;
  }
}

/** Load, force and slip of an axle at an acceleration; tells whether they stand still. */
function follow(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  by: number,
  v: number,
  a: number,
  inertia: number,
  last: boolean,
): boolean {
  const N = at.unloaded + axle.sign * m.car.transfer * a;
  const change = Math.abs(N - at.load);
  at.load = N;
  if (by === ROLLS) {
    at.force = -at.rolling * N - at.intercept * a;
    return true;
  }
  if (by === SLIPS) {
    at.force = at.tangent * N + at.intercept;
    // Quadratic convergence: what is left is below the square of this change.
    return axle.loadExponent === 0 || !(change > LOAD_TOLERANCE * N);
  }
  at.force = at.tangent - at.rolling * N - at.intercept * a;
  if (last) {
    at.grip = friction(axle, at, N) * N;
    return true;
  }
  return slipSettled(m, axle, at, v, a, inertia);
}

function neverLimited(m: Moving, axle: AxleFigures, at: AxleNow, bits: number, v: number): void {
  if ((bits & GRIP) !== 0) unlimited(m, axle, at, v);
  else at.load = at.unloaded;
}

/** Share of the peak force that is in use where friction sets the force. */
function shareInUse(axle: AxleFigures, at: AxleNow): number {
  if (!axle.spin) return axle.maxShare;
  return Math.sin(axle.shape * Math.atan(axle.stiffness * at.stretch));
}

/** Wheel and motor speeds, and the torque where it follows from the force. */
function finish(m: Moving, axle: AxleFigures, at: AxleNow, bits: number, v: number, breaks: boolean): void {
  const a = m.now.acceleration;
  const r = axle.radius;
  const open = isOpen(axle, breaks);
  if (axle.spin) {
    spinUp(axle, at, open);
    return;
  }
  if (bits === 0 || open) {
    at.slip = 0;
    at.slipSpeed = 0;
    at.wheelSpeed = v / r;
    at.wheelSpin = a / r;
    at.motorSpeed = open ? (at.gear.ratio * v) / r : 0;
    at.torque = 0;
    return;
  }
  if ((bits & GRIP) !== 0) at.stretch = axle.maxStretch;
  turn(axle, at, v, a);
  if ((bits & GRIP) === 0) return;
  at.grip = at.force / axle.maxShare;
  at.torque = torqueOfForce(axle, at);
}
