/**
 * The balance of forces at an instant: acceleration, axle loads, slips and torques that fit together. On the plant's flat
 * blocks; longitudinal balance and load transfer as in Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 1 and 2.
 */
import { limit } from './limits.ts';
import type { UnitTables } from './limits.ts';
import { A, AXLE_SCRATCH, AXLE_SIZE, axleMode, B, BREAK, GRIP, P, W } from './state.ts';
import { friction } from '../tyre/friction.ts';

/** Changes of slip over slip at the peak, and of load over load, below which the next pass is the last. */
const STRETCH_TOLERANCE = 1e-7;
const LOAD_TOLERANCE = 1e-6;

const MOST_PASSES = 40;

/** Slip over slip at the peak beyond which a first guess is none. */
export const MOST_STRETCH = 10;

/** m/s: below it the slip of a spinning wheel is taken over this speed (ISO 8855 leaves rest undefined). */
export const SLIP_SPEED = 0.3;

/** Drag, and for each axle the load without acceleration and the rolling coefficient. */
export function road(p: Float64Array, w: Float64Array, v: number): void {
  const air = v + p[P.wind]!;
  const drag = p[P.halfRhoCdA]! * air * Math.abs(air);
  w[W.drag] = drag;
  for (let axle = 0; axle < 2; axle++) {
    const o = P.axle0 + axle * AXLE_SIZE;
    const b = W.axle0 + axle * AXLE_SCRATCH;
    w[b + B.unloaded] =
      p[o + A.staticLoad]! + p[o + A.sign]! * p[P.dragMoment]! * drag - p[o + A.liftFactor]! * air * air;
    w[b + B.rolling] = p[o + A.c0]! + v * (p[o + A.c1]! + v * p[o + A.c2]!);
  }
}

/**
 * Solves the balance in a mode. Each axle adds to one linear equation for the acceleration: rolling resistance where it is
 * not driven; friction times load, linearised over load, where it is at its grip limit or its wheel speed is a state; the
 * torque of its limit less what spins up where the drive is weaker than the tyre. Then loads and slips follow, and the
 * passes go on until they stand still. For one axle without load sensitivity at the grip limit this is the closed form
 * m a = s mu N - c N' - drag - grade.
 */
export function balance(
  p: Float64Array,
  w: Float64Array,
  mode: number,
  v: number,
  front: UnitTables,
  rear: UnitTables,
): void {
  const transfer = p[P.transfer]!;
  const push0 = -w[W.drag]! - p[P.gradeForce]!;
  let last = false;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    let inertia = p[P.inertialMass]!;
    let push = push0;
    for (let axle = 0; axle < 2; axle++) {
      const o = P.axle0 + axle * AXLE_SIZE;
      const b = W.axle0 + axle * AXLE_SCRATCH;
      const m = axleMode(mode, axle);
      const k = p[o + A.sign]! * transfer;
      if (m === 0 || (isOpen(p, o, mode) && p[o + A.spin] !== 1)) {
        const c = w[b + B.rolling]!;
        const spin = m === 0 ? 0 : p[o + A.wheelInertia]! / (p[o + A.radius]! * p[o + A.radius]!);
        push -= c * w[b + B.unloaded]!;
        inertia += c * k + spin;
        w[b + B.intercept] = spin;
      } else if ((m & GRIP) !== 0 || p[o + A.spin] === 1) {
        const known = w[b + B.load]!;
        const floor = 0.1 * w[b + B.unloaded]!;
        const N = known > floor ? known : floor;
        const q = p[o + A.loadExponent]!;
        const g = shareInUse(p, w, o, b) * friction(p, w, o, b, N);
        const tangent = (1 - q) * g;
        w[b + B.tangent] = tangent;
        w[b + B.intercept] = q * g * N;
        push += tangent * w[b + B.unloaded]! + q * g * N;
        inertia -= tangent * k;
      } else {
        drivePass(p, w, o, b, m, v, axle === 0 ? front : rear, pass === 0);
        push += w[b + B.tangent]! - w[b + B.rolling]! * w[b + B.unloaded]!;
        inertia += w[b + B.rolling]! * k + w[b + B.intercept]!;
      }
    }
    if (inertia <= 0) {
      for (let axle = 0; axle < 2; axle++) {
        const o = P.axle0 + axle * AXLE_SIZE;
        const b = W.axle0 + axle * AXLE_SCRATCH;
        if ((axleMode(mode, axle) & GRIP) !== 0) unlimited(p, w, o, b, v);
        else w[b + B.load] = w[b + B.unloaded]!;
      }
      return;
    }
    const a = push / inertia;
    w[W.acceleration] = a;
    let settled = true;
    for (let axle = 0; axle < 2; axle++) {
      const o = P.axle0 + axle * AXLE_SIZE;
      const b = W.axle0 + axle * AXLE_SCRATCH;
      const m = axleMode(mode, axle);
      const N = w[b + B.unloaded]! + p[o + A.sign]! * transfer * a;
      const change = Math.abs(N - w[b + B.load]!);
      w[b + B.load] = N;
      if (m === 0 || (isOpen(p, o, mode) && p[o + A.spin] !== 1)) {
        w[b + B.force] = -w[b + B.rolling]! * N - w[b + B.intercept]! * a;
      } else if ((m & GRIP) !== 0 || p[o + A.spin] === 1) {
        // Quadratic convergence: what is left is below the square of this change.
        if (p[o + A.loadExponent] !== 0 && change > LOAD_TOLERANCE * N) settled = false;
        w[b + B.force] = w[b + B.tangent]! * N + w[b + B.intercept]!;
      } else {
        w[b + B.force] = w[b + B.tangent]! - w[b + B.rolling]! * N - w[b + B.intercept]! * a;
        if (!last && !slipSettled(p, w, o, b, v, a, inertia)) settled = false;
        else if (last) w[b + B.grip] = friction(p, w, o, b, N) * N;
      }
    }
    if (last) break;
    // A drive-limited axle takes one pass more with its final slip; at the grip limit the force is final already.
    if (settled) {
      if (!anyDriving(p, mode)) break;
      last = true;
    }
  }
  finish(p, w, mode, v);
}

