/** What a schedule asks at one instant of an interval, and whether the car can do it. */
import * as elementary from '../../elementary.ts';
import { demand } from '../../model/backward/demand.ts';
import type { DrivenPack } from '../../model/backward/pack-step.ts';
import {
  BEYOND,
  CHARGES,
  clearPowers,
  DECIDE,
  OVER,
  SPENDS,
  SPENDS_CHARGE,
  STANDS,
  STARVED,
} from '../../model/backward/state.ts';
import type { Side } from '../../model/backward/state.ts';
import { beyond, drawsTooMuch } from '../../model/backward/limits.ts';
import { drawnAt } from './consumers.ts';
import { powerAtCurrent } from '../../model/pack/state.ts';
import type { Journey } from './journey.ts';

/** Of the greatest speed: what a schedule may be above it, and below it where it is there. */
const ROUND_OFF = 1e-9;
const INSTANT = 1e-12;

/**
 * Of the most that a pack gives, what lights, pumps and heating get at most: close to it nothing is left to drive with. Common practice,
 * no source.
 */
export const CONSUMED = 0.9;

/** Of a power: it is the continuous one. */
const TIE = 1e-6;

const ROOT_3 = Math.sqrt(3);

/** W into the pack that are none. */
export const NOTHING = 1;

/** The speeds at both ends of the step at hand: of the schedule, or of the car that is held at another one. */
export function speedsOfStep({ held, interval }: Journey): void {
  interval.v0 = held > 0 ? held : interval.from + interval.rise * interval.s0;
  interval.v1 = held > 0 ? held : interval.from + interval.rise * interval.s1;
}

/** What is asked at the point at hand, the powers aside. */
export function place(car: Journey): void {
  const { following, consumers, interval } = car;
  const { pack } = following;
  const s = interval.at;
  let drawn = drawnAt(consumers, interval.heaterFrom + s);
  const least = CONSUMED * (pack.gives + interval.givesMore * (s - interval.s0));
  if (drawn > least) {
    drawn = least;
    car.short = true;
  }
  following.powers.auxiliaries = drawn;
  following.speed = car.held > 0 ? car.held : interval.from + interval.rise * s;
  following.acceleration = car.held > 0 ? 0 : interval.rise;
  following.limit = pack.limit;
}

/** Whether consumers get less than they ask for. @param drawn W that they ask for. */
export function isTooMuch({ gives }: DrivenPack, drawn: number): boolean {
  return drawn > CONSUMED * gives;
}

/** The bits that hold at the point at hand; with `BEYOND` where the car can not, with `OVER` where a unit would turn too fast. */
export function bitsAt(car: Journey): number {
  const { following, interval } = car;
  place(car);
  following.room = Number.NaN;
  let bits = demand(following, DECIDE);
  if (losesCharge(car) && following.powers.power < -NOTHING) bits |= CHARGES;
  if (following.moving.pack.pulses) bits |= spendingBits(car);
  if (car.held === 0 && isTooFast(car)) bits |= OVER;
  if (following.force <= 0) return drawsTooMuch(following) ? bits | STARVED : bits;
  if (interval.at <= interval.trusted) {
    following.freely = false;
    return bits;
  }
  return beyond(following) ? bits | BEYOND : bits;
}

/** The same of a car that stands, and is meant to. */
export function bitsAtRest(car: Journey): number {
  place(car);
  standing(car);
  return drawsTooMuch(car.following) ? STANDS | STARVED : STANDS;
}

/** W at the terminals at the continuous current out of the pack, at its state when the step begins. */
export function continuousPower({ following: { pack, moving } }: Journey): number {
  const { continuous } = moving.pack;
  return continuous < Infinity ? powerAtCurrent(pack, continuous) : Infinity;
}

/** The same of the current into it, positive. */
export function continuousChargePower({ following: { pack, moving } }: Journey): number {
  const { continuousCharge } = moving.pack;
  // Without a limit that is Infinity as well.
  return (pack.emf + pack.resistance * continuousCharge) * continuousCharge;
}

function spendingBits(car: Journey): number {
  const { power } = car.following.powers;
  if (power > (1 + TIE) * continuousPower(car)) return SPENDS;
  return -power > (1 + TIE) * continuousChargePower(car) ? SPENDS_CHARGE : 0;
}

/** Whether it makes a difference which way the current of the pack goes. */
export function losesCharge({ following }: Journey): boolean {
  return following.moving.pack.coulombic < 1;
}

/**
 * Whether a motor would turn faster than it may at the point at hand, driving or driven. A car that slows down is too fast only where
 * a schedule begins: elsewhere a cut came a trifle late.
 */
function isTooFast(car: Journey): boolean {
  const { start, at, rise } = car.interval;
  // Of a schedule that rises it is known to the instant where that begins.
  if (rise > 0) return car.following.speed >= (1 - INSTANT) * car.fastest;
  return (rise >= 0 || start + at === 0) && car.following.speed > (1 + ROUND_OFF) * car.fastest;
}

/** m/s at which the first of the motors turns as fast as it may, in the present gear and without slip. */
export function fastest({ following: { front, rear } }: Journey): number {
  const ofFront = front.axle.driven ? turningSpeed(front) : Infinity;
  return rear.axle.driven ? Math.min(ofFront, turningSpeed(rear)) : ofFront;
}

function turningSpeed({ axle, at }: Side): number {
  return (axle.maxSpeed * axle.radius) / at.gear.ratio;
}

/** The powers at the point at hand. @param limit W that the pack takes at most. */
export function ask(car: Journey, bits: number, limit: number): void {
  place(car);
  if (bits === STANDS) return standing(car);
  car.following.limit = limit;
  demand(car.following, bits);
}

/** Powers of the car at rest. */
function standing({ following: { powers, front, rear } }: Journey): void {
  const consumed = powers.auxiliaries;
  clearPowers(powers);
  powers.auxiliaries = consumed;
  powers.power = consumed;
  for (const { axle, at, braking } of [front, rear]) {
    if (!axle.driven) continue;
    powers.unitHeat += braking.standstill;
    powers.power += braking.standstill;
    at.heat = braking.standstill;
  }
}

/**
 * The lump of a drive unit under a heat in W that goes linearly through two values at the Gauss-Legendre points of a step: exact but for the
 * third power of the share that cools in it.
 */
export function warmUp(
  { following }: Journey,
  { axle, at }: Side,
  first: number,
  second: number,
  seconds: number,
): void {
  if (!axle.driven || axle.unitCapacity === Infinity) return;
  const cooling = axle.unitCooling;
  const capacity = axle.unitCapacity;
  const even = 0.5 * (first + second);
  if (cooling === 0) {
    at.temperature += (even * seconds) / capacity;
    return;
  }
  const end = following.moving.car.air + even / cooling;
  const share = (cooling * seconds) / capacity;
  // What comes late in the step has not cooled yet.
  const late = ((second - first) * seconds * share * (1 - 0.5 * share)) / (4 * ROOT_3 * capacity);
  at.temperature = end + (at.temperature - end) * elementary.exp(-share) + late;
}
