/** Fewer points for the same line: what can not be seen is left out, corners stay. */

import { nth } from '../../columns.ts';

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
  const needed = neededUpTo(points, tolerance);
  while (needed.reduce((count, until) => (until > tolerance ? count + 1 : count), 0) > Math.max(2, most)) {
    tolerance *= 1.5;
  }
  return points.filter((_, i) => nth(needed, i) > tolerance);
}

/** Up to which tolerance each point stays: as long as it is off by more, and so is every point that was kept before it. 0 where none below `least`. */
function neededUpTo(points: readonly Point[], least: number): Float64Array {
  const needed = new Float64Array(points.length);
  needed[0] = needed[points.length - 1] = Infinity;
  const open: (readonly [from: number, to: number, until: number])[] = [[0, points.length - 1, Infinity]];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    const [from, to, before] = part;
    const furthest = worst(points, from, to, least);
    if (furthest === null) continue;
    const until = Math.min(before, furthest.off);
    needed[furthest.at] = until;
    open.push([from, furthest.at, until], [furthest.at, to, until]);
  }
  return needed;
}

/** The point between two others that is furthest from the straight line, or null when none is further than `tolerance`. */
function worst(
  points: readonly Point[],
  from: number,
  to: number,
  tolerance: number,
): { readonly at: number; readonly off: number } | null {
  const [a, b] = [points[from], points[to]];
  if (a === undefined || b === undefined) return null;
  let at = -1;
  let most = tolerance;
  for (let i = from + 1; i < to; i++) {
    const point = points[i];
    if (point === undefined) continue;
    const level = b.x > a.x ? a.y + ((point.x - a.x) / (b.x - a.x)) * (b.y - a.y) : a.y;
    const off = Math.abs(point.y - level);
    if (off > most) {
      at = i;
      most = off;
    }
  }
  return at < 0 ? null : { at, off: most };
}