/** So much friction that the load it moves to a driven rear axle brings more than it costs: grip never limits this axle. */
export function unlimited(p: Float64Array, w: Float64Array, o: number, b: number, v: number): void {
  w[W.acceleration] = Infinity;
  w[b + B.load] = w[b + B.unloaded]!;
  w[b + B.force] = Infinity;
  w[b + B.grip] = Infinity;
  w[b + B.torque] = Infinity;
  w[b + B.stretch] = 0;
  w[b + B.motorSpeed] = (p[o + A.ratio]! * v) / p[o + A.radius]!;
}

/** Share of the peak force that is in use where friction sets the force. */
function shareInUse(p: Float64Array, w: Float64Array, o: number, b: number): number {
  if (p[o + A.spin] !== 1) return p[o + A.maxShare]!;
  return Math.sin(p[o + A.shape]! * Math.atan(p[o + A.stiffness]! * w[b + B.stretch]!));
}

/** Whether the drive of an axle is cut off while its gear is changed. */
export function isOpen(p: Float64Array, o: number, mode: number): boolean {
  return (mode & BREAK) !== 0 && p[o + A.gears]! > 1;
}

function anyDriving(p: Float64Array, mode: number): boolean {
  for (let axle = 0; axle < 2; axle++) {
    const m = axleMode(mode, axle);
    const o = P.axle0 + axle * AXLE_SIZE;
    if (m !== 0 && (m & GRIP) === 0 && p[o + A.spin] !== 1 && !isOpen(p, o, mode)) return true;
  }
  return false;
}

/** Force at the wheel rim and inertia of the turning parts at the present slip. */
function drivePass(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  m: number,
  v: number,
  tables: UnitTables,
  first: boolean,
): void {
  const r = p[o + A.radius]!;
  if (first) {
    // A trial step of the solver may have left anything behind.
    if (!(Math.abs(w[b + B.stretch]!) < MOST_STRETCH)) w[b + B.stretch] = 0;
    // Negative slip: where the drive is too weak to turn even its own wheels against their rolling resistance.
    w[b + B.low] = -1;
    w[b + B.high] = Infinity;
  }
  const slip = w[b + B.stretch]! * p[o + A.slipAtPeak]!;
  w[b + B.motorSpeed] = (p[o + A.ratio]! * v * (1 + slip)) / r;
  limit(p, w, o, b, m, tables);
  w[b + B.torque] = w[b + B.limit]!;
  w[b + B.tangent] = (p[o + A.efficiency]! * p[o + A.ratio]! * (w[b + B.limit]! - p[o + A.dragTorque]!)) / r;
  w[b + B.intercept] = (p[o + A.inertia]! * (1 + slip)) / (r * r);
}

/**
 * One Newton step on the slip over the slip at the peak: the slip is where the tyre gives just the force that the drive puts
 * out at the motor speed of that slip. Past the peak the tyre curve goes on flat, so that a step of the solver may overshoot
 * smoothly before it is cut at the switch. Tells whether the slip stands still.
 */
