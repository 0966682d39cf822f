/** What heating or cooling the cabin takes from the pack. */
import type { Cabin } from '../car.ts';

/** K at which the factor of a heat pump is stated: 7 degC, as in EN 14511 (from memory). */
const HEAT_PUMP_REFERENCE = 280.15;

/** W at the pack: `steady` + `extra` exp(-t / `time`), t in s from the start. */
export interface CabinLoad {
  readonly steady: number;
  readonly extra: number;
  readonly time: number;
}

const NOTHING: CabinLoad = { steady: 0, extra: 0, time: 1 };

/**
 * One lump and a controller that fades out: at the start all of the heater's power, in the end what walls and fresh air lose.
 * What is given beyond that warms the lump just to the temperature wished for, which sets the time of the fading:
 * time = C dT / (most - steady). @param outside K. @param inside K of the cabin at the start.
 */
export function cabinLoad(cabin: Cabin, outside: number, inside: number): CabinLoad {
  const lost = cabin.loss * (cabin.temperature - outside) - cabin.sun;
  const heating = lost > 0 && cabin.heater !== 'none';
  const cooling = lost < 0 && cabin.cooled;
  if (!heating && !cooling) return NOTHING;
  const need = Math.abs(lost);
  const factor = heating ? heatFactor(cabin, outside) : cabin.coolerFactor;
  if (need >= cabin.heaterPower) return { steady: cabin.heaterPower / factor, extra: 0, time: 1 };
  const gap = heating ? cabin.temperature - inside : inside - cabin.temperature;
  const most = cabin.heaterPower - need;
  if (gap <= 0 || cabin.heatCapacity === 0) return { steady: need / factor, extra: 0, time: 1 };
  return { steady: need / factor, extra: most / factor, time: (cabin.heatCapacity * gap) / most };
}

function heatFactor(cabin: Cabin, outside: number): number {
  if (cabin.heater !== 'heat pump') return 1;
  return Math.max(1, cabin.heatPumpFactor + cabin.heatPumpSlope * (outside - HEAT_PUMP_REFERENCE));
}
