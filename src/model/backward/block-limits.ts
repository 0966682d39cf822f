/** What each limit allows: torque at the motor shaft at the present motor speed of an axle, on flat blocks of numbers. */
import type { Curve } from '../tables/curve.ts';
import { curveAt, curveSlopeAt } from '../tables/curve.ts';
import { evaluateLoss, torqueTaking } from '../drive/efficiency-map.ts';
import type { PackedLoss } from '../drive/efficiency-map.ts';
import { A, AXLE_SCRATCH, AXLE_SIZE, B, P, W } from './blocks.ts';
import { L } from '../forward/state.ts';

/** Below this motor speed, rad/s, power limits nothing: torque does. */
const STANDSTILL = 1e-9;

/** What a drive unit has in tables. */
export interface UnitTables {
  /** N m over rad/s; of no meaning for a unit without a torque table. */
  torque: Curve;
  /** Measured losses in place of the formula; null: the formula. */
  loss: PackedLoss | null;
  /** The same of the other axle. */
  otherLoss: PackedLoss | null;
}

/** Loss and its slopes, or torque and its slope: what the map answered last. */
const answer = new Float64Array(3);

/** W lost in the motor: kc T^2 + ki w + kw w^3 + C (Larminie & Lowry, eq. 7.23), or what a map says. */
export function motorLoss(p: Float64Array, o: number, T: number, omega: number, loss: PackedLoss | null): number {
  if (loss !== null) {
    evaluateLoss(loss, T, omega, answer);
    return answer[0]!;
  }
  return p[o + A.copper]! * T * T + omega * (p[o + A.iron]! + p[o + A.windage]! * omega * omega) + p[o + A.fixed]!;
}

/** W at the inverter's terminals for a torque and motor speed. */
export function inverterPower(p: Float64Array, o: number, T: number, omega: number, loss: PackedLoss | null): number {
  return (T * omega + motorLoss(p, o, T, omega, loss)) / p[o + A.inverter]!;
}

/** Writes the torque that limit `l` allows at the motor speed of the axle, and its slope over motor speed. */
export function limit(p: Float64Array, w: Float64Array, o: number, b: number, l: number, tables: UnitTables): void {
  const omega = w[b + B.motorSpeed]!;
  let slope = 0;
  let T: number;
  switch (l) {
    case L.torque:
      if (p[o + A.tabled] === 1) {
        T = curveAt(tables.torque, omega);
        slope = curveSlopeAt(tables.torque, omega);
      } else T = p[o + A.peakTorque]!;
      break;
    case L.power:
      if (omega < STANDSTILL || p[o + A.tabled] === 1) T = Infinity;
      else {
        T = p[o + A.peakPower]! / omega;
        slope = -T / omega;
      }
      break;
    case L.busVoltage:
      if (omega < STANDSTILL) T = Infinity;
      else {
        if (p[o + A.tabled] === 1 || tables.loss !== null) tableAtSag(p, w, o, b, tables);
        else ratingAtSag(p, w, o, b);
        return;
      }
      break;
    case L.speed:
      if (omega < p[o + A.taperFrom]!) T = Infinity;
      else {
        slope = -p[o + A.taperSlope]!;
        T = p[o + A.taperSlope]! * (p[o + A.maxSpeed]! - omega);
      }
      break;
    case L.minVoltage: {
      const R = w[W.resistance]!;
      if (R > 0) {
        const V = lowestVoltage(p, w);
        torqueFromPack(p, w, o, b, tables, (V * (w[W.emf]! - V)) / R);
        return;
      }
      T = Infinity;
      break;
    }
    case L.current:
      torqueFromPack(p, w, o, b, tables, powerAtCurrent(w, p[P.maxCurrent]!));
      return;
    case L.packHeat: {
      const left = 1 - (w[W.packTemperature]! - p[P.packDerate]!) / p[P.packRange]!;
      torqueFromPack(p, w, o, b, tables, powerAtCurrent(w, p[P.maxCurrent]! * Math.max(0, left)));
      return;
    }
    case L.heatTorque:
      T = p[o + A.peakTorque]! * heatShare(p, w, o, b);
      break;
    case L.heatPower:
      if (omega < STANDSTILL) T = Infinity;
      else {
        T = (p[o + A.peakPower]! * heatShare(p, w, o, b)) / omega;
        slope = -T / omega;
      }
      break;
    case L.split:
      T = splitTorque(p, w, o, b);
      break;
    case L.shaft:
      T = p[o + A.shaftTorque]!;
      break;
    default:
      T = p[o + A.pedalTorque]!;
  }
  w[b + B.limit] = T;
  w[b + B.limitSlope] = slope;
}

