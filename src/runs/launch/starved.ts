/** A launch with a pack that can not even give what drive units and consumers take without any torque. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { idlePower, packGives } from '../../model/forward/idle.ts';
import { CHARGE } from '../../model/forward/state.ts';
import { whyStarved } from '../starved.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';

/** Halvings of a step, after which what is left of it is round-off. */
const HALVINGS = 60;

/**
 * A run as far as it means anything: the same one, where the pack carries what is drawn to its end, and else one that ends where it ceases
 * to. A run that means nothing from its start is the word why.
 * @param launcher the one that drove it; its solution may be gone after this.
 */
export function untilStarved(
  car: Car,
  options: LaunchOptions,
  run: LaunchRun,
  launcher: (car: Car, options: LaunchOptions) => LaunchRun,
): LaunchRun | string {
  const why = whyLaunchStarved(run);
  if (why === '') return run;
  const emptyAt = chargeWhereStarved(run);
  if (emptyAt === null) return why;
  return { ...launcher(car, { ...options, emptyAt }), starved: { why, emptyAt } };
}

/**
 * Why a run means nothing; '' where all is well. Only where what limits the car changes, or at its end, can the pack have ceased to carry
 * what is drawn: within a mode that goes with speed alone.
 */
export function whyLaunchStarved(run: LaunchRun): string {
  const { plant, solution } = run;
  const { modes, nodes, states } = solution;
  const y = new Float64Array(plant.states + 1);
  for (let k = 0; k < nodes; k++) {
    const mode = nth(modes, k);
    if (k > 0 && k + 1 < nodes && nth(modes, k - 1) === mode) continue;
    for (let i = 0; i < plant.states; i++) y[i] = nth(states, k * plant.states + i);
    const why = whyAt(run, mode, y);
    if (why !== '') return why;
  }
  return '';
}

/** State of charge from which on the pack does not carry what is drawn; null where it does not from the start. */
function chargeWhereStarved(run: LaunchRun): number | null {
  const { plant, solution } = run;
  const { modes, nodes, times, states } = solution;
  let k = 0;
  while (k < nodes && whyWith(run, nth(modes, k), rowOf(run, k)) === '') k++;
  if (k === 0 || k === nodes) return null;
  const row = new Float64Array(plant.states + plant.quadratures);
  let [low, high] = [nth(times, k - 1), nth(times, k)];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (low + high);
    solution.at(middle, row);
    if (whyWith(run, nth(modes, k - 1), row) === '') low = middle;
    else high = middle;
  }
  if (high === nth(times, k)) return nth(states, k * plant.states + CHARGE);
  solution.at(high, row);
  return nth(row, CHARGE);
}

function rowOf({ plant, solution }: LaunchRun, k: number): Float64Array {
  return solution.states.subarray(k * plant.states, (k + 1) * plant.states);
}

/** @param row the states, and what may follow them. */
function whyWith(run: LaunchRun, mode: number, row: Float64Array): string {
  const y = new Float64Array(run.plant.states + 1);
  y.set(row.subarray(0, run.plant.states));
  return whyAt(run, mode, y);
}

function whyAt({ plant }: LaunchRun, mode: number, y: Float64Array): string {
  plant.rates(mode, y, plant.moving.ratesOut);
  return whyStarved(packGives(plant.moving), idlePower(plant.moving));
}
