/** What the pack does while its power is prescribed, and what it takes when the car slows down. On flat blocks of numbers. */
import type { Curve } from '../tables/curve.ts';
import { curveSegment } from '../tables/curve.ts';
import { F } from './state.ts';
import { P } from './blocks.ts';

/** K at which the resistance of the cells is stated. */
const REFERENCE_TEMPERATURE = 298.15;

/** Past this change of activation over temperature the exponential is taken anew. */
const ANCHOR_RANGE = 2e-3;

/** States of a pack, and what it keeps of the curves it is on. */
export const K = {
  charge: 0,
  pair: 1, // V of two RC pairs
  temperature: 3, // K
  heat: 4, // J, integral of the losses inside
  emf: 5, // V, open circuit less polarisation, at the state
  resistance: 6, // ohm, at the state
  anchor: 7, // K at which `factor` was taken
  factor: 8, // of the cells' resistance there
  ocv: 9, // offset of the piece of the curve in use
  ohm: 10,
  limit: 11, // W the pack takes at most, positive, at the state
  warmth: 12, // factor of the resistance at the state
  span: 13, // s of the next step
  first: 14, // W at the two Gauss-Legendre points of it
  second: 15,
  lost: 16, // W inside the pack, as `packRates` found it
} as const;
export const K_COUNT = 17;

const ROOT_3 = Math.sqrt(3);

/** Electromotive force, resistance and charge limit at the present state. */
export function packAt(p: Float64Array, f: Float64Array, k: Float64Array, ocv: Curve, ohm: Curve): void {
  const q = k[K.charge]!;
  const T = k[K.temperature]!;
  const at = curveSegment(ocv, q, k[K.ocv]!);
  const to = curveSegment(ohm, q, k[K.ohm]!);
  k[K.ocv] = at;
  k[K.ohm] = to;
  if (!(Math.abs(p[P.packActivation]! * (1 / T - 1 / k[K.anchor]!)) < ANCHOR_RANGE)) {
    k[K.anchor] = T;
    k[K.factor] = Math.exp(p[P.packActivation]! * (1 / T - 1 / REFERENCE_TEMPERATURE));
  }
  const warmth = warmFactor(p, k, T);
  const emf = p[P.series]! * pieceAt(ocv, at, q) - k[K.pair]! - k[K.pair + 1]!;
  const R = p[P.cellResistance]! * pieceAt(ohm, to, q) * warmth + p[P.wiring]!;
  k[K.warmth] = warmth;
  k[K.emf] = emf;
  k[K.resistance] = R;
  k[K.limit] = chargeLimit(f, q, T, emf, R);
}

/** W that the pack takes at most: by its current limit at this temperature, and by its highest voltage. */
function chargeLimit(f: Float64Array, q: number, T: number, emf: number, R: number): number {
  if (q >= 1) return 0;
  const none = f[F.coldNone]!;
  const warm = Math.min(1, Math.max(0, (T - none) / (f[F.coldFull]! - none)));
  const byVoltage = R > 0 ? (f[F.maxVoltage]! - emf) / R : Infinity;
  const I = Math.max(0, Math.min(f[F.maxCharge]! * warm, byVoltage));
  return I * (emf + R * I);
}

/** Of the resistance over its anchor: the exponential by its series. */
function warmFactor(p: Float64Array, k: Float64Array, T: number): number {
  const x = p[P.packActivation]! * (1 / T - 1 / k[K.anchor]!);
  return k[K.factor]! * (1 + x * (1 + x * (0.5 + x * (1 / 6 + x / 24))));
}

/** The cubic of one piece of a curve; a straight line before its first point. */
function pieceAt(curve: Curve, at: number, x: number): number {
  const d = x - curve[at]!;
  if (d < 0) return curve[at + 1]! + curve[at + 2]! * d;
  return curve[at + 1]! + d * (curve[at + 2]! + d * (curve[at + 3]! + d * curve[at + 4]!));
}

/** Nodes and weights of the classical Runge-Kutta method. */
const NODES = Float64Array.of(0, 0.5, 0.5, 1);
const WEIGHTS = Float64Array.of(1 / 6, 1 / 3, 1 / 3, 1 / 6);

/**
 * One step of `k[K.span]` seconds with a power at the terminals that goes linearly through `k[K.first]` and `k[K.second]`, W,
 * at the two Gauss-Legendre points: the classical Runge-Kutta method of order four. The straight line through these points has
 * the same integrals as the power itself to that order. Right after `packAt` at the same state.
 */
