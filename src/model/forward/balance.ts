/**
 * The balance of forces at an instant: acceleration, axle loads, slips and torques that fit together. Longitudinal balance and
 * load transfer as in Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 1 and 2. Two driven axles see what the other one draws or
 * puts out: acceleration, both slips and both torques are solved at once, by Newton's method. One after the other they would take
 * some ten rounds, and near the peak of friction, where the slip moves much with the torque, they would go to and fro.
 */
import { DRIVES, forceNow, kindOf, SLIPS, speedNow, tells, torqueNow, torquesMove } from './balance-slopes.ts';
import { powerDrawn } from './drive-unit.ts';
import { wheelTorque } from './limits.ts';
import { fromLowest, isReflected } from './lowest-voltage.ts';
import { isOpen, MOST_STRETCH, spinUp, torqueOfForce, turn, unlimited } from './slip-step.ts';
import { atPack, AXLE_BITS, BREAK, follows, GRIP, L, LIMIT_BITS, REAR_SHIFT } from './state.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, CarNow, Moving } from './instant.ts';
import { friction, takeGrip } from '../tyre/friction.ts';

const MOST_PASSES = 30;

/** What may be left of an unknown, against its size. */
const LEFT = 1e-12;

/** A step must be so small to be one of those that shrink as their squares. */
const NEAR = 1e-6;

/** A step so small is the last, whatever came before. */
const LAST = 1e-9;

/** Of the slip at the peak. */
const WITHIN = 0.5;

/** m/s2 that count like a slip at the peak. */
const PUSH = 10;

/** Drag, and for each axle the load without acceleration and the rolling coefficient. */
export function road(m: Moving): void {
  const { car } = m;
  const air = m.now.speed + car.wind;
  m.now.air = air;
  // Where a trial step of the solver goes past the speed of the wind drag goes on as it was, see `tail-wind.ts`.
  const size = m.now.pushed ? -air : Math.abs(air);
  const drag = car.halfRhoCdA * air * size;
  const behind = car.towedDrag * air * size;
  m.now.drag = drag + behind;
  m.now.against = drag + behind + car.towedRoll + car.gradeForce;
  const moved = car.dragMoment * drag + car.hitchLever * (behind + car.towedRoll);
  m.now.moved = moved;
  standing(m.front, m.atFront, m.now);
  standing(m.rear, m.atRear, m.now);
}

function standing(axle: AxleFigures, at: AxleNow, { speed: v, air, moved }: CarNow): void {
  at.unloaded = axle.staticLoad + axle.sign * moved - axle.liftFactor * air * air;
  at.rolling = axle.c0 + v * (axle.c1 + v * axle.c2);
}

/** Solves the balance of a car in a mode: loads, slips, torques and acceleration that fit together. */
export function balance(m: Moving, mode: number): void {
  const { front, rear, atFront, atRear, now } = m;
  const bitsFront = mode & AXLE_BITS;
  const bitsRear = (mode >> REAR_SHIFT) & AXLE_BITS;
  const breaks = (mode & BREAK) !== 0;
  meet(atFront, bitsFront, bitsRear, isOpen(rear, breaks));
  meet(atRear, bitsRear, bitsFront, isOpen(front, breaks));
  if (now.lost) forget(m);
  now.lost = !converges(m, mode);
  const lowFront = isReflected(atFront, bitsFront);
  const lowRear = isReflected(atRear, bitsRear);
  if (now.lost || lowFront || lowRear) {
    forget(m);
    if (lowFront) fromLowest(m, front, atFront, atRear);
    if (lowRear) fromLowest(m, rear, atRear, atFront);
    now.lost = !converges(m, mode);
  }
  settle(m, front, atFront, bitsFront, mode, now.speed);
  settle(m, rear, atRear, bitsRear, mode, now.speed);
  tell(front, atFront, atRear);
  tell(rear, atRear, atFront);
}

