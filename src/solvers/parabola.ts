/** A parabola through three points: where a guard passes zero, and how steeply. */

/** Slope at `x` of the parabola through three points; where it does not fall there, from `x` to the nearer of the two others. */
export function slopeInside(from: number, a: number, x: number, value: number, to: number, b: number): number {
  const left = (value - a) / (x - from);
  const right = (b - value) / (to - x);
  const slope = left + right - (b - a) / (to - from);
  return slope < 0 ? slope : x - from < to - x ? left : right;
}

/** Where a parabola through three points passes zero between `from` and `to`, at which it has two signs; NaN where it does not. */
export function parabolaRoot(x0: number, f0: number, from: number, a: number, to: number, b: number): number {
  const chord = (b - a) / (to - from);
  const bend = ((a - f0) / (from - x0) - chord) / (x0 - to);
  // f = a + (x - from) (chord + bend (x - to))
  const slope = chord + bend * (from - to);
  return from - (2 * a) / (slope + Math.sign(slope) * Math.sqrt(slope * slope - 4 * bend * a));
}
