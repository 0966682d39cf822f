/** The torque of a drive unit whose bus voltage sags under its own power, solved together with the sag. */
import { curveAt, curveSlopeAt } from '../tables/curve.ts';
import { lowestVoltage } from '../pack/state.ts';
import { lossSlope, lossSpeedSlope, motorLoss, throughInverter } from './drive-unit.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';

/**
 * At the rated torque, whose speed axis shrinks with the voltage as that of a table does: where the power is constant it falls in
 * proportion to bus voltage over reference voltage.
 */
export function ratingAtSag(m: Moving, axle: AxleFigures, at: AxleNow): void {
  // T = beta V / w - B and (E - V) V / R = (w T + losses(T)) / eta + other consumers: a quadratic in V, here times w^2.
  const omega = at.motorSpeed;
  const { emf, resistance: R } = m.packNow;
  const { copper: kc, iron: ki, powerPerVolt: beta, powerFall: fall, perInverter } = axle;
  const square = omega * omega;
  const lostBySpeed = axle.windage * square;
  const drop = R * beta * perInverter;
  const copper = drop * kc;
  const a = square + copper * beta;
  const half = 0.5 * omega * (emf - drop) + copper * fall;
  const fixed = omega * (ki + lostBySpeed) + axle.fixed - fall * (omega - kc * fall);
  const c = R * (fixed * perInverter + m.car.auxiliaryPower + at.otherPower);
  const under = half * half - a * c;
  const root = half + (under > 0 ? Math.sqrt(under) : 0);
  const perA = 1 / a;
  const T = beta * root * perA - fall;
  const V = omega * root * perA;
  at.limitAcross = 0;
  if (under > 0) {
    // How the balance moves with the torque and with the motor speed.
    const rise = emf - 2 * V;
    const perSteep = 1 / (rise * omega - drop * (omega + 2 * kc * T));
    at.limitSlope = (drop * (T + ki + 3 * lostBySpeed) - rise * (T + fall)) * perSteep;
    at.limitTold = R * beta * perSteep;
  } else {
    // Where the pack can not give what the others draw the root is held at its edge, which moves with the motor speed alone.
    at.limitSlope = beta * (0.5 * (emf - drop) - 2 * omega * half * perA) * perA;
    at.limitTold = 0;
  }
  at.limit = T;
  const lowest = lowestVoltage(m.pack, m.packNow);
  at.reflected = V < lowest;
  if (V < lowest) reflect(axle, at, lowest);
}

/** V that the power of an axle takes: its greatest one falls with the voltage below that at which it is stated. */
export function voltsFor(axle: AxleFigures, { torque, motorSpeed }: AxleNow): number {
  if (!axle.driven) return 0;
  return (axle.referenceVoltage * (torque + axle.powerFall) * motorSpeed) / axle.powerAtRest;
}

/** Below the lowest voltage the pack limits, not the unit: reflected, so that this limit rises above the other there. */
function reflect({ powerPerVolt, powerFall }: AxleFigures, at: AxleNow, lowest: number): void {
  const omega = at.motorSpeed;
  const twice = (2 * lowest * powerPerVolt) / omega;
  at.limit = twice - 2 * powerFall - at.limit;
  at.limitSlope = -twice / omega - at.limitSlope;
  at.limitTold = -at.limitTold;
}

/** As `ratingAtSag` with tables, of which the torque's speed axis shrinks with the voltage. */
export function tableAtSag(m: Moving, axle: AxleFigures, at: AxleNow): void {
  const omega = at.motorSpeed;
  const reference = axle.referenceVoltage;
  const alpha = axle.powerPerVolt / omega;
  const V = sagOf(m, axle, at, alpha);
  at.limitAcross = 0;
  if (!axle.tabled) {
    const T = alpha * V - axle.powerFall;
    const steep = sagSlope(m, axle, T, omega, alpha, V);
    at.limit = T;
    at.limitSlope = (-alpha * V) / omega + alpha * steep * ratedMore(axle, T, omega, (-alpha * V) / omega);
    at.limitTold = alpha * steep;
    return;
  }
  const x = (omega * reference) / V;
  const T = curveAt(axle.torque, x);
  const bend = curveSlopeAt(axle.torque, x);
  const steep = sagSlope(m, axle, T, omega, (-bend * x) / V, V);
  const flat = axle.flatSpeed;
  // On the flat part of a table torque and sag would allow the same, and neither would be the one in force: there this limit
  // is raised, the more the further the end of that part is.
  const raised = x < flat ? 2 - x / flat : 1;
  const perX = raised * bend - (x < flat ? T / flat : 0);
  at.limit = raised * T;
  at.limitSlope = (perX * (reference - x * steep * ratedMore(axle, T, omega, (bend * reference) / V))) / V;
  at.limitTold = (-perX * x * steep) / V;
}

/**
 * V for each W that others draw more; 0 where the pack is at its lowest voltage and gives no more.
 * @param torqueSlope N m for each V.
 */
function sagSlope(m: Moving, axle: AxleFigures, T: number, omega: number, torqueSlope: number, V: number): number {
  const { emf, resistance } = m.packNow;
  if (V <= lowestVoltage(m.pack, m.packNow)) return 0;
  return resistance / (emf - 2 * V - (resistance * (omega + lossSlope(axle, T, omega)) * torqueSlope) / axle.inverter);
}

/** W that the unit draws more for each rad/s at one voltage. @param torqueSlope N m for each rad/s. */
function ratedMore(axle: AxleFigures, T: number, omega: number, torqueSlope: number): number {
  const more = T + lossSpeedSlope(axle, T, omega) + (omega + lossSlope(axle, T, omega)) * torqueSlope;
  return more / axle.inverter;
}

/** W that the pack gives at a voltage over what the unit and all others draw there. */
function excess(m: Moving, axle: AxleFigures, at: AxleNow, alpha: number, V: number): number {
  const omega = at.motorSpeed;
  const { emf, resistance } = m.packNow;
  const T = axle.tabled
    ? Math.max(0, curveAt(axle.torque, (omega * axle.referenceVoltage) / V))
    : alpha * V - axle.powerFall;
  const drawn = throughInverter(axle, T * omega + motorLoss(axle, T, omega), false);
  return (emf - V) * V - resistance * (drawn + (m.car.auxiliaryPower + at.otherPower));
}

/** V, by the Illinois iteration; the lowest voltage where the pack can not give what is drawn there. */
function sagOf(m: Moving, axle: AxleFigures, at: AxleNow, alpha: number): number {
  let high = m.packNow.emf;
  let low = lowestVoltage(m.pack, m.packNow);
  let fLow = excess(m, axle, at, alpha, low);
  let fHigh = excess(m, axle, at, alpha, high);
  if (fLow <= 0) return low;
  let V = high;
  for (let i = 0; i < 60 && high - low > 1e-12 * high; i++) {
    V = high - (fHigh * (high - low)) / (fHigh - fLow);
    if (!(V > low && V < high)) V = 0.5 * (low + high);
    const f = excess(m, axle, at, alpha, V);
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
  return V;
}
