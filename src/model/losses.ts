/** Losses of a drive unit of which only the ratings are known. */

/**
 * Loss constants of a motor of about 100 kW: kc T^2 + ki w + kw w^3 + C (Larminie & Lowry, *Electric Vehicle Technology
 * Explained*, eq. 7.23), with its gearing of 37 rad/s per m/s. Its greatest speed follows from 80 mph (from memory), its
 * greatest torque, 147 N m, from 100 kW at the corner where copper loss is 6.5 % of it.
 */
const TEXTBOOK = { power: 100e3, torque: 147, speed: 37 * 35.76, copper: 0.3, iron: 0.01, windage: 5e-6, fixed: 600 };

/**
 * Each part of the loss keeps its share of the peak power: copper at peak torque, the others at greatest speed.
 * @param peakPower W. @param peakTorque N m. @param maxSpeed rad/s.
 */
export function scaledLosses(
  peakPower: number,
  peakTorque: number,
  maxSpeed: number,
): { copperLoss: number; ironLoss: number; windageLoss: number; fixedLoss: number } {
  const size = peakPower / TEXTBOOK.power;
  const slower = TEXTBOOK.speed / maxSpeed;
  return {
    copperLoss: TEXTBOOK.copper * size * (TEXTBOOK.torque / peakTorque) ** 2,
    ironLoss: TEXTBOOK.iron * size * slower,
    windageLoss: TEXTBOOK.windage * size * slower ** 3,
    fixedLoss: TEXTBOOK.fixed * size,
  };
}
