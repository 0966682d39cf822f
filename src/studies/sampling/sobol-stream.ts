/**
 * Sobol's low-discrepancy sequence, randomised so that its error can be estimated.
 *
 * Each block of 2^m points is the start of the sequence with a random linear scramble and a random digital shift of its own
 * (J. Matousek, On the L2-discrepancy for anchored boxes, J. Complexity 14 (1998) 527-556): every point is uniform, the
 * points of a block together fill the cube as evenly as the sequence does, and the blocks are independent of each other.
 * The variance is that of A. B. Owen's full scrambling. The directions are those of Joe and Kuo (`joe-kuo.ts`).
 */
import { item, nth } from '../../columns.ts';
import { JOE_KUO } from './joe-kuo.ts';
import { keyOf, philox } from './philox.ts';
import { randomStream } from './random-stream.ts';
import type { Stream } from './stream.ts';

const BITS = 32;
const PURPOSE = 1;
const ORDER = 2;

/** Dimensions beyond are filled with independent random numbers: give the inputs that matter most a low index. */
export const SOBOL_DIMENSIONS = JOE_KUO.length + 1;

/** The first `count` direction numbers of a dimension (from 0) as words, first binary digit on top. */
export function directions(dimension: number, count: number): Uint32Array {
  const v = new Uint32Array(count);
  if (dimension === 0) return v.map((_, k) => 1 << (BITS - 1 - k));
  const [polynomial, ...initial] = item(JOE_KUO, dimension - 1);
  const degree = initial.length;
  for (const [k, digit] of initial.slice(0, count).entries()) v[k] = digit << (BITS - 1 - k);
  for (let k = degree; k < count; k++) {
    const oldest = nth(v, k - degree);
    let word = oldest ^ (oldest >>> degree);
    for (let i = 1; i < degree; i++) {
      if ((polynomial >>> (degree - i)) & 1) word ^= nth(v, k - i);
    }
    v[k] = word;
  }
  return v;
}

/** Point of the plain sequence in one dimension: the directions of the ones in `index`, added digit by digit. */
export function digits(v: Uint32Array, offset: number, index: number): number {
  let word = 0;
  for (let k = offset, rest = index; rest !== 0; k++, rest >>>= 1) {
    if (rest & 1) word ^= v[k]!;
  }
  return word >>> 0;
}

function parity(word: number): number {
  let x = word ^ (word >>> 16);
  x ^= x >>> 8;
  x ^= x >>> 4;
  return (0x6996 >>> (x & 15)) & 1;
}

/** A random lower triangular matrix with a full diagonal times each word; row `r` makes digit `r` from the digits up to it. */
function scramble(v: Uint32Array, rows: Uint32Array): Uint32Array {
  return v.map(word => {
    let result = 0;
    for (let r = 0; r < BITS; r++) result |= parity(word & rows[r]!) << (BITS - 1 - r);
    return result;
  });
}

const flips = new Uint32Array(4);

/** Each binary digit but the first turned over or not, at random by the digits above it: keeps 0 to 2^k - 1 among themselves. */
function shuffled(inside: number, number: number, key0: number, key1: number): number {
  let place = inside;
  for (let bit = 0; inside >>> (bit + 1) !== 0; bit++) {
    philox(number, inside >>> (bit + 1), bit, ORDER, key0, key1, flips);
    place ^= (nth(flips, 0) & 1) << bit;
  }
  return place;
}

/**
 * Points for a seed (0 to 2^53 - 1) in blocks of `block`, a power of two up to 2^30; number `k` of point `i` depends on the
 * seed, the name, the block, `i` and `k` only. Throws a RangeError for another block. Points are fastest made in the order of their indices.
 *
 * A stream with a name takes the points of a block in an order of its own, which leaves the first 2, 4, 8 ... of them the same points:
 * so streams of several names can be laid side by side, each as even as the sequence is, and are independent of each other. (Sequences
 * padded by shuffled ones: A. B. Owen, J. Complexity 14 (1998) 466-489, from memory.)
 */
export function sobolStream(seed: number, dimensions: number, block: number, name = ''): Stream {
  const m = Math.log2(block);
  if (!Number.isInteger(m) || m < 0 || m > 30) {
    throw new RangeError(`a block of Sobol points must be a power of two up to 2^30, got ${block}`);
  }
  const [key0, key1] = keyOf(seed, name);
  const even = Math.min(dimensions, SOBOL_DIMENSIONS);
  const plain = Array.from({ length: even }, (_, k) => directions(k, m));
  const scrambled = new Uint32Array(even * m);
  const shifts = new Uint32Array(even);
  const rest = randomStream(seed, dimensions, name);
  let current = -1;

  function begin(number: number): void {
    const words = new Uint32Array(4);
    const rows = new Uint32Array(BITS);
    for (let k = 0; k < even; k++) {
      for (let r = 0; r < BITS; r++) {
        if (r % 4 === 0) philox(number, k, r, PURPOSE, key0, key1, words);
        // The digits before the diagonal one are random, those behind it have no say. (A shift by 32 is one by 0.)
        const before = r === 0 ? 0 : -1 << (BITS - r);
        rows[r] = (nth(words, r % 4) & before) | (1 << (BITS - 1 - r));
      }
      scrambled.set(scramble(item(plain, k), rows), k * m);
      philox(number, k, BITS, PURPOSE, key0, key1, words);
      shifts[k] = nth(words, 0);
    }
    current = number;
  }

  function fill(index: number, u: Float64Array): void {
    const number = Math.floor(index / block);
    if (number !== current) begin(number);
    if (dimensions > even) rest.fill(index, u);
    const inside = name === '' ? index - number * block : shuffled(index - number * block, number, key0, key1);
    for (let k = 0; k < even; k++) {
      u[k] = ((digits(scrambled, k * m, inside) ^ shifts[k]!) >>> 0) * 2 ** -BITS + 2 ** -(BITS + 1);
    }
  }
  return { dimensions, fill };
}
