/** Compares a charge with the same charge by another integrator. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { CHARGE_STATE } from '../../model/pack/charging.ts';
import { solveExtrapolation } from '../../solvers/extrapolation.ts';
import { chargeIntegral, chargeOnce } from './run.ts';
import type { ChargeOptions, ChargeRun } from './run.ts';
import { percent } from './series.ts';
import type { SecondOpinion } from '../result.ts';
import { METHOD, NOTHING_COMPARED, OPINION_TOLERANCE } from '../second-opinion.ts';

/** Steps of the second method, fifty evaluations each: a charge takes hundreds, and thousands where a pair of its cells is quick, which is stiff. */
const MOST_STEPS = 5000;

/** The same charge by the second method, within a bounded share of work: where that is not enough it ends early, as failed. */
export function chargeAgain(car: Car, options: ChargeOptions): ChargeRun {
  return chargeOnce(car, options, (system, problem) =>
    solveExtrapolation(system, { ...problem, maxSteps: MOST_STEPS }),
  );
}

/**
 * Largest relative difference over the times and energies of all steps, of the taper and of the end. What is less than a
 * thousandth of the whole is compared with that thousandth. Where the other run ends early all is compared up to there.
 */
export function chargeOpinion(run: ChargeRun, other: ChargeRun): SecondOpinion {
  let difference = 0;
  let where = NOTHING_COMPARED;
  const compare = (name: string, a: number, b: number, whole: number): void => {
    if (where === NOTHING_COMPARED) where = name;
    const d = Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), 1e-3 * whole);
    if (d <= difference) return;
    difference = Number.isNaN(d) ? 1 : d;
    where = name;
  };
  const early = other.solution.status === 'failed';
  const until = early ? other.end.time : Infinity;
  const end = run.end.time;
  const wall = (row: Float64Array): number => chargeIntegral(row, 'wall');
  const energy = wall(run.end.integrals);
  // Of one that ended early the last step is where that was.
  const passed = early ? other.steps.slice(0, -1) : other.steps;
  const due = run.steps.filter(({ time }) => time <= until);
  if (due.length !== passed.length) compare('number of steps of charge', 0, 1, 1);
  due.forEach(({ charge, time, integrals }, i) => {
    const twin = passed[i];
    if (twin === undefined) return;
    compare(`time to ${percent(charge)}`, time, twin.time, end);
    compare(`energy to ${percent(charge)}`, wall(integrals), wall(twin.integrals), energy);
  });
  const taperOf = ({ taper }: ChargeRun): number => (taper !== null && taper <= until ? taper : -end);
  compare('taper_time', taperOf(run), taperOf(other), end);
  if (early) {
    const row = new Float64Array(run.plant.states + run.plant.quadratures);
    run.solution.at(until, row);
    if (end < until) compare('end_time', end, until, end);
    compare('charge where the other method ended', nth(row, CHARGE_STATE), other.end.charge, 1);
    compare(
      'energy where the other method ended',
      wall(row.subarray(run.plant.states)),
      wall(other.end.integrals),
      energy,
    );
  } else {
    compare('end_time', end, other.end.time, end);
    compare('charge_end', run.end.charge, other.end.charge, 1);
    compare('energy_wall', energy, wall(other.end.integrals), energy);
  }
  const agrees = difference <= OPINION_TOLERANCE;
  return { method: METHOD, difference, where, tolerance: OPINION_TOLERANCE, agrees, ...(early && { until }) };
}
