/** Draws that stay within what measured tables cover: a drive unit beyond its map or its torque table would be no drive unit. */
import type { MeasuredUnit } from '../model/drive/complete.ts';
import { lossMap } from '../model/drive/efficiency-map.ts';
import { mapLimits } from '../model/drive/map-cover.ts';
import type { Uncertain } from '../studies/sampling/uncertain.ts';
import type { Known } from './drawn-pairs.ts';

/** @param measured by the path of the unit. @param known all numbers of the car by their paths. */
export function limitsOfFiles(
  drawn: readonly Uncertain[],
  measured: readonly (readonly [string, MeasuredUnit])[],
  known: ReadonlyMap<string, Known>,
): readonly Uncertain[] {
  const limits = new Map(measured.flatMap(([path, unit]) => limitsOf(path, unit, known)));
  return drawn.map(input => {
    const limit = limits.get(input.path);
    if (limit === undefined) return input;
    const [low, high] = limit;
    return { ...input, min: Math.max(input.min ?? low, low), max: Math.min(input.max ?? high, high) };
  });
}

type Limit = readonly [path: string, limits: readonly [low: number, high: number]];

function limitsOf(path: string, { loss, torque }: MeasuredUnit, known: ReadonlyMap<string, Known>): Limit[] {
  const limits: Limit[] = [];
  const [low, high] = torque === null ? [] : [torque.voltage[0], torque.voltage.at(-1)];
  if (low !== undefined && high !== undefined && low < high) limits.push([`${path}.reference_voltage`, [low, high]]);
  const of = (key: string): number | undefined => known.get(`${path}.${key}`)?.value;
  const [peakTorque, peakPower, maxSpeed] = [of('peak_torque'), of('peak_power'), of('max_speed')];
  if (loss !== null && peakTorque !== undefined && peakPower !== undefined && maxSpeed !== undefined) {
    const unit = { peakTorque, peakPower, maxSpeed, powerAtTop: of('power_at_top') ?? 1 };
    const most = mapLimits(lossMap(loss, 'motor', 0).map, unit);
    limits.push([`${path}.peak_torque`, [0, most.peakTorque]]);
    limits.push([`${path}.peak_power`, [0, most.peakPower]]);
    limits.push([`${path}.max_speed`, [0, most.maxSpeed]]);
    limits.push([`${path}.power_at_top`, [0, most.powerAtTop]]);
  }
  return limits;
}
