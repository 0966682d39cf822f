/**
 * A smooth curve through a table: monotone piecewise cubic Hermite interpolation (Fritsch and Carlson, SIAM J. Numer.
 * Anal. 17 (1980) 238-246; slopes by the weighted harmonic mean of Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5
 * (1984) 300-304, as in SciPy's `PchipInterpolator`). Continuous with its first derivative, never overshoots the table.
 */
import { nth } from '../../columns.ts';

/**
 * A table ready for evaluation. One record of five numbers per point: x, then the coefficients of y = c0 + c1 d + c2 d^2 +
 * c3 d^3 with d measured from x. The last record holds the line that goes on beyond the table.
 */
export type Curve = Float64Array;

/** Numbers per point. */
export const CURVE_RECORD = 5;

const RECORD = CURVE_RECORD;

/** A number of a packed curve. Not `nth`: places are right here by construction, and a reader of one kind of table alone costs nothing. */
function part(curve: Curve, place: number): number {
  return curve[place]!;
}

/**
 * The curve through a table. `x` strictly ascending, at least one point, all numbers finite, as many `y` as `x`; a RangeError says
 * which point is wrong otherwise. One point is a constant, two are a straight line.
 *
 * Outside the table the curve goes on as a straight line with its end slope, so that it stays smooth for a solver that
 * looks slightly past the end; whether such a value may be used is the caller's to decide.
 */
export function curveThrough(x: readonly number[], y: readonly number[]): Curve {
  checkTable(x, y);
  const slopes = monotoneSlopes(x, y);
  const last = x.length - 1;
  const curve = new Float64Array(x.length * RECORD);
  for (let k = 0; k <= last; k++) {
    const xk = nth(x, k);
    const yk = nth(y, k);
    const slope = nth(slopes, k);
    curve[k * RECORD] = xk;
    curve[k * RECORD + 1] = yk;
    curve[k * RECORD + 2] = slope;
    if (k === last) break;
    const h = nth(x, k + 1) - xk;
    const secant = (nth(y, k + 1) - yk) / h;
    const next = nth(slopes, k + 1);
    curve[k * RECORD + 3] = (3 * secant - 2 * slope - next) / h;
    curve[k * RECORD + 4] = (slope + next - 2 * secant) / (h * h);
  }
  return curve;
}

/** Value of the curve at x. Allocates nothing. */
export function curveAt(curve: Curve, x: number): number {
  const k = recordAt(curve, x);
  const d = x - part(curve, k);
  const c0 = part(curve, k + 1);
  const c1 = part(curve, k + 2);
  if (d < 0) return c0 + c1 * d;
  return c0 + d * (c1 + d * (part(curve, k + 3) + d * part(curve, k + 4)));
}

/** Slope of the curve at x. Allocates nothing. */
export function curveSlopeAt(curve: Curve, x: number): number {
  const k = recordAt(curve, x);
  const d = x - part(curve, k);
  const c1 = part(curve, k + 2);
  if (d < 0) return c1;
  return c1 + d * (2 * part(curve, k + 3) + d * 3 * part(curve, k + 4));
}

/** Integral of the curve from `a` to `b`, exact. */
export function curveIntegral(curve: Curve, a: number, b: number): number {
  return antiderivative(curve, b) - antiderivative(curve, a);
}

/** Integral from the first point of the table to x. */
function antiderivative(curve: Curve, x: number): number {
  const here = recordAt(curve, x);
  let sum = 0;
  for (let k = 0; k < here; k += RECORD) sum += pieceIntegral(curve, k, part(curve, k + RECORD) - part(curve, k));
  const d = x - part(curve, here);
  if (d < 0) return sum + d * (part(curve, here + 1) + 0.5 * part(curve, here + 2) * d);
  return sum + pieceIntegral(curve, here, d);
}

function pieceIntegral(curve: Curve, k: number, d: number): number {
  const [c0, c1, c2, c3] = [part(curve, k + 1), part(curve, k + 2), part(curve, k + 3), part(curve, k + 4)];
  return d * (c0 + d * (c1 / 2 + d * (c2 / 3 + (d * c3) / 4)));
}

/** Offset of the last record whose x is not above `x`, or of the first record where there is none. */
function recordAt(curve: Curve, x: number): number {
  let low = 0;
  let high = curve.length / RECORD;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x < part(curve, middle * RECORD)) high = middle;
    else low = middle;
  }
  return low * RECORD;
}

function checkTable(x: readonly number[], y: readonly number[]): void {
  if (x.length === 0) throw new RangeError('a curve needs at least one point');
  if (x.length !== y.length) throw new RangeError(`a curve needs as many y as x, not ${y.length} and ${x.length}`);
  for (let k = 0; k < x.length; k++) {
    if (!Number.isFinite(x[k]) || !Number.isFinite(y[k])) {
      throw new RangeError(`point ${k + 1} of the curve is not a number: (${x[k]}, ${y[k]})`);
    }
    if (k > 0 && !(nth(x, k) > nth(x, k - 1))) {
      throw new RangeError(`x must ascend, but point ${k + 1} has ${x[k]} after ${x[k - 1]}`);
    }
  }
}

/** Slopes of the curve at the points of a table that `curveThrough` would take; a surface is made of them too (`grid.ts`). */
export function monotoneSlopes(x: ArrayLike<number>, y: ArrayLike<number>): Float64Array {
  const n = x.length;
  const slopes = new Float64Array(n);
  if (n === 1) return slopes;
  // Of the interval behind a point and of the one before it. No columns of these: the cells of a study are drawn by the thousand.
  let hBefore = Number.NaN;
  let before = Number.NaN;
  let h = nth(x, 1) - nth(x, 0);
  let secant = (nth(y, 1) - nth(y, 0)) / h;
  if (n === 2) return slopes.fill(secant);
  for (let k = 1; k < n - 1; k++) {
    hBefore = h;
    before = secant;
    h = nth(x, k + 1) - nth(x, k);
    secant = (nth(y, k + 1) - nth(y, k)) / h;
    if (k === 1) slopes[0] = endSlope(hBefore, h, before, secant);
    slopes[k] = innerSlope(hBefore, h, before, secant);
  }
  slopes[n - 1] = endSlope(h, hBefore, secant, before);
  return slopes;
}

/** Weighted harmonic mean of the secants on both sides; flat at a turning point of the table. */
function innerSlope(hBefore: number, hAfter: number, before: number, after: number): number {
  if (Math.sign(before) !== Math.sign(after) || before === 0) return 0;
  const w1 = 2 * hAfter + hBefore;
  const w2 = hAfter + 2 * hBefore;
  return (w1 + w2) / (w1 / before + w2 / after);
}

/** Three-point slope at an end, cut back where it would spoil the shape (Moler, *Numerical Computing with MATLAB*, 3.6). */
function endSlope(hEnd: number, hNext: number, end: number, next: number): number {
  const slope = ((2 * hEnd + hNext) * end - hEnd * next) / (hEnd + hNext);
  if (Math.sign(slope) !== Math.sign(end)) return 0;
  if (Math.sign(end) !== Math.sign(next) && Math.abs(slope) > 3 * Math.abs(end)) return 3 * end;
  return slope;
}
