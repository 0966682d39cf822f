/**
 * Two driven axles, one of which is at its rated torque at the voltage of the bus. Below the lowest voltage that limit is reflected
 * (`sag.ts`) and rises with what the other axle draws: there is a second balance that no car has.
 */
import { lowestVoltage } from '../pack/state.ts';
import { powerDrawn } from './drive-unit.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { wheelTorque } from './limits.ts';
import { GRIP, L, LIMIT_BITS } from './state.ts';

/** Whether the balance just found is one below the lowest voltage. @param bits of the axle. */
export function isReflected(at: AxleNow, bits: number): boolean {
  return at.reflected && (bits & (GRIP | LIMIT_BITS)) === L.busVoltage;
}

/** Of the room up to the voltage without load: so far above the lowest one is safely not below it. */
const ABOVE = 1e-3;

/**
 * Begins just above the lowest voltage, without slip: torque falls the steeper the more the other axle draws, and from there on Newton's steps do not go past the
 * balance above that voltage, where there is one. From less they do.
 */
export function fromLowest(m: Moving, axle: AxleFigures, at: AxleNow, other: AxleNow): void {
  const { emf, resistance } = m.packNow;
  const lowest = lowestVoltage(m.pack, m.packNow);
  const V = lowest + ABOVE * (emf - lowest);
  at.motorSpeed = at.gear.ratio * m.now.speed * axle.perRadius;
  at.torque = (axle.powerPerVolt * V) / at.motorSpeed - axle.powerFall;
  at.otherPower = ((emf - V) * V) / resistance - powerDrawn(axle, at) - m.car.auxiliaryPower;
  other.otherWheel = wheelTorque(axle, at);
}
