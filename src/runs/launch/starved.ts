/** A pack that can not even give what drive units and consumers take without any torque. */
import { nth } from '../../columns.ts';
import type { LaunchRun } from './run.ts';

/** Of what the pack can give: so much more is round-off at a limit of the pack. */
const MARGIN = 1e-6;

/**
 * Why a run means nothing: at its start more power is drawn than the pack has at any current, E^2/4R. Then no current answers, and
 * the energies do not add up. '' where all is well.
 */
export function whyStarved({ plant, solution }: LaunchRun): string {
  const y = new Float64Array(plant.states + 1);
  y.set(solution.states.subarray(0, plant.states));
  plant.rates(nth(solution.modes, 0), y, new Float64Array(plant.states + plant.quadratures));
  const { emf, resistance } = plant.moving.packNow;
  const most = emf ** 2 / (4 * resistance);
  const asked = plant.now.busPower;
  if (!(asked > (1 + MARGIN) * most)) return '';
  const kW = (power: number): string => `${(power / 1000).toPrecision(3)} kW`;
  return `the pack can give no more than ${kW(most)}: drive unit and consumers take ${kW(asked)} without any torque`;
}
