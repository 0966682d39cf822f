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
