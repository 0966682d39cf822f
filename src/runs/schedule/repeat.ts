/**
 * Intervals that the car has driven before, one after the other for as long as it drives them as it did then: the same steps as one
 * by one (`follower.ts`), without looking at each of them for what only a step that is new may need.
 */
import type { Way } from './chase.ts';
import { isNearFull, isNearSpent } from './cut.ts';
import { choosesFromMemory } from './gear-choice.ts';
import { isLetGo } from './held-mode.ts';
import type { Journey } from './journey.ts';
import { COLUMNS, M, part } from './memory.ts';
import { beginInterval, endStep, piecesOf, planStep } from './planned-step.ts';
import { repeatRow } from './remembered-step.ts';

/**
 * Drives from the start of an interval on.
 * @returns the first interval whose end is not reached; in it the car is at `interval.s0`.
 */
export function repeat({ car, schedule, options }: Way, index: number): number {
  const { memory, interval } = car;
  const { record, steps = 1, since } = options;
  interval.s0 = 0;
  if (memory === null || !isFree(car)) return index;
  const { data, first, count } = memory;
  const end = schedule.time.length - 1;
  let i = index;
  for (; i < end; i++) {
    let row = (first[i] ?? 0) * COLUMNS;
    const last = row + (count[i] ?? 0) * COLUMNS;
    if (row === last || isLetGo(car, schedule, i)) break;
    memory.index = i;
    beginInterval(interval, schedule, since, i);
    interval.s0 = 0;
    if (!choosesFromMemory(car)) break;
    for (; row < last && part(data, row) === interval.s0; row += COLUMNS) {
      // Near an end is what a whole step would come to, not the part of it that is remembered.
      planStep(car, steps * piecesOf(interval));
      if (isNearFull(car) || isNearSpent(car)) break;
      interval.s1 = part(data, row + M.to);
      if (!repeatRow(car, memory, row)) break;
      endStep(car);
    }
    if (interval.s0 < interval.length) return i;
    record?.push(interval.start + interval.s0, interval.from + interval.rise * interval.s0, car, interval.s0);
  }
  interval.s0 = 0;
  return i;
}

/** Whether nothing that came before has a say in how the car goes on. */
function isFree(car: Journey): boolean {
  return car.mode < 0 && car.below === null;
}
