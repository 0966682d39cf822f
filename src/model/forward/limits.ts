/** What each limit allows: torque at the motor shaft at the present motor speed of an axle. */
import { curveAt, curveSlopeAt } from '../tables/curve.ts';
import { torqueTaking } from '../drive/efficiency-map.ts';
import { frostShare, lowShare, powerAtLowestVoltage, warmCurrent } from '../pack/limits.ts';
import { powerAtCurrent } from '../pack/state.ts';
import { lossSlope, lossSpeedSlope } from './drive-unit.ts';
import { mappedWithFollower, NO_LIMIT, torqueWithFollower } from './follower-torque.ts';
import { idleOf } from './idle.ts';
import { ratingAtSag, tableAtSag } from './sag.ts';
import type { PackFigures } from '../pack/state.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { L } from './state.ts';

/** Below this motor speed, rad/s, power limits nothing: torque does. */
const STANDSTILL = 1e-9;

/** Torque and its slope: what the map answered last. */
const answer = new Float64Array(3);

/** Writes the torque that limit `l` allows at the motor speed of the axle, and its slope over motor speed. */
export function limit(m: Moving, axle: AxleFigures, at: AxleNow, l: number): void {
  const omega = at.motorSpeed;
  let slope = 0;
  let T: number;
  switch (l) {
    case L.torque:
      if (axle.tabled) {
        T = curveAt(axle.torque, omega);
        slope = curveSlopeAt(axle.torque, omega);
      } else T = axle.peakTorque;
      break;
    case L.power:
      if (omega < STANDSTILL || axle.tabled) T = Infinity;
      else {
        T = axle.powerAtRest / omega - axle.powerFall;
        slope = -(T + axle.powerFall) / omega;
      }
      break;
    case L.busVoltage:
      if (omega < STANDSTILL) T = Infinity;
      else {
        if (axle.tabled || axle.loss !== null) tableAtSag(m, axle, at);
        else ratingAtSag(m, axle, at);
        return;
      }
      break;
    case L.speed:
      if (omega < axle.taperFrom) T = Infinity;
      else {
        slope = -axle.taperSlope;
        T = axle.taperSlope * (axle.maxSpeed - omega);
      }
      break;
    case L.minVoltage:
    case L.current:
    case L.packHeat:
    case L.packCold:
    case L.packLow: {
      const power = packPower(m, l);
      if (power < Infinity) {
        torqueFromPack(m, axle, at, power);
        return;
      }
      T = Infinity;
      break;
    }
    case L.heatTorque:
      T = axle.peakTorque * Math.max(0, heatShare(axle, at.temperature));
      break;
    case L.heatPower:
      if (omega < STANDSTILL) T = Infinity;
      else {
        const hot = Math.max(0, heatShare(axle, at.temperature));
        T = (axle.powerAtRest * hot) / omega - axle.powerFall * hot;
        slope = -(T + axle.powerFall * hot) / omega;
      }
      break;
    case L.split:
      if (at.followedLimit !== 0) {
        shareOfPack(m, axle, at);
        return;
      }
      splitTorque(axle, at);
      return;
    case L.shaft:
      T = at.gear.shaftTorque;
      break;
    case L.buildUp:
      T = axle.torqueGrowth * m.now.pressed;
      break;
    default:
      T = axle.pedalTorque;
  }
  at.limit = T;
  at.limitSlope = slope;
  at.limitAcross = 0;
  at.limitTold = 0;
}

/** In the order in which they are looked at. */
const LIMITS = [
  L.torque,
  L.power,
  L.busVoltage,
  L.speed,
  L.minVoltage,
  L.current,
  L.shaft,
  L.pedal,
  L.heatTorque,
  L.heatPower,
  L.packHeat,
  L.packCold,
  L.packLow,
  L.split,
  L.buildUp,
] as const;

/** Axles have one of few lists, by a bit for each limit: a list for every axle of every car of a study is worth avoiding. */
const LISTS = new Map<number, Int32Array>();

