/** Whether what holds at the two Gauss-Legendre points of a step holds to its ends, on a straight line through them. */
import type { DrivenPack } from '../../model/backward/pack-step.ts';
import { currentAtPower } from '../../model/pack/state.ts';
import { continuousChargePower, continuousPower } from './instant.ts';
import type { Journey } from './journey.ts';

/** From a Gauss-Legendre point to the near end of the step over the way between the points, and a margin for bends. */
export const REACH = 0.366_1 * 1.3;

/** Share of what the pack takes up to which its limit, which moves during a step, is not looked at. */
const TAKEN = 0.8;

/** Of the voltage under load: by so much less it may be by the end of a step or a stretch. */
export const SAG = 0.95;

/** V of the pack as it is at so many W out of it. */
export function voltageUnder({ emf, resistance }: DrivenPack, power: number): number {
  return emf - resistance * currentAtPower(emf, resistance, power);
}

/** Whether a number keeps its sign. */
export function keepsSign(first: number, second: number): boolean {
  if (first === Infinity || second === Infinity) return true;
  return !(Math.min(Math.abs(first), Math.abs(second)) <= REACH * Math.abs(second - first));
}

/** Whether the current is on one side of what the pack gives, and takes, for ever. @param first W, as `second` at the other point. */
export function keepsBudget(car: Journey, first: number, second: number): boolean {
  const out = continuousPower(car);
  const back = -continuousChargePower(car);
  return keepsSign(first - out, second - out) && keepsSign(first - back, second - back);
}

/** Whether a pack takes all that comes in. @param limit W that it takes. */
export function isTaken(first: number, second: number, limit: number): boolean {
  return Math.min(first, second) - REACH * Math.abs(second - first) >= -TAKEN * limit;
}
