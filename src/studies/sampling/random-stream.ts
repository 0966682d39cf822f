/** Independent random points. */
import { keyOf, philox } from './philox.ts';
import type { Stream } from './stream.ts';

/** Tells the counters of the points from those that `sobol-stream.ts` uses with the same key. */
const PURPOSE = 0;
const HALF = 2 ** -54;

/**
 * Two words as a number inside (0, 1): the middle of one of 2^53 equal parts, so that neither 0 nor 1 comes up. At the very
 * top the middle can not be written in a double and would round to 1; there it is the largest double below 1.
 */
function unit(high: number, low: number): number {
  const x = ((high >>> 5) * 2 ** 26 + (low >>> 6)) * 2 ** -53 + HALF;
  return x < 1 ? x : 1 - 2 ** -53;
}

/** Points for a seed (0 to 2^53 - 1); number `k` of point `i` depends on the seed, the name of the stream, `i` and `k` only. */
export function randomStream(seed: number, dimensions: number, name = ''): Stream {
  const [key0, key1] = keyOf(seed, name);
  const words = new Uint32Array(4);
  function fill(index: number, u: Float64Array): void {
    const high = Math.floor(index / 2 ** 32);
    for (let k = 0; k < dimensions; k += 2) {
      philox(index, high, k / 2, PURPOSE, key0, key1, words);
      u[k] = unit(words[0]!, words[1]!);
      if (k + 1 < dimensions) u[k + 1] = unit(words[2]!, words[3]!);
    }
  }
  return { dimensions, fill };
}
