/**
 * Random numbers that are a function of a counter and a key, without a state: Philox 4x32 with 10 rounds. J. K. Salmon, M. A.
 * Moraes, R. O. Dror, D. E. Shaw, Parallel random numbers: as easy as 1, 2, 3, Proc. SC11 (2011). Any sample can be made
 * by itself, so that the numbers do not depend on who makes them and in which order.
 */

const M0 = 0xd2511f53;
const M1 = 0xcd9e8d57;
const W0 = 0x9e3779b9;
const W1 = 0xbb67ae85;
const ROUNDS = 10;

/** Tells the counters of names from those of points (`random-stream.ts`, `sobol-stream.ts`). */
const NAMES = 3;

/** Upper half of the product of two 32-bit words; JavaScript has an instruction for the lower half only. */
function upperHalf(a: number, b: number): number {
  const [ah, al] = [a >>> 16, a & 0xffff];
  const [bh, bl] = [b >>> 16, b & 0xffff];
  const middle = ah * bl + ((al * bl) >>> 16);
  const lower = al * bh + (middle & 0xffff);
  return ah * bh + (middle >>> 16) + (lower >>> 16);
}

/** Four random words in `out` for a counter of four words `c0..c3` and a key of two. */
export function philox(
  c0: number,
  c1: number,
  c2: number,
  c3: number,
  key0: number,
  key1: number,
  out: Uint32Array,
): void {
  let [x0, x1, x2, x3, k0, k1] = [c0 >>> 0, c1 >>> 0, c2 >>> 0, c3 >>> 0, key0 >>> 0, key1 >>> 0];
  for (let round = 0; round < ROUNDS; round++) {
    const high0 = upperHalf(M0, x0);
    const high1 = upperHalf(M1, x2);
    const low0 = Math.imul(M0, x0) >>> 0;
    const low1 = Math.imul(M1, x2) >>> 0;
    x0 = (high1 ^ x1 ^ k0) >>> 0;
    x1 = low1;
    x2 = (high0 ^ x3 ^ k1) >>> 0;
    x3 = low0;
    k0 = (k0 + W0) >>> 0;
    k1 = (k1 + W1) >>> 0;
  }
  out[0] = x0;
  out[1] = x1;
  out[2] = x2;
  out[3] = x3;
}

/** A seed as a key: an integer from 0 to 2^53 - 1, a RangeError otherwise; another one for each name of a stream. */
export function keyOf(seed: number, name = ''): readonly [low: number, high: number] {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`seed must be a whole number from 0 to 2^53 - 1, got ${seed}`);
  }
  const plain = [seed >>> 0, Math.floor(seed / 2 ** 32)] as const;
  return name === '' ? plain : namedKey(plain, name);
}

/** The key goes through the generator with the letters of the name as counters. */
function namedKey([low, high]: readonly [number, number], name: string): readonly [low: number, high: number] {
  const words = new Uint32Array(4);
  let [key0, key1] = [low, high];
  for (const [place, letter] of Array.from(name).entries()) {
    philox(letter.codePointAt(0) ?? 0, place, 0, NAMES, key0, key1, words);
    [key0 = 0, key1 = 0] = words;
  }
  return [key0, key1];
}
