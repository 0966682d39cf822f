/** Two driven axles: who is asked for what. */
import { axleDemand, slipOf } from './axle.ts';
import { coastingForce, isBraked, partOfDrive } from './braking.ts';
import { CORNER, DECIDE, FOLLOW_SHIFT, KIND, KIND_BITS, KIND_SHIFT, kindOf, sideBits } from './state.ts';
import type { Following, Side } from './state.ts';

/** Of the forces of car and rotors, below which shared torques and the slips of their forces fit together. */
const SHARE_TOLERANCE = 1e-12;

const MOST_PASSES = 80;

/** Passes of the secant method after which every other one halves what is left. */
const SECANTS = 8;

const GRIP_BITS = KIND.grip << KIND_SHIFT;

/** The wheel torque is shared as the drive says, or the force by what each could give at this speed. */
export function bothAxles(f: Following, bits: number): number {
  const { front, rear } = f;
  const decide = bits === DECIDE;
  const own = sideBits(bits, 0);
  const other = sideBits(bits, 1);
  const asked = f.force;
  const fixed = front.axle.torqueShare !== 0;
  const corners = fixed ? 0 : shareForce(f, own, other);
  if (fixed) shareTorque(f);
  // Of two that keep a share one may drive while the other one is braked: the brakes take nothing off that.
  const brakedFront = shareBraking(f, front, own);
  const brakedRear = shareBraking(f, rear, other);
  front.held = Infinity;
  rear.held = Infinity;
  const foundFront = axleDemand(f, front, own, brakedFront);
  const foundRear = axleDemand(f, rear, other, brakedRear);
  const slid = decide ? slidingAxle(f, fixed) : slidingBits(asked, own, other);
  if (slid < 0) {
    return foundFront | (foundRear << FOLLOW_SHIFT) | corners;
  }
  const bitsFront = decide ? foundFront & ~(KIND_BITS << KIND_SHIFT) : own;
  const bitsRear = decide ? foundRear & ~(KIND_BITS << KIND_SHIFT) : other;
  if (slid === 0) return oneSlides(f, front, rear, bitsFront, other, 0) | corners;
  return oneSlides(f, rear, front, bitsRear, own, FOLLOW_SHIFT) | corners;
}

/** Leaves to the brakes what is theirs of the force that an axle is asked for; whether it is braked. @param bits of the axle. */
function shareBraking({ acceleration }: Following, side: Side, bits: number): boolean {
  side.coasting = bits === DECIDE && side.asked >= 0 ? 0 : coastingForce(side, acceleration);
  const braked = isBraked(side.asked, side.coasting, bits);
  side.asked = partOfDrive(side.braking, side.asked, side.coasting, braked);
  return braked;
}

/** One axle is at its grip limit: the other one brings the rest. @param shift of the bits of the one that slides. */
function oneSlides(f: Following, slid: Side, free: Side, bits: number, others: number, shift: number): number {
  const grip = bits | GRIP_BITS;
  axleDemand(f, slid, grip, false);
  free.asked = f.force - slid.at.force - slid.roll;
  const found = axleDemand(f, free, others, false);
  return (grip << shift) | (found << (FOLLOW_SHIFT - shift));
}

/** Each by what its ratings could give at this speed; the bits that say which is past its corner speed. */
function shareForce(f: Following, own: number, other: number): number {
  const { front, rear, speed } = f;
  const past = own === DECIDE ? isPastCorner(front, speed) : (own & CORNER) !== 0;
  const behind = other === DECIDE ? isPastCorner(rear, speed) : (other & CORNER) !== 0;
  const could = wheelForce(front, speed, past);
  const share = could / (could + wheelForce(rear, speed, behind));
  front.asked = share * f.force;
  rear.asked = (1 - share) * f.force;
  return (past ? CORNER : 0) | ((behind ? CORNER : 0) << FOLLOW_SHIFT);
}

/**
 * Forces from a fixed share of the wheel torques. What spins up the wheels and the drive is part of a torque, and goes with the slip
 * that the force makes: the secant method on the force of the front axle, from that without slip on.
 */
