/** One driven axle that is asked for a force: backwards from the contact patch to the terminals of its inverter. */
import { EFFORT, effort } from '../effort.ts';
import { motorLoss, throughInverter } from '../forward/drive-unit.ts';
import { slipAtShare } from '../tyre/slip.ts';
import { brakingKind, brakingTorque, hardestBraking, torqueGiving } from './braking.ts';
import { BRAKED, DECIDE, GEARS_BACK, KIND, KIND_SHIFT, kindOf, UNIT_BACK } from './state.ts';
import type { Following, Side } from './state.ts';

/** Square of the share of the peak force up to which slip is taken by its series, which is 1e-9 off there. */
const SERIES_SQUARE = 0.16;

/** Of the grip, by which the force of a limited axle still changes when force and slip fit together. */
const FORCE_TOLERANCE = 1e-10;

/** Near the peak of friction the slip moves so much with the force that they come together slowly. */
const MOST_PASSES = 60;

/** Of the torque that gives most, from so far below it on. */
const NEARLY_MOST = 0.25;

/**
 * Finds forces, torque, speeds and power of an axle, and answers the bits that hold.
 * @param bits of the axle. @param braked whether it is; one that is not may be pulled by the road all the same, to speed up what
 * turns with it.
 */
export function axleDemand(f: Following, side: Side, bits: number, braked: boolean): number {
  const { axle, at, braking } = side;
  effort.spent += EFFORT.axle;
  const decide = bits === DECIDE;
  const held = side.held < Infinity;
  const holds = braked || side.asked < 0;
  let kind: number = held ? KIND.pack : decide ? KIND.none : kindOf(bits);
  at.force = side.asked - side.roll;
  // No drive brakes with more than its share of the grip, and one that does with a power may have a second force to it, past the peak.
  const most = -braking.gripShare * at.grip;
  if (kind === KIND.grip) at.force = holds ? most : axle.maxShare * at.grip;
  else if (decide && !held && braked && at.force < most && braking.share > 0) {
    kind = KIND.grip;
    at.force = most;
  } else if (kind !== KIND.none && holds && at.force < most) at.force = most;
  turnAlong(f, side);
  side.moment = momentOf(side);
  let back = decide ? side.moment < 0 : (bits & GEARS_BACK) !== 0;
  at.torque = torqueOf(side, back);
  side.spare = Infinity;
  if (decide && !held && holds) {
    const hardest = hardestBraking(side, f);
    side.spare = at.torque + hardest;
    if (at.torque < -hardest) kind = brakingKind(side, f);
    // Where the tyres take less than what turns with them, the drive holds nothing back; it does not push against the brakes.
    else if (kind === KIND.grip && at.torque > 0) kind = KIND.off;
  }
  if (kind !== KIND.none && kind !== KIND.grip) back = fit(f, side, kind, back, decide);
  if (decide && (kind === KIND.torque || kind === KIND.power)) {
    // The force that was asked for means another slip, and another motor speed, than the one that the drive brings.
    const fitted = brakingKind(side, f);
    if (fitted !== kind) back = fit(f, side, (kind = fitted), back, decide);
  }
  const unitBack = draw(side, decide, bits);
  side.back = back;
  if (!decide) return bits;
  return (back ? GEARS_BACK : 0) | (unitBack ? UNIT_BACK : 0) | (kind << KIND_SHIFT) | (braked ? BRAKED : 0);
}

/**
 * N m at the motor of a drive that brakes with its share of the grip. Above nothing the tyres take less than what turns with them: the
 * drive holds nothing back then.
 */
export function torqueAtGrip(f: Following, side: Side): number {
  const { axle, at, braking, roll } = side;
  const force = -braking.gripShare * at.grip;
  const spin = ((1 + slipOf(side, -braking.gripShare)) * f.acceleration) / axle.radius;
  const moment = (force + roll) * axle.radius + at.gear.wheelInertia * spin;
  const geared = moment * (moment < 0 ? at.gear.dragged : at.gear.driving);
  return geared + axle.rotorInertia * at.gear.ratio * spin + axle.dragTorque;
}

/** What turns at the slip of the present force. */
function turnAlong(f: Following, side: Side): void {
  const { axle, at } = side;
  const slip = slipOf(side, at.force / at.grip);
  const turns = (1 + slip) * axle.perRadius;
  at.slip = slip;
  at.wheelSpeed = turns * f.speed;
  at.wheelSpin = turns * f.acceleration;
  side.rotor = axle.rotorInertia * at.gear.ratio * at.wheelSpin;
}

