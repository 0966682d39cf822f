/** Lumped heat of a drive unit from its ratings. */
import type { Filler } from '../fields/filler.ts';
import type { DriveUnit } from '../car.ts';
import { evaluateLoss, lossSurface } from './efficiency-map.ts';
import type { unitFields, UnitSpec } from './fields.ts';

/** Shares of the greatest speed: where a continuous power is stated, and how far from there it may be. */
const STATED = 0.65;
const LOWEST = 0.4;

/**
 * The lump that its ratings describe: at the continuous power, at the speed that it is stated for, it warms just to the derating
 * temperature; at the peak power, at the speed where peak torque and peak power meet, it gets there from cold in the overload time.
 * Undefined where no continuous power is given.
 * @throws SpecError
 */
export function completeUnitHeat(spec: UnitSpec, fill: Filler<typeof unitFields>, unit: DriveUnit): DriveUnit['heat'] {
  if (spec.continuousPower === undefined) return undefined;
  const continuous = fill.number('continuousPower');
  if (continuous >= unit.peakPower) throw fill.error('continuousPower', 'is not below the peak power');
  const cold = fill.number('coldTemperature');
  const derateAt = fill.number('derateTemperature');
  if (derateAt <= cold) throw fill.error('derateTemperature', 'is not above the cold temperature');
  const time = fill.number('overloadTime');
  const corner = unit.peakPower / unit.peakTorque;
  const speed = continuousSpeed(fill, unit, corner);
  if (speed > unit.maxSpeed) throw fill.error('continuousSpeed', 'is above the greatest motor speed');
  if (continuous > speed * unit.peakTorque) {
    throw fill.error(
      'continuousSpeed',
      'asks for more than the peak torque',
      'a higher speed, or less continuous power',
    );
  }
  const steady = heatAt(unit, continuous, speed);
  const peak = heatAt(unit, unit.peakPower, corner);
  if (steady >= peak) {
    throw fill.error('continuousPower', 'heats no less than the peak power does', 'a lower power, or another speed');
  }
  const cooling = steady / (derateAt - cold);
  // T(t) = cold + (peak / cooling) (1 - exp(-t / tau)) reaches the derating temperature at the overload time.
  const tau = -time / Math.log(1 - steady / peak);
  return {
    capacity: tau * cooling,
    cooling,
    derateAt,
    derateRange: fill.number('derateRange'),
    continuousShare: continuous / unit.peakPower,
  };
}

/** rad/s. */
function continuousSpeed(fill: Filler<typeof unitFields>, { maxSpeed }: DriveUnit, corner: number): number {
  const usual = Math.min(maxSpeed, Math.max(corner, STATED * maxSpeed));
  const low = Math.min(usual, Math.max(corner, LOWEST * maxSpeed));
  const spread = low < usual ? ({ kind: 'rectangular', low, high: 2 * usual - low } as const) : undefined;
  return fill.derived('continuousSpeed', () => usual, spread);
}

const answer = new Float64Array(3);

/** W of heat in motor and inverter at a power at the shaft and a motor speed in rad/s. */
function heatAt({ losses, inverterEfficiency }: DriveUnit, power: number, w: number): number {
  const T = power / w;
  const { copper, iron, windage, fixed, map } = losses;
  let motor = copper * T * T + iron * w + windage * w ** 3 + fixed;
  if (map !== undefined) {
    evaluateLoss(lossSurface(map), T, w, answer);
    motor = answer[0] ?? Number.NaN;
  }
  return (power + motor) / inverterEfficiency - power;
}
