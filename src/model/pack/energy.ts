/** What a pack holds, from its open-circuit voltage. */
import { curveIntegral, curveThrough } from '../tables/curve.ts';
import type { Pack } from '../car.ts';

/** V on average over all of its charge; J from empty to full, and of that between the ends of its window. */
export interface PackEnergy {
  readonly voltage: number;
  readonly whole: number;
  readonly used: number;
}

export function packEnergy({ cell, series, parallel, health, window }: Pack): PackEnergy {
  const charge = cell.capacity * parallel * health;
  const ocv = curveThrough(cell.ocv.charge, cell.ocv.voltage);
  const voltage = series * curveIntegral(ocv, 0, 1);
  return { voltage, whole: voltage * charge, used: series * curveIntegral(ocv, window.low, window.high) * charge };
}
