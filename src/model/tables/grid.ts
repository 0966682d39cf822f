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

/**
 * A table ready for evaluation: four numbers of head, the x, the y, then per point (all y of the first x first) the value,
 * both slopes and the cross derivative. The head holds the two sizes and the cell of the last evaluation.
 */
export type Grid = Float64Array;

const HEAD = 4;
const RECORD = 4;

export interface GridOptions {
  /** Takes the table as one half of a surface that is even in y: no slope across the first y, which must be 0. */
  readonly even?: boolean;
}

/**
 * Packs a table. `x` and `y` strictly ascending, two points or more each, `z` with all y of the first x first, all numbers
 * finite; a RangeError says what is wrong otherwise.
 *
 * Beyond the table the surface goes on as a straight line across each border, so that it stays smooth for a solver that
 * looks slightly past the end; whether such a value may be used is the caller's to decide.
 */
export function packGrid(
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
  const grid = new Float64Array(HEAD + nx + ny + RECORD * nx * ny);
  grid.set([nx, ny, 0, 0]);
  grid.set(x, HEAD);
  grid.set(y, HEAD + nx);
  const base = HEAD + nx + ny;
  for (let k = 0; k < nx * ny; k++) {
    if (!Number.isFinite(z[k])) {
      throw new RangeError(`the value at (${x[Math.floor(k / ny)]}, ${y[k % ny]}) is not a number: ${z[k]}`);
    }
    grid[base + RECORD * k] = z[k]!;
  }
  for (let j = 0; j < ny; j++) putSlopes(grid, x, base + RECORD * j, RECORD * ny, 1);
  for (let i = 0; i < nx; i++) {
    putSlopes(grid, y, base + RECORD * ny * i, RECORD, 2);
    if (even) grid[base + RECORD * ny * i + 2] = 0;
  }
  putCrosses(grid, nx, ny, even);
  return grid;
}

/** Value, slope in x and slope in y at a place, into `out[0]` to `out[2]`. Allocates nothing. */
export function evaluateGrid(grid: Grid, x: number, y: number, out: Float64Array): void {
  const nx = grid[0]!;
  const ny = grid[1]!;
  const i = cellAt(grid, 2, HEAD, nx, x);
  const j = cellAt(grid, 3, HEAD + nx, ny, y);
  const x0 = grid[HEAD + i]!;
  const x1 = grid[HEAD + i + 1]!;
  const y0 = grid[HEAD + nx + j]!;
  const y1 = grid[HEAD + nx + j + 1]!;
  const cx = x < x0 ? x0 : x > x1 ? x1 : x;
  const cy = y < y0 ? y0 : y > y1 ? y1 : y;
  const hx = x1 - x0;
  const hy = y1 - y0;
  const u = (cx - x0) / hx;
  const v = (cy - y0) / hy;
  const o = HEAD + nx + ny + RECORD * (ny * i + j);
  const p = o + RECORD * ny;
  // Cubic Hermite basis in y (Fritsch & Carlson 1980) and its derivative: end value, and the slopes of both ends.
  const a1 = v * v * (3 - 2 * v);
  const b0 = hy * v * (1 - v) * (1 - v);
  const b1 = hy * v * v * (v - 1);
  const a1y = (6 * v * (1 - v)) / hy;
  const b0y = (1 - v) * (1 - 3 * v);
  const b1y = v * (3 * v - 2);
  // Value z and slope s in x, on the two grid lines of the cell, each with its derivative in y.
  const z0 = grid[o]!;
  const dz0 = grid[o + RECORD]! - z0;
  const za = z0 + a1 * dz0 + b0 * grid[o + 2]! + b1 * grid[o + RECORD + 2]!;
  const zay = a1y * dz0 + b0y * grid[o + 2]! + b1y * grid[o + RECORD + 2]!;
  const ds0 = grid[o + RECORD + 1]! - grid[o + 1]!;
  const sa = grid[o + 1]! + a1 * ds0 + b0 * grid[o + 3]! + b1 * grid[o + RECORD + 3]!;
  const say = a1y * ds0 + b0y * grid[o + 3]! + b1y * grid[o + RECORD + 3]!;
  const z1 = grid[p]!;
  const dz1 = grid[p + RECORD]! - z1;
  const zb = z1 + a1 * dz1 + b0 * grid[p + 2]! + b1 * grid[p + RECORD + 2]!;
  const zby = a1y * dz1 + b0y * grid[p + 2]! + b1y * grid[p + RECORD + 2]!;
  const ds1 = grid[p + RECORD + 1]! - grid[p + 1]!;
  const sb = grid[p + 1]! + a1 * ds1 + b0 * grid[p + 3]! + b1 * grid[p + RECORD + 3]!;
  const sby = a1y * ds1 + b0y * grid[p + 3]! + b1y * grid[p + RECORD + 3]!;
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
  return answer[0]!;
}

