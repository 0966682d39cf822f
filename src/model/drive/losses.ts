/** Losses of a drive unit of which only the ratings are known. */
import * as elementary from '../../elementary.ts';
import type { Spread } from '../fields/input.ts';

/**
 * Parts of the loss as shares of the peak power: copper at peak torque, iron and windage at the greatest speed that such a unit
 * usually has, the fixed part at any.
 * Copper 6.5 % is that of the motor of 100 kW in Larminie & Lowry, *Electric Vehicle Technology Explained*, by its constant
 * kc = 0.3; the rest is such that the efficiencies are those of published maps of permanent-magnet traction motors (from memory):
 * 96 to 97.5 % at best, 90 to 93 % at peak torque and corner speed, 88 to 92 % at a twentieth of the torque. The fixed part was
 * chosen with measured consumption of 53 cars in view (docs/PROOF.md). The formula knows no field weakening: at peak power and
 * greatest speed it is 1 to 3 points too good.
 */
const SHARES = { copper: 0.065, iron: 0.012, windage: 0.01, fixed: 0.002 };

/** Of those shares: published maps differ by so much (common practice, no source). */
const FACTORS = { copper: [0.7, 1.3], iron: [0.5, 1.5], windage: [0.5, 1.5], fixed: [0, 1.75] } as const;

export interface ScaledLosses {
  readonly copperLoss: number;
  readonly ironLoss: number;
  readonly windageLoss: number;
  readonly fixedLoss: number;
}

/**
 * Constants of kc T^2 + ki w + kw w^3 + c.
 * Iron loss goes with active iron times speed, and the iron with the torque: whoever holds a unit below the speed that it could
 * turn does not change what it loses at a speed that it does turn.
 * @param peakPower W. @param peakTorque N m. @param maxSpeed rad/s, that its kind usually has, or its own where that is higher.
 */
export function scaledLosses(peakPower: number, peakTorque: number, maxSpeed: number): ScaledLosses {
  return {
    copperLoss: (SHARES.copper * peakPower) / elementary.pow(peakTorque, 2),
    ironLoss: (SHARES.iron * peakPower) / maxSpeed,
    windageLoss: (SHARES.windage * peakPower) / elementary.pow(maxSpeed, 3),
    fixedLoss: SHARES.fixed * peakPower,
  };
}

/** How far each of them may be off. */
export function lossSpreads(losses: ScaledLosses): { readonly [K in keyof ScaledLosses]: Spread } {
  const spread = (value: number, [low, high]: readonly [number, number]): Spread => ({
    kind: 'rectangular',
    low: low * value,
    high: high * value,
  });
  return {
    copperLoss: spread(losses.copperLoss, FACTORS.copper),
    ironLoss: spread(losses.ironLoss, FACTORS.iron),
    windageLoss: spread(losses.windageLoss, FACTORS.windage),
    fixedLoss: spread(losses.fixedLoss, FACTORS.fixed),
  };
}
