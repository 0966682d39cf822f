/**
 * In a range, what a car drives outside the tolerance of its schedule because of its pack, which does not count once the charge is low
 * (`excursion.ts`): at each instant by the share that holds at the charge it has then. Where stretches and steps end has no say in it.
 */
import { nth } from '../../columns.ts';
import { CHARGE, DISTANCE, SPEED } from '../../model/forward/state.ts';
import { curveIntegral } from '../../model/tables/curve.ts';
import { findRoot } from '../../solvers/bracket.ts';
import type { Solution } from '../../solvers/system.ts';
import { motionOf } from './excursion.ts';
import { addGained } from './free-drive.ts';
import type { Machine } from './free-drive.ts';
import type { Journey } from './journey.ts';

/** State of charge from which on, and down to which, a way that the pack makes late ceases to count. Common practice, no source. */
const LATE_COUNTS = 0.3;
const LATE_IS_LOST = 0.25;

/** Of a way that the pack makes late, the share that does not count at a state of charge. */
export function lostShare(charge: number): number {
  return Math.min(1, Math.max(0, (LATE_COUNTS - charge) / (LATE_COUNTS - LATE_IS_LOST)));
}

/** s to which it is found when the charge comes to where the share bends. */
const WIDTH = 1e-12;

/**
 * Takes back a part of a solution, by its share: way, time, and every energy alike.
 * @param from s in the solution, as `to`. @returns s that do not count.
 */
export function takeBack(car: Journey, machine: Machine, solution: Solution, from: number, to: number): number {
  let [sum, start] = [0, from];
  for (const level of [LATE_COUNTS, LATE_IS_LOST]) {
    const above = (t: number): number => chargeAt(solution, t) - level;
    const [first, last] = [above(start), above(to)];
    // At full pedal the charge only falls.
    if (!(first > 0 && last < 0)) continue;
    const bend = findRoot(above, start, first, to, last, WIDTH);
    sum += takeBackSmooth(car, machine, solution, start, bend);
    start = bend;
  }
  return sum + takeBackSmooth(car, machine, solution, start, to);
}

/** The same where the share has no bend. */
function takeBackSmooth(car: Journey, machine: Machine, solution: Solution, from: number, to: number): number {
  const middle = 0.5 * (from + to);
  const first = lostShare(chargeAt(solution, from));
  const half = lostShare(chargeAt(solution, middle));
  const last = lostShare(chargeAt(solution, to));
  if (last === 0) return 0;
  // Trapezoids over halves and over the whole, and what these two let foresee (Richardson's extrapolation).
  const early = (1.5 * first + 2 * half - 0.5 * last) / 3;
  const late = (1.5 * last + 2 * half - 0.5 * first) / 3;
  takeBackPart(car, machine, solution, from, middle, early);
  takeBackPart(car, machine, solution, middle, to, late);
  return early * (middle - from) + late * (to - middle);
}

/** The states up to the charge. */
const row = new Float64Array(CHARGE + 1);

function chargeAt(solution: Solution, t: number): number {
  solution.at(t, row);
  return nth(row, CHARGE);
}

function takeBackPart(
  car: Journey,
  machine: Machine,
  solution: Solution,
  from: number,
  to: number,
  share: number,
): void {
  const { before, after, plant } = machine;
  const { capacity, series, ocv } = car.following.moving.pack;
  solution.at(from, before);
  solution.at(to, after);
  addGained(machine, car, -share);
  const way = nth(after, DISTANCE) - nth(before, DISTANCE);
  const { totals } = car;
  totals.skippedPolarisation += share * (plant.polarisationEnergy(after) - plant.polarisationEnergy(before));
  totals.skippedChemical += share * capacity * series * curveIntegral(ocv, nth(after, CHARGE), nth(before, CHARGE));
  totals.skippedWay += share * way;
  car.distance -= share * way;
  car.skippedMotion += share * (motionOf(car, nth(after, SPEED)) - motionOf(car, nth(before, SPEED)));
  car.skippedTime += share * (to - from);
}