/** The most the pack gives is at its lowest voltage, or at half its electromotive force where that is higher. */
function lowestVoltage(p: Float64Array, w: Float64Array): number {
  return Math.max(p[P.minVoltage]!, 0.5 * w[W.emf]!);
}

/**
 * W at the pack's terminals at a current. Past half the electromotive force more current is less power, and the most the
 * pack gives comes first: reflected there, so that this limit rises above the other.
 */
function powerAtCurrent(w: Float64Array, I: number): number {
  const emf = w[W.emf]!;
  const V = emf - w[W.resistance]! * I;
  return V < 0.5 * emf ? (0.5 * emf * emf) / w[W.resistance]! - V * I : V * I;
}

/** Peak rating over peak rating when cold: 1 at the derating temperature, the continuous share one range above it. */
function heatShare(p: Float64Array, w: Float64Array, o: number, b: number): number {
  const over = (w[b + B.temperature]! - p[o + A.unitDerate]!) / p[o + A.unitRange]!;
  return Math.max(0, 1 - (1 - p[o + A.continuous]!) * over);
}

/** Torque that keeps the fixed share of the wheel torque to what the other axle has. */
function splitTorque(p: Float64Array, w: Float64Array, o: number, b: number): number {
  const share = p[o + A.torqueShare]!;
  const wheel = (w[b + B.otherWheel]! * share) / (1 - share);
  return wheel / (p[o + A.efficiency]! * p[o + A.ratio]!) + p[o + A.dragTorque]!;
}

/**
 * Torque that the pack's power gives this axle: all that the other axle leaves, but at least its share where the other one
 * wants more than its own.
 */
function torqueFromPack(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  { loss, otherLoss }: UnitTables,
  power: number,
): void {
  const whole = power - p[P.auxiliaryPower]!;
  if (w[b + B.otherFollows] === 1) {
    if (loss === null && otherLoss === null) torqueWithFollower(p, w, o, b, whole);
    else mappedWithFollower(p, w, o, b, whole, loss, otherLoss);
    return;
  }
  const share = p[o + A.packShare]! * whole;
  const left = w[b + B.otherAtPack] === 1 ? share : Math.max(share, whole - w[b + B.otherPower]!);
  const omega = w[b + B.motorSpeed]!;
  if (loss !== null) {
    torqueTaking(loss, left * p[o + A.inverter]!, omega, w[b + B.torque]!, answer);
    w[b + B.limit] = answer[0]!;
    w[b + B.limitSlope] = answer[1]!;
    return;
  }
  const kc = p[o + A.copper]!;
  const ki = p[o + A.iron]!;
  const kw = p[o + A.windage]!;
  // kc T^2 + w T + other losses = power behind the inverter, the positive root in a form without cancellation.
  const useful = left * p[o + A.inverter]! - omega * (ki + kw * omega * omega) - p[o + A.fixed]!;
  if (useful <= 0) {
    w[b + B.limit] = 0;
    w[b + B.limitSlope] = 0;
    return;
  }
  const T = (2 * useful) / (omega + Math.sqrt(omega * omega + 4 * kc * useful));
  w[b + B.limit] = T;
  w[b + B.limitSlope] = -(T + ki + 3 * kw * omega * omega) / (2 * kc * T + omega);
}

