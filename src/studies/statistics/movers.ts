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
 * The largest first; those that could be chance are left out. @param inputs paths with their values in each sample.
 * @param figure its value in each sample, NaN where it has none: such samples are left out.
 */
export function moversOf(
  inputs: readonly { readonly path: string; readonly values: readonly number[] }[],
  figure: readonly number[],
): readonly Mover[] {
  const kept = figure.flatMap((value, sample) => (Number.isNaN(value) ? [] : [sample]));
  const ranked = ranks(kept.map(sample => nth(figure, sample)));
  const least = REACH ** 2 / (kept.length - 1);
  return inputs
    .map(({ path, values }) => ({
      path,
      share: correlation(ranks(kept.map(sample => nth(values, sample))), ranked) ** 2,
    }))
    .filter(({ share }) => share > least)
    .toSorted((a, b) => b.share - a.share)
    .slice(0, TOLD);
}

/** From 1; equal values share the mean of their ranks. */
function ranks(values: readonly number[]): readonly number[] {
  const order = values.map((_, k) => k).toSorted((a, b) => nth(values, a) - nth(values, b));
  const found = values.map(() => 0);
  for (let from = 0; from < order.length; ) {
    let to = from + 1;
    while (to < order.length && nth(values, item(order, to)) === nth(values, item(order, from))) to++;
    for (let k = from; k < to; k++) found[item(order, k)] = (from + 1 + to) / 2;
    from = to;
  }
  return found;
}

/** Of ranks, the mean of which is that of 1 to n; 0 where one of them does not vary. */
function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (a.length + 1) / 2;
  let [product, first, second] = [0, 0, 0];
  for (const [k, rank] of a.entries()) {
    const [x, y] = [rank - mean, nth(b, k) - mean];
    product += x * y;
    first += x * x;
    second += y * y;
  }
  return first === 0 || second === 0 ? 0 : product / Math.sqrt(first * second);
}
