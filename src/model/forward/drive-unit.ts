/** What a drive unit loses. */
import { evaluateLoss } from '../drive/efficiency-map.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow } from './instant.ts';

/** Loss and its slopes: what the map answered last. */
const answer = new Float64Array(3);

/** W lost in the motor: kc T^2 + ki w + kw w^3 + C (Larminie & Lowry, eq. 7.23), or what a map says. */
export function motorLoss(axle: AxleFigures, T: number, omega: number): number {
  if (axle.loss !== null) {
    evaluateLoss(axle.loss, T, omega, answer);
    return answer[0]!;
  }
  return axle.copper * T * T + omega * (axle.iron + axle.windage * omega * omega) + axle.fixed;
}

/** W/(N m), by how much the loss grows with the torque. */
export function lossSlope(axle: AxleFigures, T: number, omega: number): number {
  if (axle.loss === null) return 2 * axle.copper * T;
  evaluateLoss(axle.loss, T, omega, answer);
  return answer[2]!;
}

/** W at the inverter's terminals for W of shaft and motor loss. @param back whether they flow back through it. */
export function throughInverter({ inverter, perInverter }: AxleFigures, both: number, back: boolean): number {
  return back ? both * inverter : both * perInverter;
}

/** W/(rad/s), by how much the loss grows with the motor speed. */
export function lossSpeedSlope(axle: AxleFigures, T: number, omega: number): number {
  if (axle.loss === null) return axle.iron + 3 * axle.windage * omega * omega;
  evaluateLoss(axle.loss, T, omega, answer);
  return answer[1]!;
}

/** W at the inverter's terminals of an axle at the present torque and speed. */
export function powerDrawn(axle: AxleFigures, at: AxleNow): number {
  const both = at.torque * at.motorSpeed + motorLoss(axle, at.torque, at.motorSpeed);
  return throughInverter(axle, both, both < 0);
}
