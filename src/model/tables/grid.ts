/**
 * A smooth surface z(x, y) through a table on a rectangular grid: bicubic Hermite patches on the slopes of the monotone
 * curve (`curve.ts`), kept here because no library on npm interpolates monotonely in two dimensions, let alone without
 * allocating.
 *
 * Continuous with its first derivatives. On a grid line it is the monotone curve through the points of that line; between
 * the lines it never leaves the range of the four corners of its cell, because the cross derivatives are chosen so that
 * all 16 Bernstein coefficients of the patch lie within it (convex hull property; Farin, *Curves and Surfaces for CAGD*,
 * from memory). Such a cross derivative always exists with the slopes of that curve, which are harmonic means: what the
 * cells on both sides of a point ask of it then leaves room, by the inequality of the arithmetic and geometric mean.
 */
import { monotoneSlopes } from './curve.ts';
import { nth } from '../../columns.ts';

/** A point of the table. Starts from fractions, so that the engine keeps its fields as such. */
class Point {
  value = 0.5;
  /** Slopes in x and in y, and the cross derivative. */
  alongX = 0.5;
  alongY = 0.5;
  across = 0.5;
}

/** A cell of the table: its borders, and its corners a at (x0, y0), b at (x0, y1), c at (x1, y0), d at (x1, y1). */
interface Cell {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly a: Point;
  readonly b: Point;
  readonly c: Point;
  readonly d: Point;
}

/** A table ready for evaluation. */
export interface Grid {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** All of the first x first. */
  readonly cells: readonly Cell[];
  /** The one of the last evaluation: the next is mostly near. */
  held: Cell;
}

export interface GridOptions {
  /** Takes the table as one half of a surface that is even in y: no slope across the first y, which must be 0. */
  readonly even?: boolean;
}

/**
 * The surface through a table. `x` and `y` strictly ascending, two points or more each, `z` with all y of the first x first, all numbers
 * finite; a RangeError says what is wrong otherwise.
 *
 * Beyond the table the surface goes on as a straight line across each border, so that it stays smooth for a solver that
 * looks slightly past the end; whether such a value may be used is the caller's to decide.
 */
export function surfaceThrough(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  z: ArrayLike<number>,
  { even = false }: GridOptions = {},
): Grid {
  checkAxis(x, 'x');
  checkAxis(y, 'y');
  const [nx, ny] = [x.length, y.length];
  if (z.length !== nx * ny)
    throw new RangeError(`a grid of ${nx} x ${ny} points needs as many values, not ${z.length}`);
  if (even && y[0] !== 0) throw new RangeError(`an even surface starts at y = 0, not ${y[0]}`);
  const points = Array.from({ length: nx * ny }, (_, k) => {
    const value = nth(z, k);
    if (Number.isFinite(value)) return Object.assign(new Point(), { value });
    throw new RangeError(`the value at (${x[Math.floor(k / ny)]}, ${y[k % ny]}) is not a number: ${value}`);
  });
  const table: Table = { x: Float64Array.from(x), y: Float64Array.from(y), points };
  putSlopes(table, even);
  putCrosses(table, even);
  const cells = cellsOf(table);
  const [held] = cells;
  if (held === undefined) throw new RangeError('a grid without a cell');
  return { x: table.x, y: table.y, cells, held };
}

