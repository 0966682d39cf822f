/** Lumped heat of a drive unit from its ratings. */
import type { Filler } from '../fields/filler.ts';
import type { DriveUnit } from '../car.ts';
import type { unitFields, UnitSpec } from './fields.ts';

/**
 * The lump that its ratings describe: at the continuous power it warms just to the derating temperature; at the peak power it
 * gets there from cold in the overload time. Both at the motor speed where peak torque and peak power meet. Undefined where
 * no continuous power is given.
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
  const steady = heatAt(unit, continuous);
  const peak = heatAt(unit, unit.peakPower);
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

/** W of heat in motor and inverter at a power at the shaft, at the corner speed. */
function heatAt(unit: DriveUnit, power: number): number {
  const w = unit.peakPower / unit.peakTorque;
  const T = power / w;
  const { copper, iron, windage, fixed } = unit.losses;
  const motor = copper * T * T + iron * w + windage * w ** 3 + fixed;
  return (power + motor) / unit.inverterEfficiency - power;
}
