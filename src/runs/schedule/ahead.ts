/** What a car that stays behind its schedule does next, as the forward model found it: see `far-behind.ts`. */
import type { Schedule } from '../../cycles/schedule.ts';
import type { Solution } from '../../solvers/system.ts';

export class Ahead {
  solution: Solution | null = null;
  schedule: Schedule | null = null;
  /** s in the schedule at which the solution begins, and where the car is. */
  start = Number.NaN;
  at = Number.NaN;
  /** s in the solution up to which it is good. */
  until = Number.NaN;
  mode = 0;
  /** Intervals to go before it is tried again, and to wait the next time that it leads nowhere. */
  rest = 0;
  wait = 1;
}

/** A schedule begins: what was found of another one, or of another car on it, has no say in where the steps of this one end. */
export function lookAnew(ahead: Ahead): void {
  ahead.solution = null;
  ahead.rest = 0;
  ahead.wait = 1;
}
