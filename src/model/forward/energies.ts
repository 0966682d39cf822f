/** Where the power goes at an instant: rates of speed, charge and polarisation, of warmth, and of every energy of the ledger. */
import { balanceAtPower } from '../pack/balance.ts';
import { motorLoss, throughInverter } from './drive-unit.ts';
import { isOpen } from './slip-step.ts';
import { CHARGE, DISTANCE, RC, SPEED } from './state.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';

/** Pack current, and the rates of speed, distance, charge and polarisation. */
export function motion(m: Moving, out: Float64Array): void {
  const { pack, packNow, now } = m;
  let power = m.car.auxiliaryPower;
  if (m.front.driven) power += draw(m.front, m.atFront);
  if (m.rear.driven) power += draw(m.rear, m.atRear);
  // More than the pack can give is asked only within a trial step: its limit cuts it there.
  balanceAtPower(pack, packNow, power);
  const { current } = packNow;
  now.busPower = power;
  now.current = current;
  now.voltage = packNow.emf - packNow.resistance * current;
  out[SPEED] = now.acceleration;
  out[DISTANCE] = now.speed;
  out[CHARGE] = packNow.chargeRate;
  if (pack.pairs > 0) out[RC] = packNow.pairRate1;
  if (pack.pairs > 1) out[RC + 1] = packNow.pairRate2;
}

/** W at the inverter's terminals; what motor and inverter lose of it becomes the heat of the unit. */
function draw(axle: AxleFigures, at: AxleNow): number {
  const T = at.torque;
  const omega = at.motorSpeed;
  const lost = motorLoss(axle, T, omega);
  const eta = axle.inverter;
  const both = T * omega + lost;
  // A torque that two axles share may hold one of them back, and so does one above the greatest speed of a motor.
  const back = both < 0;
  const drawn = throughInverter(axle, both, back);
  at.power = drawn;
  at.heat = back ? lost + (drawn - both) : (lost + (1 - eta) * T * omega) / eta;
  return drawn;
}

/**
 * The ledger, in the order of `QUADRATURES`; after `motion`.
 * @param breaks the torque, see `BREAK`. @param states of the plant: the quadratures follow them.
 */
export function energies(m: Moving, breaks: boolean, out: Float64Array, states: number): void {
  const { now, packNow, front, rear, atFront, atRear } = m;
  const v = now.speed;
  out[states] = packNow.chemical;
  out[states + 1] = packNow.lost;
  out[states + 2] = (front.driven ? atFront.heat : 0) + (rear.driven ? atRear.heat : 0);
  out[states + 3] = 0;
  out[states + 4] = 0;
  out[states + 5] = 0;
  out[states + 6] = m.car.towedRoll * v;
  out[states + 7] = now.drag * v;
  out[states + 8] = m.car.gradeForce * v;
  out[states + 9] = m.car.auxiliaryPower;
  out[states + 10] = 0;
  add(front, atFront, breaks, out, states);
  add(rear, atRear, breaks, out, states);
}

/** What an axle adds to it. */
function add(axle: AxleFigures, at: AxleNow, breaks: boolean, out: Float64Array, states: number): void {
  const { wheelSpeed } = at;
  const roll = at.rolling * at.load + axle.hubDrag;
  out[states + 6] = out[states + 6]! + roll * axle.radius * wheelSpeed;
  if (!axle.driven) return;
  const { gear, wheelSpin } = at;
  const T = at.torque;
  const omega = at.motorSpeed;
  const rotor = axle.rotorInertia * gear.ratio * wheelSpin;
  out[states + 5] = out[states + 5]! + at.force * at.slipSpeed;
  let spinUp = out[states + 4]! + gear.wheelInertia * wheelSpin * wheelSpeed;
  if (!isOpen(axle, breaks)) {
    // From the losses themselves, not as what is left over: then the ledger's balance is a test.
    const geared = T - rotor - axle.dragTorque;
    out[states + 3] = out[states + 3]! + ((1 - gear.efficiency) * geared + axle.dragTorque) * omega;
    spinUp += rotor * omega;
    out[states + 10] = out[states + 10]! + (at.available - T) * omega;
  }
  out[states + 4] = spinUp;
}

/** Lumped heat: what is lost warms, what is warmer than the air cools. K/s of a drive unit at its temperature. */
export function unitWarming(axle: AxleFigures, at: AxleNow, air: number): number {
  return (at.heat - axle.unitCooling * (at.temperature - air)) / axle.unitCapacity;
}