/** Value, slope in x and slope in y at a place, into `out[0]` to `out[2]`. Allocates nothing. */
export function evaluateGrid(grid: Grid, x: number, y: number, out: Float64Array): void {
  const { x0, x1, y0, y1, a, b, c, d } = cellAt(grid, x, y);
  const cx = x < x0 ? x0 : x > x1 ? x1 : x;
  const cy = y < y0 ? y0 : y > y1 ? y1 : y;
  const hx = x1 - x0;
  const hy = y1 - y0;
  const u = (cx - x0) / hx;
  const v = (cy - y0) / hy;
  // Cubic Hermite basis in y (Fritsch & Carlson 1980) and its derivative: end value, and the slopes of both ends.
  const a1 = v * v * (3 - 2 * v);
  const b0 = hy * v * (1 - v) * (1 - v);
  const b1 = hy * v * v * (v - 1);
  const a1y = (6 * v * (1 - v)) / hy;
  const b0y = (1 - v) * (1 - 3 * v);
  const b1y = v * (3 * v - 2);
  // Value z and slope s in x, on the two grid lines of the cell, each with its derivative in y.
  const z0 = a.value;
  const dz0 = b.value - z0;
  const za = z0 + a1 * dz0 + b0 * a.alongY + b1 * b.alongY;
  const zay = a1y * dz0 + b0y * a.alongY + b1y * b.alongY;
  const ds0 = b.alongX - a.alongX;
  const sa = a.alongX + a1 * ds0 + b0 * a.across + b1 * b.across;
  const say = a1y * ds0 + b0y * a.across + b1y * b.across;
  const z1 = c.value;
  const dz1 = d.value - z1;
  const zb = z1 + a1 * dz1 + b0 * c.alongY + b1 * d.alongY;
  const zby = a1y * dz1 + b0y * c.alongY + b1y * d.alongY;
  const ds1 = d.alongX - c.alongX;
  const sb = c.alongX + a1 * ds1 + b0 * c.across + b1 * d.across;
  const sby = a1y * ds1 + b0y * c.across + b1y * d.across;
  // The same basis in x between the two.
  const c1 = u * u * (3 - 2 * u);
  const d0 = hx * u * (1 - u) * (1 - u);
  const d1 = hx * u * u * (u - 1);
  const c1x = (6 * u * (1 - u)) / hx;
  const d0x = (1 - u) * (1 - 3 * u);
  const d1x = u * (3 * u - 2);
  const z = za + c1 * (zb - za) + d0 * sa + d1 * sb;
  const zx = c1x * (zb - za) + d0x * sa + d1x * sb;
  const zy = zay + c1 * (zby - zay) + d0 * say + d1 * sby;
  const beyondX = x - cx;
  const beyondY = y - cy;
  if (beyondX === 0 && beyondY === 0) {
    out[0] = z;
    out[1] = zx;
    out[2] = zy;
    return;
  }
  const zxy = c1x * (zby - zay) + d0x * say + d1x * sby;
  out[0] = z + zx * beyondX + (zy + zxy * beyondX) * beyondY;
  out[1] = zx + zxy * beyondY;
  out[2] = zy + zxy * beyondX;
}

const answer = new Float64Array(3);

/** Value at a place. Allocates nothing. */
export function gridAt(grid: Grid, x: number, y: number): number {
  evaluateGrid(grid, x, y, answer);
  return nth(answer, 0);
}

/** The cell that holds a place, the outermost cells reaching on for ever. */
function cellAt(grid: Grid, x: number, y: number): Cell {
  const { held } = grid;
  if (x >= held.x0 && x < held.x1 && y >= held.y0 && y < held.y1) return held;
  const found = grid.cells[(grid.y.length - 1) * indexAt(grid.x, x) + indexAt(grid.y, y)];
  if (found === undefined) throw new RangeError('a place in no cell');
  grid.held = found;
  return found;
}

/** Number of the interval of an axis that holds `at`. */
function indexAt(axis: Float64Array, at: number): number {
  let low = 0;
  let high = axis.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (at < nth(axis, middle)) high = middle;
    else low = middle;
  }
  return low;
}

function checkAxis(axis: ArrayLike<number>, name: string): void {
  if (axis.length < 2) throw new RangeError(`a grid needs two ${name} or more, not ${axis.length}`);
  for (let k = 0; k < axis.length; k++) {
    if (!Number.isFinite(axis[k])) throw new RangeError(`${name} ${k + 1} of the grid is not a number: ${axis[k]}`);
    if (k > 0 && !(nth(axis, k) > nth(axis, k - 1))) {
      throw new RangeError(`${name} must ascend, but number ${k + 1} is ${axis[k]} after ${axis[k - 1]}`);
    }
  }
}

/** The points of a grid while they are worked out, all y of the first x first. */
interface Table {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly points: readonly Point[];
}

/** @throws RangeError for a place beside the table. */
function pointAt({ x, y, points }: Table, i: number, j: number): Point {
  const found = i < x.length && j < y.length ? points[y.length * i + j] : undefined;
  if (found === undefined) throw new RangeError(`the table has no point ${i}, ${j}`);
  return found;
}

