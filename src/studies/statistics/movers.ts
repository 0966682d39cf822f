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
 * Of each figure the inputs that it goes along with, the largest first; those that could be chance are left out. Their shares are no more than 1 together.
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
    const shares = sharesOf(ranks(kept, figure), ofInputs);
    return shares.map(([k, share]) => ({ path: item(inputs, k).path, share })).toSorted((a, b) => b.share - a.share);
  });
}

/**
 * Which inputs explain a figure, one after the other: of what those before leave unexplained each takes the most. One that goes along with
 * the figure only because it goes along with another input, as few points in many dimensions do, explains nothing more (forward selection:
 * N. R. Draper & H. Smith, Applied Regression Analysis; from memory). @returns the place of each and its share of the variance of the ranks.
 */
function sharesOf(figure: Float64Array, inputs: readonly Float64Array[]): readonly (readonly [number, number])[] {
  const left = inputs.map(ranked => ranked.slice());
  const whole = left.map(each => product(each, each));
  const all = product(figure, figure);
  const found: [number, number][] = [];
  for (;;) {
    let [best, most] = [-1, (REACH ** 2 / (figure.length - 1)) * all];
    for (const [k, each] of left.entries()) {
      const own = product(each, each);
      // What is left of one that the others give is round-off.
      if (own <= 1e-9 * nth(whole, k)) continue;
      const explains = product(each, figure) ** 2 / own;
      if (explains > most) [best, most] = [k, explains];
    }
    if (best < 0) break;
    found.push([best, most / all]);
    if (found.length === TOLD) break;
    const taken = item(left, best).slice();
    const square = product(taken, taken);
    takeOut(figure, taken, square);
    for (const each of left) takeOut(each, taken, square);
  }
  return found;
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += nth(a, k) * nth(b, k);
  return sum;
}

/** Leaves of a column what another does not explain. @param square product of the other one with itself. */
function takeOut(column: Float64Array, other: Float64Array, square: number): void {
  const factor = product(column, other) / square;
  for (let k = 0; k < column.length; k++) column[k] = nth(column, k) - factor * nth(other, k);
}

/** About their mean, of the samples that are kept; equal values share the mean of their ranks. */
function ranks(kept: readonly number[], values: ArrayLike<number>): Float64Array {
  const ranked = new Float64Array(kept.length);
  for (let k = 0; k < kept.length; k++) ranked[k] = nth(values, nth(kept, k));
  const sorted = ranked.toSorted();
  for (let k = 0; k < ranked.length; k++) {
    const value = nth(ranked, k);
    const first = below(sorted, value, false);
    // Most values stand alone. -0 stands before 0 in the order, and is equal to it.
    const alone = first + 1 === sorted.length || nth(sorted, first + 1) !== value;
    ranked[k] = (first + (alone ? first + 1 : below(sorted, value, true)) - sorted.length) / 2;
  }
  return ranked;
}

/** How many are below a value, or equal to it where those count too. */
function below(sorted: Float64Array, value: number, orEqual: boolean): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const here = nth(sorted, middle);
    if (here < value || (orEqual && here === value)) low = middle + 1;
    else high = middle;
  }
  return low;
}
