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
import { addRows, repeatRow } from './remembered-step.ts';

/**
 * Drives from the start of an interval on.
 * @returns the first interval whose end is not reached; in it the car is at `interval.s0`.
 */
export function repeat({ car, schedule, options, ahead }: Way, index: number): number {
  const { memory, interval } = car;
  interval.s0 = 0;
  if (memory === null || !isFree(car)) return index;
  const { data, first, count } = memory;
  const { record, steps = 1, since } = options;
  const end = schedule.time.length - 1;
  let i = index;
  // Rows that are driven, one behind the other, but for what the road took in them.
  let from = COLUMNS;
  let row = COLUMNS;
  while (i < end) {
    const begin = (first[i] ?? 0) * COLUMNS;
    const last = begin + (count[i] ?? 0) * COLUMNS;
    interval.s0 = 0;
    if (begin === last || isLetGo(car, schedule, i)) break;
    memory.index = i;
    const next = ahead[i] ?? end;
    beginInterval(interval, schedule, since, i, next);
    if (!choosesFromMemory(car)) break;
    if (begin !== row) {
      addRows(car.sums, memory, from, row);
      from = begin;
    }
    for (row = begin; row < last && part(data, row) === interval.s0; row += COLUMNS) {
      if (car.held > 0 || mayBeNear(car)) {
        planStep(car, steps * piecesOf(interval));
        if (isNearEnd(car)) break;
      }
      interval.s1 = part(data, row + M.to);
      if (!repeatRow(car, memory, row)) break;
      endStep(car);
    }
    if (interval.s0 < interval.length) break;
    i = next;
    if (record === undefined) continue;
    addRows(car.sums, memory, from, row);
    from = row;
    record.push(interval.start + interval.s0, interval.from + interval.rise * interval.s0, car, interval.s0);
  }
  addRows(car.sums, memory, from, row);
  return i;
}

/** Whether the pack may come to an end in what is left of the interval, whole or not. */
function mayBeNear(car: Journey): boolean {
  const { interval } = car;
  interval.s1 = interval.length;
  return isNearEnd(car);
}

/** Near an end is what a whole step would come to, not the part of it that is remembered. */
function isNearEnd(car: Journey): boolean {
  return isNearFull(car) || isNearSpent(car);
}

/** Whether nothing that came before has a say in how the car goes on. */
function isFree(car: Journey): boolean {
  return car.mode < 0 && car.below === null;
}