/** The limits that can come into force at all. @param shafts whether they have a limit in any gear. */
export function usedLimits(axle: AxleFigures, pack: PackFigures, shafts: boolean): Int32Array {
  let bits = (1 << L.torque) | (1 << L.busVoltage) | (1 << L.speed) | (1 << L.minVoltage) | (1 << L.current);
  if (!axle.tabled) bits |= 1 << L.power;
  if (shafts) bits |= 1 << L.shaft;
  if (axle.pedalTorque !== Infinity) bits |= 1 << L.pedal;
  if (axle.unitRange !== Infinity) bits |= (1 << L.heatTorque) | (1 << L.heatPower);
  if (pack.derateRange !== Infinity) bits |= 1 << L.packHeat;
  if (pack.frostFull > -Infinity) bits |= 1 << L.packCold;
  if (pack.lowCharge > 0) bits |= 1 << L.packLow;
  if (axle.torqueShare !== 0) bits |= 1 << L.split;
  if (axle.torqueGrowth !== Infinity) bits |= 1 << L.buildUp;
  const known = LISTS.get(bits);
  if (known !== undefined) return known;
  const used = Int32Array.from(LIMITS.filter(l => (bits & (1 << l)) !== 0));
  LISTS.set(bits, used);
  return used;
}

/** The lowest limit of an axle's own at its present motor speed: the split aside. */
export function lowestOwn(m: Moving, axle: AxleFigures, at: AxleNow): number {
  let lowest: number = L.torque;
  let least = Infinity;
  for (const l of axle.used) {
    if (l === L.split) continue;
    limit(m, axle, at, l);
    if (at.limit >= least) continue;
    least = at.limit;
    lowest = l;
  }
  return lowest;
}

/**
 * Peak rating over peak rating when cold: 1 at the derating temperature, the continuous share one range above it, and a line that goes on
 * below 0, where nothing is left. @param temperature K.
 */
export function heatShare(axle: AxleFigures, temperature: number): number {
  return 1 - (1 - axle.continuous) * ((temperature - axle.unitDerate) / axle.unitRange);
}

/** Whether a limit is the heat of the drive unit. */
export function isHeat(l: number): boolean {
  return l === L.heatTorque || l === L.heatPower;
}

/**
 * N m by which one of the two ratings of a warm drive unit lies above the other when it is cold: which of them is lower goes by its
 * speed alone, also where it is so hot that both are nothing.
 * @param l which.
 */
export function coldRoom(axle: AxleFigures, { motorSpeed: omega }: AxleNow, l: number): number {
  const byPower = omega < STANDSTILL ? Infinity : axle.powerAtRest / omega - axle.powerFall;
  return l === L.heatPower ? byPower - axle.peakTorque : axle.peakTorque - byPower;
}

/** W at the terminals of the pack at one of its limits. */
export function packPower({ pack, packNow }: Moving, l: number): number {
  if (l === L.current) return powerAtCurrent(packNow, packNow.most);
  if (l === L.packHeat) return powerAtCurrent(packNow, warmCurrent(pack, packNow.temperature));
  if (l === L.packCold || l === L.packLow) {
    const share = l === L.packCold ? frostShare(pack, packNow.temperature) : lowShare(pack, packNow.charge);
    return powerAtCurrent(packNow, pack.maxCurrent * Math.max(0, share));
  }
  return powerAtLowestVoltage(pack, packNow);
}

/**
 * What the pack leaves an axle that follows one at the limit of the pack. Told as a torque that falls with the speed of this axle,
 * as it does: near the peak of friction its slip moves so much with the torque that going to and fro between the two would not end.
 */
function shareOfPack(m: Moving, axle: AxleFigures, at: AxleNow): void {
  const [followed, ahead] = axle === m.front ? [m.rear, m.atRear] : [m.front, m.atFront];
  limit(m, followed, ahead, at.followedLimit);
  at.limit = ahead.followerTorque;
  at.limitSlope = ahead.followerSlope;
  at.limitAcross = ahead.followerAcross;
  at.limitTold = 0;
}

