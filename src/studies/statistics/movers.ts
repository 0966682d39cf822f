/** With which uncertain inputs the samples of a figure go along: what to know better first. */
import { item, nth } from '../../columns.ts';
import type { Mover } from '../../runs/result.ts';

/**
 * Standard deviations by which a correlation must differ from nothing: of sixty idle inputs one is told in some 250 figures. That of ranks without
 * correlation has the variance 1/(n - 1) (M. G. Kendall, Rank Correlation Methods; from memory).
 */
const REACH = 4;
/** Inputs that are told of one figure. */
const TOLD = 3;

/**
 * Of each figure the inputs that it goes along with, the largest first; those that could be chance are left out.
 * @param inputs paths with their values in each sample.
 * @param figures the values of each in each sample, NaN where it has none: such samples are left out.
 */
export function moversOf(
  inputs: readonly { readonly path: string; readonly values: ArrayLike<number> }[],
  figures: readonly (readonly number[])[],
): readonly (readonly Mover[])[] {
  // Most figures have a value in every sample: their inputs have the same ranks.
  const known = new Map<string, readonly Float64Array[]>();
  return figures.map(figure => {
    const kept = figure.flatMap((value, sample) => (Number.isNaN(value) ? [] : [sample]));
    const key = kept.join();
    const ofInputs = known.get(key) ?? inputs.map(({ values }) => ranks(kept, values));
    known.set(key, ofInputs);
    const ranked = ranks(kept, figure);
    const least = REACH ** 2 / (kept.length - 1);
    return inputs
      .map(({ path }, k) => ({ path, share: correlation(item(ofInputs, k), ranked) ** 2 }))
      .filter(({ share }) => share > least)
      .toSorted((a, b) => b.share - a.share)
      .slice(0, TOLD);
  });
}

/** From 1, of the samples that are kept; equal values share the mean of their ranks. */
function ranks(kept: readonly number[], values: ArrayLike<number>): Float64Array {
  const taken = Float64Array.from(kept, sample => nth(values, sample));
  const sorted = taken.toSorted();
  // -0 stands before 0 in the order, and is equal to it.
  return taken.map(value => (below(sorted, value, false) + 1 + below(sorted, value, true)) / 2);
}

/** How many are below a value, or equal to it where those count too. */
function below(sorted: Float64Array, value: number, orEqual: boolean): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const here = nth(sorted, middle);
    if (here < value || (orEqual && here === value)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Of ranks, the mean of which is that of 1 to n; 0 where one of them does not vary. */
function correlation(a: Float64Array, b: Float64Array): number {
  const mean = (a.length + 1) / 2;
  let product = 0;
  let first = 0;
  let second = 0;
  for (let k = 0; k < a.length; k++) {
    const x = nth(a, k) - mean;
    const y = nth(b, k) - mean;
    product += x * y;
    first += x * x;
    second += y * y;
  }
  return first === 0 || second === 0 ? 0 : product / Math.sqrt(first * second);
}
