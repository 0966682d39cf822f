/** Whether a map of losses reaches as far as its drive unit. */
import { lastOf, nth } from '../../columns.ts';
import { rpm, shown } from './efficiency-map.ts';
import type { LossMap } from './efficiency-map.ts';
import { ratedTorque } from './field-weakening.ts';
import type { RatedUnit } from './field-weakening.ts';

/** Share of its axis by which a drive unit may reach past its map. */
const MOST_BEYOND = 0.1;

/**
 * Whether a map covers what its unit can do.
 * @param unit N m, W, rad/s.
 * @returns `missing`: why it does not, '' when it does; `notes`: where its edges are passed by a little.
 */
export function mapCover(
  map: LossMap,
  unit: RatedUnit,
): { readonly missing: string; readonly notes: readonly string[] } {
  const Nm = (T: number): string => shown(T, 'N m');
  const [w, T] = [lastOf(map.speed), lastOf(map.torque)];
  if (unit.maxSpeed > (1 + MOST_BEYOND) * w) {
    return { missing: `ends at ${rpm(w)}, but the unit turns at ${rpm(unit.maxSpeed)}`, notes: [] };
  }
  if (unit.peakTorque > (1 + MOST_BEYOND) * T) {
    return { missing: `ends at ${Nm(T)}, but the unit gives ${Nm(unit.peakTorque)}`, notes: [] };
  }
  for (const [i, omega] of map.speed.entries()) {
    if (omega > unit.maxSpeed) break;
    const able = ratedTorque(unit, omega);
    const reach = nth(map.reach, i);
    const next = map.torque.find(each => each > reach);
    if (next !== undefined && next < able * (1 - 1e-9)) {
      return { missing: `ends at ${Nm(reach)} at ${rpm(omega)}, but the unit gives ${Nm(able)} there`, notes: [] };
    }
  }
  const notes: string[] = [];
  const straight = 'the loss goes on in a straight line';
  if (unit.maxSpeed > w) notes.push(`above ${rpm(w)}, where the map ends, ${straight} up to ${rpm(unit.maxSpeed)}`);
  if (unit.peakTorque > T) notes.push(`above ${Nm(T)}, where the map ends, ${straight} up to ${Nm(unit.peakTorque)}`);
  return { missing: '', notes };
}

/**
 * The greatest ratings that a map covers, about those of a unit that it covers: each may grow so far, and all together.
 * @param unit N m, W, rad/s.
 */
export function mapLimits(map: LossMap, unit: RatedUnit): RatedUnit {
  const [w = 0, T = 0] = [map.speed.at(-1), map.torque.at(-1)];
  const most = {
    peakTorque: (1 + MOST_BEYOND) * T,
    peakPower: Infinity,
    maxSpeed: (1 + MOST_BEYOND) * w,
    powerAtTop: 1,
  };
  for (const [i, omega] of map.speed.entries()) {
    const reach = map.reach[i] ?? Infinity;
    const next = map.torque.find(each => each > reach);
    if (next === undefined) continue;
    if (unit.peakTorque <= next) most.peakTorque = Math.min(most.peakTorque, next);
    else if (next * omega >= unit.peakPower) most.peakPower = Math.min(most.peakPower, next * omega);
    else {
      // Covered only because the power has fallen there: neither may grow.
      most.peakPower = Math.min(most.peakPower, unit.peakPower);
      most.powerAtTop = Math.min(most.powerAtTop, shareThrough(unit, omega, next * omega));
    }
  }
  return most;
}

/** The share of its peak power at the greatest speed with which a unit has a power in W at a speed in rad/s, but no less than its own. */
function shareThrough(
  { peakTorque, peakPower, maxSpeed, powerAtTop }: RatedUnit,
  omega: number,
  power: number,
): number {
  const corner = peakPower / peakTorque;
  return Math.max(powerAtTop, 1 - ((1 - power / peakPower) * (maxSpeed - corner)) / (omega - corner));
}
