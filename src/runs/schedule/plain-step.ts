/** The step of most seconds: nothing begins or ceases to limit in it, and that is plain from its two points. */
import { demand } from '../../model/backward/demand.ts';
import { copyPowers, DECIDE, heldByPack } from '../../model/backward/state.ts';
import type { Side } from '../../model/backward/state.ts';
import { EASY, isEasy } from '../../model/backward/limits.ts';
import { keepsShares } from '../../model/backward/two-axles.ts';
import type { Journey, Seen } from './journey.ts';
import { losesCharge, place, speedAt } from './instant.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { takeStep } from './interval-step.ts';
import { isTaken, keepsBudget, keepsSign, REACH } from './keeps.ts';
import { notePoint } from './note.ts';

/** Drives the step at hand, if it is plain that the bits are the same throughout. */
export function plainStep(car: Journey): boolean {
  const { following: f, interval, pending } = car;
  const { pack, powers, front, rear } = f;
  const h = interval.s1 - interval.s0;
  const v0 = speedAt(car, interval.s0);
  const v1 = speedAt(car, interval.s1);
  const fastest = car.held > 0 && !Number.isNaN(car.heldSlope) ? 0 : Math.max(v0, v1);
  if (car.held === 0 && (v0 > car.fastest || v1 > car.fastest)) return false;
  interval.at = interval.s0 + FIRST * h;
  place(car);
  const bits = demand(f, DECIDE);
  if (heldByPack(bits) || (f.force > 0 && !isEasy(f, fastest))) return false;
  copyPowers(powers, pending);
  if (car.track !== null) notePoint(car, car.track, false, false);
  const { force } = f;
  remember(front, car.front);
  remember(rear, car.rear);
  interval.at = interval.s0 + SECOND * h;
  place(car);
  if (demand(f, DECIDE) !== bits || force < 0 !== f.force < 0) return false;
  if (force > 0 && !isEasy(f, fastest)) return false;
  const change = REACH * Math.abs(f.force - force);
  if (Math.min(Math.abs(force), Math.abs(f.force)) <= change) return false;
  if (!keepsSide(front, car.front) || !keepsSide(rear, car.rear) || !keepsShares(f, v0, v1)) return false;
  if (f.moving.pack.pulses && !keepsBudget(car, pending.power, powers.power)) return false;
  if (losesCharge(car) && !keepsSign(pending.power, powers.power)) return false;
  if (force < 0 && !(isBelowPeak(front) && isBelowPeak(rear))) return false;
  if (force < 0 && Math.max(pending.power, powers.power) > EASY * pack.gives) return false;
  if (force < 0 && !isTaken(pending.power, powers.power, pack.limit)) return false;
  if (force < 0 && !(keepsCorner(front, car.front, v0, v1) && keepsCorner(rear, car.rear, v0, v1))) return false;
  if (car.track !== null) notePoint(car, car.track, true, false);
  takeStep(car, true);
  return true;
}

/** Whether so much of the grip is left that slip goes smoothly with the force. */
function isBelowPeak({ axle, at }: Side): boolean {
  return !axle.driven || -at.force < EASY * at.grip;
}

/** Keeps what the first point of a step says about an axle. */
function remember({ axle, at, moment, both, spare }: Side, seen: Seen): void {
  if (!axle.driven) return;
  seen.moment = moment;
  seen.both = both;
  seen.spare = spare;
  seen.motorSpeed = at.motorSpeed;
  seen.heat = at.heat;
}

/** Whether what decides the bits keeps its sign to both ends of the step, on a straight line through its two points. */
function keepsSide(side: Side, seen: Seen): boolean {
  if (!side.axle.driven) return true;
  return keepsSign(seen.moment, side.moment) && keepsSign(seen.both, side.both) && keepsSign(seen.spare, side.spare);
}

/** Whether no corner of the braking torque of an axle lies between two speeds, m/s. */
function keepsCorner({ axle, at, braking }: Side, seen: Seen, v0: number, v1: number): boolean {
  if (!axle.driven) return true;
  if (v0 < braking.fadeFrom !== v1 < braking.fadeFrom) return false;
  if (v0 <= braking.fadeTo !== v1 <= braking.fadeTo) return false;
  const corner = braking.power / braking.torque;
  const beyondEnds = REACH * (at.motorSpeed - seen.motorSpeed);
  return seen.motorSpeed - beyondEnds > corner === at.motorSpeed + beyondEnds > corner;
}
