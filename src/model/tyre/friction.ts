/** Friction under load, on the plant's flat blocks. */
import { A, B } from '../forward/state.ts';

/** Past this relative change of the load the power is taken anew. */
const ANCHOR_RANGE = 2e-3;

/**
 * Peak friction of an axle under load N: mu0 (N/N0)^-q. The power is taken at an anchor and carried from there by its
 * binomial series, to 1e-15 within 0.2 %: loads change slowly, and a power costs as much as all the rest.
 */
export function friction(p: Float64Array, w: Float64Array, o: number, b: number, N: number): number {
  const q = p[o + A.loadExponent]!;
  if (q === 0) return p[o + A.peak]!;
  let e = N / w[b + B.anchorLoad]! - 1;
  if (!(Math.abs(e) < ANCHOR_RANGE)) {
    w[b + B.anchorLoad] = N;
    w[b + B.anchorFriction] = p[o + A.peak]! * (N / p[o + A.loadReference]!) ** -q;
    e = 0;
  }
  return (
    w[b + B.anchorFriction]! * (1 - q * e * (1 - ((q + 1) / 2) * e * (1 - ((q + 2) / 3) * e * (1 - ((q + 3) / 4) * e))))
  );
}
