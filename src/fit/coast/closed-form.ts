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

/** By how much a speed that was reached goes with each term and with the start. */
export class SpeedSlopes {
  a = 0.5;
  b = 0.5;
  c = 0.5;
  start = 0.5;
}

/** Slopes of `speedAfter` along what it is given, put into `slopes`: by the derivatives of its closed form. */
export function slopesAfter({ a, b, c }: Slowing, start: number, time: number, slopes: SpeedSlopes): void {
  const square = a * c - (b * b) / 4;
  const turned = tangent(square, time);
  const bySquare = tangentSlope(square, time, turned);
  const [along, across] = [a + (b * start) / 2, c * start + b / 2];
  const [above, below] = [start - along * turned, 1 + across * turned];
  const speed = above / below;
  const byTurned = -(along + speed * across) / below;
  slopes.a = byTurned * bySquare * c - turned / below;
  slopes.b = (-byTurned * bySquare * b) / 2 - (turned * (start + speed)) / (2 * below);
  slopes.c = byTurned * bySquare * a - (speed * start * turned) / below;
  slopes.start = (1 - (b * turned) / 2 - speed * c * turned) / below;
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

/** w^2 t^2 below which the slope of the tangent is taken from its series, which is exact to the last digits there. */
const NEAR = 3e-3;

/** Slope of tan(w t)/w along w^2: (t (1 + w^2 T^2) - T) / (2 w^2) with T for it, whose terms leave nothing near zero. */
function tangentSlope(square: number, time: number, turned: number): number {
  const y = square * time * time;
  if (Math.abs(y) > NEAR) return (time * (1 + square * turned * turned) - turned) / (2 * square);
  const series = 1 / 3 + y * (4 / 15 + y * (17 / 105 + y * (248 / 2835 + y * (1382 / 31_185))));
  return time * time * time * series;
}
