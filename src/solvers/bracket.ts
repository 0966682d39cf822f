/** Root of a function between two points where its sign differs. */

/**
 * Illinois method (Dowell, Jarratt, BIT 11, 1971) with bisection as a net: the point where `f` is zero between `a` and
 * `b`, to `width` or to an exact zero. `fa` and `fb` are the values at the ends and must not have the same sign.
 * Of the last bracket the end towards `b` is returned, so the sign there is that of `fb` or zero.
 */
export function findRoot(
  f: (x: number) => number,
  a: number,
  fa: number,
  b: number,
  fb: number,
  width: number,
): number {
  if (fa === 0) return a;
  let [left, right] = [a, b];
  let [atLeft, atRight] = [fa, fb];
  let side = 0;
  for (let i = 0; i < 200 && Math.abs(right - left) > width && atRight !== 0; i++) {
    let x = right - (atRight * (right - left)) / (atRight - atLeft);
    // Every third round is a bisection: bounds the work whatever the shape.
    if (i % 3 === 2 || !((x - left) * (x - right) < 0)) x = left + (right - left) / 2;
    if (x === left || x === right) break;
    const value = f(x);
    if (value < 0 === fb < 0 || value === 0) {
      [right, atRight] = [x, value];
      if (side === 1) atLeft /= 2;
      side = 1;
    } else {
      [left, atLeft] = [x, value];
      if (side === -1) atRight /= 2;
      side = -1;
    }
  }
  return right;
}
