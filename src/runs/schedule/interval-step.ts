/**
 * One step of a car that follows its schedule, with everything that limits it settled: powers at the two Gauss-Legendre points, the
 * pack by the classical Runge-Kutta method; both are of order four.
 */
import { addBoth, copyPowers, heldByPack, STANDS } from '../../model/backward/state.ts';
import { copyPack, drivenPackAt, respond, respondInOne } from '../../model/backward/pack-step.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { drawnAt } from './consumers.ts';
import { ask, isTooMuch, speedsOfStep, warmUp } from './instant.ts';
import type { Journey } from './journey.ts';
import { keepStep } from './memory.ts';
import { notePoint, noteStep } from './note.ts';

/** The charge next to a full one. */
const ALMOST_FULL = 1 - Number.EPSILON;

/** Drives the step at hand, all with the same bits. */
export function advance(car: Journey, bits: number): void {
  const { interval, following } = car;
  const { pack, moving } = following;
  const h = interval.s1 - interval.s0;
  if (car.method?.step(car, bits, car.method.solve) === true) return;
  interval.limit1 = pack.limit;
  interval.limit2 = pack.limit;
  const held = bits !== STANDS && pack.limit !== 0 && heldByPack(bits);
  const short = isTooMuch(pack, drawnAt(car.consumers, interval.heaterFrom + interval.s0));
  if (held || short) {
    // What the pack takes, and gives, moves with its state: once for how, once for good.
    copyPack(pack, car.before);
    nodes(car, bits, h);
    pack.span = h;
    respond(moving.pack, pack);
    // Where a budget is spent or the pack is full the step is cut; up to there the limit goes on as it began.
    pack.spentCharge = car.before.spentCharge;
    if (car.before.charge < 1) pack.charge = Math.min(pack.charge, ALMOST_FULL);
    drivenPackAt(moving.pack, pack);
    const change = pack.limit - interval.limit1;
    if (short) interval.givesMore = (pack.gives - car.before.gives) / h;
    copyPack(car.before, pack);
    if (held) {
      interval.limit2 = interval.limit1 + SECOND * change;
      interval.limit1 = interval.limit1 + FIRST * change;
    }
  }
  nodes(car, bits, h);
  interval.givesMore = 0;
  takeStep(car, !heldByPack(bits) && following.freely);
}

/**
 * Takes the step at hand: the powers of its two points stand in `pending` and `powers`.
 * @param freely what holds the car back is far away: it asks the same when it comes by again.
 */
export function takeStep(car: Journey, freely: boolean): void {
  const { following, interval, pending, sums, memory } = car;
  const { pack, powers, front, rear } = following;
  const h = interval.s1 - interval.s0;
  if (memory !== null && freely) keepStep(car, memory);
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
export function drivePack({ following: { pack, moving }, track, sampled }: Journey): void {
  const { emf, resistance } = pack;
  if (sampled) respondInOne(moving.pack, pack);
  else respond(moving.pack, pack);
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