export function respond(p: Float64Array, f: Float64Array, k: Float64Array, ocv: Curve, ohm: Curve): void {
  const h = k[K.span]!;
  const middle = 0.5 * (k[K.first]! + k[K.second]!);
  const low = middle - 0.5 * ROOT_3 * (k[K.second]! - k[K.first]!);
  const slope = 2 * (middle - low);
  const q0 = k[K.charge]!;
  const u0 = k[K.pair]!;
  const z0 = k[K.pair + 1]!;
  const T0 = k[K.temperature]!;
  // The pieces of the curves about the present charge, and the resistance over temperature by its first terms.
  const at = k[K.ocv]!;
  const to = k[K.ohm]!;
  const e0 = ocv[at + 1]!;
  const e1 = ocv[at + 2]!;
  const e2 = ocv[at + 3]!;
  const e3 = ocv[at + 4]!;
  const r0 = ohm[to + 1]!;
  const r1 = ohm[to + 2]!;
  const r2 = ohm[to + 3]!;
  const r3 = ohm[to + 4]!;
  const fromOcv = ocv[at]!;
  const fromOhm = ohm[to]!;
  const scale = p[P.cellResistance]! * k[K.warmth]!;
  const lift = -p[P.packActivation]! / (T0 * T0);
  const bend = 0.5 * lift * (lift - 2 / T0);
  const series = p[P.series]!;
  const wiring = p[P.wiring]!;
  const perCharge = -1 / p[P.capacity]!;
  const cooling = p[P.packCooling]!;
  const perHeat = 1 / p[P.packCapacity]!;
  const air = p[P.air]!;
  const rate = f[F.pairRate]!;
  const rate2 = f[F.pairRate + 1]!;
  const R1 = f[F.pairOhm]!;
  const R2 = f[F.pairOhm + 1]!;
  const S1 = f[F.pairSiemens]!;
  const S2 = f[F.pairSiemens + 1]!;
  let fall = 0;
  let rise = 0;
  let other = 0;
  let warming = 0;
  let q1 = q0;
  let u1 = u0;
  let z1 = z0;
  let T1 = T0;
  let heat = 0;
  for (let i = 0; i < 4; i++) {
    const c = NODES[i]!;
    const weight = WEIGHTS[i]! * h;
    const s = c * h;
    const q = q0 + s * fall;
    const u = u0 + s * rise;
    const z = z0 + s * other;
    const T = T0 + s * warming;
    const x = q - fromOcv;
    const y = q - fromOhm;
    const emf = series * (e0 + x * (e1 + x * (e2 + x * e3))) - u - z;
    const R = scale * (1 + (T - T0) * (lift + bend * (T - T0))) * (r0 + y * (r1 + y * (r2 + y * r3))) + wiring;
    const power = low + slope * c;
    // (E - R I) I = P, the root with the smaller current.
    const root = emf * emf - 4 * R * power;
    const I = (2 * power) / (emf + Math.sqrt(root > 0 ? root : 0));
    const lost = R * I * I + u * u * S1 + z * z * S2;
    fall = perCharge * I;
    rise = (R1 * I - u) * rate;
    other = (R2 * I - z) * rate2;
    warming = (lost - cooling * (T - air)) * perHeat;
    q1 += weight * fall;
    u1 += weight * rise;
    z1 += weight * other;
    T1 += weight * warming;
    heat += weight * lost;
  }
  k[K.charge] = q1;
  k[K.pair] = u1;
  k[K.pair + 1] = z1;
  k[K.temperature] = T1;
  k[K.heat] = k[K.heat]! + heat;
}

/**
 * Rates of charge, polarisation and temperature at the present state, at a power in W at the terminals; for methods other than
 * `respond`. Right after `packAt`.
 */
export function packRates(p: Float64Array, f: Float64Array, k: Float64Array, power: number, out: Float64Array): void {
  const emf = k[K.emf]!;
  const R = k[K.resistance]!;
  const [u, z] = [k[K.pair]!, k[K.pair + 1]!];
  const I = (2 * power) / (emf + Math.sqrt(Math.max(0, emf * emf - 4 * R * power)));
  const lost = R * I * I + u * u * f[F.pairSiemens]! + z * z * f[F.pairSiemens + 1]!;
  out[0] = -I / p[P.capacity]!;
  out[1] = (f[F.pairOhm]! * I - u) * f[F.pairRate]!;
  out[2] = (f[F.pairOhm + 1]! * I - z) * f[F.pairRate + 1]!;
  out[3] = (lost - p[P.packCooling]! * (k[K.temperature]! - p[P.air]!)) / p[P.packCapacity]!;
  k[K.lost] = lost;
}
