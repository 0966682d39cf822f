/** The slip curve of an axle, for where it is asked for over and over near the same slip. */
import type { AxleFigures } from './figures.ts';
import type { AxleNow } from './instant.ts';

/**
 * Share of the peak force at x = B slip, its slope and its bend: sigma = sin(C atan x). `near` allows the Taylor series
 * about the point where the function was last taken, to 1e-13: with kappa = cos(C atan x), (1 + x^2) sigma' = C kappa and
 * (1 + x^2) kappa' = -C sigma give its coefficients one after the other.
 */
export function slipCurve(axle: AxleFigures, at: AxleNow, x: number, near: boolean): void {
  const h = x - at.center;
  if (!(near && h * h < 2e-4 * (1 + x * x))) {
    expand(axle, at, x);
    at.share = at.s0;
    at.shareSlope = at.s1;
    at.shareBend = 2 * at.s2;
    return;
  }
  const { s1, s2, s3, s4, s5, s6 } = at;
  at.share = at.s0 + h * (s1 + h * (s2 + h * (s3 + h * (s4 + h * (s5 + h * s6)))));
  at.shareSlope = s1 + h * (2 * s2 + h * (3 * s3 + h * (4 * s4 + h * (5 * s5 + h * 6 * s6))));
  at.shareBend = 2 * s2 + h * (6 * s3 + h * 12 * s4);
}

/** The coefficients of the series about x. */
function expand(axle: AxleFigures, at: AxleNow, x: number): void {
  const C = axle.shape;
  const s0 = Math.sin(C * Math.atan(x));
  const k0 = Math.sqrt(1 - s0 * s0);
  const r = 1 / (1 + x * x);
  const f = C * r;
  const g = 2 * x * r;
  const s1 = f * k0;
  const k1 = -f * s0;
  const s2 = (1 / 2) * (f * k1 - g * s1);
  const k2 = (1 / 2) * (-f * s1 - g * k1);
  const s3 = (1 / 3) * (f * k2 - 2 * g * s2 - r * s1);
  const k3 = (1 / 3) * (-f * s2 - 2 * g * k2 - r * k1);
  const s4 = (1 / 4) * (f * k3 - 3 * g * s3 - 2 * r * s2);
  const k4 = (1 / 4) * (-f * s3 - 3 * g * k3 - 2 * r * k2);
  const s5 = (1 / 5) * (f * k4 - 4 * g * s4 - 3 * r * s3);
  const k5 = (1 / 5) * (-f * s4 - 4 * g * k4 - 3 * r * k3);
  const s6 = (1 / 6) * (f * k5 - 5 * g * s5 - 4 * r * s4);
  at.center = x;
  at.s0 = s0;
  at.s1 = s1;
  at.s2 = s2;
  at.s3 = s3;
  at.s4 = s4;
  at.s5 = s5;
  at.s6 = s6;
}
