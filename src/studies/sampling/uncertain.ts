/** Uncertain inputs of a subject: where they stand, and how they are drawn. */
import { nth } from '../../columns.ts';
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

/** The values that samples give to paths, in places that are found once, for the thousands of samples of a study. */
interface DrawnValues {
  /** Those of the inputs stand first, in their order; what they carry along comes after. */
  readonly paths: readonly string[];
  /** Writes the value of each path. @param x draws of a sample. */
  readonly fill: (x: Float64Array, values: Float64Array) => void;
}

export function valuesFrom(inputs: readonly Uncertain[]): DrawnValues {
  const places = new Map<string, number>();
  const placeFor = (path: string): number => {
    const place = places.get(path) ?? places.size;
    places.set(path, place);
    return place;
  };
  const own = inputs.map(({ path, value, mix }, k) => ({
    k,
    to: placeFor(path),
    value,
    mix: mix && mixedBy(mix, inputs),
  }));
  const carried = inputs.flatMap(({ path, value, carries = [] }) =>
    carries.map(other => {
      // Carried twice, it is moved on from where it is.
      const start = places.has(other.path) ? null : other.value;
      return { from: placeFor(path), over: value, to: placeFor(other.path), start };
    }),
  );
  return {
    paths: [...places.keys()],
    fill: (x, values) => {
      for (const { k, to, value, mix } of own) values[to] = mix === undefined ? nth(x, k) : value + off(mix, x);
      for (const { from, over, to, start } of carried)
        values[to] = (nth(values, from) / over) * (start ?? nth(values, to));
    },
  };
}

/** Makes what says which changes a sample means. */
export function changesFrom(inputs: readonly Uncertain[]): (x: Float64Array) => Change[] {
  const { paths, fill } = valuesFrom(inputs);
  const values = new Float64Array(paths.length);
  return x => {
    fill(x, values);
    return paths.map((path, place) => ({ path, value: nth(values, place), drawn: true }));
  };
}

/** Of the draws that an input is a sum of, their numbers and factors. */
type Mix = readonly { readonly k: number; readonly factor: number }[];

function mixedBy({ of, factors }: NonNullable<Uncertain['mix']>, inputs: readonly Uncertain[]): Mix {
  return of.flatMap((path, place) => {
    const k = inputs.findLastIndex(input => input.path === path);
    return k < 0 ? [] : [{ k, factor: nth(factors, place) }];
  });
}

function off(mix: Mix, x: Float64Array): number {
  let sum = 0;
  for (const { k, factor } of mix) sum += factor * nth(x, k);
  return sum;
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
