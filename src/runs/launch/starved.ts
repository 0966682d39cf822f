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
  const { ratesOut: out } = plant.moving;
  const width = plant.states;
  const y = new Float64Array(width + 1);
  for (let k = 0; k < nodes; k++) {
    const mode = nth(modes, k);
    if (k > 0 && k + 1 < nodes && nth(modes, k - 1) === mode) continue;
    for (let i = 0; i < width; i++) y[i] = nth(states, k * width + i);
    plant.rates(mode, y, out);
    const why = whyStarved(packGives(plant.moving), idlePower(plant.moving));
    if (why !== '') return why;
  }
  return '';
}
