/**
 * One step of a car that follows its schedule, with everything that limits it settled: powers at the two Gauss-Legendre points, the
 * pack by the classical Runge-Kutta method; both are of order four.
 */
import { addBoth, copyPowers, heldByPack, STANDS } from '../../model/backward/state.ts';
import { ALMOST_FULL, copyPack, drivenPackAt, respond, respondAtLimit } from '../../model/backward/pack-step.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { drawnAt } from './consumers.ts';
import { ask, isTooMuch, speedsOfStep, warmUp } from './instant.ts';
import type { Journey } from './journey.ts';
import { keepStep } from './memory.ts';
import { notePoint, noteStep } from './note.ts';
import { LONGEST_STEP } from './planned-step.ts';

/** s, where it is not plain how the limit of a pack that holds back what comes in moves along a step. */
export const SHORT_STEP = 0.125;

/** Of that limit: so much off a straight line it may be in a longer step. Common practice, no source. */
const STRAIGHT = 1e-5;

/** Drives the step at hand, all with the same bits. */
export function advance(car: Journey, bits: number): void {
  const { interval, following } = car;
  const { pack } = following;
  if (car.method?.step(car, bits, car.method.solve) === true) return;
  interval.limit1 = pack.limit;
  interval.limit2 = pack.limit;
  if (isTooMuch(pack, drawnAt(car.consumers, interval.heaterFrom + interval.s0))) givesAlong(car, bits);
  if (bits !== STANDS && pack.limit !== 0 && heldByPack(bits)) {
    if (!foreseesLimits(car)) {
      // Another of the currents that a pack takes at most comes to be the least of them.
      interval.s1 = interval.s0 + SHORT_STEP;
      limitsAt(car, SHORT_STEP);
    }
  }
  nodes(car, bits, interval.s1 - interval.s0);
  interval.givesMore = 0;
  // A pack that takes nothing is always the same.
  const takesNothing = heldByPack(bits) && pack.limit === 0;
  takeStep(car, (takesNothing || !heldByPack(bits)) && following.freely, takesNothing);
}

/** What consumers get that are cut short moves with what the pack gives: driven once for how, on a straight line. */
function givesAlong(car: Journey, bits: number): void {
  const { interval, before, following } = car;
  const { pack, moving } = following;
  interval.s1 = Math.min(interval.s1, interval.s0 + LONGEST_STEP);
  const h = interval.s1 - interval.s0;
  copyPack(pack, before);
  nodes(car, bits, h);
  pack.span = h;
  respond(moving.pack, pack);
  // Where a budget is spent or the pack is full the step is cut; up to there the limit goes on as it began.
  pack.spentCharge = before.spentCharge;
  if (before.charge < 1) pack.charge = Math.min(pack.charge, ALMOST_FULL);
  drivenPackAt(moving.pack, pack);
  interval.givesMore = (pack.gives - before.gives) / h;
  copyPack(before, pack);
}

/** What the pack takes at most at the two points of a step of so many seconds in which it takes just that: the limit moves with its state. */
function limitsAt({ interval, before, following: { pack, moving } }: Journey, h: number): void {
  copyPack(pack, before);
  pack.span = FIRST * h;
  respondAtLimit(moving.pack, pack);
  interval.limit1 = pack.limit;
  copyPack(before, pack);
  pack.span = SECOND * h;
  respondAtLimit(moving.pack, pack);
  interval.limit2 = pack.limit;
  copyPack(before, pack);
}

/**
 * Finds what the pack takes at most at the two points of the step at hand, in which it takes just that; false where it is not plain how that
 * goes on, as another of its limits comes to be the least.
 */
export function foreseesLimits(car: Journey): boolean {
  const { interval } = car;
  const h = interval.s1 - interval.s0;
  limitsAt(car, h);
  return h <= SHORT_STEP || !bends(car);
}

function bends({ interval: { limit1, limit2 }, following: { pack } }: Journey): boolean {
  const straight = pack.limit + (SECOND / FIRST) * (limit1 - pack.limit);
  return !(Math.abs(limit2 - straight) <= STRAIGHT * pack.limit);
}

/**
 * Takes the step at hand: the powers of its two points stand in `pending` and `powers`.
 * @param freely what holds the car back is far away: it asks the same when it comes by again.
 * @param takesNothing the pack, which is what holds it back.
 */
export function takeStep(car: Journey, freely: boolean, takesNothing: boolean): void {
  const { following, interval, pending, sums, memory } = car;
  const { pack, powers, front, rear } = following;
  const h = interval.s1 - interval.s0;
  if (memory !== null && freely) keepStep(car, memory, takesNothing);
  pack.first = pending.power;
  pack.second = powers.power;
  pack.span = h;
  addBoth(sums, pending, powers, pack);
  if (car.warms) {
    warmUp(car, front, car.front.heat, front.at.heat, h);
    warmUp(car, rear, car.rear.heat, rear.at.heat, h);
  }
  finish(car);
}

/** The pack goes through its span with the two powers that are set, and leaves its trail. */
export function drivePack({ following: { pack, moving }, track }: Journey): void {
  const { emf, resistance } = pack;
  respond(moving.pack, pack);
  drivenPackAt(moving.pack, pack);
  if (track !== null) noteStep(pack, track, emf, resistance);
}

/** The pack, and the way. The ends of the step and the two powers of the pack are set. */
export function finish(car: Journey): void {
  const { interval, totals, following } = car;
  const { pack } = following;
  const h = interval.s1 - interval.s0;
  pack.span = h;
  drivePack(car);
  totals.steps++;
  if (pack.first < 0 || pack.second < 0) totals.returned += returned(pack.first, pack.second, h);
  speedsOfStep(car);
  car.distance += 0.5 * (interval.v0 + interval.v1) * h;
}

/** The powers at the two points of a step. */
function nodes(car: Journey, bits: number, h: number): void {
  const { interval, following, pending, track } = car;
  const { pack, powers, front, rear } = following;
  interval.at = interval.s0 + FIRST * h;
  ask(car, bits, interval.limit1);
  copyPowers(powers, pending);
  pack.first = powers.power;
  if (front.axle.driven) car.front.heat = front.at.heat;
  if (rear.axle.driven) car.rear.heat = rear.at.heat;
  if (track !== null) notePoint(car, track, false, bits === STANDS);
  interval.at = interval.s0 + SECOND * h;
  ask(car, bits, interval.limit2);
  pack.second = powers.power;
  if (track !== null) notePoint(car, track, true, bits === STANDS);
}

/** J that flows into the pack while its power goes linearly through two values at the Gauss-Legendre points. */
function returned(first: number, second: number, h: number): number {
  const middle = 0.5 * (first + second);
  const half = 0.5 * Math.sqrt(3) * (second - first);
  const low = middle - Math.abs(half);
  const high = middle + Math.abs(half);
  if (high <= 0) return -middle * h;
  if (low >= 0) return 0;
  return (0.5 * low * low * h) / (high - low);
}