/** Slip at a share x of the peak force, either sign: tan(asin(x) / C) / B, by its series where x is small. */
export function slipOf({ axle, braking }: Side, x: number): number {
  const s = x * x;
  if (s >= SERIES_SQUARE) {
    const within = x > 1 ? 1 : x < -1 ? -1 : x;
    return slipAtShare(within, axle.stiffness, axle.shape) * axle.slipAtPeak;
  }
  const { slip1, slip3, slip5, slip7, slip9, slip11, slip13, slip15, slip17, slip19 } = braking;
  // In pairs, that the processor works on side by side.
  const square = s * s;
  const low = slip1 + slip3 * s + square * (slip5 + slip7 * s);
  const high = slip9 + slip11 * s + square * (slip13 + slip15 * s);
  const fourth = square * square;
  return x * (low + fourth * (high + fourth * (slip17 + slip19 * s)));
}

/** N m at the wheels that make the force and spin up what turns before the gears. */
function momentOf({ axle, at, roll }: Side): number {
  return (at.force + roll) * axle.radius + at.gear.wheelInertia * at.wheelSpin;
}

/** N m at the motor shaft. @param back whether the wheels turn the gears. */
function torqueOf({ axle, at, moment, rotor }: Side, back: boolean): number {
  return moment * (back ? at.gear.dragged : at.gear.driving) + rotor + axle.dragTorque;
}

/** Force, slip and torque of an axle that is limited; whether the wheels turn the gears. */
function fit(f: Following, side: Side, kind: number, was: boolean, decide: boolean): boolean {
  const { axle, at } = side;
  const { gear } = at;
  // Near the torque that gives most force and slip come together slowly, and from beyond it not at all: from no slip on, by the secant method.
  const slowly = kind === KIND.pack && givesNearlyMost(side);
  let back = was;
  let [from, missed] = [Number.NaN, Number.NaN];
  if (slowly) {
    at.force = 0;
    turnAlong(f, side);
  }
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const before = at.force;
    at.torque =
      kind === KIND.pack
        ? torqueGiving(side, side.held, gear.ratio * at.wheelSpeed, at.torque)
        : -brakingTorque(side, kind, f);
    const geared = at.torque - side.rotor - axle.dragTorque;
    if (decide) back = geared < 0;
    const moment = back ? (geared * gear.ratio) / gear.efficiency : geared * gear.ratio * gear.efficiency;
    at.force = (moment - gear.wheelInertia * at.wheelSpin) / axle.radius - side.roll;
    const left = at.force - before;
    if (slowly) {
      const change = (left * (before - from)) / (missed - left);
      [from, missed] = [before, left];
      if (Number.isFinite(change)) at.force = before + change;
    }
    turnAlong(f, side);
    if (!(Math.abs(at.force - before) > FORCE_TOLERANCE * at.grip)) break;
  }
  // Once more from the last slip, so that every power belongs to one and the same wheel speed.
  side.moment = momentOf(side);
  at.torque = torqueOf(side, back);
  return back;
}

/** Whether the torque of a drive that brakes is close to the one at which it gives most, or beyond. */
function givesNearlyMost({ axle, at }: Side): boolean {
  const omega = at.gear.ratio * at.wheelSpeed;
  return axle.loss === null && (1 - NEARLY_MOST) * omega + 2 * axle.copper * at.torque < 0;
}

/** Power at the terminals of the inverter and heat of the unit; whether it gives power back. */
function draw(side: Side, decide: boolean, bits: number): boolean {
  const { axle, at } = side;
  const omega = at.gear.ratio * at.wheelSpeed;
  const lost = motorLoss(axle, at.torque, omega);
  const both = at.torque * omega + lost;
  // What the pack holds back flows into it; where that is nothing the sign of the rest is that of round-off.
  const unitBack = decide ? both < 0 || side.held < Infinity : (bits & UNIT_BACK) !== 0;
  const drawn = throughInverter(axle, both, unitBack);
  side.both = both;
  at.motorSpeed = omega;
  at.power = drawn;
  at.heat = lost + (drawn - both);
  return unitBack;
}
