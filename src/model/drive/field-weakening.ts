/**
 * How the torque of a drive unit falls beyond its corner speed, where peak torque and peak power meet. To turn faster than its voltage
 * lets it the motor weakens its field, which costs current that gives no torque: the power falls. Taken as a straight line of the
 * power from its peak at the corner to a share of it at the greatest speed, P = A - B w, so that T = A/w - B stays a closed form;
 * with nothing lost B is 0, and that is constant power.
 */
import type { DriveUnit } from '../car.ts';

/** T = power / w - fall. */
export interface PowerLine {
  /** W: what the line of the power comes to at standstill. */
  readonly power: number;
  /** N m: what it loses for each rad/s. */
  readonly fall: number;
}

export type RatedUnit = Pick<DriveUnit, 'peakTorque' | 'peakPower' | 'maxSpeed' | 'powerAtTop'>;

/** The line of a unit that is described by its ratings; one whose corner is out of reach has no power limit to fall. */
export function powerLine({ peakTorque, peakPower, maxSpeed, powerAtTop }: RatedUnit): PowerLine {
  const corner = peakPower / peakTorque;
  if (corner >= maxSpeed) return { power: peakPower, fall: 0 };
  const share = (1 - powerAtTop) / (maxSpeed - corner);
  return { power: peakPower * (1 + share * corner), fall: peakPower * share };
}

/** N m at the motor shaft that the power leaves at a motor speed in rad/s above 0. */
export function torqueByPower({ power, fall }: PowerLine, omega: number): number {
  return power / omega - fall;
}

/** rad/s above the corner at which its power has fallen to so many W; Infinity where it never does. */
export function speedAtPower(unit: RatedUnit, power: number): number {
  const line = powerLine(unit);
  return line.fall > 0 ? (line.power - power) / line.fall : Infinity;
}

/** N m of a unit by its ratings at and above the reference voltage; what it loses near the greatest speed is left aside. */
export function ratedTorque(unit: RatedUnit, omega: number): number {
  return Math.min(unit.peakTorque, torqueByPower(powerLine(unit), omega));
}
