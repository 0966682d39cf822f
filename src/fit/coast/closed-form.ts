/**
 * A car that coasts under a force of three terms, in closed form. dv/dt = -(a + b v + c v^2) is a Riccati equation with constant
 * coefficients; its solution is a fractional linear function of tan(w t)/w, w^2 = a c - b^2/4 (textbook; tests hold it against the
 * integrals of Guzzella and Sciarretta's coasting car), which stays smooth where w^2 passes zero.
 */
import * as elementary from '../../elementary.ts';

/** Deceleration of a coasting car over its speed, m/s2: a + b v + c v^2. */
export interface Slowing {
  /** m/s2. */
  readonly a: number;
  /** 1/s. */
  readonly b: number;
  /** 1/m. */
  readonly c: number;
}

/** m/s at `time` seconds after `start` m/s. NaN once it would have gone past any speed. */
export function speedAfter({ a, b, c }: Slowing, start: number, time: number): number {
  const turned = tangent(a * c - (b * b) / 4, time);
  const below = 1 + (c * start + b / 2) * turned;
  return below > 0 ? (start - (a + (b * start) / 2) * turned) / below : Number.NaN;
}

/** s from one speed down to another, m/s. NaN where the car does not get there. */
export function timeBetween({ a, b, c }: Slowing, from: number, to: number): number {
  const turned = (from - to) / (a + (b * (from + to)) / 2 + c * from * to);
  if (!(turned > 0)) return Number.NaN;
  const square = a * c - (b * b) / 4;
  if (square > 0) return elementary.atan(Math.sqrt(square) * turned) / Math.sqrt(square);
  const k = Math.sqrt(-square);
  return k * turned < 1e-9 ? turned : elementary.atanh(k * turned) / k;
}

/** tan(w t)/w, tanh for w^2 below nothing, t at nothing. */
function tangent(square: number, time: number): number {
  const turn = Math.sqrt(Math.abs(square)) * time;
  if (turn < 1e-6) return time;
  if (square < 0) return (elementary.tanh(turn) / turn) * time;
  return turn < Math.PI / 2 ? (elementary.tan(turn) / turn) * time : Number.POSITIVE_INFINITY;
}
