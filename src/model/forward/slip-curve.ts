/** The slip curve of an axle, for where it is asked for over and over. */
import * as elementary from '../../elementary.ts';
import type { AxleFigures } from './figures.ts';

/** Pieces of x = B slip in which the curve stands as a series: so narrow that seven terms leave what round-off leaves: a guard that was at zero in one mode must not fire in the next. */
const PER_PIECE = 64;
const HALF_PIECE = 0.5 / PER_PIECE;
const PIECES = 256;

/** Past them 1/x falls from here to nothing, and the curve goes on as a series in it. */
const FAR = PER_PIECE / PIECES;
const FAR_PIECES = Math.ceil(FAR * PER_PIECE);

/** Numbers of a piece: the shape that it was made for, then its coefficients. */
const RECORD = 8;

/** Room for the pieces of an axle, for one about a slip that lies in none of them, and for those far past the peak. */
export function slipSeries(): Float64Array {
  return new Float64Array((PIECES + 1 + FAR_PIECES) * RECORD);
}

/** What is found on the curve, and the series it is found by. */
interface OnCurve {
  readonly series: Float64Array;
  share: number;
  shareSlope: number;
  shareBend: number;
}

/** Share of the peak force at x = B slip, its slope and its bend: sigma = sin(C atan x). */
export function slipCurve(axle: AxleFigures, at: OnCurve, x: number): void {
  const { series } = at;
  const piece = Math.floor(x * PER_PIECE);
  let h = 0;
  let k = PIECES * RECORD;
  if (piece >= 0 && piece < PIECES) {
    k = piece * RECORD;
    const center = piece * (2 * HALF_PIECE) + HALF_PIECE;
    h = x - center;
    if (series[k] !== axle.shape) expand(axle.shape, center, series, k);
  } else expand(axle.shape, x, series, k);
  const s1 = series[k + 2]!;
  const s2 = series[k + 3]!;
  const s3 = series[k + 4]!;
  const s4 = series[k + 5]!;
  const s5 = series[k + 6]!;
  const s6 = series[k + 7]!;
  at.share = series[k + 1]! + h * (s1 + h * (s2 + h * (s3 + h * (s4 + h * (s5 + h * s6)))));
  at.shareSlope = s1 + h * (2 * s2 + h * (3 * s3 + h * (4 * s4 + h * (5 * s5 + h * 6 * s6))));
  at.shareBend = 2 * s2 + h * (6 * s3 + h * 12 * s4);
}

/** The share alone, at any stretch. */
export function slipShare(axle: AxleFigures, at: OnCurve & { readonly stretch: number }): void {
  const x = axle.stiffness * at.stretch;
  if (x >= 0 && x < PIECES / PER_PIECE) slipCurve(axle, at, x);
  else if (x > 0) farShare(axle, at, 1 / x);
  else at.share = elementary.sin(axle.shape * elementary.atan(x));
}

/** Far past the peak, over what is 1 over x there: C atan x = C (pi/2 - atan 1/x), which falls with it. */
function farShare({ shape }: AxleFigures, at: OnCurve, inverse: number): void {
  const { series } = at;
  const piece = Math.min(Math.floor(inverse * PER_PIECE), FAR_PIECES - 1);
  const center = piece * (2 * HALF_PIECE) + HALF_PIECE;
  const k = (PIECES + 1 + piece) * RECORD;
  if (series[k] !== shape) {
    taylor(-shape, shape * elementary.atan(1 / center), center, series, k);
    series[k] = shape;
  }
  const h = inverse - center;
  let share = 0;
  for (let i = RECORD - 1; i > 0; i--) share = share * h + (series[k + i] ?? Number.NaN);
  at.share = share;
}

/** One piece of the curve itself, about x. */
function expand(C: number, x: number, series: Float64Array, k: number): void {
  taylor(C, C * elementary.atan(x), x, series, k);
  series[k] = C;
}

/**
 * The Taylor series about x of the sine of an angle that turns by C / (1 + x^2), from the angle there: with kappa its cosine,
 * (1 + x^2) sigma' = C kappa and (1 + x^2) kappa' = -C sigma give its coefficients one after the other.
 */
function taylor(C: number, angle: number, x: number, series: Float64Array, k: number): void {
  const s0 = elementary.sin(angle);
  // The middle of the piece that holds the peak may lie past it: there the cosine is below zero.
  const k0 = elementary.cos(angle);
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
  series[k + 1] = s0;
  series[k + 2] = s1;
  series[k + 3] = s2;
  series[k + 4] = s3;
  series[k + 5] = s4;
  series[k + 6] = s5;
  series[k + 7] = (1 / 6) * (f * k5 - 5 * g * s5 - 4 * r * s4);
}
