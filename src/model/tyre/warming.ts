/**
 * A tyre that has stood rolls harder than a warm one. What is left of the cold falls with the square of what is left of the time
 * that it takes to get warm: its integral is that of a decay with a third of that time as time constant, but it comes to an end.
 * (The shape is common practice, no source.)
 */

/** The root of the share of the cold that is left after driving. @param root of the share at the start. */
export function rootAfter(root: number, seconds: number, warmAfter: number): number {
  return Math.max(0, root - seconds / warmAfter);
}

/** Mean of the share from one time of driving to another, s. */
export function meanCold(root: number, from: number, to: number, warmAfter: number): number {
  const [a, b] = [rootAfter(root, from, warmAfter), rootAfter(root, to, warmAfter)];
  if (b > 0 || a === 0 || to <= from) return (a * a + a * b + b * b) / 3;
  // Warm within: the mean of what was cold, and nothing from then on.
  return ((a * a) / 3) * Math.min(1, (a * warmAfter) / (to - from));
}

/** The root after standing: the warmth goes as it came. */
export function rootStood(root: number, seconds: number, coldAfter: number): number {
  const warm = rootAfter(Math.sqrt(1 - root * root), seconds, coldAfter);
  return Math.sqrt(1 - warm * warm);
}
