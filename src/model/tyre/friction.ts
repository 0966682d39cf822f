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

/** Where the power was last taken: 1/N there, and the binomial series of the friction about it. A load that is no number asks for it anew. */
export class FrictionAnchor {
  perLoad = Number.NaN;
  mu0 = Number.NaN;
  mu1 = Number.NaN;
  mu2 = Number.NaN;
  mu3 = Number.NaN;
  mu4 = Number.NaN;
  mu5 = Number.NaN;
  mu6 = Number.NaN;
  mu7 = Number.NaN;
  mu8 = Number.NaN;
}

/** What has such an anchor. */
export interface Anchored {
  readonly anchor: FrictionAnchor;
}

/**
 * Peak friction under load N: as `frictionAtLoad`, with the power taken at an anchor and carried from there by its binomial series,
 * to 1e-14 within 3 %: loads change slowly, and a power costs as much as all the rest. Of a live axle what its lighter wheel leaves.
 */
export function friction(tyre: TyreFriction, at: Anchored, N: number): number {
  const mu = peakUnder(tyre, at.anchor, N);
  return tyre.unloading === 0 ? mu : mu / (1 + tyre.unloading * mu);
}

/** N under an axle that would lift off: no grip to speak of, and all that follows from it stays a number. */
const LIFTED = 1e-3;

/** Friction under the load of an axle, and N that it grips with. */
export function takeGrip(tyre: TyreFriction, at: Anchored & { readonly load: number; grip: number }): void {
  const N = at.load > LIFTED ? at.load : LIFTED;
  at.grip = friction(tyre, at, N) * N;
}

/** How the force of friction grows with the load, over that friction: d(mu N)/dN / mu. @param mu the friction, of a live axle what is left. */
export function loadShare({ loadExponent, unloading }: TyreFriction, mu: number): number {
  return 1 - loadExponent * (1 - unloading * mu);
}

function peakUnder(tyre: TyreFriction, anchor: FrictionAnchor, N: number): number {
  if (tyre.loadExponent === 0) return tyre.peak;
  let e = N * anchor.perLoad - 1;
  if (!(Math.abs(e) < ANCHOR_RANGE)) {
    anchorAt(tyre, anchor, N);
    e = 0;
  }
  return carried(anchor, e);
}

/** Apart: it is seldom, and what is left of the other the engine takes in where it is called. */
function anchorAt({ peak, loadReference, loadExponent: q }: TyreFriction, anchor: FrictionAnchor, N: number): void {
  const mu = frictionAtLoad(peak, N, loadReference, q);
  anchor.perLoad = 1 / N;
  anchor.mu0 = mu;
  anchor.mu1 = -q * mu;
  anchor.mu2 = ((q + 1) / -2) * anchor.mu1;
  anchor.mu3 = ((q + 2) / -3) * anchor.mu2;
  anchor.mu4 = ((q + 3) / -4) * anchor.mu3;
  anchor.mu5 = ((q + 4) / -5) * anchor.mu4;
  anchor.mu6 = ((q + 5) / -6) * anchor.mu5;
  anchor.mu7 = ((q + 6) / -7) * anchor.mu6;
  anchor.mu8 = ((q + 7) / -8) * anchor.mu7;
}

/** Friction at the load of the anchor times 1 + e: in pairs and pairs of pairs, that the processor works on side by side. */
function carried(anchor: FrictionAnchor, e: number): number {
  const square = e * e;
  const fourth = square * square;
  const near = anchor.mu0 + anchor.mu1 * e + square * (anchor.mu2 + anchor.mu3 * e);
  const far = anchor.mu4 + anchor.mu5 * e + square * (anchor.mu6 + anchor.mu7 * e);
  return near + fourth * (far + fourth * anchor.mu8);
}
