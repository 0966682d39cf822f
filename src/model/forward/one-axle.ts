/**
 * All rates of the car that most cars are: one driven axle whose drive is engaged. What `motion` and `energies` write for any car, with what
 * goes from one to the next in local names: through fields of objects it takes half as long again. A test holds the two against each other.
 */
import { packBalance } from '../pack/balance.ts';
import { motorLoss } from './drive-unit.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { limit } from './limits.ts';
import { atLimit, atShare, balanceSpin } from './single-axle.ts';
import { spinState, unlimited } from './slip-step.ts';
import { CHARGE, DISTANCE, GRIP, LIMIT_BITS, RC, SPEED } from './state.ts';

/** @param axle, at the driven axle; `other`, `beside` the free one. @param bits of the driven axle in the mode. */
export function ratesOfOne(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  other: AxleFigures,
  beside: AxleNow,
  bits: number,
  out: Float64Array,
): void {
  const { car, now } = m;
  const { gear } = at;
  const v = now.speed;
  const grips = (bits & GRIP) !== 0;
  if (grips) {
    at.share = axle.maxShare;
    if (!atShare(m, axle, at, other, beside)) return boundless(m, axle, at, beside, bits, out);
    at.stretch = axle.maxStretch;
  } else atLimit(m, axle, at, other, beside, bits);
  const a = now.acceleration;
  const { force, load, rolling, stretch } = at;
  const { radius, perRadius, dragTorque, hubDrag } = axle;
  const slip = stretch * axle.slipAtPeak;
  const turns = (1 + slip) * perRadius;
  const wheelSpeed = turns * v;
  const wheelSpin = turns * a;
  const omega = gear.ratio * wheelSpeed;
  const roll = (rolling * load + hubDrag) * radius;
  at.slip = slip;
  at.slipSpeed = slip * v;
  at.wheelSpeed = wheelSpeed;
  at.wheelSpin = wheelSpin;
  at.motorSpeed = omega;
  if (grips) {
    at.torque = (force * radius + roll + gear.inertia * wheelSpin) * gear.driving + dragTorque;
    limit(m, axle, at, bits & LIMIT_BITS);
    at.available = at.limit;
  } else at.available = at.torque;
  const otherLoad = beside.unloaded - axle.sign * car.transfer * a;
  const otherRoll = beside.rolling * otherLoad + other.hubDrag;
  beside.load = otherLoad;
  beside.force = -otherRoll;
  beside.wheelSpeed = v * other.perRadius;
  beside.wheelSpin = a * other.perRadius;
  powersOfOne(m, axle, at, beside, other, out);
}

/** The same where the wheel speed is a state. */
export function ratesOfSpinning(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  other: AxleFigures,
  beside: AxleNow,
  bits: number,
  out: Float64Array,
): void {
  spinState(m, axle, at, bits & LIMIT_BITS, false);
  balanceSpin(m, axle, at, other, beside, false);
  at.available = at.torque;
  powersOfOne(m, axle, at, beside, other, out);
}

/** Where the power goes, once forces, speeds and torque are known. */
function powersOfOne(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  beside: AxleNow,
  other: AxleFigures,
  out: Float64Array,
): void {
  const { car, pack, packNow, now, places } = m;
  const { gear, torque, motorSpeed: omega, wheelSpeed, wheelSpin } = at;
  const v = now.speed;
  const lost =
    axle.loss === null
      ? axle.copper * torque * torque + omega * (axle.iron + axle.windage * omega * omega) + axle.fixed
      : motorLoss(axle, torque, omega);
  const useful = torque * omega;
  const back = useful + lost < 0;
  const drawn = back ? (useful + lost) * axle.inverter : (useful + lost) * axle.perInverter;
  const heat = drawn - useful;
  at.power = drawn;
  at.heat = heat;
  const power = drawn + car.auxiliaryPower;
  const { emf, resistance } = packNow;
  const root = emf * emf - 4 * resistance * power;
  const current = (2 * power) / (emf + Math.sqrt(root > 0 ? root : 0));
  packNow.current = current;
  packBalance(pack, packNow);
  now.busPower = power;
  now.current = current;
  now.voltage = emf - resistance * current;
  out[SPEED] = now.acceleration;
  out[DISTANCE] = v;
  out[CHARGE] = packNow.chargeRate;
  if (pack.pairs > 0) out[RC] = packNow.pairRate1;
  if (pack.pairs > 1) out[RC + 1] = packNow.pairRate2;
  if (places.quadratures === 0) return;
  const { states } = places;
  const rotor = axle.rotorInertia * gear.ratio * wheelSpin;
  out[states] = packNow.chemical;
  out[states + 1] = packNow.lost;
  out[states + 2] = heat;
  const { dragTorque } = axle;
  out[states + 3] = ((1 - gear.efficiency) * (torque - rotor - dragTorque) + dragTorque) * omega;
  out[states + 4] = gear.wheelInertia * wheelSpin * wheelSpeed + rotor * omega;
  out[states + 5] = at.force * at.slipSpeed;
  const rolling = (at.rolling * at.load + axle.hubDrag) * axle.radius * wheelSpeed;
  out[states + 6] = rolling + (beside.rolling * beside.load + other.hubDrag + car.towedRoll) * v;
  out[states + 7] = now.drag * v;
  out[states + 8] = car.gradeForce * v;
  out[states + 9] = car.auxiliaryPower;
  out[states + 10] = (at.available - torque) * omega;
}

/** Where grip never limits: a mode that is looked for, and left at once. */
function boundless(m: Moving, axle: AxleFigures, at: AxleNow, beside: AxleNow, bits: number, out: Float64Array): void {
  unlimited(m, axle, at, m.now.speed);
  beside.load = beside.unloaded;
  limit(m, axle, at, bits & LIMIT_BITS);
  at.available = at.limit;
  out[SPEED] = Infinity;
}
