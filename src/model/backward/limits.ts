/** Whether a car can do what a schedule asks: the torque that is needed against every limit. On flat blocks of numbers. */
import { D, DA, DA_SIZE } from './state.ts';
import type { DrivenPack } from './pack-step.ts';
import { A, AXLE_SCRATCH, AXLE_SIZE, B, P, W } from './blocks.ts';
import { L } from '../forward/state.ts';
import { limit } from './block-limits.ts';
import type { UnitTables } from './block-limits.ts';

/** Below this share of every limit nothing needs to be looked at closely. */
const EASY = 0.6;

/** Share of the force by which a limit may be missed: round-off. */
const TIE = 1e-9;

/**
 * Whether the torques that `demand` wrote lie beyond a limit. @param used the limits that can come into force, by axle.
 * @param temperatures K of the drive units, front and rear.
 */
export function beyond(
  p: Float64Array,
  w: Float64Array,
  d: Float64Array,
  k: DrivenPack,
  tables: readonly [UnitTables, UnitTables],
  used: readonly [Int32Array, Int32Array],
  temperatures: Float64Array,
): boolean {
  if (isEasy(p, d, k, temperatures)) return false;
  w[W.emf] = k.emf;
  w[W.resistance] = k.resistance;
  w[W.packTemperature] = k.temperature;
  p[P.auxiliaryPower] = d[D.auxiliaries]!;
  // Two axles that are free to share the force make up for each other.
  const fixed = p[P.axle0 + A.torqueShare]! !== 0;
  let room = 0;
  for (let axle = 0; axle < 2; axle++) {
    const o = P.axle0 + axle * AXLE_SIZE;
    if (p[o + A.driven] !== 1) continue;
    const own = roomOf(p, w, d, axle, tables[axle]!, used[axle]!, temperatures);
    if (fixed && !(own >= -TIE * d[D.force]!)) return true;
    room += own;
  }
  // Not a number is no room.
  return !(room >= -TIE * d[D.force]!);
}

/** N that the drive of an axle could add at the wheels to what it is asked for; negative where it can not. */
function roomOf(
  p: Float64Array,
  w: Float64Array,
  d: Float64Array,
  axle: number,
  tables: UnitTables,
  used: Int32Array,
  temperatures: Float64Array,
): number {
  const o = P.axle0 + axle * AXLE_SIZE;
  const b = W.axle0 + axle * AXLE_SCRATCH;
  const e = D.axle0 + axle * DA_SIZE;
  const T = d[e + DA.torque]!;
  let room = p[o + A.maxShare]! * d[e + DA.grip]! - d[e + DA.force]!;
  w[b + B.motorSpeed] = d[e + DA.motorSpeed]!;
  w[b + B.torque] = T;
  w[b + B.temperature] = temperatures[axle]!;
  w[b + B.otherPower] = d[D.power]! - d[D.auxiliaries]! - d[e + DA.power]!;
  w[b + B.otherAtPack] = 0;
  w[b + B.otherFollows] = 0;
  const perTorque = (p[o + A.efficiency]! * p[o + A.ratio]!) / p[o + A.radius]!;
  for (let i = 0; i < used.length; i++) {
    if (used[i] === L.split) continue;
    limit(p, w, o, b, used[i]!, tables);
    room = Math.min(room, (w[b + B.limit]! - T) * perTorque);
  }
  return room;
}

/** Far from every limit. Passes over most of a schedule at the price of a few products. */
export function isEasy(p: Float64Array, d: Float64Array, k: DrivenPack, temperatures: Float64Array): boolean {
  const emf = k.emf;
  const lowest = Math.max(p[P.minVoltage]!, 0.5 * emf);
  const power = d[D.power]!;
  if (Number.isNaN(power)) return false;
  if (power > EASY * p[P.maxCurrent]! * lowest) return false;
  if (k.resistance * power > EASY * lowest * (emf - lowest)) return false;
  if (k.temperature >= p[P.packDerate]! && p[P.packRange]! !== Infinity) return false;
  for (let axle = 0; axle < 2; axle++) {
    const o = P.axle0 + axle * AXLE_SIZE;
    if (p[o + A.driven] !== 1) continue;
    if (p[o + A.tabled] === 1) return false;
    const e = D.axle0 + axle * DA_SIZE;
    const T = d[e + DA.torque]!;
    const omega = d[e + DA.motorSpeed]!;
    if (T > EASY * p[o + A.peakTorque]! || T > p[o + A.shaftTorque]! || T > p[o + A.pedalTorque]!) return false;
    if (T * omega * p[o + A.referenceVoltage]! > EASY * p[o + A.peakPower]! * lowest) return false;
    if (omega > p[o + A.taperFrom]! && T > EASY * p[o + A.taperSlope]! * (p[o + A.maxSpeed]! - omega)) return false;
    if (!(d[e + DA.force]! <= EASY * p[o + A.maxShare]! * d[e + DA.grip]!)) return false;
    if (temperatures[axle]! > p[o + A.unitDerate]! && p[o + A.unitRange]! !== Infinity) return false;
    if (T * omega > EASY * p[o + A.peakPower]!) return false;
  }
  return true;
}
