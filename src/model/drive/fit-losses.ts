/** Loss constants of a drive unit from a few points at which its efficiency is stated. */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import type { DriveUnit } from '../car.ts';

export type Losses = DriveUnit['losses'];

export interface EfficiencyPoint {
  /** rad/s, above 0. */
  readonly speed: number;
  /** N m, above 0: the unit drives. */
  readonly torque: number;
  /** Shaft power over input power, above 0, at most 1. */
  readonly efficiency: number;
}

export interface LossFit {
  readonly losses: Losses;
  /** `fitted`: all four constants by the points; `scaled`: the constants given, all in one proportion. */
  readonly kind: 'fitted' | 'scaled';
  /** Efficiency of the fit less the one stated, point by point. */
  readonly residuals: readonly number[];
  /** Root of the mean of their squares. */
  readonly rms: number;
  readonly warnings: readonly string[];
}

/** A fit that misses a point by more is no picture of the unit. */
const LARGEST_MISS = 0.01;

/**
 * The constants kc, ki, kw, C >= 0 of kc T^2 + ki w + kw w^3 + C with the least squares of the efficiencies missed, to
 * first order: each loss is weighted by what it changes the efficiency by. Points that do not settle all four, because
 * they are fewer or because several constants explain them as well, scale `shape` as a whole.
 * @param shape constants to be scaled, such as those of `scaledLosses`.
 * @throws RangeError without a point, or for a point outside the limits above.
 */
export function fitLosses(points: readonly EfficiencyPoint[], shape: Losses): LossFit {
  if (points.length === 0) throw new RangeError('no efficiency is stated');
  points.forEach(checkPoint);
  const design = points.map(({ speed, torque }) => [elementary.pow(torque, 2), speed, elementary.pow(speed, 3), 1]);
  const losses = points.map(({ speed, torque, efficiency }) => torque * speed * (1 / efficiency - 1));
  // d eta = -eta^2 / (T w) d loss
  const weights = points.map(({ speed, torque, efficiency }) => elementary.pow(efficiency, 2) / (torque * speed));
  const A = design.map((row, i) => row.map(value => value * nth(weights, i)));
  const b = losses.map((loss, i) => loss * nth(weights, i));
  const full = points.length < 4 ? null : nonNegativeLeastSquares(A, b);
  const warnings: string[] = [];
  if (full === null) {
    const why = points.length < 4 ? `${points.length} efficiency points are` : 'these efficiency points are';
    warnings.push(
      `${why} too few to tell the four parts of the loss apart: their proportions are those of a usual motor`,
    );
  }
  const made = named(full ?? scaledShape(A, b, shape));
  return judged(points, made, full === null ? 'scaled' : 'fitted', warnings);
}

function checkPoint({ speed, torque, efficiency }: EfficiencyPoint, i: number): void {
  const right = speed > 0 && torque > 0 && efficiency > 0 && efficiency <= 1;
  if (right && Number.isFinite(speed * torque)) return;
  throw new RangeError(`efficiency point ${i + 1} is impossible: ${torque} N m, ${speed} rad/s, ${efficiency}`);
}

function named([copper = 0, iron = 0, windage = 0, fixed = 0]: readonly number[]): Losses {
  return { copper, iron, windage, fixed };
}

function scaledShape(A: readonly (readonly number[])[], b: readonly number[], shape: Losses): number[] {
  const constants = [shape.copper, shape.iron, shape.windage, shape.fixed];
  const m = A.map(row => dot(row, constants));
  const size = dot(m, m);
  if (!(size > 0)) throw new RangeError('there is no loss to be scaled');
  return constants.map(each => (each * dot(m, b)) / size);
}

/** Efficiency of a loss formula at a torque and a speed. */
export function efficiencyOf({ copper, iron, windage, fixed }: Losses, torque: number, speed: number): number {
  const power = torque * speed;
  return (
    power / (power + copper * elementary.pow(torque, 2) + speed * (iron + windage * elementary.pow(speed, 2)) + fixed)
  );
}

function judged(
  points: readonly EfficiencyPoint[],
  losses: Losses,
  kind: LossFit['kind'],
  warnings: string[],
): LossFit {
  const residuals = points.map(point => efficiencyOf(losses, point.torque, point.speed) - point.efficiency);
  const worst = residuals.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  if (worst > LARGEST_MISS) {
    const shown = (100 * worst).toFixed(1);
    warnings.push(`the loss formula misses a stated efficiency by ${shown} percentage points: check the points`);
  }
  return { losses, kind, residuals, rms: Math.sqrt(dot(residuals, residuals) / points.length), warnings };
}

/** A column that keeps less of its length than this beside the others is told by them. */
const INDEPENDENT = 1e-6;

/**
 * x >= 0 with the least |A x - b|, by trying every set of constants that may be above 0: with four of them there are
 * sixteen, and the best of the feasible ones meets the conditions of Karush, Kuhn and Tucker because the problem is
 * convex. Null when the columns of A depend on each other.
 */
function nonNegativeLeastSquares(A: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const n = A[0]?.length ?? 0;
  const columns = Array.from({ length: n }, (_, j) => A.map(row => nth(row, j)));
  let best: number[] | null = null;
  let least = Infinity;
  for (let set = 2 ** n - 1; set >= 0; set--) {
    const members = columns.map((_, j) => j).filter(j => (set >> j) & 1);
    const part = leastSquares(
      members.map(j => item(columns, j)),
      b,
    );
    if (part === null) {
      if (members.length === n) return null;
      continue;
    }
    if (part.some(value => value < 0)) continue;
    const x = columns.map((_, j) => part[members.indexOf(j)] ?? 0);
    const miss = A.map((row, i) => dot(row, x) - nth(b, i));
    const square = dot(miss, miss);
    if (square < least) {
      least = square;
      best = x;
    }
  }
  return best;
}

/** By modified Gram-Schmidt with b as the last column, which is as stable as Householder's (Björck, BIT 7 (1967) 1-21). */
function leastSquares(columns: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const sizes = columns.map(column => elementary.hypot(...column));
  const q = columns.map((column, j) => column.map(value => value / nth(sizes, j)));
  const n = q.length;
  const R: Float64Array[] = [];
  const rest = [...b];
  const right: number[] = [];
  for (const [k, column] of q.entries()) {
    const length = elementary.hypot(...column);
    if (!(length > INDEPENDENT)) return null;
    const unit = column.map(value => value / length);
    R.push(Float64Array.from(q, (other, j) => (j < k ? 0 : j === k ? length : takeOut(unit, other))));
    right.push(takeOut(unit, rest));
  }
  const x = Array.from({ length: n }, () => 0);
  for (let k = n - 1; k >= 0; k--) {
    const row = item(R, k);
    let value = nth(right, k);
    for (let j = k + 1; j < n; j++) value -= nth(row, j) * nth(x, j);
    x[k] = value / nth(row, k);
  }
  return x.map((value, j) => value / nth(sizes, j));
}

/** Takes the part along a unit vector out of another one, and returns its length. */
function takeOut(unit: readonly number[], from: number[]): number {
  const along = dot(unit, from);
  for (const [i, part] of unit.entries()) from[i] = nth(from, i) - along * part;
  return along;
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * nth(b, i), 0);
}
