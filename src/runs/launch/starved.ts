/** A launch with a pack that can not even give what drive units and consumers take without any torque. */
import { nth } from '../../columns.ts';
import { idlePower, packGives } from '../../model/forward/idle.ts';
import { whyStarved } from '../starved.ts';
import type { LaunchRun } from './run.ts';

/**
 * Why a run means nothing; '' where all is well. Only where what limits the car changes, or at its end, can the pack have ceased to carry
 * what is drawn: within a mode that goes with speed alone.
 */
export function whyLaunchStarved({ plant, solution }: LaunchRun): string {
  const { modes, nodes, states } = solution;
  const y = new Float64Array(plant.states + 1);
  const out = new Float64Array(plant.states + plant.quadratures);
  for (let k = 0; k < nodes; k++) {
    const mode = nth(modes, k);
    if (k > 0 && k + 1 < nodes && nth(modes, k - 1) === mode) continue;
    y.set(states.subarray(k * plant.states, (k + 1) * plant.states));
    plant.rates(mode, y, out);
    const why = whyStarved(packGives(plant.moving), idlePower(plant.moving));
    if (why !== '') return why;
  }
  return '';
}
