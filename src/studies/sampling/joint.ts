/** Inputs that were measured together: one covariance in place of spreads of their own (JCGM 101:2008, 6.4.8). */
import { item, nth } from '../../columns.ts';
import type { Joint } from '../../runs/answer/question.ts';
import type { Uncertain } from './uncertain.ts';

/** What is left of a pivot of nothing after round-off, as a share of the diagonal. */
const ROUND_OFF = 1e-10;

/** The lower triangle L with L L' = C; null where C is not symmetric or not positive semidefinite, and so no covariance. */
export function cholesky(covariance: readonly (readonly number[])[]): number[][] | null {
  const lower = covariance.map(row => row.map(() => 0));
  for (const [i, row] of covariance.entries()) {
    const own = item(lower, i);
    for (let j = 0; j <= i; j++) {
      const other = item(lower, j);
      const [above, below] = [nth(row, j), nth(item(covariance, j), i)];
      const scale = Math.sqrt(nth(row, i) * nth(item(covariance, j), j));
      if (!(Math.abs(above - below) <= ROUND_OFF * scale)) return null;
      let rest = above;
      for (let k = 0; k < j; k++) rest -= nth(own, k) * nth(other, k);
      if (i === j) {
        if (!(rest >= -ROUND_OFF * nth(row, i))) return null;
        own[j] = rest > ROUND_OFF * nth(row, i) ? Math.sqrt(rest) : 0;
      } else if (nth(other, j) > 0) own[j] = rest / nth(other, j);
      else if (Math.abs(rest) > Math.sqrt(ROUND_OFF) * scale) return null;
    }
  }
  return lower;
}

/** The standard uncertainty of a figure with these slopes against inputs of this covariance (JCGM 100:2008, equation 13). */
export function propagated(slopes: readonly number[], covariance: readonly (readonly number[])[]): number {
  const squares = slopes.reduce(
    (sum, a, i) => sum + slopes.reduce((part, b, j) => part + a * b * nth(item(covariance, i), j), 0),
    0,
  );
  return Math.sqrt(squares);
}

/**
 * The same inputs, those that belong together drawn from one normal distribution. Of inputs that are not among them the rest of the
 * covariance says nothing, and is left out.
 */
export function joined(inputs: readonly Uncertain[], joints: readonly Joint[]): Uncertain[] {
  const mixes = new Map<string, NonNullable<Uncertain['mix']>>();
  for (const { paths, covariance } of joints) {
    const places = [...paths.keys()].filter(k => inputs.some(({ path }) => path === paths[k]));
    const lower = cholesky(places.map(i => places.map(j => nth(item(covariance, i), j))));
    if (lower === null) throw new RangeError(`the covariance of ${paths.join(', ')} is none`);
    const of = places.map(k => item(paths, k));
    for (const [k, path] of of.entries()) mixes.set(path, { of, factors: item(lower, k) });
  }
  return inputs.map(input => {
    const mix = mixes.get(input.path);
    return mix === undefined ? input : { ...input, mix };
  });
}
