/** Lumped heat of a drive unit from its ratings. */
import * as elementary from '../../elementary.ts';
import type { Filler } from '../fields/filler.ts';
import type { DriveUnit } from '../car.ts';
import { evaluateLoss, lossSurface } from './efficiency-map.ts';
import { speedAtPower } from './field-weakening.ts';
import { tableSpeedAtPower } from './torque-table.ts';
import type { unitFields, UnitSpec } from './fields.ts';

/** Share of the peak power that a unit must still give at the speed of its 30-minute power: UN Regulation No. 85, 5.3.2 (from memory). */
const STATED = 0.9;

/**
 * The lump that its ratings describe: at the continuous power, at the speed that it is stated for, it warms just to the derating
 * temperature; at the peak power, at the speed where peak torque and peak power meet, it gets there from cold in the overload time.
 * Two of continuous power, torque and speed say the third. Undefined where neither continuous power nor continuous torque is given.
 * @throws SpecError
 */
export function completeUnitHeat(spec: UnitSpec, fill: Filler<typeof unitFields>, unit: DriveUnit): DriveUnit['heat'] {
  const continuous = continuousPower(spec, fill, unit);
  if (continuous === null) return undefined;
  if (continuous >= unit.peakPower) throw fill.error('continuousPower', 'is not below the peak power');
  const cold = fill.number('coldTemperature');
  const derateAt = fill.number('derateTemperature');
  if (derateAt <= cold) throw fill.error('derateTemperature', 'is not above the cold temperature');
  const time = fill.number('overloadTime');
  const corner = unit.peakPower / unit.peakTorque;
  const torque = spec.continuousTorque;
  const speed =
    torque === undefined || spec.continuousPower === undefined
      ? continuousSpeed(fill, unit, corner)
      : fill.derived(
          'continuousSpeed',
          () => continuous / torque,
          undefined,
          'continuous_power over continuous_torque',
        );
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
  const tau = -time / elementary.log(1 - steady / peak);
  return {
    capacity: tau * cooling,
    cooling,
    derateAt,
    derateRange: fill.number('derateRange'),
    continuousShare: continuous / unit.peakPower,
  };
}

/** W; null where nothing is said of it. @throws SpecError */
function continuousPower(
  { continuousPower, continuousTorque, continuousSpeed }: UnitSpec,
  fill: Filler<typeof unitFields>,
  unit: DriveUnit,
): number | null {
  if (continuousTorque === undefined) return continuousPower === undefined ? null : fill.number('continuousPower');
  const torque = fill.number('continuousTorque');
  if (torque >= unit.peakTorque) throw fill.error('continuousTorque', 'is not below the peak torque');
  if (continuousPower === undefined) {
    if (continuousSpeed === undefined) {
      const cure = 'continuous_power beside it, or continuous_speed, up to which the unit gives this torque for ever';
      throw fill.error('continuousTorque', 'says nothing of heat without a power or a speed', cure);
    }
    const from = 'continuous_torque times continuous_speed';
    return fill.derived('continuousPower', () => torque * fill.number('continuousSpeed'), undefined, from);
  }
  if (continuousSpeed !== undefined) {
    throw fill.error(
      'continuousTorque',
      'is said twice',
      'two of continuous_power, continuous_torque and continuous_speed',
    );
  }
  return fill.number('continuousPower');
}

/** rad/s: the middle of the speeds at which the unit gives the share of its peak power that the regulation asks for. */
function continuousSpeed(fill: Filler<typeof unitFields>, unit: DriveUnit, corner: number): number {
  const low = Math.min(unit.maxSpeed, corner);
  const least = STATED * unit.peakPower;
  const { table } = unit;
  const high = Math.min(unit.maxSpeed, table === null ? speedAtPower(unit, least) : tableSpeedAtPower(table, least));
  const spread = low < high ? ({ kind: 'rectangular', low, high } as const) : undefined;
  return fill.derived('continuousSpeed', () => 0.5 * (low + high), spread);
}

const answer = new Float64Array(3);

/** W of heat in motor and inverter at a power at the shaft and a motor speed in rad/s. */
function heatAt({ losses, inverterEfficiency }: DriveUnit, power: number, w: number): number {
  const T = power / w;
  const { copper, iron, windage, fixed, map } = losses;
  let motor = copper * T * T + iron * w + windage * elementary.pow(w, 3) + fixed;
  if (map !== undefined) {
    evaluateLoss(lossSurface(map), T, w, answer);
    motor = answer[0] ?? Number.NaN;
  }
  return (power + motor) / inverterEfficiency - power;
}