/** As `torqueFromPack` where the other axle keeps its share to this one's torque: one quadratic for both drives. */
function torqueWithFollower(p: Float64Array, w: Float64Array, o: number, b: number, whole: number): void {
  const other = o === P.axle0 ? P.axle0 + AXLE_SIZE : P.axle0;
  const behind = b === W.axle0 ? W.axle0 + AXLE_SCRATCH : W.axle0;
  const omega = w[b + B.motorSpeed]!;
  const slow = w[behind + B.motorSpeed]!;
  // Torque of the follower = c T + d.
  const c = followerSlope(p, o, other);
  const d = p[other + A.dragTorque]! - c * p[o + A.dragTorque]!;
  const eta = p[o + A.inverter]!;
  const etaOther = p[other + A.inverter]!;
  const square = p[o + A.copper]! / eta + (p[other + A.copper]! * c * c) / etaOther;
  const linear = omega / eta + (c * slow + 2 * p[other + A.copper]! * c * d) / etaOther;
  const useful =
    whole - motorLoss(p, o, 0, omega, null) / eta - (d * slow + motorLoss(p, other, d, slow, null)) / etaOther;
  const T = useful <= 0 ? 0 : (2 * useful) / (linear + Math.sqrt(linear * linear + 4 * square * useful));
  w[b + B.limit] = T;
  w[b + B.limitSlope] = useful <= 0 ? 0 : -T / eta / (2 * square * T + linear);
}

/** N m at the motor of the other axle for each N m at this one's, from the share of the wheel torques. */
function followerSlope(p: Float64Array, o: number, other: number): number {
  const share = p[other + A.torqueShare]! / (1 - p[other + A.torqueShare]!);
  return (share * p[o + A.efficiency]! * p[o + A.ratio]!) / (p[other + A.efficiency]! * p[other + A.ratio]!);
}

const MOST_PASSES = 60;
const TOLERANCE = 1e-13;

/** As `torqueWithFollower` where a drive has a map: Newton's method inside a bracket. */
function mappedWithFollower(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  whole: number,
  loss: PackedLoss | null,
  otherLoss: PackedLoss | null,
): void {
  const other = o === P.axle0 ? P.axle0 + AXLE_SIZE : P.axle0;
  const behind = b === W.axle0 ? W.axle0 + AXLE_SCRATCH : W.axle0;
  const omega = w[b + B.motorSpeed]!;
  const slow = w[behind + B.motorSpeed]!;
  const c = followerSlope(p, o, other);
  const d = p[other + A.dragTorque]! - c * p[o + A.dragTorque]!;
  const eta = p[o + A.inverter]!;
  const etaOther = p[other + A.inverter]!;
  let slope = 0;
  const excess = (T: number): number => {
    const own = T * omega + motorLoss(p, o, T, omega, loss);
    const follower = c * T + d;
    const others = follower * slow + motorLoss(p, other, follower, slow, otherLoss);
    slope = (omega + copperSlope(p, o, T, omega, loss)) / eta;
    slope += (c * (slow + copperSlope(p, other, follower, slow, otherLoss))) / etaOther;
    return own / eta + others / etaOther - whole;
  };
  w[b + B.limit] = 0;
  w[b + B.limitSlope] = 0;
  if (!(excess(0) < 0)) return;
  let low = 0;
  let high = Infinity;
  let T = w[b + B.torque]! > 0 ? w[b + B.torque]! : p[o + A.peakTorque]!;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const over = excess(T);
    if (over > 0) high = T;
    else low = T;
    const next = T - over / slope;
    if (Math.abs(next - T) <= TOLERANCE * T) break;
    if (next > low && next < high) T = next;
    else T = high === Infinity ? 2 * T : 0.5 * (low + high);
  }
  excess(T);
  w[b + B.limit] = T;
  w[b + B.limitSlope] = -T / eta / slope;
}

/** W/(N m), by how much the loss grows with the torque. */
function copperSlope(p: Float64Array, o: number, T: number, omega: number, loss: PackedLoss | null): number {
  if (loss === null) return 2 * p[o + A.copper]! * T;
  evaluateLoss(loss, T, omega, answer);
  return answer[2]!;
}

