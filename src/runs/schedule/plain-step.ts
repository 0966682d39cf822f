/** The step of most seconds: nothing begins or ceases to limit in it, and that is plain from its two points. */
import { demand } from '../../model/backward/demand.ts';
import { brakingBetween } from '../../model/backward/braking.ts';
import { copyPowers, DECIDE, heldByPack } from '../../model/backward/state.ts';
import type { Following, Side } from '../../model/backward/state.ts';
import { beyond, EASY, isEasy } from '../../model/backward/limits.ts';
import { keepsShares } from '../../model/backward/two-axles.ts';
import { gripLeft, HARD_STEP, heldLength, isHardFor, isNearLow, NEAR_PEAK } from './cut.ts';
import type { Journey, Seen } from './journey.ts';
import { losesCharge, place, speedsOfStep } from './instant.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { foreseesLimits, takeStep } from './interval-step.ts';
import { isTaken, keepsBudget, keepsSign, REACH } from './keeps.ts';
import { aboveGrip } from './margins.ts';
import { notePoint } from './note.ts';

/** Drives the step at hand, if it is plain that the bits are the same throughout. */
export function plainStep(car: Journey): boolean {
  const { following: f, interval, pending } = car;
  const { powers, front, rear } = f;
  speedsOfStep(car);
  const { v0, v1 } = interval;
  f.fastest = car.held > 0 && !Number.isNaN(car.heldSlope) ? 0 : Math.max(v0, v1);
  if (car.held === 0 && (v0 > car.fastest || v1 > car.fastest)) return false;
  f.room = Number.NaN;
  const bits = beginsWith(car);
  if (bits === NOT_PLAIN) return false;
  const held = heldByPack(bits);
  copyPowers(powers, pending);
  if (car.track !== null) notePoint(car, car.track, false, false);
  const { force, over, room } = f;
  const hard = force > 0 && !Number.isNaN(room);
  remember(front, car.front);
  remember(rear, car.rear);
  if (pointAt(car, true) !== bits || force < 0 !== f.force < 0) return false;
  const change = REACH * Math.abs(f.force - force);
  if (Math.min(Math.abs(force), Math.abs(f.force)) <= change) return false;
  if (force < 0 ? !brakesPlainly(car) : hard ? !staysWithin(car, room) : !isEasy(f)) return false;
  if (held ? !keepsSign(over, f.over) : force < 0 && !isTaken(pending.power, powers.power, f.pack.limit)) return false;
  if (front.axle.driven && !keepsSide(car, front, car.front)) return false;
  if (rear.axle.driven && !keepsSide(car, rear, car.rear)) return false;
  if (isShared(f) && !keepsShares(f, interval)) return false;
  if (f.moving.pack.pulses && !keepsBudget(car, pending.power, powers.power)) return false;
  const takesNothing = held && f.pack.limit === 0;
  if (losesCharge(car) && !takesNothing && !keepsSign(pending.power, powers.power)) return false;
  if (isNearLow(car, pending.power, powers.power)) return false;
  if (car.track !== null) notePoint(car, car.track, true, false);
  if (!hard) f.volts = 0;
  takeStep(car, (takesNothing || !held) && (!hard || f.freely), takesNothing);
  return true;
}

/** What is asked at one of the two points of the step at hand; the bits that hold there. */
function pointAt(car: Journey, second: boolean): number {
  const { interval, following } = car;
  interval.at = interval.s0 + (second ? SECOND : FIRST) * (interval.s1 - interval.s0);
  place(car);
  following.limit = second ? interval.limit2 : interval.limit1;
  return demand(following, DECIDE);
}

/** The bits at the first point, where the step may be plain; -1 where it is not. */
function beginsWith(car: Journey): number {
  const { interval, following: f } = car;
  const { pack } = f;
  interval.limit1 = pack.limit;
  interval.limit2 = pack.limit;
  const bits = pointAt(car, false);
  // What consumers get where the pack gives too little moves with its state.
  if (car.short) return NOT_PLAIN;
  if (f.force > 0) return isEasy(f) ? bits : beginsHard(car, bits);
  return heldByPack(bits) ? beginsHeld(car, bits) : bits;
}

const NOT_PLAIN = -1;

/**
 * The same of a car that is near a limit, but does what it is asked: the step is no longer than the current allows, which bends with the power.
 * Of two drives each has a room of its own.
 */
function beginsHard(car: Journey, bits: number): number {
  const { interval, following: f } = car;
  if (isShared(f) || interval.s0 < interval.trusted) return NOT_PLAIN;
  f.freely = true;
  f.volts = 0;
  const longest = interval.s0 + HARD_STEP;
  if (interval.s1 <= longest || !isHardFor(f.pack, f.powers.power)) return isWithin(f) ? bits : NOT_PLAIN;
  interval.s1 = longest;
  speedsOfStep(car);
  const closer = pointAt(car, false);
  const within = isWithin(f);
  f.freely = false;
  return within ? closer : NOT_PLAIN;
}

function isShared({ front, rear }: Following): boolean {
  return front.axle.driven && rear.axle.driven;
}

/** Whether a car that is near a limit is within all of them at the point at hand; what is left stands in `room`. */
function isWithin(f: Following): boolean {
  f.room = Number.NaN;
  return !beyond(f) && f.room > 0 && gripLeft(f) >= NEAR_PEAK;
}

