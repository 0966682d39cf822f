/**
 * A car that stays behind its schedule for many intervals. At full pedal nothing of a schedule bears on it but the slope of the road,
 * so the forward model goes on in one mode over all intervals of one slope, in steps of its own; what the car is at their points is
 * read off the dense output. It ends at a step's end before anything else begins to limit, a level is passed or the car catches up:
 * the rest is left to `falling-behind.ts`, which looks closely.
 */
import { nth } from '../../columns.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import { axleMode, gearOf, L, LIMIT_BITS, SPEED } from '../../model/forward/state.ts';
import type { Solution } from '../../solvers/system.ts';
import type { Ahead } from './ahead.ts';
import type { FreeEnd } from './falling-behind.ts';
import { setOut } from './falling-behind.ts';
import type { FreeDrive, FreeEnds, Machine } from './free-drive.ts';
import { levelsAt, machineOf, TOLERANCE, takeStretch } from './free-drive.ts';
import { isTooMuch } from './instant.ts';
import type { Journey } from './journey.ts';
import { noteStretch } from './note.ts';
import type { Stretch } from './shortfall.ts';
import { bendOf } from './shortfall.ts';

/** s that it goes ahead at most, and intervals from which on it is worth while. */
const LONGEST = 600;
const LEAST_INTERVALS = 3;

/** s; limits that come and go within one step are not seen. */
const LONGEST_STEP = 16;

/** m/s that a car is behind at least, and how many bends of its speed. */
const BEHIND = 1e-3;
const BENDS = 4;

/** m/s; a car slower than this may come to rest. */
const LEAST_SPEED = 0.1;

/** Intervals after which it is tried again where it led nowhere: twice as many each time. */
const MOST_REST = 64;

/** Drives the rest of the present interval, or a part of it, as is known ahead; null where nothing is. @param index of the interval. */
export function keepOn(
  free: FreeDrive,
  car: Journey,
  schedule: Schedule,
  index: number,
  ends: FreeEnds,
): FreeEnd | null {
  const { ahead } = free;
  const { interval, parameters } = car;
  if (free.method !== undefined || parameters === null || car.tyres.counts) return null;
  const machine = machineOf(free, parameters);
  const now = interval.start + interval.s0;
  if (ahead.solution === null || ahead.schedule !== schedule || ahead.at !== now) {
    ahead.solution = null;
    if (ahead.rest > 0) ahead.rest--;
    else if (!lookAhead(machine, ahead, car, schedule, index, ends)) {
      ahead.rest = ahead.wait;
      ahead.wait = Math.min(MOST_REST, 2 * ahead.wait);
    } else ahead.wait = 1;
  }
  if (ahead.solution === null || car.short) return null;
  return take(machine, ahead, ahead.solution, car, schedule, index);
}

function take(
  machine: Machine,
  ahead: Ahead,
  solution: Solution,
  car: Journey,
  schedule: Schedule,
  index: number,
): FreeEnd {
  const { interval, totals } = car;
  const { s0 } = interval;
  const from = ahead.at - ahead.start;
  const point = nth(schedule.time, index + 1);
  const whole = point - ahead.start <= ahead.until;
  const to = whole ? point - ahead.start : ahead.until;
  const shift = interval.start - ahead.start;
  const stretch = stretchOf(solution, from, to, shift, ahead.mode);
  solution.at(from, machine.before);
  solution.at(to, machine.after);
  takeStretch(machine, car, to - from);
  if (car.track !== null) noteStretch(machine, car.track, solution, from, to);
  car.mode = ahead.mode;
  ahead.at = whole ? point : Number.NaN;
  if (!whole || to === ahead.until) ahead.solution = null;
  totals.stretches++;
  totals.beyond += to - from;
  return {
    outcome: 'interval over',
    reason: '',
    at: whole ? interval.length : s0 + (to - from),
    stretches: [stretch],
    gear: gearOf(ahead.mode),
    driven: { solution, from, to, shift },
  };
}

/** The states up to the speed. */
const speedRow = new Float64Array(SPEED + 1);