/** Torque at the rated power scaled down by bus voltage over reference voltage, solved together with the sag. */
function ratingAtSag(p: Float64Array, w: Float64Array, o: number, b: number): void {
  // T = beta V / w and (E - V) V / R = (w T + losses(T)) / eta + other consumers: a quadratic in V, here times w^2.
  const omega = w[b + B.motorSpeed]!;
  const R = w[W.resistance]!;
  const emf = w[W.emf]!;
  const eta = p[o + A.inverter]!;
  const kc = p[o + A.copper]!;
  const ki = p[o + A.iron]!;
  const kw = p[o + A.windage]!;
  const beta = p[o + A.peakPower]! / p[o + A.referenceVoltage]!;
  const drop = (R * beta) / eta;
  const fixed = omega * (ki + kw * omega * omega) + p[o + A.fixed]!;
  const a = omega * omega + drop * kc * beta;
  const half = 0.5 * omega * (emf - drop);
  const c = R * (fixed / eta + p[P.auxiliaryPower]! + w[b + B.otherPower]!);
  const root = half + Math.sqrt(Math.max(0, half * half - a * c));
  const T = (beta * root) / a;
  const V = (omega * root) / a;
  // How the balance moves with the torque and with the motor speed.
  const rise = emf - 2 * V;
  const slope = -(rise * T - drop * (T + ki + 3 * kw * omega * omega)) / (rise * omega - drop * (omega + 2 * kc * T));
  // Below the lowest voltage the pack limits, not the unit: reflected, so that this limit rises above the other there.
  const lowest = lowestVoltage(p, w);
  const twice = V < lowest ? (2 * lowest * beta) / omega : 0;
  w[b + B.limit] = V < lowest ? twice - T : T;
  w[b + B.limitSlope] = V < lowest ? -twice / omega - slope : slope;
}

/**
 * As `ratingAtSag` with tables, of which the torque's speed axis shrinks with the voltage: Illinois iteration on the
 * voltage.
 */
function tableAtSag(p: Float64Array, w: Float64Array, o: number, b: number, { torque, loss }: UnitTables): void {
  const tabled = p[o + A.tabled] === 1;
  const omega = w[b + B.motorSpeed]!;
  const reference = p[o + A.referenceVoltage]!;
  const alpha = p[o + A.peakPower]! / reference / omega;
  const others = p[P.auxiliaryPower]! + w[b + B.otherPower]!;
  const excess = (V: number): number => {
    const T = tabled ? Math.max(0, curveAt(torque, (omega * reference) / V)) : alpha * V;
    return (w[W.emf]! - V) * V - w[W.resistance]! * (inverterPower(p, o, T, omega, loss) + others);
  };
  let high = w[W.emf]!;
  let low = lowestVoltage(p, w);
  let V = high;
  let fLow = excess(low);
  let fHigh = excess(high);
  if (fLow <= 0) V = low;
  else {
    for (let i = 0; i < 60 && high - low > 1e-12 * high; i++) {
      V = high - (fHigh * (high - low)) / (fHigh - fLow);
      if (!(V > low && V < high)) V = 0.5 * (low + high);
      const f = excess(V);
      if (f === 0) break;
      if (f > 0) {
        low = V;
        fLow = f;
        fHigh *= 0.5;
      } else {
        high = V;
        fHigh = f;
        fLow *= 0.5;
      }
    }
  }
  if (!tabled) {
    w[b + B.limit] = alpha * V;
    w[b + B.limitSlope] = (-alpha * V) / omega;
    return;
  }
  const x = (omega * reference) / V;
  const T = curveAt(torque, x);
  const flat = p[o + A.flatSpeed]!;
  // On the flat part of a table torque and sag would allow the same, and neither would be the one in force: there this limit
  // is raised, the more the further the end of that part is.
  const raised = x < flat ? 2 - x / flat : 1;
  w[b + B.limit] = raised * T;
  w[b + B.limitSlope] = ((raised * curveSlopeAt(torque, x) - (x < flat ? T / flat : 0)) * reference) / V;
}
