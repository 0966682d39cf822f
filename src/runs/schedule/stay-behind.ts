/**
 * The whole intervals that are known ahead of a car far behind its schedule (`far-behind.ts`), one after the other: as one by one
 * (`chase.ts`), without looking at each of them for what can not happen there.
 */
import { nth } from '../../columns.ts';
import { SPEED } from '../../model/forward/state.ts';
import type { Solution } from '../../solvers/system.ts';
import type { Way } from './chase.ts';
import { drawnAt } from './consumers.ts';
import { isHeldByPack, takeStretch } from './free-drive.ts';
import { isTooMuch } from './instant.ts';
import { lostShare, takeBack } from './late-by-pack.ts';
import { noteStretch } from './note.ts';
import { isKept } from './pedal-memory.ts';
import { beginInterval } from './planned-step.ts';
import type { Stretch } from './shortfall.ts';
import { askedBy, spansTooSlow, timeLost } from './shortfall.ts';

/** The interval at hand, as a stretch of the solution. */
class Piece implements Stretch {
  readonly from = 0;
  to = Number.NaN;
  first = Number.NaN;
  middle = Number.NaN;
  last = Number.NaN;
  readonly mode: number;
  /** s in the solution of its start. */
  start = Number.NaN;
  private readonly solution: Solution;
  private readonly row = new Float64Array(SPEED + 1);

  constructor(solution: Solution, mode: number) {
    this.solution = solution;
    this.mode = mode;
  }

  speedAt(t: number): number {
    this.solution.at(this.start + t, this.row);
    return this.row[SPEED] ?? Number.NaN;
  }

  /** It begins at a time of the solution, and lasts so many s. */
  place(start: number, length: number): void {
    this.start = start;
    this.to = length;
    this.first = this.speedAt(0);
    this.middle = this.speedAt(0.5 * length);
    this.last = this.speedAt(length);
  }
}

/**
 * Drives from the start of an interval on.
 * @returns the first interval that is not driven.
 */
export function stayBehind(way: Way, index: number): number {
  const { car, schedule, options } = way;
  const { ahead, machine } = way.free;
  const { solution, start, until, mode } = ahead;
  const { interval, following, totals, consumers } = car;
  const { time } = schedule;
  if (solution === null || machine === null || ahead.schedule !== schedule || ahead.at !== time[index]) return index;
  if (car.mode < 0 || car.below !== null || interval.s0 !== 0) return index;
  // One by one they are remembered, or will be.
  if (car.memory !== null && isKept(machine, mode)) return index;
  const asked = askedBy(schedule);
  const losesWay = car.keen && isHeldByPack(mode);
  const stretch = new Piece(solution, mode);
  const { before, after } = machine;
  const from = ahead.at - start;
  solution.at(from, after);
  let i = index;
  for (; i + 1 < time.length && nth(time, i + 1) - start <= until; i++) {
    beginInterval(interval, schedule, options.since, i, i + 1);
    const { length } = interval;
    if (isTooMuch(following.pack, drawnAt(consumers, interval.heaterFrom + 0.5 * length))) break;
    const shift = interval.start - start;
    before.set(after);
    solution.at(shift + length, after);
    takeStretch(machine, car, length);
    stretch.place(shift, length);
    totals.lost += timeLost(asked, i, stretch);
    const isLost = losesWay && lostShare(following.pack.charge) > 0;
    for (const [a, b] of spansTooSlow(asked, i, stretch)) {
      totals.late += b - a;
      if (isLost) takeBack(car, machine, solution, a + shift, b + shift);
    }
    if (isLost) solution.at(shift + length, after);
    totals.stretches++;
    totals.beyond += length;
    ahead.at = nth(time, i + 1);
    options.record?.push(interval.start + length, interval.from + interval.rise * length, car, length);
  }
  if (i === index) return index;
  if (car.track !== null) noteStretch(machine, car.track, solution, from, ahead.at - start);
  car.mode = mode;
  car.short = false;
  if (ahead.at - start === until) ahead.solution = null;
  return i;
}