/** False where that takes too many passes, which it does only where a trial step of the solver leads anywhere, or grip never limits. */
function converges(m: Moving, mode: number): boolean {
  const { front, rear, atFront, atRear, now } = m;
  const v = now.speed;
  const breaks = (mode & BREAK) !== 0;
  const bitsFront = mode & AXLE_BITS;
  const bitsRear = (mode >> REAR_SHIFT) & AXLE_BITS;
  const byFront = kindOf(front, bitsFront, breaks);
  const byRear = kindOf(rear, bitsRear, breaks);
  begin(front, atFront, byFront);
  begin(rear, atRear, byRear);
  let before = 0;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    speedNow(front, atFront, byFront, v);
    speedNow(rear, atRear, byRear, v);
    torqueNow(m, front, atFront, byFront, bitsFront, v, isOpen(front, breaks));
    torqueNow(m, rear, atRear, byRear, bitsRear, v, isOpen(rear, breaks));
    // A limit that is none there, as the taper far below the greatest speed: nothing holds the car back.
    if (atFront.torque === Infinity || atRear.torque === Infinity) {
      now.inertia = 0;
      now.acceleration = Infinity;
      return false;
    }
    tells(front, atFront, atRear, bitsRear);
    tells(rear, atRear, atFront, bitsFront);
    torquesMove(atFront, atRear);
    forceNow(m, front, atFront, byFront);
    forceNow(m, rear, atRear, byRear);
    if (!solve(m, byFront === DRIVES, byRear === DRIVES)) return false;
    const moves = Math.max(stepOf(front, atFront), stepOf(rear, atRear), now.astray ? 1 : Math.abs(now.change) / PUSH);
    const size = Math.max(moves, unheard(front, atFront, bitsFront), unheard(rear, atRear, bitsRear));
    step(atFront, atRear, bitsFront);
    step(atRear, atFront, bitsRear);
    now.acceleration += now.change;
    // Newton's steps shrink as their squares: so much is left after this one.
    if (size < LAST || (size < NEAR && size * size * size < LEFT * before * before)) return true;
    if (!(size < Infinity)) return false;
    before = Math.min(1, size);
  }
  return false;
}

/** What the last call left is no start: it was a trial step of the solver that led anywhere. */
function forget({ now, atFront, atRear }: Moving): void {
  now.acceleration = 0;
  for (const at of [atFront, atRear]) {
    at.stretch = 0;
    at.otherPower = 0;
    at.otherWheel = 0;
  }
}

/** What an axle is told of the other one. @param bits of the axle. @param others of the other. @param open whether that one is cut off. */
function meet(at: AxleNow, bits: number, others: number, open: boolean): void {
  at.otherAtPack = atPack(others) && !open;
  at.otherFollows = follows(others) && !open;
  at.followedLimit = follows(bits) && at.otherAtPack ? others & LIMIT_BITS : 0;
  // A trial step of the solver may have left anything behind.
  if (!Number.isFinite(at.otherPower)) at.otherPower = 0;
  if (!Number.isFinite(at.otherWheel)) at.otherWheel = 0;
}

/** What stands from the last call, or a start where nothing does. */
function begin(axle: AxleFigures, at: AxleNow, by: number): void {
  at.speedPerStretch = 0;
  at.toldGap = 0;
  if (by === DRIVES) {
    // A trial step of the solver may have left anything behind.
    if (!(Math.abs(at.stretch) < MOST_STRETCH)) at.stretch = 0;
    at.low = -Infinity;
    at.high = Infinity;
  } else if (by === SLIPS && !axle.spin) at.stretch = axle.maxStretch;
}

