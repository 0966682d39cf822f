/** The tyres of a car on its way: how much of the cold in which they stood is left. */
import * as elementary from '../../elementary.ts';
import type { Warming } from '../../model/car.ts';
import type { AxleFigures } from '../../model/forward/figures.ts';
import { meanCold, rootAfter, rootStood } from '../../model/tyre/warming.ts';
import type { Journey } from './journey.ts';

/** Roots of the shares of the cold, see `warming.ts`: at the start of a schedule, none of a warm tyre. */
export class TyreWarmth {
  front = 0;
  rear = 0;
  /** The figures have what cold tyres add. */
  counts = false;
}

/** Whether the rolling resistance changes along the way. */
export function hasColdTyres({ tyres }: Journey): boolean {
  return tyres.front > 0 || tyres.rear > 0;
}

/** Sets the rolling resistance to its mean over that one of so many steps of the interval in which the car is: where it is cut has no say. */
export function rollCold(car: Journey, steps: number): void {
  const { tyres, interval, following, parameters } = car;
  if (parameters === null) return;
  const { start, s0, length } = interval;
  const step = length / steps;
  const from = start + step * Math.min(steps - 1, Math.floor((s0 / length) * steps + 1e-9));
  const to = from + step;
  const { front, rear } = parameters;
  const one = setRolling(following.front.axle, front, tyres.front, parameters.warmingFront, from, to);
  const other = setRolling(following.rear.axle, rear, tyres.rear, parameters.warmingRear, from, to);
  tyres.counts = one || other;
}

function setRolling(
  axle: AxleFigures,
  { c0, c1, c2 }: AxleFigures,
  root: number,
  warming: Warming | null,
  from: number,
  to: number,
): boolean {
  if (warming === null) return false;
  const share = meanCold(root, from, to, warming.warmAfter);
  const factor = 1 + warming.rise * share;
  axle.c0 = factor * c0;
  axle.c1 = factor * c1;
  axle.c2 = factor * c2;
  return share > 0;
}

/** @param seconds driven. */
export function warmTyres({ tyres, parameters }: Journey, seconds: number): void {
  if (parameters === null) return;
  const { warmingFront, warmingRear } = parameters;
  tyres.front = warmingFront === null ? 0 : rootAfter(tyres.front, seconds, warmingFront.warmAfter);
  tyres.rear = warmingRear === null ? 0 : rootAfter(tyres.rear, seconds, warmingRear.warmAfter);
}

/** Shares of the cold after standing. */
export function coldAfterRest(
  [front, rear]: readonly [number, number],
  seconds: number,
  parameters: Journey['parameters'],
): readonly [number, number] {
  const stood = (share: number, of: Warming | null): number =>
    of === null ? 0 : elementary.pow(rootStood(Math.sqrt(share), seconds, of.coldAfter), 2);
  return [stood(front, parameters?.warmingFront ?? null), stood(rear, parameters?.warmingRear ?? null)];
}