function slipSettled(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  v: number,
  a: number,
  inertia: number,
): boolean {
  const peakSlip = p[o + A.slipAtPeak]!;
  if (peakSlip === 0) return true;
  const z = w[b + B.stretch]!;
  const N = w[b + B.load]!;
  const F = w[b + B.force]!;
  const q = p[o + A.loadExponent]!;
  const C = p[o + A.shape]!;
  const stiffness = p[o + A.stiffness]!;
  const r = p[o + A.radius]!;
  const k = p[o + A.sign]! * p[P.transfer]!;
  const G = friction(p, w, o, b, N) * N;
  const slope = w[b + B.limitSlope]!;
  const rising = z < 1;
  const x = stiffness * z;
  const phi = C * Math.atan(x);
  const sigma = rising ? Math.sin(phi) : 1;
  const sigmaSlope = rising ? (Math.cos(phi) * C * stiffness) / (1 + x * x) : 0;
  // Force and load both follow the slip through the acceleration.
  const spin = p[o + A.inertia]! / (r * r);
  const gear = (p[o + A.efficiency]! * p[o + A.ratio]!) / r;
  const dWheel = (gear * slope * p[o + A.ratio]! * v * peakSlip) / r;
  const dA = (dWheel - spin * peakSlip * a) / inertia;
  const dF = dWheel - w[b + B.rolling]! * k * dA - spin * (peakSlip * a + (1 + z * peakSlip) * dA);
  const residual = G * sigma - F;
  if (residual > 0) w[b + B.high] = z;
  else w[b + B.low] = z;
  const low = w[b + B.low]!;
  const high = w[b + B.high]!;
  let next = z - residual / (G * sigmaSlope + ((1 - q) * G * sigma * k * dA) / N - dF);
  // A torque that does not fall with speed may exceed the peak at any slip: then the slip stays at the peak.
  if (slope === 0 && high === Infinity && !(next < 1)) next = 1;
  // At the peak the curve is flat and a Newton step may go anywhere: the bracket takes over.
  else if (!(next >= low && next <= high)) next = high === Infinity ? 2 * Math.abs(low) + 1 : 0.5 * (low + high);
  w[b + B.stretch] = next;
  return Math.abs(next - z) < STRETCH_TOLERANCE * (1 + z);
}

/** Wheel and motor speeds, and the torque where it follows from the force. */
function finish(p: Float64Array, w: Float64Array, mode: number, v: number): void {
  const a = w[W.acceleration]!;
  for (let axle = 0; axle < 2; axle++) {
    const o = P.axle0 + axle * AXLE_SIZE;
    const b = W.axle0 + axle * AXLE_SCRATCH;
    const m = axleMode(mode, axle);
    const r = p[o + A.radius]!;
    const open = isOpen(p, o, mode);
    if (p[o + A.spin] === 1) {
      spinning(p, w, o, b, open);
      continue;
    }
    if (m === 0 || open) {
      w[b + B.slip] = 0;
      w[b + B.slipSpeed] = 0;
      w[b + B.wheelSpeed] = v / r;
      w[b + B.wheelSpin] = a / r;
      w[b + B.motorSpeed] = open ? (p[o + A.ratio]! * v) / r : 0;
      w[b + B.torque] = 0;
      continue;
    }
    if ((m & GRIP) !== 0) w[b + B.stretch] = p[o + A.maxStretch]!;
    const slip = w[b + B.stretch]! * p[o + A.slipAtPeak]!;
    w[b + B.slip] = slip;
    w[b + B.slipSpeed] = slip * v;
    w[b + B.wheelSpeed] = ((1 + slip) * v) / r;
    w[b + B.wheelSpin] = ((1 + slip) * a) / r;
    w[b + B.motorSpeed] = p[o + A.ratio]! * w[b + B.wheelSpeed]!;
    if ((m & GRIP) === 0) continue;
    w[b + B.grip] = w[b + B.force]! / p[o + A.maxShare]!;
    w[b + B.torque] =
      ((w[b + B.force]! + w[b + B.rolling]! * w[b + B.load]!) * r + p[o + A.inertia]! * w[b + B.wheelSpin]!) /
        (p[o + A.efficiency]! * p[o + A.ratio]!) +
      p[o + A.dragTorque]!;
  }
}

/** A wheel whose speed is a state: what is left of the torque spins it up. */
export function spinning(p: Float64Array, w: Float64Array, o: number, b: number, open: boolean): void {
  const N = w[b + B.load]!;
  const r = p[o + A.radius]!;
  w[b + B.grip] = friction(p, w, o, b, N) * N;
  const wheel = open ? 0 : p[o + A.efficiency]! * p[o + A.ratio]! * (w[b + B.torque]! - p[o + A.dragTorque]!);
  const inertia = open ? p[o + A.wheelInertia]! : p[o + A.inertia]!;
  w[b + B.wheelSpin] = (wheel - (w[b + B.force]! + w[b + B.rolling]! * N) * r) / inertia;
}

/**
 * Slip, motor speed and torque of a wheel that turns at `speed` rad/s, before the balance. Slip as in ISO 8855, over a speed
 * that does not fall below `SLIP_SPEED`: sqrt(v^2 + SLIP_SPEED^2).
 */
export function spinState(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  m: number,
  v: number,
  speed: number,
  tables: UnitTables,
  open: boolean,
): void {
  const slipSpeed = speed * p[o + A.radius]! - v;
  const slip = slipSpeed / Math.sqrt(v * v + SLIP_SPEED * SLIP_SPEED);
  w[b + B.wheelSpeed] = speed;
  w[b + B.slipSpeed] = slipSpeed;
  w[b + B.slip] = slip;
  w[b + B.stretch] = slip / p[o + A.slipAtPeak]!;
  w[b + B.motorSpeed] = p[o + A.ratio]! * speed;
  limit(p, w, o, b, m, tables);
  w[b + B.torque] = open ? 0 : w[b + B.limit]!;
}
