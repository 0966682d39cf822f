/** The torque that the pack's power gives an axle whose torque the other axle follows: both draw on the pack. */
import { lossSlope, lossSpeedSlope, motorLoss } from './drive-unit.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';

/** Of the peak torque: where the pack leaves that much, at rest, it limits nothing, and how that goes with speed is beyond all numbers. */
export const NO_LIMIT = 1e9;

const MOST_PASSES = 60;
const TOLERANCE = 1e-13;

/** Losses by the formula: one quadratic for both drives. @param whole W for both inverters. */
export function torqueWithFollower(m: Moving, axle: AxleFigures, at: AxleNow, whole: number): void {
  const { other, behind, c, d } = followerOf(m, axle, at);
  const omega = at.motorSpeed;
  const slow = behind.motorSpeed;
  const eta = axle.inverter;
  const etaOther = other.inverter;
  const square = axle.copper / eta + (other.copper * c * c) / etaOther;
  const linear = omega / eta + (c * slow + 2 * other.copper * c * d) / etaOther;
  const useful = whole - motorLoss(axle, 0, omega) / eta - (d * slow + motorLoss(other, d, slow)) / etaOther;
  const T = useful <= 0 ? 0 : (2 * useful) / (linear + Math.sqrt(linear * linear + 4 * square * useful));
  if (!(T >= 0 && T < NO_LIMIT * axle.peakTorque)) return nothingLimits(at);
  at.limit = T;
  at.followerTorque = c * T + d;
  slopes(axle, at, other, behind, c, 2 * square * T + linear);
}

function nothingLimits(at: AxleNow): void {
  at.limit = at.followerTorque = Infinity;
  at.limitSlope = at.limitAcross = at.limitTold = 0;
  at.followerSlope = at.followerAcross = 0;
}

/** How both torques move with both motor speeds. @param c of `Follower`. @param rise W for each N m more of the one that leads. */
function slopes(axle: AxleFigures, at: AxleNow, other: AxleFigures, behind: AxleNow, c: number, rise: number): void {
  const none = at.limit <= 0;
  const own = (at.limit + lossSpeedSlope(axle, at.limit, at.motorSpeed)) / axle.inverter;
  const followers = at.followerTorque + lossSpeedSlope(other, at.followerTorque, behind.motorSpeed);
  at.limitSlope = none ? 0 : -own / rise;
  at.limitAcross = none ? 0 : -followers / other.inverter / rise;
  at.limitTold = 0;
  at.followerSlope = c * at.limitAcross;
  at.followerAcross = c * at.limitSlope;
}

/** The axle that follows, and its torque at the motor as c T + d of the torque T that leads: from the share of the wheel torques. */
interface Follower {
  readonly other: AxleFigures;
  readonly behind: AxleNow;
  readonly c: number;
  readonly d: number;
}

function followerOf(m: Moving, axle: AxleFigures, at: AxleNow): Follower {
  const [other, behind] = axle === m.front ? [m.rear, m.atRear] : [m.front, m.atFront];
  const share = other.torqueShare / (1 - other.torqueShare);
  const c = (share * at.gear.efficiency * at.gear.ratio) / (behind.gear.efficiency * behind.gear.ratio);
  return { other, behind, c, d: other.dragTorque - c * axle.dragTorque };
}

/** The same where a drive has a map: Newton's method inside a bracket. */
export function mappedWithFollower(m: Moving, axle: AxleFigures, at: AxleNow, whole: number): void {
  const { other, behind, c, d } = followerOf(m, axle, at);
  const omega = at.motorSpeed;
  const slow = behind.motorSpeed;
  const eta = axle.inverter;
  const etaOther = other.inverter;
  let slope = 0;
  const excess = (T: number): number => {
    const own = T * omega + motorLoss(axle, T, omega);
    const follower = c * T + d;
    const others = follower * slow + motorLoss(other, follower, slow);
    slope = (omega + lossSlope(axle, T, omega)) / eta;
    slope += (c * (slow + lossSlope(other, follower, slow))) / etaOther;
    return own / eta + others / etaOther - whole;
  };
  at.limit = 0;
  at.followerTorque = d;
  slopes(axle, at, other, behind, c, 1);
  if (!(excess(0) < 0)) return;
  let low = 0;
  let high = Infinity;
  let T = at.torque > 0 ? at.torque : axle.peakTorque;
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
  at.limit = T;
  at.followerTorque = c * T + d;
  slopes(axle, at, other, behind, c, slope);
}
