/** Uncertain inputs of a subject: where they stand, and how they are drawn. */
import * as elementary from '../../elementary.ts';
import type { Spread } from '../../model/fields/input.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { Draw } from './draw.ts';
import { drawOf } from './draw.ts';

/** One input with a spread; plain data. */
export interface Uncertain {
  /** With the name of the car or run in front. */
  readonly path: string;
  readonly value: number;
  readonly spread: Spread;
  /** Limits of its field. */
  readonly min?: number;
  readonly max?: number;
  /**
   * For one of several that are drawn together: its draw is a standard normal number, and its value lies off by the sum of the draws of
   * all of them with these factors.
   */
  readonly mix?: { readonly of: readonly string[]; readonly factors: readonly number[] };
  /** Other values that go along with this one in proportion. */
  readonly carries?: readonly { readonly path: string; readonly value: number }[];
  /**
   * Which of the numbers of its car or run it is drawn by, from 0: the same in every study, so that one figure has one interval. Left
   * out, it is drawn by its place in the study.
   */
  readonly dimension?: number;
}

export function drawsOf(inputs: readonly Uncertain[]): Draw[] {
  return inputs.map(input => ({ ...freely(input), ...placeOf(input) }));
}

function freely({ value, spread, min, max, mix }: Uncertain): Draw {
  return mix !== undefined
    ? drawOf(0, { kind: 'normal', standard: 1 })
    : drawOf(value, spread, { ...(min !== undefined && { min }), ...(max !== undefined && { max }) });
}

/** Each car and each run has a stream of its own. */
function placeOf({ path, dimension }: Uncertain): Pick<Draw, 'place'> {
  return dimension === undefined ? {} : { place: { stream: path.replace(/\..*$/u, ''), dimension } };
}

/** The changes that a sample means. */
export function changesOf(inputs: readonly Uncertain[], x: Float64Array): Change[] {
  const drawn = new Map(inputs.map(({ path }, k) => [path, x[k] ?? Number.NaN]));
  const values = new Map(
    inputs.map(({ path, value, mix }, k) => [path, mix === undefined ? (x[k] ?? Number.NaN) : value + off(mix, drawn)]),
  );
  for (const { path, value, carries = [] } of inputs) {
    const factor = (values.get(path) ?? Number.NaN) / value;
    for (const other of carries) values.set(other.path, factor * (values.get(other.path) ?? other.value));
  }
  return Array.from(values, ([path, value]) => ({ path, value, drawn: true }));
}

function off({ of, factors }: NonNullable<Uncertain['mix']>, drawn: ReadonlyMap<string, number>): number {
  return of.reduce((sum, path, k) => sum + (factors[k] ?? 0) * (drawn.get(path) ?? 0), 0);
}

/**
 * The changes that another draw of one input means, all others as they are. Of inputs that are drawn together, each of the others is
 * where it is to be expected then.
 */
export function changesOfOne(input: Uncertain, other: number, all: readonly Uncertain[] = [input]): Change[] {
  const { path, value, carries = [], mix } = input;
  if (mix !== undefined) return expectedWith(input, mix, other, all);
  return [
    { path, value: other, drawn: true },
    ...carries.map(each => ({ path: each.path, value: (each.value * other) / value, drawn: true as const })),
  ];
}

/** Conditional means of a normal distribution: each lies off by its covariance with the one that is moved, over the variance of that one. */
function expectedWith(
  { path }: Uncertain,
  { of, factors }: NonNullable<Uncertain['mix']>,
  deviations: number,
  all: readonly Uncertain[],
): Change[] {
  const standard = elementary.hypot(...factors);
  return all.flatMap(each => {
    if (each.mix === undefined || !of.includes(each.path)) return [];
    const shared = each.mix.factors.reduce((sum, factor, k) => sum + factor * (factors[k] ?? 0), 0);
    const moved = standard === 0 ? 0 : (shared / standard) * deviations;
    return each.path === path || moved !== 0 ? [{ path: each.path, value: each.value + moved, drawn: true }] : [];
  });
}
