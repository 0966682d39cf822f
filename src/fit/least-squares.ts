/**
 * Least squares by the method of Levenberg and Marquardt (Nocedal and Wright, Numerical Optimization, 10.3): each step from a
 * singular value decomposition of the sensitivities, which are central differences where the problem does not tell them: of the triangle of their QR decomposition, which has
 * the same singular values and directions and is as small as there are parameters, however long the logs are.
 */
import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { item, nth } from '../columns.ts';

export interface LeastSquares {
  /** Measured less modelled, each over its standard uncertainty where that is known. */
  readonly residuals: (parameters: readonly number[]) => Float64Array;
  /** Slopes of the residuals along each parameter, a column each. */
  readonly slopes?: (parameters: readonly number[]) => readonly Float64Array[];
  readonly start: readonly number[];
  /** By how much each parameter may well differ from its start: what steps and sensitivities are measured in. */
  readonly scale: readonly number[];
  /** Smallest and largest value of each. */
  readonly within?: readonly (readonly [number, number])[];
  /** Share of the sum of squares by which a step that lowers it by less is the last one; default 1e-14. */
  readonly gain?: number;
  /** Of the central differences, as a share of the scale; default 6e-6, the cube root of the precision of a number. */
  readonly step?: number;
}

export interface Fitted {
  readonly parameters: readonly number[];
  readonly residuals: Float64Array;
  /** Changes of the residuals for a change of each parameter by its scale: a column each. */
  readonly sensitivities: readonly Float64Array[];
  /** Of the sensitivities, the greatest first, and the direction of each in scaled parameters. */
  readonly singular: readonly number[];
  readonly directions: readonly (readonly number[])[];
  /** (J'J)^-1 in the units of the parameters: the covariance for residuals of standard uncertainty 1. Infinite where one can not be told. */
  readonly inverse: readonly (readonly number[])[];
  /** Sum of squares, and residuals less parameters. */
  readonly squares: number;
  readonly freedom: number;
  /** Whether the steps came to rest. */
  readonly settled: boolean;
}

const MOST_STEPS = 60;
/** Share of the scales below which a step is none. */
const STILL = 1e-10;
const GAIN = 1e-14;
/** Share of the squares by which the last step may seem to raise them: round-off. */
const POLISH = 1e-12;
/** Central differences: the cube root of the precision of a number, as a share of the scale. */
const STEP = 6e-6;
/** Singular values below this share of the greatest are round-off of the differences. */
const NOISE = 1e-9;

/** @throws RangeError for fewer residuals than parameters, or residuals that are no numbers at the start. */
export function leastSquares(problem: LeastSquares): Fitted {
  let at = [...problem.start];
  let residuals = problem.residuals(at);
  let squares = sum(residuals);
  if (residuals.length < at.length) throw new RangeError(`${residuals.length} residuals for ${at.length} parameters`);
  if (!Number.isFinite(squares)) throw new RangeError('the residuals at the start are no numbers');
  let damping = 1e-4;
  let settled = false;
  for (let step = 0; step < MOST_STEPS && !settled; step++) {
    const found = decomposed(sensitivitiesAt(problem, at));
    const pull = found.across(residuals);
    settled = true;
    for (let k = 0; k < 30; k++) {
      const move = found.move(pull, damping);
      const next = at.map((value, j) => held(problem, j, value - nth(move, j) * nth(problem.scale, j)));
      const tried = problem.residuals(next);
      const lower = sum(tried);
      const small = move.every(each => Math.abs(each) < STILL);
      if (lower <= squares) {
        settled = small || squares - lower <= (problem.gain ?? GAIN) * squares;
        [at, residuals, squares] = [next, tried, lower];
        damping = Math.max(damping / 10, 1e-14);
        break;
      }
      if (small) break;
      damping = Math.max(damping, 1e-10) * 8;
    }
  }
  const sensitivities = sensitivitiesAt(problem, at);
  const found = decomposed(sensitivities);
  const { singular, directions } = found;
  // A sum of squares tells its minimum to the root of the precision only, the sensitivities to nearly all of it.
  const last = found.move(found.across(residuals), 0).map((move, j) => move * nth(problem.scale, j));
  const polished = at.map((value, j) => held(problem, j, value - nth(last, j)));
  const after = problem.residuals(polished);
  if (settled && sum(after) <= squares * (1 + POLISH)) [at, residuals, squares] = [polished, after, sum(after)];
  return {
    parameters: at,
    residuals,
    sensitivities,
    singular,
    directions,
    inverse: inverseOf(singular, directions, problem.scale),
    squares,
    freedom: residuals.length - at.length,
    settled,
  };
}

function held({ within }: LeastSquares, j: number, value: number): number {
  const [least, most] = within?.[j] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  return Math.min(most, Math.max(least, value));
}

function sum(residuals: Float64Array): number {
  return dot(residuals, residuals);
}

