/** Which gear belongs to a speed. */
import type { Moving } from './instant.ts';

/** m/s of the car at which a gear is left. */
export function upshiftSpeed({ front, rear }: Moving, gear: number): number {
  const { gears } = rear.gears.length > 1 ? rear : front;
  return gears.length > 1 ? (gears[gear]?.upshift ?? Infinity) : Infinity;
}

/** The gear that a car at a speed in m/s has come to, 0 for the first. */
export function gearAt(m: Moving, speed: number): number {
  let gear = 0;
  if (m.places.guardShift >= 0) while (speed > upshiftSpeed(m, gear)) gear++;
  return gear;
}