/** One step for all unknowns: changes of acceleration, slips and torques. @param slipsFront whether the slip is unknown. */
function solve(m: Moving, slipsFront: boolean, slipsRear: boolean): boolean {
  const { car, front, rear, atFront: f, atRear: r, now } = m;
  const ef = f.forcePerTorque;
  const er = r.forcePerTorque;
  const inertia = car.inertialMass - f.forcePerPush - r.forcePerPush - ef * f.torquePerPush - er * r.torquePerPush;
  now.inertia = inertia;
  if (!(inertia > 0)) return false;
  const aByFront = (f.forcePerStretch + ef * f.torquePerFront + er * r.torquePerFront) / inertia;
  const aByRear = (r.forcePerStretch + ef * f.torquePerRear + er * r.torquePerRear) / inertia;
  const lacks = f.force + r.force - now.against - car.inertialMass * now.acceleration;
  const aGap = (lacks + ef * f.torqueGap + er * r.torqueGap) / inertia;
  const frontByPush = f.sparePerPush - ef * f.torquePerPush;
  const rearByPush = r.sparePerPush - er * r.torquePerPush;
  let ff = 1;
  let fr = 0;
  let rf = 0;
  let rr = 1;
  let gapFront = 0;
  let gapRear = 0;
  if (slipsFront && front.slipAtPeak > 0) {
    ff = f.sparePerStretch - ef * f.torquePerFront + frontByPush * aByFront;
    fr = -ef * f.torquePerRear + frontByPush * aByRear;
    gapFront = ef * f.torqueGap - f.spare - frontByPush * aGap;
    ff -= bent(f, ff);
  }
  if (slipsRear && rear.slipAtPeak > 0) {
    rr = r.sparePerStretch - er * r.torquePerRear + rearByPush * aByRear;
    rf = -er * r.torquePerFront + rearByPush * aByFront;
    gapRear = er * r.torqueGap - r.spare - rearByPush * aGap;
    rr -= bent(r, rr);
  }
  // At the peak, where the curve is flat, a torque that does not fall with the slip leaves it there.
  if (slipsFront && stays(f)) {
    ff = 1;
    fr = 0;
    gapFront = 0;
  }
  if (slipsRear && stays(r)) {
    rf = 0;
    rr = 1;
    gapRear = 0;
  }
  const det = ff * rr - fr * rf;
  now.astray = false;
  f.stretchStep = slipsFront ? bounded(now, f, ff, (gapFront * rr - fr * gapRear) / det) : 0;
  r.stretchStep = slipsRear ? bounded(now, r, rr, (ff * gapRear - gapFront * rf) / det) : 0;
  now.change = aGap + aByFront * f.stretchStep + aByRear * r.stretchStep;
  f.torqueStep = moved(f, f.stretchStep, r.stretchStep, now.change);
  r.torqueStep = moved(r, f.stretchStep, r.stretchStep, now.change);
  return true;
}

/** Of its slope: beyond that Halley's part is none, it brings the step to rest where the curve is flat, whatever is missing there. */
const MOST_BENT = 1e3;

/**
 * Halley's part of a slope: the bend of the tyre curve stands for all of the bend, it is most of it. Of a wheel that lags none that
 * turns the step round: what is missing on the way to the peak may be so much that only beyond it the two meet.
 */
function bent(at: AxleNow, slope: number): number {
  const part = (0.5 * at.spare * at.spareBend) / slope;
  const most = lags(at) ? 1 : MOST_BENT;
  return Math.abs(part) < most * Math.abs(slope) ? part : 0;
}

/**
 * Whether a wheel that is turned by the road as well takes the less of it the slower it turns: its drive is too weak to speed up what
 * turns with it as fast as the car gets faster. What its tyre can not give it stays behind.
 */
function lags(at: AxleNow): boolean {
  return at.stretch < 0 && at.spare > 0 && at.forcePerStretch < 0;
}

function moved(at: AxleNow, front: number, rear: number, push: number): number {
  return at.torqueGap + at.torquePerFront * front + at.torquePerRear * rear + at.torquePerPush * push;
}

/** Whether the slip of an axle is at the peak and no step can change it: its torque is above what the tyre takes, and does not fall. */
function stays(at: AxleNow): boolean {
  if (at.limitSlope !== 0 || lags(at)) return false;
  return at.stretch >= 1 ? at.spare <= 0 : at.stretch <= -1 && at.spare >= 0;
}

/**
 * A step of the slip; about the peak, where the curve is flat and Newton's may go anywhere, one that stays within reason.
 * @param own how what the tyre gives beyond its force goes with this slip.
 */