function cellsOf(table: Table): readonly Cell[] {
  const { x, y } = table;
  return Array.from(x.subarray(1), (x1, i) =>
    Array.from(y.subarray(1), (y1, j) => ({
      x0: nth(x, i),
      x1,
      y0: nth(y, j),
      y1,
      a: pointAt(table, i, j),
      b: pointAt(table, i, j + 1),
      c: pointAt(table, i + 1, j),
      d: pointAt(table, i + 1, j + 1),
    })),
  ).flat();
}

/** Slopes along all grid lines. */
function putSlopes(table: Table, even: boolean): void {
  const { x, y, points } = table;
  for (let j = 0; j < y.length; j++) {
    const slopes = monotoneSlopes(
      x,
      x.map((_, i) => pointAt(table, i, j).value),
    );
    for (const [i, slope] of slopes.entries()) pointAt(table, i, j).alongX = slope;
  }
  for (let i = 0; i < x.length; i++) {
    const line = points.slice(y.length * i, y.length * (i + 1));
    const slopes = monotoneSlopes(
      y,
      line.map(({ value }) => value),
    );
    for (const [j, slope] of slopes.entries()) pointAt(table, i, j).alongY = even && j === 0 ? 0 : slope;
  }
}

/** Cross derivatives at all points, held within what the cells around allow. */
function putCrosses(table: Table, even: boolean): void {
  const { x, y, points } = table;
  for (const point of points) point.across = 0;
  for (let i = 0; i < x.length; i++) {
    for (let j = even ? 1 : 0; j < y.length; j++) {
      const ofX = (k: number): number => pointAt(table, i, k).alongX;
      const ofY = (k: number): number => pointAt(table, k, j).alongY;
      const middle = 0.5 * (difference(x, i, ofY) + difference(y, j, ofX));
      const [low, high] = rangeAt(table, i, j);
      pointAt(table, i, j).across = Math.min(high, Math.max(low, middle));
    }
  }
}

/**
 * Least and greatest cross derivative that all cells around a point allow: they keep z ± hx/3 zx ± hy/3 zy ± hx hy/9 zxy, the
 * inner Bernstein coefficient of each cell, within its corners.
 */
function rangeAt(table: Table, i: number, j: number): readonly [low: number, high: number] {
  const { x, y } = table;
  const { value: z, alongX, alongY } = pointAt(table, i, j);
  let low = -Infinity;
  let high = Infinity;
  for (let sx = -1; sx <= 1; sx += 2) {
    if (i + sx < 0 || i + sx >= x.length) continue;
    const hx = nth(x, i + sx) - nth(x, i);
    for (let sy = -1; sy <= 1; sy += 2) {
      if (j + sy < 0 || j + sy >= y.length) continue;
      const hy = nth(y, j + sy) - nth(y, j);
      const beside = pointAt(table, i + sx, j).value;
      const above = pointAt(table, i, j + sy).value;
      const across = pointAt(table, i + sx, j + sy).value;
      const flat = z + (hx / 3) * alongX + (hy / 3) * alongY;
      const down = (9 * (Math.min(z, beside, above, across) - flat)) / (hx * hy);
      const up = (9 * (Math.max(z, beside, above, across) - flat)) / (hx * hy);
      low = Math.max(low, sx === sy ? down : up);
      high = Math.min(high, sx === sy ? up : down);
    }
  }
  return [low, high];
}

/** Derivative of a slope along an axis at its point `k`: through three points inside, through two at an end. */
function difference(axis: Float64Array, k: number, slope: (k: number) => number): number {
  const n = axis.length;
  const before = k === 0 ? 0 : nth(axis, k) - nth(axis, k - 1);
  const after = k === n - 1 ? 0 : nth(axis, k + 1) - nth(axis, k);
  const fromBefore = k === 0 ? 0 : (slope(k) - slope(k - 1)) / before;
  const toAfter = k === n - 1 ? 0 : (slope(k + 1) - slope(k)) / after;
  if (k === 0) return toAfter;
  return k === n - 1 ? fromBefore : (after * fromBefore + before * toAfter) / (before + after);
}
