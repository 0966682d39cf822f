/**
 * Which uncertain input makes how much of the variance of a result: Sobol's first-order and total indices. They hold for
 * any model, however bent, with inputs that are independent of each other.
 */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import type { Draw } from '../sampling/draw.ts';
import { moments } from './estimate.ts';
import { evaluateRange } from '../question/evaluate.ts';
import type { Evaluate, InputsAt } from '../question/evaluate.ts';
import { openStream } from '../sampling/sample.ts';
import type { Source } from '../sampling/stream.ts';

export interface VarianceSharePlan {
  readonly draws: readonly Draw[];
  readonly outputs: number;
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  readonly source?: Source;
  /** Base points in a block, a power of two; 512 unless stated. */
  readonly block?: number;
  /** Blocks, two at least; 8 unless stated. The model is evaluated `blocks * block * (draws + 2)` times. */
  readonly blocks?: number;
}

/** Shares of the variance, each with its standard error by what leaving one block out changes. */
export interface VarianceShare {
  /** What would go away on average if this input were known exactly. May come out slightly below 0 for an idle input. */
  readonly first: number;
  readonly firstError: number;
  /** What would stay on average if all inputs but this one were known exactly. */
  readonly total: number;
  readonly totalError: number;
}

export interface VarianceShares {
  /** Variance of the output, in its unit squared; null without answers. */
  readonly variance: number | null;
  /** One per input; null where the output has no answers, or does not vary. */
  readonly shares: readonly VarianceShare[] | null;
  /** Base points used, and those left out because one of their evaluations had no answer. */
  readonly used: number;
  readonly missing: number;
}

/** Evaluates the whole plan here and now; one result per output. */
export function varianceShares(evaluate: Evaluate, plan: VarianceSharePlan): VarianceShares[] {
  const { rows, inputsAt } = varianceShareRows(plan);
  const shape = { inputs: plan.draws.length, outputs: plan.outputs };
  const columns = evaluateRange(evaluate, inputsAt, shape, { from: 0, to: rows });
  return columns.map(column => varianceSharesOf(column, plan));
}

/**
 * The evaluations of a plan, for whoever makes them. Base point `j` has `draws + 2` rows: the inputs A, the inputs B,
 * then A with one input after the other taken from B (A. Saltelli et al., Computer Physics Communications 181 (2010) 259-270).
 */
export function varianceShareRows(plan: VarianceSharePlan): { readonly rows: number; readonly inputsAt: InputsAt } {
  const { draws, seed, source = 'sobol' } = plan;
  const { block, blocks } = sizeOf(plan);
  const count = draws.length;
  const width = count + 2;
  const stream = openStream(source, seed, 2 * count, block);
  const u = new Float64Array(2 * count);
  let current = -1;
  const inputsAt: InputsAt = (index, x) => {
    const point = Math.floor(index / width);
    if (point !== current) stream.fill(point, u);
    current = point;
    const row = index - point * width;
    for (let k = 0; k < count; k++) {
      const fromB = row === 1 || row === k + 2;
      x[k] = item(draws, k).at(nth(u, fromB ? count + k : k));
    }
  };
  return { rows: blocks * block * width, inputsAt };
}

/** Shares from the column of one output, its rows in the order of `varianceShareRows`. */
export function varianceSharesOf(column: Float64Array, plan: VarianceSharePlan): VarianceShares {
  const width = plan.draws.length + 2;
  const { block, blocks } = sizeOf(plan);
  if (column.length !== block * blocks * width) {
    throw new RangeError(`the plan has ${block * blocks * width} rows, got ${column.length}`);
  }
  const points = Array.from({ length: blocks * block }, (_, j) => column.subarray(j * width, (j + 1) * width));
  const whole = points.map(rows => (rows.some(Number.isNaN) ? null : rows));
  const used = whole.filter(rows => rows !== null);
  const missing = points.length - used.length;
  const all = indices(used, plan.draws.length);
  if (all === null) return { variance: null, shares: null, used: used.length, missing };
  if (all.variance === 0) return { variance: 0, shares: null, used: used.length, missing };
  // Each of them without one block. A share is a ratio, and of a block alone its denominator is hardly known.
  const parts = Array.from({ length: blocks }, (_, b) =>
    indices(
      whole.filter((rows, k) => rows !== null && Math.floor(k / block) !== b).filter(rows => rows !== null),
      plan.draws.length,
    ),
  );
  // The jackknife (R. G. Miller, Biometrika 61 (1974) 1-15; from memory).
  const errorOf = (read: (part: Indices) => number): number => {
    const values = parts.flatMap(part => (part === null || part.variance === 0 ? [] : [read(part)]));
    return (moments(values).standard * (values.length - 1)) / Math.sqrt(values.length);
  };
  const shares = all.first.map((first, k) => ({
    first,
    firstError: errorOf(part => nth(part.first, k)),
    total: nth(all.total, k),
    totalError: errorOf(part => nth(part.total, k)),
  }));
  return { variance: all.variance, shares, used: used.length, missing };
}

interface Indices {
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

/**
 * First order by Saltelli et al. (2010), table 2 (b), with the mean taken off, which changes nothing but the noise; total
 * by M. J. W. Jansen, Computer Physics Communications 117 (1999) 35-43. Null for fewer than two points.
 */
function indices(points: readonly Float64Array[], inputs: number): Indices | null {
  if (points.length < 2) return null;
  const base = points.flatMap(rows => [nth(rows, 0), nth(rows, 1)]);
  const { mean, standard } = moments(base);
  const variance = elementary.pow(standard, 2);
  const first: number[] = [];
  const total: number[] = [];
  for (let k = 0; k < inputs; k++) {
    let [product, squares] = [0, 0];
    for (const rows of points) {
      const [a, b, mixed] = [nth(rows, 0), nth(rows, 1), nth(rows, k + 2)];
      product += (b - mean) * (mixed - a);
      squares += elementary.pow(a - mixed, 2);
    }
    first.push(product / points.length / variance);
    total.push(squares / (2 * points.length) / variance);
  }
  return { variance, first, total };
}

function sizeOf({ block = 512, blocks = 8 }: VarianceSharePlan): { readonly block: number; readonly blocks: number } {
  if (!Number.isSafeInteger(blocks) || blocks < 2)
    throw new RangeError(`two blocks at least are needed, got ${blocks}`);
  return { block, blocks };
}