/** Each column over the scale of its parameter; one-sided where a parameter may go no further. */
function sensitivitiesAt(problem: LeastSquares, at: readonly number[]): readonly Float64Array[] {
  const told = problem.slopes?.(at);
  if (told !== undefined) return told.map((column, j) => times(column, nth(problem.scale, j)));
  return at.map((value, j) => {
    const step = (problem.step ?? STEP) * nth(problem.scale, j);
    const [up, down] = [held(problem, j, value + step), held(problem, j, value - step)];
    const high = problem.residuals(at.with(j, up));
    const low = problem.residuals(at.with(j, down));
    const factor = nth(problem.scale, j) / (up - down);
    return times(less(high, low, 1), factor);
  });
}

/** Long columns are taken through by loops: a call for each row would cost more than the sum in it. */
function times(column: Float64Array, factor: number): Float64Array {
  const out = new Float64Array(column.length);
  for (let i = 0; i < out.length; i++) out[i] = nth(column, i) * factor;
  return out;
}

/** A column less another times a factor, put into the first. */
function less(column: Float64Array, other: Float64Array, factor: number): Float64Array {
  for (let i = 0; i < column.length; i++) column[i] = nth(column, i) - factor * nth(other, i);
  return column;
}

interface Decomposed {
  readonly singular: readonly number[];
  readonly directions: readonly (readonly number[])[];
  across(residuals: Float64Array): readonly number[];
  /** The step in scaled parameters. */
  move(pull: readonly number[], damping: number): readonly number[];
}

/** Orthonormal columns and the triangle that makes the given ones of them: Gram and Schmidt, twice, which is as good as Householder's. */
function orthonormal(columns: readonly Float64Array[]): {
  readonly basis: readonly Float64Array[];
  readonly triangle: Matrix;
} {
  const triangle = Matrix.zeros(columns.length, columns.length);
  const basis: Float64Array[] = [];
  for (const [j, column] of columns.entries()) {
    const rest = column.slice();
    for (let pass = 0; pass < 2; pass++) {
      for (const [i, each] of basis.entries()) {
        const along = dot(each, rest);
        triangle.set(i, j, triangle.get(i, j) + along);
        less(rest, each, along);
      }
    }
    const length = Math.sqrt(sum(rest));
    triangle.set(j, j, length);
    basis.push(length > 0 ? times(rest, 1 / length) : rest);
  }
  return { basis, triangle };
}

function dot(a: Float64Array, b: Float64Array): number {
  let all = 0;
  for (let i = 0; i < a.length; i++) all += nth(a, i) * nth(b, i);
  return all;
}

function decomposed(sensitivities: readonly Float64Array[]): Decomposed {
  const { basis, triangle } = orthonormal(sensitivities);
  const found = new SingularValueDecomposition(triangle);
  const singular = found.diagonal;
  const [left, right] = [found.leftSingularVectors, found.rightSingularVectors];
  const directions = singular.map((_, k) => right.getColumn(k));
  const greatest = singular[0] ?? 0;
  return {
    singular,
    directions,
    across(residuals) {
      const along = basis.map(each => dot(each, residuals));
      return singular.map((_, k) => left.getColumn(k).reduce((all, u, i) => all + u * nth(along, i), 0));
    },
    move: (pull, damping) => {
      const lambda = damping * greatest * greatest;
      const along = singular.map((s, k) => (s > NOISE * greatest ? (s / (s * s + lambda)) * nth(pull, k) : 0));
      return right.to2DArray().map(row => along.reduce((all, a, k) => all + a * nth(row, k), 0));
    },
  };
}

/** V S^-2 V' in the units of the parameters. */
function inverseOf(
  singular: readonly number[],
  directions: readonly (readonly number[])[],
  scale: readonly number[],
): number[][] {
  const greatest = singular[0] ?? 0;
  return scale.map((si, i) =>
    scale.map((sj, j) =>
      singular.reduce((all, s, k) => {
        const [vi, vj] = [nth(item(directions, k), i), nth(item(directions, k), j)];
        if (s > NOISE * greatest) return all + (si * sj * vi * vj) / (s * s);
        return Math.abs(vi * vj) > 1e-6 ? all + Math.sign(vi * vj) * Number.POSITIVE_INFINITY : all;
      }, 0),
    ),
  );
}

/** The covariance of the parameters, with the variance of the residuals taken from their scatter (JCGM 100:2008, H.3; JCGM 101:2008). */
export function scatterCovariance({ inverse, squares, freedom }: Fitted): number[][] {
  if (freedom < 1) throw new RangeError('as many parameters as residuals: their scatter says nothing');
  return inverse.map(row => row.map(value => (value * squares) / freedom));
}

/** By how much the parameters move when something else changes the residuals by `change`: -(J'J)^-1 J' times it. */
export function shiftFor({ sensitivities, inverse }: Fitted, scale: readonly number[], change: Float64Array): number[] {
  const across = scale.map((each, j) => dot(item(sensitivities, j), change) / each);
  return inverse.map(row => -row.reduce((all, value, j) => all + value * nth(across, j), 0));
}
