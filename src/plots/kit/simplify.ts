/** Fewer points for the same line: what can not be seen is left out, corners stay. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Part of the height of a picture by which a line may be off: well under half a pixel. */
const UNSEEN = 1 / 1500;

/** Points of one line that a page can bear. */
const MOST = 1500;

/**
 * The points of a line without those that lie on the straight way between their neighbours (Douglas & Peucker 1973,
 * measured along y, since x is time or speed and only grows). The first and the last stay. A line with more than `most`
 * points even so is drawn coarser; its peaks stay.
 */
export function simplify(points: readonly Point[], most: number = MOST): readonly Point[] {
  const [low, high] = points.reduce(([a, b], { y }) => [Math.min(a, y), Math.max(b, y)], [Infinity, -Infinity]);
  let tolerance = UNSEEN * (high - low);
  let kept = within(points, tolerance);
  while (kept.length > Math.max(2, most)) {
    tolerance *= 1.5;
    kept = within(points, tolerance);
  }
  return kept;
}

function within(points: readonly Point[], tolerance: number): readonly Point[] {
  const kept = new Set([0, points.length - 1]);
  const open: (readonly [number, number])[] = [[0, points.length - 1]];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    const furthest = worst(points, part[0], part[1], tolerance);
    if (furthest === null) continue;
    kept.add(furthest);
    open.push([part[0], furthest], [furthest, part[1]]);
  }
  return points.filter((_, i) => kept.has(i));
}

/** The point between two others that is furthest from the straight line, or null when none is further than `tolerance`. */
function worst(points: readonly Point[], from: number, to: number, tolerance: number): number | null {
  const [a, b] = [points[from], points[to]];
  if (a === undefined || b === undefined) return null;
  let found: number | null = null;
  let most = tolerance;
  for (let i = from + 1; i < to; i++) {
    const point = points[i];
    if (point === undefined) continue;
    const level = b.x > a.x ? a.y + ((point.x - a.x) / (b.x - a.x)) * (b.y - a.y) : a.y;
    const off = Math.abs(point.y - level);
    if (off > most) [found, most] = [i, off];
  }
  return found;
}
