/** Where a step has to end: something begins or ceases to limit, or the pack comes to its low end or is full. */
import { copyPack, DrivenPack } from '../../model/backward/pack-step.ts';
import { BEYOND, copyPowers, heldByPack, Powers } from '../../model/backward/state.ts';
import type { Following, Side } from '../../model/backward/state.ts';
import type { Journey } from './journey.ts';
import { bitsAt } from './instant.ts';
import { advance, SHORT_STEP } from './interval-step.ts';
import { firstRoot, Margins, marginsAt } from './margins.ts';

/** Of a step: an instant at which something begins to limit is found to this share of it, and one from which on the car falls behind. */
const CUT = 2 ** -20;
const BEHIND_CUT = 2 ** -22;

/** Of the most that a pack can give, E^2 / 4R: above it the current bends so much with the power that a step is no longer than so, s. */
const HARD = 0.3;
export const HARD_STEP = 0.25;

/**
 * Near the peak of friction slip goes with the root of what is left to it. Below this share of the grip left a step ends before what is
 * left has changed more than so many times, but for one of so many s: the error of a step there goes with its length to the power 1.5.
 */
export const NEAR_PEAK = 0.2;
const MOST_CHANGE = 2;
const PEAK_STEP = 1 / 64;

/** Of a step, and passes: the instant at which the pack is at its low end, or full. */
const INSTANT = 1e-12;
const MOST_PASSES = 40;

/** Of the charge: this close to an end, or to twice what a step takes of it, the step is looked at. */
const NEAR = 1e-6;

/** Cuts the step at hand just past the instant at which the bits at its start, found just now, no longer hold. @param near whether the pack may be full, or is near another end. */
export function cut(car: Journey, bits: number, near: boolean): void {
  const { interval, following } = car;
  const { pack } = following;
  const hard = isHard(following);
  const room = gripLeft(following);
  marginsAt(car, atLow);
  interval.at = interval.s1;
  let end = bitsAt(car);
  if ((hard || isHard(following)) && interval.s1 - interval.s0 > HARD_STEP) {
    interval.s1 = interval.s0 + HARD_STEP;
    following.freely = false;
    interval.at = interval.s1;
    end = bitsAt(car);
  }
  if (pack.limit !== 0 && (heldByPack(bits) || heldByPack(end))) {
    const longest = bits !== end || near ? SHORT_STEP : heldLength(interval);
    interval.s1 = Math.min(interval.s1, interval.s0 + longest);
    following.freely = false;
    interval.at = interval.s1;
    end = bitsAt(car);
  }
  const left = end === bits ? gripLeft(following) : narrow(car, bits, end);
  grade(car, room, left);
}

/**
 * Of its speed at the end: a car that the pack holds back loses no more of it in a step, but in a short one. Copper losses at a given power go with 1/v^2, of
 * which two points know the integral to 0.03 times the fourth power of that share.
 */
const SLOWS = 0.06;

/** s. */
export function heldLength({ from, rise, s1 }: Journey['interval']): number {
  return Math.max(SHORT_STEP, (SLOWS * (from + rise * s1)) / Math.abs(rise));
}

/** Of the bracket of an instant: where it shrinks less the next point lies on the other side of the instant, and where that fails in its middle. */
const SHRINKS = 0.25;

/**
 * Cuts the step at hand just past the instant at which its bits cease to hold: where a straight line through what decides them says
 * (`margins.ts`), with halving as a net; the bits alone tell on which side of it a point lies. What stands in `atLow` is of its start.
 * @param end the bits at its end.
 * @returns share of the grip that is left there.
 */
function narrow(car: Journey, bits: number, end: number): number {
  const { interval, following } = car;
  car.totals.cuts++;
  let low = interval.s0;
  let high = interval.s1;
  const share = ((bits ^ end) & BEYOND) === 0 ? CUT : BEHIND_CUT;
  const width = (car.method?.cut ?? share) * (high - low);
  marginsAt(car, atHigh);
  let left = Number.NaN;
  let near = Number.NaN;
  let failed = 0;
  while (high - low > width) {
    const before = high - low;
    const middle = 0.5 * (low + high);
    // Of a step that is shorter than times can be told apart nothing is left to be halved.
    if (!(middle > low && middle < high)) break;
    const root = low + firstRoot(atLow, atHigh) * before;
    interval.at = failed === 0 ? beside(root, low, high, width) : failed === 1 ? past(root, near, low, high) : middle;
    near = interval.at;
    if (bitsAt(car) === bits) {
      low = interval.at;
      marginsAt(car, atLow);
    } else {
      high = interval.at;
      marginsAt(car, atHigh);
      left = gripLeft(following);
    }
    failed = high - low > SHRINKS * before && failed < 2 ? failed + 1 : 0;
  }
  interval.s1 = high;
  if (!Number.isNaN(left)) return left;
  interval.at = high;
  bitsAt(car);
  return gripLeft(following);
}

const atLow = new Margins();
const atHigh = new Margins();

/** A point on the other side of an instant than one that was near it, as far away as half of what that was off; the middle where it does not lie within. */
function past(instant: number, near: number, low: number, high: number): number {
  const at = instant + 0.5 * (instant - near);
  return at > low && at < high ? at : 0.5 * (low + high);
}

/** A point just past an instant, or just before it where the bracket ends there; the middle where neither lies within. */
function beside(instant: number, low: number, high: number, width: number): number {
  const at = high - instant > width ? instant + 0.5 * width : instant - 0.5 * width;
  return at > low && at < high ? at : 0.5 * (low + high);
}