function shareTorque(f: Following): void {
  const { front, rear, force } = f;
  const r = front.axle.radius;
  const s = rear.axle.radius;
  const share = front.axle.torqueShare;
  const spinFront = (front.at.gear.inertia * f.acceleration) / (r * r);
  const spinRear = (rear.at.gear.inertia * f.acceleration) / (s * s);
  let before = (share * ((force + spinFront + spinRear) / (share / r + (1 - share) / s))) / r - spinFront;
  let missed = missedShare(f, before, spinFront, spinRear);
  // A car that coasts moves its rotors, and the torques cancel: of their sum alone nothing but round-off is left.
  const tolerance = SHARE_TOLERANCE * (Math.abs(force) + Math.abs(spinFront) + Math.abs(spinRear));
  // As if slip did not change with the force.
  let now = before + missed / ((1 - share) * r + share * s);
  let low = -Infinity;
  let high = Infinity;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const left = missedShare(f, now, spinFront, spinRear);
    // What is missed falls with the force of an axle: where it is the same to the last bit, all that is left is round-off.
    if (left === missed) break;
    if (left > 0) low = now;
    else high = now;
    const change = (left * (now - before)) / (left - missed);
    if (!(Math.abs(change) > tolerance && high - low > tolerance)) break;
    before = now;
    missed = left;
    now -= change;
    // At the peak of friction, where slip goes with a root, steps lead to and fro past it.
    if (high - low < Infinity && (pass % 2 === 1 ? pass > SECANTS : !(now > low && now < high)))
      now = 0.5 * (low + high);
  }
  front.asked = now;
  rear.asked = force - now;
}

/** N m by which the front axle has less than its share of the wheel torque, when it brings so many N of the force. */
function missedShare({ front, rear, force }: Following, asked: number, spinFront: number, spinRear: number): number {
  const share = front.axle.torqueShare;
  const slipFront = slipOf(front, (asked - front.roll) / front.at.grip);
  const slipRear = slipOf(rear, (force - asked - rear.roll) / rear.at.grip);
  const torqueFront = (asked + spinFront * (1 + slipFront)) * front.axle.radius;
  const torqueRear = (force - asked + spinRear * (1 + slipRear)) * rear.axle.radius;
  return share * torqueRear - (1 - share) * torqueFront;
}

/** The axle whose tyres take less than its share, where the other's take more; -1: none, or the shares are fixed. */
function slidingAxle({ force, front, rear }: Following, fixed: boolean): number {
  if (force <= 0 || fixed) return -1;
  const over = isOver(front);
  return over === isOver(rear) ? -1 : over ? 0 : 1;
}

function isOver({ axle, at }: Side): boolean {
  return at.force > axle.maxShare * at.grip;
}

function slidingBits(asked: number, own: number, other: number): number {
  if (asked <= 0) return -1;
  if (kindOf(own) === KIND.grip) return 0;
  return kindOf(other) === KIND.grip ? 1 : -1;
}

/** Whether the shares of two axles go with speed by the same law all the way between two speeds, m/s. */
export function keepsShares(
  { front, rear }: Following,
  { v0, v1 }: { readonly v0: number; readonly v1: number },
): boolean {
  if (!front.axle.driven || !rear.axle.driven || front.axle.torqueShare !== 0) return true;
  return isPastCorner(front, v0) === isPastCorner(front, v1) && isPastCorner(rear, v0) === isPastCorner(rear, v1);
}

function isPastCorner({ axle, at, braking }: Side, v: number): boolean {
  return (at.gear.ratio * v) / axle.radius > braking.cornerSpeed;
}

/** N that a drive unit could give at the wheels by its ratings. */
function wheelForce({ axle, at }: Side, v: number, pastCorner: boolean): number {
  const { efficiency, ratio } = at.gear;
  if (!pastCorner) return efficiency * axle.peakTorque * (ratio / axle.radius);
  return (efficiency * axle.powerAtRest) / v - efficiency * axle.powerFall * (ratio / axle.radius);
}
