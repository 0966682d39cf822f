/** A kept gearbox from what is said about it. */
import { ratedTorque } from './field-weakening.ts';
import { taperOf } from './taper.ts';
import { filler } from '../fields/filler.ts';
import type { DriveUnit, Gear, Gearbox } from '../car.ts';
import { curveAt, curveThrough } from '../tables/curve.ts';
import type { Input } from '../fields/input.ts';
import { gearboxFields } from './fields.ts';
import type { SpecOf } from '../fields/table.ts';

/** Share of the greatest speed at which the next gear is taken at the latest. */
export const LATEST = 0.98;

/** @throws SpecError */
export function completeGearbox(
  path: string,
  spec: SpecOf<typeof gearboxFields>,
  unit: DriveUnit,
  inputs: Input[],
): Gearbox {
  const fill = filler(path, gearboxFields, spec, inputs);
  fill.need('gears');
  const ratios = spec.gears ?? [];
  if (ratios.length < 1 || ratios.length > 6) throw fill.error('gears', `has ${ratios.length} gears`, '1 to 6');
  if (!ratios.every((r, i) => i === 0 || r < (ratios[i - 1] ?? 0))) {
    throw fill.error('gears', 'does not fall from gear to gear', 'the first gear first');
  }
  const efficiency = fill.number('efficiency');
  const inertia = fill.number('inertia');
  const rule = fill.choice('shift');
  const shiftTime = fill.number('shiftTime');
  const gear = (ratio: number, upshift: number): Gear => ({ ratio, efficiency, inertia, upshift });
  if (rule === 'none') {
    const chosen = fill.number('gear');
    const ratio = ratios[chosen - 1];
    if (ratio === undefined) throw fill.error('gear', `${chosen} is none of the ${ratios.length} gears`);
    return { gears: [gear(ratio, Infinity)], shiftTime };
  }
  const atSpeed = rule === 'speed' ? fill.derived('shiftSpeed', () => 0.95 * unit.maxSpeed) : null;
  if (atSpeed !== null && atSpeed > unit.maxSpeed) throw fill.error('shiftSpeed', 'is above the greatest motor speed');
  const gears = ratios.map((ratio, i) => {
    const next = ratios[i + 1];
    if (next === undefined) return gear(ratio, unit.maxSpeed);
    return gear(ratio, atSpeed ?? bestShift(unit, next / ratio));
  });
  return { gears, shiftTime, ...(atSpeed === null && { best: true }) };
}

/** Share by which it must: at constant power both gears pull alike, and round-off would decide. */
const HARDER = 1e-3;

/**
 * rad/s from which on the next gear pulls harder: T(w) < s T(s w), s the step between the gears. At the reference voltage and equal
 * efficiencies; at the latest near the greatest speed. A launch looks closer.
 */
function bestShift(unit: DriveUnit, step: number): number {
  const torque = envelope(unit);
  const latest = LATEST * unit.maxSpeed;
  const better = (w: number): boolean => step * torque(step * w) > (1 + HARDER) * torque(w);
  let low = unit.peakPower / unit.peakTorque / 2;
  if (!better(latest)) return latest;
  let high = latest;
  while (high - low > 1e-9 * high) {
    const middle = 0.5 * (low + high);
    if (better(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** N m over rad/s at the reference voltage. */
function envelope(unit: DriveUnit): (w: number) => number {
  const curve = unit.table === null ? null : curveThrough(unit.table.speed, unit.table.torque);
  const rated = (w: number): number => (curve === null ? ratedTorque(unit, w) : curveAt(curve, w));
  const { speed, slope } = taperOf(unit, curve);
  return w => (w <= speed ? rated(w) : slope * (unit.maxSpeed - w));
}