/** Whether it stays there up to both ends of the step. @param room N that was left at its first point. */
function staysWithin(car: Journey, room: number): boolean {
  const { following: f, interval, pending } = car;
  if (!isWithin(f) || !keepsSign(room, f.room)) return false;
  const most = Math.max(pending.power, f.powers.power) + REACH * Math.abs(f.powers.power - pending.power);
  return interval.s1 - interval.s0 <= HARD_STEP || !isHardFor(f.pack, most);
}

/**
 * The same of a car that the pack holds back. What the pack takes moves with its state, and the step is no longer than copper losses allow. Of
 * two drives each has its part of that; one that brakes harder than gives most gives more when it is held back.
 */
function beginsHeld(car: Journey, bits: number): number {
  const { interval, following } = car;
  const { front, rear, pack } = following;
  if (isShared(following) || front.overdone > 0 || rear.overdone > 0) return NOT_PLAIN;
  // While it fades what would come back bends where it comes to be less than is asked for: two points do not show that.
  const { fadeFrom } = (front.axle.driven ? front : rear).braking;
  if (Math.min(interval.v0, interval.v1) < fadeFrom) return NOT_PLAIN;
  if (pack.limit === 0) return bits;
  interval.s1 = Math.min(interval.s1, interval.s0 + heldLength(interval));
  speedsOfStep(car);
  return foreseesLimits(car) ? pointAt(car, false) : NOT_PLAIN;
}

/** Whether nothing begins or ceases to limit the braking between two points, at the second of which the car is. */
function brakesPlainly({ following, pending, front: first, rear: second }: Journey): boolean {
  const { pack, powers, front, rear } = following;
  if (!(isBelowPeak(front) && isBelowPeak(rear))) return false;
  if (Math.max(pending.power, powers.power) > EASY * pack.gives) return false;
  return keepsGrip(front, first) && keepsGrip(rear, second);
}

/** Whether an axle brakes all along with the share of its grip that it may use, or never comes to it. */
function keepsGrip(side: Side, seen: Seen): boolean {
  const { axle, braking } = side;
  return !axle.driven || braking.share === 0 || keepsSign(seen.toGrip, aboveGrip(side));
}

/** Whether so much of the grip is left that slip goes smoothly with the force. */
function isBelowPeak({ axle, at }: Side): boolean {
  return !axle.driven || -at.force < EASY * at.grip;
}

/** Keeps what the first point of a step says about an axle. */
function remember(side: Side, seen: Seen): void {
  const { axle, at, asked, moment, both, spare } = side;
  if (!axle.driven) return;
  seen.asked = asked;
  seen.moment = moment;
  seen.both = both;
  seen.spare = spare;
  seen.torque = at.torque;
  seen.motorSpeed = at.motorSpeed;
  seen.heat = at.heat;
  seen.toGrip = aboveGrip(side);
}

/**
 * Whether what decides the bits of a driven axle keeps its sign to both ends of the step, as `keepsSign` says of each. In one go: numbers that are handed
 * over are boxed where a call is not inlined, and this is called at every step.
 */
function keepsSide(car: Journey, side: Side, seen: Seen): boolean {
  const { asked, coasting, moment, both, spare } = side;
  // It goes with the acceleration alone, which is one along the step.
  const braked = Math.min(Math.abs(asked - coasting), Math.abs(seen.asked - coasting));
  if (!(braked > REACH * Math.abs(asked - seen.asked))) return false;
  const turned = REACH * Math.abs(moment - seen.moment);
  const given = REACH * Math.abs(both - seen.both);
  if (!(Math.min(Math.abs(moment), Math.abs(seen.moment)) > turned)) return false;
  if (!(Math.min(Math.abs(both), Math.abs(seen.both)) > given)) return false;
  // What would come back bends at a corner, where nothing held it back.
  if (side.held < Infinity) return keepsCorner(side, seen, car.interval);
  return spare === Infinity || keepsLimit(car, side, seen);
}

/** Of what a drive may brake with: slip changes it by less than what is left. */
const NEARLY = 0.99;

/** Whether the torque of an axle stays below what its drive may brake with all along the step, or at one and the same limit. */
function keepsLimit({ following, interval }: Journey, side: Side, seen: Seen): boolean {
  const { at, spare } = side;
  const hardest = Math.max(-at.torque, -seen.torque) + REACH * Math.abs(at.torque - seen.torque);
  if (spare > 0 && seen.spare > 0) return hardest <= NEARLY * brakingBetween(side, following, interval);
  return keepsCorner(side, seen, interval) && keepsSign(spare, seen.spare);
}

/** Whether no corner of the braking torque of an axle lies within the step at hand. */
function keepsCorner({ at, braking }: Side, seen: Seen, { v0, v1 }: Journey['interval']): boolean {
  if (v0 < braking.fadeFrom !== v1 < braking.fadeFrom) return false;
  if (v0 <= braking.fadeTo !== v1 <= braking.fadeTo) return false;
  const corner = braking.power / braking.torque;
  const beyondEnds = REACH * (at.motorSpeed - seen.motorSpeed);
  return seen.motorSpeed - beyondEnds > corner === at.motorSpeed + beyondEnds > corner;
}
