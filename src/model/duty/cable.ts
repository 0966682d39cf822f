/** What currents do to a cable: how warm it gets, and what section bears a short circuit. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { durationOf } from './track.ts';
import type { Track } from './track.ts';

/** A cable by one point of its data sheet. */
export interface Cable {
  /** A for ever, and K that it is then warmer than its surroundings. */
  readonly current: number;
  readonly rise: number;
  /** s: it is 63 % of the way there. */
  readonly time: number;
}

/** K above the surroundings at a current for ever: as its square. The change of the resistance with warmth is left aside. */
export function steadyRise({ current, rise }: Cable, amperes: number): number {
  return rise * elementary.pow(amperes / current, 2);
}

/** K after so many seconds at a current, from the temperature of the surroundings. */
export function riseAfter(cable: Cable, amperes: number, seconds: number): number {
  return -steadyRise(cable, amperes) * elementary.expm1(-seconds / cable.time);
}

export interface Warmed {
  /** K above the surroundings, the most in the run from a cold cable, and when it is repeated for ever without a pause. */
  readonly once: number;
  readonly repeated: number;
}

/** One time constant: T dtheta/dt = theta(I) - theta, exact for the straight pieces of the track. */
export function warmedBy(cable: Cable, track: Track): Warmed {
  const cold = peakFrom(cable, track, 0);
  const left = -elementary.expm1(-durationOf(track) / cable.time);
  if (!(left > 0)) return { once: cold.most, repeated: cold.most };
  const repeated = peakFrom(cable, track, cold.end / left);
  return { once: cold.most, repeated: repeated.most };
}

/** K at the end and the most at the ends of pieces. */
function peakFrom(
  { current, rise, time }: Cable,
  { length, from, to }: Track,
  start: number,
): { end: number; most: number } {
  const per = rise / (current * current);
  let [end, most] = [start, start];
  for (let i = 0; i < length.length; i++) {
    const [h, a, b] = [nth(length, i), nth(from, i), nth(to, i)];
    const z = h / time;
    end = end * elementary.exp(-z) + per * z * weighed(z, a, b - a);
    if (end > most) most = end;
  }
  return { end, most };
}

/** Below it the integrals are taken at two Gauss-Legendre points, which is better there than the differences of closed forms. */
const SHORT = 0.02;

/** The integral over u from 0 to 1 of (a + d u)^2 e^(-z (1 - u)). */
function weighed(z: number, a: number, d: number): number {
  if (z < SHORT) {
    const at = (u: number): number => elementary.pow(a + d * u, 2) * elementary.exp(-z * (1 - u));
    return 0.5 * (at(FIRST) + at(SECOND));
  }
  const none = -elementary.expm1(-z) / z;
  const one = (1 - none) / z;
  const two = (1 - 2 * one) / z;
  return a * a * none + 2 * a * d * one + d * d * two;
}

/** What a conductor is made of: 1/K less a kelvin scale, V s / (m3 K) and ohm m at 20 degC, as IEC 60949 tabulates them (from memory). */
const METALS = {
  copper: { beta: 234.5, heat: 3.45e6, resistivity: 1.7241e-8 },
  aluminium: { beta: 228, heat: 2.5e6, resistivity: 2.8264e-8 },
} as const;

export type Metal = keyof typeof METALS;

/** degC of 0 K. */
const ZERO = -273.15;

/**
 * k in I^2 t = k^2 S^2, A s^(1/2) / m2: nothing leaves the conductor while the short circuit lasts (IEC 60949, adiabatic).
 * @param from @param to K before and after.
 */
export function adiabaticConstant(metal: Metal, from: number, to: number): number {
  const { beta, heat, resistivity } = METALS[metal];
  const rise = elementary.log((beta + to + ZERO) / (beta + from + ZERO));
  return Math.sqrt(((heat * (beta + 20)) / resistivity) * rise);
}

/** m2 that bear so many A^2 s. */
export function leastSection(heat: number, constant: number): number {
  return Math.sqrt(heat) / constant;
}
