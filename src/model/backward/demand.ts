/**
 * What a prescribed speed and acceleration ask of every part of the car: the forces backwards from the road to the terminals of the
 * pack. Figures, road, friction, losses and limits are those of the forward model: the two agree where the car does just what
 * it is asked.
 */
import { road } from '../forward/balance.ts';
import { takeGrip } from '../tyre/friction.ts';
import { axleDemand } from './axle.ts';
import { coastingForce, isBraked, overdone, partOfDrive } from './braking.ts';
import {
  addPowers,
  DECIDE,
  FOLLOW_SHIFT,
  heldByPack,
  KIND,
  KIND_BITS,
  KIND_SHIFT,
  kindOf,
  Powers,
  sideBits,
} from './state.ts';
import type { Following, Side } from './state.ts';
import { bothAxles } from './two-axles.ts';

/**
 * Finds the powers at the speed and acceleration that stand in `f`, and answers the bits that hold there.
 * @param bits of both axles, to be kept; `DECIDE`: as the forces are.
 */
export function demand(f: Following, bits: number): number {
  roadDemand(f);
  if (bits !== DECIDE && !heldByPack(bits)) return keep(f, bits);
  const found = keep(f, DECIDE);
  f.over = f.powers.power + f.limit;
  if (bits === DECIDE && (f.force >= 0 || f.over >= 0)) return found;
  return atPackLimit(f, bits, found);
}

/** N that are asked of a drive when the foot is off the pedal: more than any brakes with. */
const ALL = -1e9;

/**
 * The same for a car that nobody brakes: each drive brakes with all that it may (`BrakingFigures`), whatever the car needs at its
 * acceleration, and the pack takes all that comes back. What is amiss between the two is `unmatched`.
 */
export function release(f: Following, bits: number): number {
  roadDemand(f);
  const found = letGo(f, f.front, bits, 0) | letGo(f, f.rear, bits, 1);
  sumUp(f);
  return found;
}

/** The same where the pack takes less than all that comes back. */
export function releaseAtLimit(f: Following, bits: number): number {
  return atPackLimit(f, bits, release(f, DECIDE));
}

function letGo(f: Following, side: Side, bits: number, axle: number): number {
  if (!side.axle.driven) return 0;
  side.asked = ALL;
  side.held = Infinity;
  // Out of gear there is nothing that a force could be asked of.
  const own = side.at.gear.ratio === 0 ? KIND.off << KIND_SHIFT : sideBits(bits, axle);
  const found = axleDemand(f, side, own, true);
  side.unheld = side.at.power;
  return found << (axle * FOLLOW_SHIFT);
}

/** N that the axles bring beyond what the acceleration of the car takes. */
export function unmatched(f: Following): number {
  return brought(f.front) + brought(f.rear) - f.force;
}

/** The same with the pack left aside. */
function keep(f: Following, bits: number): number {
  const { front, rear } = f;
  if (front.axle.driven && rear.axle.driven) {
    const both = bothAxles(f, bits);
    sumUp(f);
    return both;
  }
  return front.axle.driven ? oneAxle(f, front, rear, bits, 0) : oneAxle(f, rear, front, bits, 1);
}

function oneAxle(f: Following, side: Side, other: Side, bits: number, axle: number): number {
  const own = sideBits(bits, axle);
  side.coasting = own === DECIDE && f.force >= 0 ? 0 : coastingForce(side, f.acceleration);
  const braked = isBraked(f.force, side.coasting, own);
  side.asked = partOfDrive(side.braking, f.force, side.coasting, braked);
  side.held = Infinity;
  const found = axleDemand(f, side, own, braked) << (axle * FOLLOW_SHIFT);
  sumUpFrom(f, side, other);
  return found;
}

/** Drag, slope and the loads of the axles; the force that the drives must bring, own rolling resistance included. */
function roadDemand(f: Following): void {
  const { moving: m, front, rear, powers, speed: v, acceleration: a } = f;
  const { car, now } = m;
  const { at, axle } = front;
  const { at: behind, axle: other } = rear;
  now.speed = v;
  road(m);
  const moved = car.transfer * a;
  const load = at.unloaded + axle.sign * moved;
  const loadBehind = behind.unloaded + other.sign * moved;
  const roll = at.rolling * load + axle.hubDrag;
  const rollBehind = behind.rolling * loadBehind + other.hubDrag;
  at.load = load;
  behind.load = loadBehind;
  front.roll = roll;
  rear.roll = rollBehind;
  f.force = car.inertialMass * a + now.against + roll + rollBehind;
  powers.drag = now.drag * v;
  powers.grade = car.gradeForce * v;
  if (axle.driven) takeGrip(axle, at);
  if (other.driven) takeGrip(other, behind);
}

