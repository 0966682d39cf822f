/** Compares a coast-down with the same one by another integrator. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { COAST, COAST_ENERGY } from '../../model/backward/coasting.ts';
import type { SecondOpinion } from '../result.ts';
import { METHOD, OPINION_TOLERANCE } from '../second-opinion.ts';
import type { CoastRun } from './run.ts';

/** Times and distances of all marks, the speed at the end, and what comes back against the energy of motion at the start. */
export function coastOpinion(run: CoastRun, other: CoastRun | null): SecondOpinion {
  let difference = 0;
  let where = 'time';
  const compare = (name: string, a: number, b: number, whole: number): void => {
    const d = Math.abs(a - b) / whole;
    if (d <= difference) return;
    difference = Number.isNaN(d) ? 1 : d;
    where = name;
  };
  if (other === null || run.marks.length !== other.marks.length || run.solution.status !== other.solution.status) {
    compare('number of speeds passed', 0, 1, 1);
  } else {
    // A car that settles comes to its speed ever more slowly: when it is near enough is told less sharply than where that is.
    const settles = run.solution.status === 'switched';
    const first = run.marks[0] ?? run.end;
    const motion = 0.5 * run.mass * elementary.pow(first.speed, 2);
    run.marks.forEach((mark, i) => {
      const twin = other.marks[i];
      if (twin === undefined) return;
      const name = `${Number((3.6 * mark.speed).toPrecision(4))} km/h`;
      compare(`speed at ${name}`, mark.speed, twin.speed, first.speed);
      if (settles && mark === run.end) return;
      compare(`time to ${name}`, mark.time, twin.time, Math.max(mark.time, 1e-3));
      const [a, b] = [mark, twin].map(({ states }) => nth(states, COAST.distance));
      compare(`distance to ${name}`, a ?? 0, b ?? 0, Math.max(a ?? 0, 1e-3));
      const [c, d] = [mark, twin].map(({ integrals }) => nth(integrals, COAST_ENERGY.intoPack));
      compare(`energy back at ${name}`, c ?? 0, d ?? 0, motion);
    });
  }
  return { method: METHOD, difference, where, tolerance: OPINION_TOLERANCE, agrees: difference <= OPINION_TOLERANCE };
}
