/**
 * Longitudinal force of a tyre against slip: F = mu N sin(C atan(B kappa)), the Magic Formula with E = 0 (Pacejka, *Tire
 * and Vehicle Dynamics*), written so that a user states what can be looked up: peak, sliding value, slip at the peak.
 * `share` is F / (mu_peak N). Every curve is odd in kappa.
 */
import * as elementary from '../../elementary.ts';

/**
 * Shape factor C for a ratio of sliding to peak friction, 0 < ratio <= 1: then F tends to the sliding value as the slip
 * grows without bound. At 1 the force is there at once and stays: B is then about 1e16, a tyre as good as rigid. Throws a
 * RangeError outside.
 */
export function shapeFactor(slideOverPeak: number): number {
  if (!(slideOverPeak > 0 && slideOverPeak <= 1)) {
    throw new RangeError(`sliding over peak friction must be above 0 and at most 1, not ${slideOverPeak}`);
  }
  return 2 - (2 / Math.PI) * elementary.asin(slideOverPeak);
}

/** Stiffness factor B, 1 per unit slip, that puts the peak at `slipAtPeak` (> 0) for a shape factor 1 <= C < 2. */
export function stiffnessFactor(slipAtPeak: number, C: number): number {
  if (!(slipAtPeak > 0 && slipAtPeak < Infinity)) {
    throw new RangeError(`slip at the peak must be a number above 0, not ${slipAtPeak}`);
  }
  if (!(C >= 1 && C < 2)) throw new RangeError(`shape factor must be at least 1 and below 2, not ${C}`);
  return elementary.tan(Math.PI / (2 * C)) / slipAtPeak;
}

/** Share of the peak force at slip kappa; any kappa. */
export function shareAtSlip(kappa: number, B: number, C: number): number {
  return elementary.sin(C * elementary.atan(B * kappa));
}

/** Slope of `shareAtSlip`: d share / d kappa. At kappa = 0 it is B C, the slip stiffness over the peak force. */
export function shareSlope(kappa: number, B: number, C: number): number {
  const x = B * kappa;
  return (elementary.cos(C * elementary.atan(x)) * C * B) / (1 + x * x);
}

/**
 * Slip at a share of the peak force, on the rising branch: the inverse of `shareAtSlip` for |share| <= 1. A larger share
 * has no slip, and the answer is NaN, so that a trial step of a solver that asks for it is refused. The slope is infinite
 * at share = 1.
 */
export function slipAtShare(share: number, B: number, C: number): number {
  return elementary.tan(elementary.asin(share) / C) / B;
}

/**
 * Friction under load: mu = mu0 (N/N0)^-q. `N` and `N0` > 0 in the same unit and for the same number of tyres. A tyre
 * grips a little less per newton the more it carries (Wong, *Theory of Ground Vehicles*, shows the fall; the power law is
 * common practice).
 */
export function frictionAtLoad(mu0: number, N: number, N0: number, q: number): number {
  return mu0 * elementary.pow(N / N0, -q);
}
