/** Two motors that turn each other: how fast a car may go before the slower of them turns faster than it may. */
import { item } from '../columns.ts';
import type { Car, Drive } from '../model/car.ts';

/** Of its greatest speed: by less two motors on tyres of nearly one size turn each other too fast. Common practice, no source. */
const OVERRUN = 1.02;

/**
 * m/s above which the first of two motors would be turned faster than it may by the other drive, which it would hold back by all that it
 * has; Infinity where a fixed share of the torque keeps the other one down to it, and with one drive. Slip is left aside.
 */
export function overrunSpeed(car: Car): number {
  return car.drives.length < 2 || car.frontTorqueShare !== undefined ? Infinity : OVERRUN * turningSpeed(car);
}

/** m/s at which the first of the motors turns as fast as it may, in its highest gear. Slip is left aside. */
export function turningSpeed({ drives, tyres }: Car): number {
  return Math.min(...drives.map(drive => (drive.unit.maxSpeed / highest(drive)) * tyres[drive.axle].radius));
}

/** Motor turns for a wheel turn in its highest gear. */
function highest({ ratio, gearbox }: Drive): number {
  return ratio * (gearbox === undefined ? 1 : item(gearbox.gears, gearbox.gears.length - 1).ratio);
}
