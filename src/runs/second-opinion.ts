/** Compares a run with the same run by another integrator. */
import type { LaunchRun } from './launch/run.ts';
import { integral, ledgerOf } from './ledger.ts';
import type { SecondOpinion } from './result.ts';

/** Difference above which a result carries a warning. */
export const OPINION_TOLERANCE = 1e-5;

/**
 * Largest relative difference over the times of all marks, the speeds there, the energy out of the cells and the final
 * states. A mark that one of the two did not pass counts as a difference of 1.
 */
export function secondOpinion(method: string, run: LaunchRun, other: LaunchRun): SecondOpinion {
  let difference = 0;
  let where = 'nothing to compare';
  const compare = (name: string, a: number, b: number): void => {
    const d = Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), 1e-3);
    if (d > difference || Number.isNaN(d)) {
      difference = Number.isNaN(d) ? 1 : d;
      where = name;
    }
  };
  for (const mark of new Set([...run.marks.keys(), ...other.marks.keys()])) {
    const [a, b] = [run.marks.get(mark), other.marks.get(mark)];
    if (a === undefined || b === undefined) compare(`mark ${mark}`, 0, 1);
    else {
      compare(`time of ${mark}`, a.time, b.time);
      compare(`speed at ${mark}`, a.states[0]!, b.states[0]!);
      compare(`energy at ${mark}`, integral(a.integrals, 'chemical'), integral(b.integrals, 'chemical'));
    }
  }
  const [mine, theirs] = [ledgerOf(run), ledgerOf(other)];
  compare('energy of the run', mine.in['out of the cells']!, theirs.in['out of the cells']!);
  if (other.solution.status === 'failed') {
    difference = 1;
    where = other.solution.reason;
  }
  return { method, difference, where, tolerance: OPINION_TOLERANCE, agrees: difference <= OPINION_TOLERANCE };
}
