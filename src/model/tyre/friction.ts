/** Friction under load, for where it is asked for over and over. */
import { frictionAtLoad } from './slip.ts';

/** Past this relative change of the load the power is taken anew. */
const ANCHOR_RANGE = 0.03;

/** What the friction of a tyre goes by. */
export interface TyreFriction {
  /** mu at the reference load. */
  readonly peak: number;
  readonly loadExponent: number;
  /** N. */
  readonly loadReference: number;
  /** What its axle loses by unloading a wheel, per unit of friction; 0 as a rule, see `drive/live-axle.ts`. */
  readonly unloading: number;
}

/** Where the power was last taken; a load that is no number asks for it anew. */
export interface FrictionAnchor {
  anchorLoad: number;
  anchorFriction: number;
}

/**
 * Peak friction under load N: as `frictionAtLoad`, with the power taken at an anchor and carried from there by its binomial series,
 * to 1e-14 within 3 %: loads change slowly, and a power costs as much as all the rest. Of a live axle what its lighter wheel leaves.
 */
export function friction(tyre: TyreFriction, anchor: FrictionAnchor, N: number): number {
  const mu = peakUnder(tyre, anchor, N);
  return tyre.unloading === 0 ? mu : mu / (1 + tyre.unloading * mu);
}

/** N under an axle that would lift off: no grip to speak of, and all that follows from it stays a number. */
const LIFTED = 1e-3;

/** Friction under the load of an axle, and N that it grips with. */
export function takeGrip(tyre: TyreFriction, at: FrictionAnchor & { readonly load: number; grip: number }): void {
  const N = at.load > LIFTED ? at.load : LIFTED;
  at.grip = friction(tyre, at, N) * N;
}

/** How the force of friction grows with the load, over that friction: d(mu N)/dN / mu. @param mu the friction, of a live axle what is left. */
export function loadShare({ loadExponent, unloading }: TyreFriction, mu: number): number {
  return 1 - loadExponent * (1 - unloading * mu);
}

function peakUnder(tyre: TyreFriction, anchor: FrictionAnchor, N: number): number {
  const q = tyre.loadExponent;
  if (q === 0) return tyre.peak;
  const e = N / anchor.anchorLoad - 1;
  if (Math.abs(e) < ANCHOR_RANGE) return anchor.anchorFriction * carried(q, e);
  // Not as what the call returns: the engine would box the friction of every load for it.
  castAnchor(tyre, anchor, N);
  return anchor.anchorFriction;
}

/** Apart: it is seldom, and what is left of the other the engine takes in where it is called. */
function castAnchor({ peak, loadReference, loadExponent }: TyreFriction, anchor: FrictionAnchor, N: number): void {
  anchor.anchorLoad = N;
  anchor.anchorFriction = frictionAtLoad(peak, N, loadReference, loadExponent);
}

/** (1 + e)^-q. */
function carried(q: number, e: number): number {
  // In two parts that the processor works on side by side: up to the third power, and from the fourth to the eighth.
  const near = 1 - q * e * (1 - (q + 1) * (1 / 2) * e * (1 - (q + 2) * (1 / 3) * e));
  const fourth = q * (q + 1) * (q + 2) * (q + 3) * (1 / 24) * (e * e * (e * e));
  const far =
    1 - (q + 4) * (1 / 5) * e * (1 - (q + 5) * (1 / 6) * e * (1 - (q + 6) * (1 / 7) * e * (1 - (q + 7) * (1 / 8) * e)));
  return near + fourth * far;
}