/** What the second of two driven axles takes. */
const beside = new Powers();

/** What the axles take together; the brakes do what is left. */
function sumUp(f: Following): void {
  if (f.front.axle.driven) sumUpFrom(f, f.front, f.rear);
  else sumUpFrom(f, f.rear, f.front);
}

/** The same. @param side an axle that is driven, `other` one that may be. */
function sumUpFrom(f: Following, side: Side, other: Side): void {
  const { powers, speed, moving } = f;
  const rolled = other.axle.driven ? 0 : other.roll;
  take(f, side, powers);
  powers.power += powers.auxiliaries;
  powers.rolling += (moving.car.towedRoll + rolled) * speed;
  powers.brakes = (side.at.force + side.roll + brought(other) - f.force) * speed;
  if (!other.axle.driven) return;
  take(f, other, beside);
  addPowers(powers, beside, 1);
}

/** N that a drive brings, own rolling resistance included. */
function brought({ axle, at, roll }: Side): number {
  return axle.driven ? at.force + roll : 0;
}

/** What a driven axle takes. */
function take({ speed }: Following, { axle, at, roll, back, moment, rotor }: Side, powers: Powers): void {
  const { wheelSpeed, motorSpeed } = at;
  const { efficiency, wheelInertia } = at.gear;
  const lost = back ? efficiency - 1 : 1 / efficiency - 1;
  powers.power = at.power;
  powers.unitHeat = at.heat;
  powers.gearHeat = lost * moment * wheelSpeed + axle.dragTorque * motorSpeed;
  powers.spinUp = wheelInertia * at.wheelSpin * wheelSpeed + rotor * motorSpeed;
  powers.slip = at.force * at.slip * speed;
  powers.rolling = roll * axle.radius * wheelSpeed;
}

/**
 * The drives together give the pack no more than it takes, each in proportion to what it would have given; that stands in `f`
 * when this is called.
 * @param free the bits without that.
 */
function atPackLimit(f: Following, bits: number, free: number): number {
  const { front, rear, powers } = f;
  if (front.axle.driven) front.overdone = overdone(front);
  if (rear.axle.driven) rear.overdone = overdone(rear);
  const drawn = drawnBy(front) + drawnBy(rear);
  const power = -f.limit - powers.auxiliaries - drawn;
  const givenFront = front.axle.driven ? Math.min(0, front.at.power) : 0;
  const givenRear = rear.axle.driven ? Math.min(0, rear.at.power) : 0;
  let found = 0;
  if (front.axle.driven) found |= holdBack(f, front, givenFront, givenFront + givenRear, power, bits, free, 0);
  if (rear.axle.driven) found |= holdBack(f, rear, givenRear, givenFront + givenRear, power, bits, free, 1);
  sumUp(f);
  return found;
}

/** W of a drive that gives nothing: what the other one brings goes there first. One that draws for braking too hard is held back itself. */
function drawnBy({ axle, at, overdone: over }: Side): number {
  return axle.driven && !(over > 0) ? Math.max(0, at.power) : 0;
}

/** One of the drives. @param own W that it would have given, of `all`. @param power W that the inverters may give together. */
function holdBack(
  f: Following,
  side: Side,
  own: number,
  all: number,
  power: number,
  bits: number,
  free: number,
  axle: number,
): number {
  side.asked = side.at.force + side.roll;
  const kept = sideBits(bits, axle);
  // One that draws at the beginning of a step, or comes to, is not held back, unless it would give something if it braked less.
  const gives = own < 0 || side.overdone > 0;
  // What limits it is known: asked for the very force that it was left, it would be at that limit or not by round-off.
  if (kept === DECIDE && !gives) return sideBits(free, axle) << (axle * FOLLOW_SHIFT);
  const share = own < 0 ? (own / all) * power : 0;
  side.held = gives && (kept === DECIDE || kindOf(kept) === KIND.pack) ? share : Infinity;
  const unheld = kept !== DECIDE && !gives && kindOf(kept) === KIND.pack;
  return axleDemand(f, side, unheld ? kept & ~(KIND_BITS << KIND_SHIFT) : kept, true) << (axle * FOLLOW_SHIFT);
}
