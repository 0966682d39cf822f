/** Compares a charge with the same charge by another integrator. */
import { chargeIntegral } from './run.ts';
import type { ChargeRun } from './run.ts';
import { percent } from './series.ts';
import type { SecondOpinion } from '../result.ts';
import { METHOD, OPINION_TOLERANCE } from '../second-opinion.ts';

/**
 * Largest relative difference over the times and energies of all steps, of the taper and of the end. What is less than a
 * thousandth of the whole is compared with that thousandth.
 */
export function chargeOpinion(run: ChargeRun, other: ChargeRun): SecondOpinion {
  let difference = 0;
  let where = 'end_time';
  const compare = (name: string, a: number, b: number, whole: number): void => {
    const d = Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), 1e-3 * whole);
    if (d <= difference) return;
    difference = Number.isNaN(d) ? 1 : d;
    where = name;
  };
  const end = run.end.time;
  const wall = (row: Float64Array): number => chargeIntegral(row, 'wall');
  const energy = wall(run.end.integrals);
  if (run.steps.length !== other.steps.length) compare('number of steps of charge', 0, 1, 1);
  run.steps.forEach(({ charge, time, integrals }, i) => {
    const twin = other.steps[i];
    if (twin === undefined) return;
    compare(`time to ${percent(charge)}`, time, twin.time, end);
    compare(`energy to ${percent(charge)}`, wall(integrals), wall(twin.integrals), energy);
  });
  compare('taper_time', run.taper ?? -end, other.taper ?? -end, end);
  compare('end_time', end, other.end.time, end);
  compare('charge_end', run.end.charge, other.end.charge, 1);
  compare('energy_wall', energy, wall(other.end.integrals), energy);
  if (other.solution.status === 'failed') {
    difference = 1;
    where = other.solution.reason;
  }
  return {
    method: METHOD,
    difference,
    where,
    tolerance: OPINION_TOLERANCE,
    agrees: difference <= OPINION_TOLERANCE,
  };
}