/** @param shift s from the start of the solution to the start of the interval. */
function stretchOf(solution: Solution, from: number, to: number, shift: number, mode: number): Stretch {
  const speedAt = (t: number): number => {
    solution.at(t + shift, speedRow);
    return nth(speedRow, SPEED);
  };
  const [a, b] = [from - shift, to - shift];
  return { from: a, to: b, first: speedAt(a), middle: speedAt(0.5 * (a + b)), last: speedAt(b), mode, speedAt };
}

/** Goes on from where the car is, for as long as it can not have caught up. @returns whether that leads anywhere. */
function lookAhead(
  machine: Machine,
  ahead: Ahead,
  car: Journey,
  schedule: Schedule,
  index: number,
  ends: FreeEnds,
): boolean {
  const { interval, parameters, following, speed, totals } = car;
  if (parameters === null || !(speed > LEAST_SPEED) || !(interval.from + interval.rise * interval.s0 > speed))
    return false;
  const last = lastAbove(schedule, index, speed, interval.start + interval.s0 + LONGEST);
  if (last - index < LEAST_INTERVALS) return false;
  const start = interval.start + interval.s0;
  const { plant } = machine;
  if (car.breakLeft > 0) return false;
  const { y, mode } = setOut(machine, parameters, car, interval.s0, 0);
  if (isTooMuch(following.pack, following.powers.auxiliaries) || isHeldBySpeed(mode)) return false;
  const asked = highestOf(schedule, index, last);
  const solution = machine.alone({
    start: 0,
    end: nth(schedule.time, last) - start,
    initial: y.subarray(0, plant.states),
    mode,
    tolerance: TOLERANCE,
    maxStep: LONGEST_STEP,
    levels: levelsAt({ ...ends, fastest: Math.min(ends.fastest, asked) }),
  });
  totals.evaluations += solution.statistics.evaluations;
  ahead.schedule = schedule;
  ahead.start = ahead.at = start;
  ahead.mode = mode;
  ahead.until = goodUntil(solution, ahead, schedule, index, last);
  if (!(ahead.until > nth(schedule.time, index + 1) - start)) return false;
  ahead.solution = solution;
  return true;
}

/** Close to the greatest speed of its motor a car comes to its top speed so quickly that no step is long: see `settled.ts`. */
function isHeldBySpeed(mode: number): boolean {
  return [0, 1].some(axle => (axleMode(mode, axle) & LIMIT_BITS) === L.speed);
}

/** The last point before the schedule is down to a speed, or the slope is another. */
function lastAbove({ time, speed, slope }: Schedule, index: number, v: number, until: number): number {
  const steep = slope === null ? 0 : nth(slope, index);
  const same = (i: number): boolean => slope === null || nth(slope, i - 1) === steep;
  let i = index + 1;
  while (i < time.length && nth(time, i) <= until && nth(speed, i) > v && same(i)) i++;
  return i - 1;
}

function highestOf({ speed }: Schedule, from: number, to: number): number {
  let most = 0;
  for (let i = from; i <= to; i++) most = Math.max(most, nth(speed, i));
  return most;
}

/** s in the solution: the end of the last step before which the car is behind, for certain, and the mode holds. */
function goodUntil(
  solution: Solution,
  { start, mode }: Ahead,
  { time, speed }: Schedule,
  index: number,
  last: number,
): number {
  const { nodes, times, status } = solution;
  // What ends the last step is left to a closer look: a gear that is left, a limit, the end of the pack.
  const sure = status === 'end' ? nodes - 1 : nodes - 2;
  if (sure < 1) return 0;
  const end = nth(times, sure);
  let good = 0;
  for (let i = index; i < last; i++) {
    const from = good;
    const to = Math.min(end, nth(time, i + 1) - start);
    const stretch = stretchOf(solution, from, to, 0, mode);
    const rise = (nth(speed, i + 1) - nth(speed, i)) / (nth(time, i + 1) - nth(time, i));
    const line = (t: number): number => nth(speed, i) + rise * (start + t - nth(time, i));
    const gap = Math.min(line(from) - stretch.first, line(to) - stretch.last);
    if (!(gap > BENDS * bendOf(stretch) + BEHIND)) break;
    good = to;
    if (to === end) break;
  }
  let node = sure;
  while (node > 0 && nth(times, node) > good) node--;
  return nth(times, node);
}
