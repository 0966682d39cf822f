/** What can hold a car back: a closed set of words, the same in code, tables, pictures and prose. */

import { atGrip, axleMode, BREAK, L, LIMIT_BITS } from './state.ts';

/** The words, in the order in which ties are decided and colours are given. */
export const LIMITERS = [
  'grip',
  'motor torque',
  'motor power',
  'motor speed',
  'pack voltage',
  'pack current',
  'driveline',
  'heat',
  'driver',
] as const;

export type Limiter = (typeof LIMITERS)[number];

/** One plain sentence for each limiter, as the report explains it. */
export const LIMITER_MEANING: { readonly [word in Limiter]: string } = {
  grip: 'the driven tyres can put down no more; the drive unit could give more',
  'motor torque': 'the drive unit gives its peak torque, or its torque still builds up after the pedal',
  'motor power': 'the drive unit gives its peak power',
  'motor speed': 'the drive unit nears its greatest speed and tapers off',
  'pack voltage': 'the sagging pack voltage keeps the drive unit below its rated power, or is at its lower limit',
  'pack current':
    'the pack is at its discharge current limit, which cold, a low charge and pulses that have lasted lower',
  driveline: 'the half shafts, gears or the split between the axles set the torque, or a gear is being changed',
  heat: 'the drive unit or the pack is too warm and is derated',
  driver: 'the pedal is not fully down, or the set speed is reached',
};

/**
 * The word for a mode. Grip comes first: it is said wherever a driven axle could be given more than its tyres take. Below it,
 * of two driven axles the front one speaks, unless it follows the rear one; a torque table counts as torque up to the speed
 * where it falls off, as power from there on.
 */
export function limiterOf(mode: number, tabledPower = false): Limiter {
  if ((mode & BREAK) !== 0) return 'driveline';
  if (atGrip(mode)) return 'grip';
  const [front, rear] = [axleMode(mode, 0) & LIMIT_BITS, axleMode(mode, 1) & LIMIT_BITS];
  const l = front === 0 || front === L.split ? rear : front;
  switch (l) {
    case L.buildUp:
      return 'motor torque';
    case L.torque:
      return tabledPower ? 'motor power' : 'motor torque';
    case L.power:
      return 'motor power';
    case L.speed:
      return 'motor speed';
    case L.busVoltage:
    case L.minVoltage:
      return 'pack voltage';
    case L.current:
    case L.packCold:
    case L.packLow:
      return 'pack current';
    case L.shaft:
    case L.split:
      return 'driveline';
    case L.heatTorque:
    case L.heatPower:
    case L.packHeat:
      return 'heat';
    default:
      return 'driver';
  }
}
