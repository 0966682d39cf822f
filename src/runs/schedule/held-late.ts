/** How late a car is that is held at a speed. */
import type { Schedule } from '../../cycles/schedule.ts';
import type { Journey } from './journey.ts';
import type { StepMemory } from './memory.ts';
import { M, part } from './memory.ts';
import { askedBy, timeLost, tooSlow } from './shortfall.ts';

/** Counts the step at hand. @param index of its interval in the schedule. */
export function countHeld(car: Journey, schedule: Schedule, index: number): void {
  const { held, interval, totals } = car;
  const { s0: from, s1: to } = interval;
  const steady = { from, to, first: held, middle: held, last: held, mode: 0, speedAt: () => held };
  totals.beyond += to - from;
  totals.late += tooSlow(askedBy(schedule), index, steady);
  totals.lost += timeLost(askedBy(schedule), index, steady);
}

/** The same of a step that is remembered: once for all times that it comes by. @param o place of its row. */
export function countHeldAgain(car: Journey, { data, schedule, index }: StepMemory, o: number): void {
  const { interval, totals } = car;
  if (Number.isNaN(part(data, o + M.late))) {
    const { late, lost } = totals;
    [totals.late, totals.lost] = [0, 0];
    countHeld(car, schedule, index);
    data[o + M.late] = totals.late;
    data[o + M.lost] = totals.lost;
    [totals.late, totals.lost] = [late + totals.late, lost + totals.lost];
    return;
  }
  totals.beyond += interval.s1 - interval.s0;
  totals.late += part(data, o + M.late);
  totals.lost += part(data, o + M.lost);
}
