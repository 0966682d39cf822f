/** Compares a run with the same run by another integrator. */
import { CHARGE, DISTANCE, SPEED } from '../model/forward/state.ts';
import type { Car } from '../model/car.ts';
import { solveExtrapolation } from '../solvers/extrapolation.ts';
import { markName } from './launch/marks.ts';
import { launchOnce } from './launch/run.ts';
import type { LaunchOptions, LaunchRun } from './launch/run.ts';
import { integral, ledgerOf } from './ledger.ts';
import type { SecondOpinion } from './result.ts';

/** Difference above which a result carries a warning. */
export const OPINION_TOLERANCE = 1e-5;

/**
 * Steps of the second method, fifty evaluations each. Launches take some hundreds; with free wheels, which are stiff, an explicit
 * method takes a hundred thousand, and somebody is waiting.
 */
const MOST_STEPS = 600;

/** In place of an output, where the second method did not come far enough for anything to be compared. */
export const NOTHING_COMPARED = 'nothing to compare';

export const METHOD = 'odex, extrapolation';

/**
 * Relative tolerance of the second method at most. With free wheels it is stability that sets its steps: a hundredth of the tolerance of
 * such a run takes it a tenth more evaluations, and at that of the run it was off by 2e-6 itself.
 */
const FINEST = 1e-9;

/** The same launch by the second method, within a bounded share of work: where that is not enough it ends early, as failed. */
export function launchAgain(car: Car, options: LaunchOptions): LaunchRun {
  const fine = { ...options, tolerance: Math.min(options.tolerance ?? FINEST, FINEST) };
  return launchOnce(car, fine, (system, problem) => solveExtrapolation(system, { ...problem, maxSteps: MOST_STEPS }));
}

/**
 * Largest relative difference over the times of all marks, the speeds there, the energy out of the cells and the final
 * states. A mark that one of the two did not pass counts as a difference of 1. Where the other run ends early all is compared up to there.
 */
export function secondOpinion(run: LaunchRun, other: LaunchRun): SecondOpinion {
  let difference = 0;
  let where = NOTHING_COMPARED;
  const compare = (name: string, a: number, b: number, least = 1e-3): void => {
    if (where === NOTHING_COMPARED) where = name;
    const d = Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), least);
    if (d > difference || Number.isNaN(d)) {
      difference = Number.isNaN(d) ? 1 : d;
      where = name;
    }
  };
  const early = other.solution.status === 'failed';
  const until = early ? endTime(other) : Infinity;
  for (const mark of new Set([...run.marks.keys(), ...other.marks.keys()])) {
    const [a, b] = [run.marks.get(mark), other.marks.get(mark)];
    const name = markName(mark);
    if (a !== undefined && b !== undefined) {
      compare(`time to ${name}`, a.time, b.time);
      compare(`speed at ${name}`, a.states[SPEED] ?? Number.NaN, b.states[SPEED] ?? Number.NaN);
      compare(`energy at ${name}`, integral(a.integrals, 'chemical'), integral(b.integrals, 'chemical'));
    } else if (a === undefined || a.time < until) compare(name, 0, 1);
  }
  if (early) compareAt(run, other, until, compare);
  else compare('energy of the run', drawn(run), drawn(other));
  const agrees = difference <= OPINION_TOLERANCE;
  return { method: METHOD, difference, where, tolerance: OPINION_TOLERANCE, agrees, ...(early && { until }) };
}

function drawn(run: LaunchRun): number {
  return ledgerOf(run).in['out of the cells'] ?? Number.NaN;
}

/** s of the last node. */
export function endTime({ solution }: LaunchRun): number {
  return solution.times[solution.nodes - 1] ?? 0;
}

/** The states of the two at one time, against the sizes that both methods measure their errors by: one may have ended at walking pace. */
function compareAt(
  run: LaunchRun,
  other: LaunchRun,
  time: number,
  compare: (name: string, a: number, b: number, least?: number) => void,
): void {
  if (time <= (run.solution.times[0] ?? 0)) return;
  if (endTime(run) < time) return compare('end of the run', endTime(run), time);
  const [a, b] = [run, other].map(({ plant, solution }) => {
    const row = new Float64Array(plant.states + plant.quadratures);
    solution.at(time, row);
    return row;
  }) as [Float64Array, Float64Array];
  for (const [name, state] of [
    ['speed', SPEED],
    ['distance', DISTANCE],
    ['charge', CHARGE],
  ] as const) {
    const least = run.plant.scales[state];
    compare(`${name} where the other method ended`, a[state] ?? Number.NaN, b[state] ?? Number.NaN, least);
  }
}
