/** The step of most seconds: nothing begins or ceases to limit in it, and that is plain from its two points. */
import { demand } from '../../model/backward/demand.ts';
import { addBoth, copyPowers, DECIDE, heldByPack } from '../../model/backward/state.ts';
import type { Side } from '../../model/backward/state.ts';
import { EASY, isEasy } from '../../model/backward/limits.ts';
import { keepsShares } from '../../model/backward/two-axles.ts';
import type { Journey, Seen } from './journey.ts';
import { continuousChargePower, continuousPower, losesCharge, place, speedAt, warmUp } from './instant.ts';
import { FIRST, SECOND } from '../trail/gauss.ts';
import { finish } from './interval-step.ts';
import { notePoint } from './note.ts';

/** From a Gauss-Legendre point to the near end of the step over the way between the points, and a margin for bends. */
const REACH = 0.366_1 * 1.3;

/** Share of what the pack takes up to which its limit, which moves during a step, is not looked at. */
const TAKEN = 0.8;

/** Drives the step at hand, if it is plain that the bits are the same throughout. */
export function plainStep(car: Journey): boolean {
  const { following: f, interval, pending, sums } = car;
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
  if (f.moving.pack.pulses && !keepsBudget(car)) return false;
  if (losesCharge(car) && !keepsSign(pending.power, powers.power)) return false;
  if (force < 0 && !(isBelowPeak(front) && isBelowPeak(rear))) return false;
  if (force < 0 && Math.max(pending.power, powers.power) > EASY * pack.gives) return false;
  if (force < 0 && !(packTakes(car) && keepsCorner(front, car.front, v0, v1) && keepsCorner(rear, car.rear, v0, v1)))
    return false;
  if (car.track !== null) notePoint(car, car.track, true, false);
  pack.first = pending.power;
  pack.second = powers.power;
  addBoth(sums, pending, powers, 0.5 * h);
  if (car.warms) {
    warmUp(car, front, 0.5 * h * (car.front.heat + front.at.heat), h);
    warmUp(car, rear, 0.5 * h * (car.rear.heat + rear.at.heat), h);
  }
  finish(car);
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

function keepsSign(first: number, second: number): boolean {
  if (first === Infinity || second === Infinity) return true;
  return !(Math.min(Math.abs(first), Math.abs(second)) <= REACH * Math.abs(second - first));
}

/** Whether the current is on one side of what the pack gives, and takes, for ever. */
function keepsBudget(car: Journey): boolean {
  const first = car.pending.power;
  const second = car.following.powers.power;
  const out = continuousPower(car);
  const back = -continuousChargePower(car);
  return keepsSign(first - out, second - out) && keepsSign(first - back, second - back);
}

/** Whether the pack takes all that comes in. */
function packTakes({ following: { pack, powers }, pending }: Journey): boolean {
  const first = pending.power;
  const second = powers.power;
  return Math.min(first, second) - REACH * Math.abs(second - first) >= -TAKEN * pack.limit;
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