/**
 * Ends the step early where what is left of the grip changes much in it.
 * @param room at its start. @param left at its end, where the point at hand is.
 */
function grade({ interval }: Journey, room: number, left: number): void {
  const h = interval.s1 - interval.s0;
  if (h <= PEAK_STEP) return;
  if (Math.min(room, left) >= NEAR_PEAK || Math.max(room, left) <= MOST_CHANGE * Math.min(room, left)) return;
  const share = left < room ? 1 - 1 / MOST_CHANGE : ((MOST_CHANGE - 1) * room) / (left - room);
  interval.s1 = interval.s0 + Math.max(PEAK_STEP, share * h);
}

/** Share of the grip that the forces at the point at hand leave over, of the driven axle that has less of it. */
export function gripLeft({ front, rear }: Following): number {
  return Math.min(leftTo(front), leftTo(rear));
}

function leftTo({ axle, at }: Side): number {
  return axle.driven ? Math.max(0, 1 - Math.abs(at.force) / at.grip) : 1;
}

function isHard({ pack, powers }: Following): boolean {
  return isHardFor(pack, powers.power);
}

/** Whether a power in W is so much of what a pack can give that a long step would be driven in shorter ones. */
export function isHardFor({ resistance, emf }: DrivenPack, power: number): boolean {
  return 4 * resistance * power > HARD * emf * emf;
}

/** Whether the step at hand may pass the low end of the pack. @param first W out of it at its two points, as `second`. */
export function isNearLow({ following, interval, low }: Journey, first: number, second: number): boolean {
  const { pack, moving } = following;
  const drawn = 2 * Math.max(first, second) * (interval.s1 - interval.s0);
  return (pack.charge - low - NEAR) * pack.emf * moving.pack.capacity <= drawn;
}

/** Whether it may do so, whatever it is asked for. */
function mayPassLow(car: Journey): boolean {
  const { gives } = car.following.pack;
  return isNearLow(car, gives, gives);
}

/** Whether the pack may be full at the end of the step at hand: it takes nothing from then on. */
export function isNearFull({ following, interval }: Journey): boolean {
  const { pack, moving } = following;
  if (pack.charge >= 1) return false;
  const rise = pack.limit * (interval.s1 - interval.s0);
  return rise >= (1 - NEAR - pack.charge) * pack.emf * moving.pack.capacity;
}

/**
 * Whether a budget of current may be spent at the end of the step at hand: at the greatest current it would be in the time of a pulse.
 */
export function isNearSpent({ following, interval }: Journey): boolean {
  const { pack, moving } = following;
  const { pulses, pulseTime } = moving.pack;
  if (!pulses) return false;
  const most = 1 - NEAR - (interval.s1 - interval.s0) / pulseTime;
  return (pack.spent < 1 && pack.spent >= most) || (pack.spentCharge < 1 && pack.spentCharge >= most);
}

/** What a step is taken back to. */
const keptPack = new DrivenPack();
const keptSums = new Powers();

/**
 * As `advance`, but to the instant at which the pack passes its low end, or is full, at most.
 * @param near whether it may be full, or is below its low end.
 * @returns whether it passes its low end.
 */
export function advanceToEnds(car: Journey, bits: number, near: boolean): boolean {
  if (!near && !mayPassLow(car)) {
    advance(car, bits);
    return false;
  }
  const { interval, following, sums, totals } = car;
  following.freely = false;
  const { pack, front, rear } = following;
  const { distance } = car;
  const { returned, steps } = totals;
  const units = [front.at.temperature, rear.at.temperature] as const;
  copyPack(pack, keptPack);
  copyPowers(sums, keptSums);
  const falls = car.below === null;
  const fills = pack.charge < 1;
  const isPast = (): boolean => pack.charge <= car.low === falls;
  const isFull = (): boolean => fills && pack.charge >= 1;
  const [gives, takes] = [pack.spent < 1, pack.spentCharge < 1];
  const isSpent = (): boolean => (gives && pack.spent >= 1) || (takes && pack.spentCharge >= 1);
  const pieces = car.track?.trail.pieces ?? 0;
  const retry = (end: number): void => {
    car.track?.trail.truncate(pieces);
    copyPack(keptPack, pack);
    copyPowers(keptSums, sums);
    [front.at.temperature, rear.at.temperature] = units;
    car.distance = distance;
    totals.returned = returned;
    totals.steps = steps;
    interval.s1 = end;
    advance(car, bits);
  };
  advance(car, bits);
  const past = isPast();
  const kept = !past && !isFull();
  if (kept && !isSpent()) return closed(pack);
  const passed = past ? isPast : kept ? isSpent : isFull;
  let low = interval.s0;
  let high = interval.s1;
  const width = INSTANT * (high - low);
  for (let pass = 0; pass < MOST_PASSES && high - low > width; pass++) {
    const middle = 0.5 * (low + high);
    retry(middle);
    if (passed()) high = middle;
    else low = middle;
  }
  retry(high);
  closed(pack);
  return past;
}

/** A budget that is spent is just that; which way it went in a step that was cut there is round-off. */
function closed(pack: DrivenPack): false {
  pack.spent = Math.min(1, pack.spent);
  pack.spentCharge = Math.min(1, pack.spentCharge);
  return false;
}
