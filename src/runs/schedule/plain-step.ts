/** The step of most seconds: nothing begins or ceases to limit in it, and that is plain from its two points. */
import { demand } from '../../model/backward/demand.ts';
import { copyPowers, DECIDE, heldByPack } from '../../model/backward/state.ts';
import type { Side } from '../../model/backward/state.ts';
import { EASY, isEasy } from '../../model/backward/limits.ts';
import { keepsShares } from '../../model/backward/two-axles.ts';
import { isNearLow } from './cut.ts';
import type { Journey, Seen } from './journey.ts';
import { losesCharge, place, speedsOfStep } from './instant.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { takeStep } from './interval-step.ts';
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
  const bits = pointAt(car, FIRST);
  // What consumers get where the pack gives too little moves with its state.
  if (car.short || heldByPack(bits) || (f.force > 0 && !isEasy(f))) return false;
  copyPowers(powers, pending);
  if (car.track !== null) notePoint(car, car.track, false, false);
  const { force } = f;
  remember(front, car.front);
  remember(rear, car.rear);
  if (pointAt(car, SECOND) !== bits || force < 0 !== f.force < 0) return false;
  const change = REACH * Math.abs(f.force - force);
  if (Math.min(Math.abs(force), Math.abs(f.force)) <= change) return false;
  if (force < 0 ? !brakesPlainly(car) : !isEasy(f)) return false;
  if (!keepsSide(front, car.front) || !keepsSide(rear, car.rear) || !keepsShares(f, interval)) return false;
  if (f.moving.pack.pulses && !keepsBudget(car, pending.power, powers.power)) return false;
  if (losesCharge(car) && !keepsSign(pending.power, powers.power)) return false;
  if (isNearLow(car, pending.power, powers.power)) return false;
  if (car.track !== null) notePoint(car, car.track, true, false);
  f.volts = 0;
  takeStep(car, true, false);
  return true;
}

/** What is asked at a share of the step at hand; the bits that hold there. */
function pointAt(car: Journey, share: number): number {
  const { interval, following } = car;
  interval.at = interval.s0 + share * (interval.s1 - interval.s0);
  place(car);
  return demand(following, DECIDE);
}

/** Whether nothing begins or ceases to limit the braking between two points, at the second of which the car is. */
function brakesPlainly({ following, pending, interval, front: first, rear: second }: Journey): boolean {
  const { pack, powers, front, rear } = following;
  if (!(isBelowPeak(front) && isBelowPeak(rear))) return false;
  if (Math.max(pending.power, powers.power) > EASY * pack.gives) return false;
  if (!isTaken(pending.power, powers.power, pack.limit)) return false;
  if (!keepsCorner(front, first, interval) || !keepsCorner(rear, second, interval)) return false;
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
  seen.motorSpeed = at.motorSpeed;
  seen.heat = at.heat;
  seen.toGrip = aboveGrip(side);
}

/**
 * Whether what decides the bits keeps its sign to both ends of the step, as `keepsSign` says of each. In one go: numbers that are handed
 * over are boxed where a call is not inlined, and this is called at every step.
 */
function keepsSide({ axle, asked, coasting, moment, both, spare }: Side, seen: Seen): boolean {
  if (!axle.driven) return true;
  // It goes with the acceleration alone, which is one along the step.
  const braked = Math.min(Math.abs(asked - coasting), Math.abs(seen.asked - coasting));
  if (!(braked > REACH * Math.abs(asked - seen.asked))) return false;
  const turned = REACH * Math.abs(moment - seen.moment);
  const given = REACH * Math.abs(both - seen.both);
  if (!(Math.min(Math.abs(moment), Math.abs(seen.moment)) > turned)) return false;
  if (!(Math.min(Math.abs(both), Math.abs(seen.both)) > given)) return false;
  return spare === Infinity || Math.min(Math.abs(spare), Math.abs(seen.spare)) > REACH * Math.abs(spare - seen.spare);
}

/** Whether no corner of the braking torque of an axle lies within the step at hand. */
function keepsCorner({ axle, at, braking }: Side, seen: Seen, { v0, v1 }: Journey['interval']): boolean {
  if (!axle.driven) return true;
  if (v0 < braking.fadeFrom !== v1 < braking.fadeFrom) return false;
  if (v0 <= braking.fadeTo !== v1 <= braking.fadeTo) return false;
  const corner = braking.power / braking.torque;
  const beyondEnds = REACH * (at.motorSpeed - seen.motorSpeed);
  return seen.motorSpeed - beyondEnds > corner === at.motorSpeed + beyondEnds > corner;
}
