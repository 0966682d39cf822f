/** What the pack does while its power is prescribed, and what it takes when the car slows down. */
import { chargePower, currentAtPower, packAt, PackNow } from '../pack/state.ts';
import type { PackFigures } from '../pack/state.ts';

/** The pack of a car that follows a schedule: what it is at an instant, and what it is asked for next. */
export class DrivenPack extends PackNow {
  /** K of the air. */
  air = 0;
  /** J, integral of the losses inside. */
  heat = 0;
  /** W that the pack takes at most, positive, at the state. */
  limit = 0;
  /** s of the next step, and W at its two Gauss-Legendre points. */
  span = 0;
  first = 0;
  second = 0;
  /** W lost inside, as `packRates` found it. */
  lost = 0;
}

/** Takes over the state of another, with what is known at it. */
export function copyPack(from: DrivenPack, to: DrivenPack): void {
  to.charge = from.charge;
  to.pair1 = from.pair1;
  to.pair2 = from.pair2;
  to.temperature = from.temperature;
  to.open = from.open;
  to.emf = from.emf;
  to.resistance = from.resistance;
  to.warmth = from.warmth;
  to.anchor = from.anchor;
  to.factor = from.factor;
  to.ocvPiece = from.ocvPiece;
  to.ohmPiece = from.ohmPiece;
  to.air = from.air;
  to.heat = from.heat;
  to.limit = from.limit;
}

/** Another pack, or a state out of the blue: nothing of what was known holds. */
export function forgetPieces(now: DrivenPack): void {
  now.ocvPiece = 0;
  now.ohmPiece = 0;
  now.anchor = Number.NaN;
}

const ROOT_3 = Math.sqrt(3);

/** Electromotive force, resistance and charge limit at the present state. */
export function drivenPackAt(pack: PackFigures, now: DrivenPack): void {
  packAt(pack, now);
  now.limit = chargePower(pack, now);
}

/** Nodes and weights of the classical Runge-Kutta method. */
const NODES = Float64Array.of(0, 0.5, 0.5, 1);
const WEIGHTS = Float64Array.of(1 / 6, 1 / 3, 1 / 3, 1 / 6);

/**
 * One step of `now.span` seconds with a power at the terminals that goes linearly through `now.first` and `now.second`, W,
 * at the two Gauss-Legendre points: the classical Runge-Kutta method of order four. The straight line through these points has
 * the same integrals as the power itself to that order. Right after `drivenPackAt` at the same state.
 */
export function respond(pack: PackFigures, now: DrivenPack): void {
  const { ocv, ohm } = pack;
  const h = now.span;
  const middle = 0.5 * (now.first + now.second);
  const low = middle - 0.5 * ROOT_3 * (now.second - now.first);
  const slope = 2 * (middle - low);
  const q0 = now.charge;
  const u0 = now.pair1;
  const z0 = now.pair2;
  const T0 = now.temperature;
  // The pieces of the curves about the present charge, and the resistance over temperature by its first terms.
  const at = now.ocvPiece;
  const to = now.ohmPiece;
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
  const scale = pack.perCell * now.warmth;
  const lift = -pack.activation / (T0 * T0);
  const bend = 0.5 * lift * (lift - 2 / T0);
  const series = pack.series;
  const wiring = pack.wiring;
  const perCharge = -1 / pack.capacity;
  const cooling = pack.cooling;
  const perHeat = 1 / pack.heatCapacity;
  const air = now.air;
  const { ohm1: R1, ohm2: R2 } = pack;
  const rate = pack.pairs > 0 ? 1 / pack.time1 : 0;
  const rate2 = pack.pairs > 1 ? 1 / pack.time2 : 0;
  const S1 = pack.pairs > 0 ? 1 / R1 : 0;
  const S2 = pack.pairs > 1 ? 1 / R2 : 0;
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
  now.charge = q1;
  now.pair1 = u1;
  now.pair2 = z1;
  now.temperature = T1;
  now.heat = now.heat + heat;
}

/**
 * Rates of charge, polarisation and temperature at the present state, at a power in W at the terminals; for methods other than
 * `respond`. Right after `packAt`.
 */
export function packRates(pack: PackFigures, now: DrivenPack, power: number, out: Float64Array): void {
  const { pair1, pair2, resistance } = now;
  const I = currentAtPower(now.emf, resistance, power);
  const lost1 = pack.pairs > 0 ? (pair1 * pair1) / pack.ohm1 : 0;
  const lost2 = pack.pairs > 1 ? (pair2 * pair2) / pack.ohm2 : 0;
  now.lost = resistance * I * I + lost1 + lost2;
  out[0] = -I / pack.capacity;
  out[1] = pack.pairs > 0 ? (pack.ohm1 * I - pair1) / pack.time1 : 0;
  out[2] = pack.pairs > 1 ? (pack.ohm2 * I - pair2) / pack.time2 : 0;
  out[3] = (now.lost - pack.cooling * (now.temperature - now.air)) / pack.heatCapacity;
}