/** The torque that keeps the fixed share of the wheel torque to what the other axle has. */
function splitTorque(axle: AxleFigures, at: AxleNow): void {
  const share = axle.torqueShare;
  const perWheel = share / (1 - share) / (at.gear.efficiency * at.gear.ratio);
  at.limit = at.otherWheel * perWheel + axle.dragTorque;
  at.limitSlope = 0;
  at.limitAcross = 0;
  at.limitTold = perWheel;
}

/**
 * Torque that the pack's power gives this axle: all that the other axle leaves, but at least its share where the other one
 * wants more than its own.
 */
function torqueFromPack(m: Moving, axle: AxleFigures, at: AxleNow, power: number): void {
  const whole = power - m.car.auxiliaryPower;
  if (at.otherFollows) {
    at.useful = Number.NaN;
    if (m.front.loss === null && m.rear.loss === null) torqueWithFollower(m, axle, at, whole);
    else mappedWithFollower(m, axle, at, whole);
    return;
  }
  const share = axle.packShare * whole;
  const rest = whole - at.otherPower;
  const told = !at.otherAtPack && rest > share;
  const omega = at.motorSpeed;
  at.limitAcross = 0;
  const left = at.otherAtPack ? besideIdle(m, axle, at, whole, share) : told ? rest : share;
  if (axle.loss !== null) {
    torqueTaking(axle.loss, left * axle.inverter, omega, at.torque, answer);
    at.limit = answer[0]!;
    at.limitSlope = answer[1]!;
    const perWatt = at.limit > 0 ? axle.inverter / (omega + lossSlope(axle, at.limit, omega)) : 0;
    at.limitTold = told ? -perWatt : 0;
    at.limitAcross *= perWatt;
    return;
  }
  const kc = axle.copper;
  const ki = axle.iron;
  const kw = axle.windage;
  // kc T^2 + w T + other losses = power behind the inverter, the positive root in a form without cancellation.
  const useful = left * axle.inverter - omega * (ki + kw * omega * omega) - axle.fixed;
  at.useful = useful;
  if (useful <= 0) {
    at.limit = 0;
    at.limitSlope = 0;
    at.limitAcross = 0;
    at.limitTold = 0;
    return;
  }
  const T = (2 * useful) / (omega + Math.sqrt(omega * omega + 4 * kc * useful));
  if (!(T < NO_LIMIT * axle.peakTorque)) {
    at.limit = Infinity;
    at.limitSlope = 0;
    at.limitAcross = 0;
    at.limitTold = 0;
    return;
  }
  at.limit = T;
  at.limitSlope = -(T + ki + 3 * kw * omega * omega) / (2 * kc * T + omega);
  const perWatt = axle.inverter / (2 * kc * T + omega);
  at.limitTold = told ? -perWatt : 0;
  at.limitAcross *= perWatt;
}

/**
 * W that the pack leaves an axle beside one that it holds back as well: its share, or less where the other one takes more than its own
 * to be turned without any torque. How that goes with the speed of the other one is left in `limitAcross`.
 */
function besideIdle(m: Moving, axle: AxleFigures, at: AxleNow, whole: number, share: number): number {
  const [other, beside] = axle === m.front ? [m.rear, m.atRear] : [m.front, m.atFront];
  const rest = whole - idleOf(other, beside);
  if (rest >= share) return share;
  at.limitAcross = -lossSpeedSlope(other, 0, beside.motorSpeed) / other.inverter;
  return rest;
}

/** N m at the motor shaft -> N m at the wheels of an axle, inertia aside. */
export function wheelTorque(axle: AxleFigures, at: AxleNow): number {
  return at.gear.efficiency * at.gear.ratio * (at.torque - axle.dragTorque);
}
