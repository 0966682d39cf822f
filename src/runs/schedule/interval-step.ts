/**
 * One step of a car that follows its schedule, with everything that limits it settled: powers at the two Gauss-Legendre points, the
 * pack by the classical Runge-Kutta method; both are of order four.
 */
import { addPowers, heldByPack, STANDS } from '../../model/backward/state.ts';
import { copyPack, drivenPackAt, respond } from '../../model/backward/pack-step.ts';
import { FIRST, SECOND } from '../trail/gauss.ts';
import { ask, speedAt, warmUp } from './instant.ts';
import type { Journey } from './journey.ts';
import { methodStep } from './method-step.ts';
import { notePoint, noteStep } from './note.ts';

/** Drives the step at hand, all with the same bits. */
export function advance(car: Journey, bits: number): void {
  const { interval, following } = car;
  const { pack, moving } = following;
  const h = interval.s1 - interval.s0;
  if (car.method !== undefined && methodStep(car, bits, car.method.solve)) return;
  interval.limit1 = pack.limit;
  interval.limit2 = pack.limit;
  if (bits !== STANDS && pack.limit !== 0 && heldByPack(bits)) {
    // The limit moves with the state: once for how, once for good.
    copyPack(pack, car.before);
    nodes(car, bits, h, false);
    pack.span = h;
    respond(moving.pack, pack);
    drivenPackAt(moving.pack, pack);
    const change = pack.limit - interval.limit1;
    interval.limit2 = interval.limit1 + SECOND * change;
    interval.limit1 = interval.limit1 + FIRST * change;
    copyPack(car.before, pack);
  }
  nodes(car, bits, h, true);
  finish(car);
}

/** The pack, and the way. The ends of the step and the two powers of the pack are set. */
export function finish(car: Journey): void {
  const { interval, totals, following } = car;
  const { pack, moving } = following;
  const h = interval.s1 - interval.s0;
  pack.span = h;
  const { emf, resistance } = pack;
  respond(moving.pack, pack);
  drivenPackAt(moving.pack, pack);
  if (car.track !== null) noteStep(car, car.track, emf, resistance);
  totals.steps++;
  if (pack.first < 0 || pack.second < 0) totals.returned += returned(pack.first, pack.second, h);
  car.distance += speedAt(car, interval.s0 + 0.5 * h) * h;
}

/** The powers at the two points of a step. */
function nodes(car: Journey, bits: number, h: number, counts: boolean): void {
  const { interval, following } = car;
  const { pack, powers } = following;
  for (let i = 0; i < 2; i++) {
    interval.at = interval.s0 + (i === 0 ? FIRST : SECOND) * h;
    ask(car, bits, i === 0 ? interval.limit1 : interval.limit2);
    if (i === 0) pack.first = powers.power;
    else pack.second = powers.power;
    if (counts && car.track !== null) notePoint(car, car.track, i === 1, bits === STANDS);
    if (counts) tally(car, 0.5 * h);
  }
}

/** Adds the powers of a point, and warms the drive units. */
function tally(car: Journey, weight: number): void {
  const { front, rear, powers } = car.following;
  addPowers(car.sums, powers, weight);
  if (!car.warms) return;
  warmUp(car, front, front.at.heat * weight, weight);
  warmUp(car, rear, rear.at.heat * weight, weight);
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