/** Index of the cell that holds `at` along one axis, the outermost cells reaching on for ever; kept in `grid[memory]`. */
function cellAt(grid: Grid, memory: number, axis: number, n: number, at: number): number {
  const last = grid[memory]!;
  if (at >= grid[axis + last]! && at < grid[axis + last + 1]!) return last;
  let low = 0;
  let high = n - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (at < grid[axis + middle]!) high = middle;
    else low = middle;
  }
  grid[memory] = low;
  return low;
}

function checkAxis(axis: ArrayLike<number>, name: string): void {
  if (axis.length < 2) throw new RangeError(`a grid needs two ${name} or more, not ${axis.length}`);
  for (let k = 0; k < axis.length; k++) {
    if (!Number.isFinite(axis[k])) throw new RangeError(`${name} ${k + 1} of the grid is not a number: ${axis[k]}`);
    if (k > 0 && !(axis[k]! > axis[k - 1]!)) {
      throw new RangeError(`${name} must ascend, but number ${k + 1} is ${axis[k]} after ${axis[k - 1]}`);
    }
  }
}

/** Slopes along one grid line, whose records stand `stride` apart from `start` on, into field `field` of its records. */
function putSlopes(grid: Grid, axis: ArrayLike<number>, start: number, stride: number, field: number): void {
  const values = new Float64Array(axis.length);
  for (let k = 0; k < axis.length; k++) values[k] = grid[start + stride * k]!;
  const slopes = monotoneSlopes(axis, values);
  for (let k = 0; k < axis.length; k++) grid[start + stride * k + field] = slopes[k]!;
}

/** Cross derivatives at all points, held within what the cells around allow. */
function putCrosses(grid: Grid, nx: number, ny: number, even: boolean): void {
  const row = RECORD * ny;
  for (let i = 0; i < nx; i++) {
    for (let j = even ? 1 : 0; j < ny; j++) {
      const o = HEAD + nx + ny + row * i + RECORD * j;
      const alongY = difference(grid, HEAD + nx, ny, j, o, RECORD, 1);
      const alongX = difference(grid, HEAD, nx, i, o, row, 2);
      putRange(grid, nx, ny, i, j);
      grid[o + 3] = Math.min(range[1]!, Math.max(range[0]!, 0.5 * (alongX + alongY)));
    }
  }
}

/** Least and greatest cross derivative that all cells around a point allow. */
const range = new Float64Array(2);

/** Keeps z ± hx/3 zx ± hy/3 zy ± hx hy/9 zxy, the inner Bernstein coefficient of each cell, within its corners. */
function putRange(grid: Grid, nx: number, ny: number, i: number, j: number): void {
  const row = RECORD * ny;
  const o = HEAD + nx + ny + row * i + RECORD * j;
  const z = grid[o]!;
  let low = -Infinity;
  let high = Infinity;
  for (let sx = -1; sx <= 1; sx += 2) {
    if (i + sx < 0 || i + sx >= nx) continue;
    const hx = grid[HEAD + i + sx]! - grid[HEAD + i]!;
    for (let sy = -1; sy <= 1; sy += 2) {
      if (j + sy < 0 || j + sy >= ny) continue;
      const hy = grid[HEAD + nx + j + sy]! - grid[HEAD + nx + j]!;
      const beside = grid[o + sx * row]!;
      const above = grid[o + sy * RECORD]!;
      const across = grid[o + sx * row + sy * RECORD]!;
      const flat = z + (hx / 3) * grid[o + 1]! + (hy / 3) * grid[o + 2]!;
      const down = (9 * (Math.min(z, beside, above, across) - flat)) / (hx * hy);
      const up = (9 * (Math.max(z, beside, above, across) - flat)) / (hx * hy);
      low = Math.max(low, sx === sy ? down : up);
      high = Math.min(high, sx === sy ? up : down);
    }
  }
  range[0] = low;
  range[1] = high;
}

/** Derivative along one axis of a field of the records: through three points inside, through two at an end. */
function difference(grid: Grid, axis: number, n: number, k: number, o: number, stride: number, field: number): number {
  const at = o + field;
  const before = k === 0 ? 0 : grid[axis + k]! - grid[axis + k - 1]!;
  const after = k === n - 1 ? 0 : grid[axis + k + 1]! - grid[axis + k]!;
  const fromBefore = k === 0 ? 0 : (grid[at]! - grid[at - stride]!) / before;
  const toAfter = k === n - 1 ? 0 : (grid[at + stride]! - grid[at]!) / after;
  if (k === 0) return toAfter;
  return k === n - 1 ? fromBefore : (after * fromBefore + before * toAfter) / (before + after);
}