function bounded(now: CarNow, at: AxleNow, own: number, change: number): number {
  const z = at.stretch;
  const next = z + change;
  if (Math.abs(next) <= 1) return change;
  // What turns and gets slower pushes the more the more it slips. Where the tyre gives more than the force beyond the peak, but ever less
  // of it the farther it slips, the two meet before the peak as well, and only there do they stay together.
  const parts = own < 0 && (z > 1 ? at.high <= z && change > 0 : z < -1 && at.low >= z && change < 0);
  // Beyond the peak the curve is flat: what is left goes straight.
  if (!parts && Math.abs(z) > 1 && z * next > 1 && Math.abs(next) < 2 * Math.abs(z) + 1) return change;
  now.astray = true;
  if (Math.abs(z) >= 1 && (next > 1 ? z < 0 : !(next < -1) || z > 0)) return -z;
  // A torque that does not fall with speed may exceed the peak at any slip: then the slip stays at the peak.
  if (at.limitSlope === 0 && !(next < -1 && lags(at))) return Math.sign(next) - z;
  // Where the tyre gives more than its force beyond the peak the two meet before it, where the curve is not flat.
  if (next > 1 && at.high <= z) return WITHIN - z;
  if (next < -1 && at.low >= z) return -WITHIN - z;
  if (next > 1) return (at.high < Infinity ? 0.5 * (z + at.high) : Math.min(next, 2 * Math.abs(z) + 1)) - z;
  return (at.low > -Infinity ? 0.5 * (z + at.low) : Math.max(next, -2 * Math.abs(z) - 1)) - z;
}

/** Size of the last step of an axle. */
function stepOf(axle: AxleFigures, at: AxleNow): number {
  if (!axle.driven) return 0;
  return Math.max(Math.abs(at.stretchStep) / (1 + Math.abs(at.stretch)), Math.abs(at.torqueStep) / axle.peakTorque);
}

/**
 * What an axle at its share of the pack's power has not heard yet of what the other one draws, of its peak power: that may leave it more
 * than its share.
 */
function unheard(axle: AxleFigures, at: AxleNow, bits: number): number {
  if (!atPack(bits) || at.limitTold !== 0 || at.otherAtPack || at.otherFollows) return 0;
  return Math.abs(at.toldGap) / axle.peakPower;
}

/** Takes the step. @param bits of this axle: what it is told of the other. */
function step(at: AxleNow, other: AxleNow, bits: number): void {
  at.torque += at.torqueStep;
  at.stretch += at.stretchStep;
  const told =
    at.toldGap +
    other.tellsPerTorque * other.torqueStep +
    other.tellsPerSpeed * other.speedPerStretch * other.stretchStep;
  if ((bits & LIMIT_BITS) === L.split) at.otherWheel += told;
  else at.otherPower += told;
}

/** All else of an axle after the last step. */
function settle(m: Moving, axle: AxleFigures, at: AxleNow, bits: number, mode: number, v: number): void {
  const a = m.now.acceleration;
  const breaks = (mode & BREAK) !== 0;
  const by = kindOf(axle, bits, breaks);
  if (!(m.now.inertia > 0)) {
    if ((bits & GRIP) !== 0) unlimited(m, axle, at, v);
    else at.load = at.unloaded;
    return;
  }
  const N = at.unloaded + axle.sign * m.car.transfer * a;
  at.load = N;
  if (by === DRIVES) {
    const r = axle.radius;
    const spin = (at.gear.inertia * (1 + at.stretch * axle.slipAtPeak)) / (r * r);
    at.force = at.forcePerTorque * (at.torque - axle.dragTorque) - at.rolling * N - axle.hubDrag - spin * a;
    at.grip = friction(axle, at, N) * N;
  } else at.force += at.forcePerPush * m.now.change;
  finish(m, axle, at, bits, v, breaks);
}

/** What the other axle is told in the end. */
function tell(axle: AxleFigures, at: AxleNow, other: AxleNow): void {
  if (!axle.driven) return;
  other.otherPower = powerDrawn(axle, at);
  other.otherWheel = wheelTorque(axle, at);
}

/** Wheel and motor speeds, and the torque where it follows from the force. */
function finish(m: Moving, axle: AxleFigures, at: AxleNow, bits: number, v: number, breaks: boolean): void {
  const a = m.now.acceleration;
  const r = axle.radius;
  const open = isOpen(axle, breaks);
  if (axle.spin) {
    takeGrip(axle, at);
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
