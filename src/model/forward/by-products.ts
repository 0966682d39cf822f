/** What tables and pictures want to know of an instant; right after `rates` at it. */
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { limit } from './limits.ts';

/** N at the contact patches that the torque held back would add; in a mode at the grip limit. */
export function spareForce(m: Moving): number {
  return spareOf(m.front, m.atFront) + spareOf(m.rear, m.atRear);
}

function spareOf(axle: AxleFigures, at: AxleNow): number {
  if (!axle.driven) return 0;
  return ((at.available - at.torque) * at.gear.efficiency * at.gear.ratio) / axle.radius;
}

/** Whether a torque table counts as power limited. */
export function powerTabled({ front, rear, atFront, atRear }: Moving): boolean {
  return (
    (front.driven && atFront.motorSpeed > front.powerSpeed) || (rear.driven && atRear.motorSpeed > rear.powerSpeed)
  );
}

/**
 * Torque that each limit would still allow over the torque in use, in peak torques of the drive (the less of two drives):
 * entry 0 is grip, entry k is limit k, Infinity where a limit does not count.
 */
export function headroom(m: Moving, out: Float64Array): void {
  out.fill(Infinity);
  if (m.front.driven) roomOf(m, m.front, m.atFront, out);
  if (m.rear.driven) roomOf(m, m.rear, m.atRear, out);
}

function roomOf(m: Moving, axle: AxleFigures, at: AxleNow, out: Float64Array): void {
  const T = at.torque;
  const peak = axle.peakTorque;
  const spare = axle.maxShare * at.grip - at.force;
  out[0] = Math.min(out[0]!, (spare * axle.radius) / (at.gear.efficiency * at.gear.ratio) / peak);
  for (const l of axle.used) {
    limit(m, axle, at, l);
    out[l] = Math.min(out[l]!, (at.limit - T) / peak);
  }
}

/** J in the rotors of the drives with a gearbox, in a gear (0 is the first) at a speed in m/s of the car, slip left aside. */
export function rotorEnergy({ front, rear }: Moving, gear: number, speed: number): number {
  return rotorEnergyOf(front, gear, speed) + rotorEnergyOf(rear, gear, speed);
}

/** The same of one axle. */
function rotorEnergyOf(axle: AxleFigures, gear: number, speed: number): number {
  const engaged = axle.gears.length > 1 ? axle.gears[gear] : undefined;
  if (engaged === undefined) return 0;
  const omega = (engaged.ratio * speed) / axle.radius;
  return 0.5 * axle.rotorInertia * omega * omega;
}

/** What is kept of every node of a run: of the car, then of each driven axle `AXLE_LOOKS` numbers from `LOOK.axles` on, front first. */
export const LOOK = { acceleration: 0, current: 1, power: 2, voltage: 3, loadFront: 4, loadRear: 5, axles: 6 } as const;

/** Of a driven axle: N m at both wheels and rad/s2 of them, N m and rad/s of the motor, and the slip. */
export const AXLE_LOOK = { wheelTorque: 0, wheelSpin: 1, torque: 2, motorSpeed: 3, slip: 4 } as const;
export const AXLE_LOOKS = 5;

export function looksOf({ front, rear }: { readonly front: boolean; readonly rear: boolean }): number {
  return LOOK.axles + AXLE_LOOKS * (Number(front) + Number(rear));
}

/** Writes them, right after `rates`. */
export function look(m: Moving, out: Float64Array, offset: number): void {
  const { now, front, rear, atFront, atRear } = m;
  out[offset + LOOK.acceleration] = now.acceleration;
  out[offset + LOOK.current] = now.current;
  out[offset + LOOK.power] = now.busPower;
  out[offset + LOOK.voltage] = now.voltage;
  out[offset + LOOK.loadFront] = atFront.load;
  out[offset + LOOK.loadRear] = atRear.load;
  let place = offset + LOOK.axles;
  if (front.driven) {
    lookAtAxle(front, atFront, out, place);
    place += AXLE_LOOKS;
  }
  if (rear.driven) lookAtAxle(rear, atRear, out, place);
}

function lookAtAxle(axle: AxleFigures, at: AxleNow, out: Float64Array, place: number): void {
  out[place + AXLE_LOOK.wheelTorque] = (at.force + at.rolling * at.load + axle.hubDrag) * axle.radius;
  out[place + AXLE_LOOK.wheelSpin] = at.wheelSpin;
  out[place + AXLE_LOOK.torque] = at.torque;
  out[place + AXLE_LOOK.motorSpeed] = at.motorSpeed;
  out[place + AXLE_LOOK.slip] = at.slip;
}
