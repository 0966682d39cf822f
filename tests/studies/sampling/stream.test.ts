import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyOf, philox } from '../../../src/studies/sampling/philox.ts';
import { randomStream } from '../../../src/studies/sampling/random-stream.ts';
import { digits, directions, SOBOL_DIMENSIONS, sobolStream } from '../../../src/studies/sampling/sobol-stream.ts';
import type { Stream } from '../../../src/studies/sampling/stream.ts';
import { peer } from '../peer.ts';

function point(stream: Stream, index: number): number[] {
  const u = new Float64Array(stream.dimensions);
  stream.fill(index, u);
  return Array.from(u);
}

describe('Philox', () => {
  // Known answers published with the generator (Random123, kat_vectors, philox4x32 10), from memory: a wrong bit anywhere shows.
  it.each([
    [[0, 0, 0, 0], [0, 0], '6627e8d5 e169c58d bc57ac4c 9b00dbd8'],
    [[0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff], [0xffffffff, 0xffffffff], '408f276d 41c83b0e a20bc7c6 6d5451fd'],
    [[0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344], [0xa4093822, 0x299f31d0], 'd16cfe09 94fdcceb 5001e420 24126ea1'],
  ] as const)('gives the known answer for %o', ([c0, c1, c2, c3], [k0, k1], words) => {
    const out = new Uint32Array(4);
    philox(c0, c1, c2, c3, k0, k1, out);
    expect(Array.from(out, word => word.toString(16).padStart(8, '0')).join(' ')).toBe(words);
  });

  it('takes whole seeds only', () => {
    expect(keyOf(2 ** 32 + 5)).toEqual([5, 1]);
    for (const seed of [-1, 0.5, Number.NaN, 2 ** 53]) expect(() => keyOf(seed)).toThrow(/seed must be a whole number/);
  });
});

describe.each([
  ['random', (seed: number, dimensions: number, name?: string) => randomStream(seed, dimensions, name)],
  ['sobol', (seed: number, dimensions: number, name?: string) => sobolStream(seed, dimensions, 64, name)],
] as const)('the %s stream', (_, open) => {
  const seed = fc.nat();
  const indices = fc.array(fc.nat(10_000), { minLength: 1, maxLength: 20 });

  it('gives a point by its index, in whatever order', () => {
    fc.assert(
      fc.property(seed, indices, (s, all) => {
        const one = open(s, 5);
        for (const index of all) expect(point(one, index)).toEqual(point(open(s, 5), index));
      }),
    );
  });

  it('does not change a number when inputs are added behind it', () => {
    expect(point(open(3, 200), 77).slice(0, 7)).toEqual(point(open(3, 7), 77));
  });

  it('stays inside (0, 1) and gives other numbers for another seed', () => {
    fc.assert(
      fc.property(seed, fc.nat(), (s, index) => {
        const u = point(open(s, 130), index);
        expect(u.every(x => x > 0 && x < 1)).toBe(true);
        expect(point(open(s + 1, 130), index)).not.toEqual(u);
      }),
      { numRuns: 50 },
    );
  });

  it('gives other numbers by another name', () => {
    expect(point(open(3, 7, 'coupe'), 77)).not.toEqual(point(open(3, 7), 77));
    expect(point(open(3, 7, 'coupe'), 77)).not.toEqual(point(open(3, 7, 'dash'), 77));
    expect(point(open(3, 7, 'coupe'), 77)).toEqual(point(open(3, 7, 'coupe'), 77));
  });

  it('of two names are independent of each other', () => {
    const [one, other] = [open(1, 6, 'coupe'), open(1, 6, 'dash')];
    const count = 2 ** 12;
    const pairs = Array.from({ length: count }, (_, k) => [point(one, k), point(other, k)] as const);
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++) {
        const cross = pairs.reduce((sum, [a, b]) => sum + (a[i]! - 0.5) * (b[j]! - 0.5), 0) / count;
        // Five standard deviations of independent points: 5 / (12 sqrt(n)); in no square of 4 by 4 a third too many or too few.
        expect(Math.abs(cross)).toBeLessThan(5 / (12 * Math.sqrt(count)));
        const cells = new Int32Array(16);
        for (const [a, b] of pairs) cells[4 * Math.floor(4 * a[i]!) + Math.floor(4 * b[j]!)]! += 1;
        for (const held of cells) expect(Math.abs(held / (count / 16) - 1)).toBeLessThan(1 / 3);
      }
  });

  it('has the moments of the uniform distribution, and no correlation', () => {
    const stream = open(20261125, 6);
    const points = Array.from({ length: 2 ** 14 }, (_, index) => point(stream, index));
    for (let k = 0; k < 6; k++) {
      const mean = points.reduce((sum, u) => sum + u[k]!, 0) / points.length;
      const square = points.reduce((sum, u) => sum + (u[k]! - 0.5) ** 2, 0) / points.length;
      const cross = points.reduce((sum, u) => sum + (u[k]! - 0.5) * (u[(k + 1) % 6]! - 0.5), 0) / points.length;
      // Five standard deviations of independent points: 5 / sqrt(12 n), 5 / sqrt(180 n), 5 / (12 sqrt(n)).
      expect(Math.abs(mean - 0.5)).toBeLessThan(0.0113);
      expect(Math.abs(square - 1 / 12)).toBeLessThan(0.0029);
      expect(Math.abs(cross)).toBeLessThan(0.0033);
    }
  });
});

describe("Sobol's sequence", () => {
  const { dimensions, points } = peer.sobol;

  it.each(dimensions.map((dimension, column) => [dimension, column] as const))(
    "is SciPy's in dimension %d",
    (dimension, column) => {
      const v = directions(dimension, 30);
      points.forEach((row, place) => {
        // SciPy takes the points in Gray-code order.
        expect(digits(v, 0, place ^ (place >> 1)) / 2 ** 32).toBe(row[column]);
      });
    },
  );

  it('has a scrambled point in each equal part of every axis, in every block', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(20), (seed, block) => {
        const stream = sobolStream(seed, SOBOL_DIMENSIONS, 32);
        const rows = Array.from({ length: 32 }, (_, k) => point(stream, 32 * block + k));
        for (let k = 0; k < SOBOL_DIMENSIONS; k++) {
          expect(new Set(rows.map(row => Math.floor(row[k]! * 32))).size).toBe(32);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('has a scrambled point in each cell of a square, which random points have not', () => {
    const cells = (stream: Stream): number =>
      new Set(
        Array.from({ length: 64 }, (_, k) => {
          const [x, y] = point(stream, k);
          return Math.floor(x! * 8) * 8 + Math.floor(y! * 8);
        }),
      ).size;
    expect(cells(sobolStream(9, 2, 64))).toBe(64);
    expect(cells(randomStream(9, 2))).toBeLessThan(55);
  });

  it('has under any name the same evenness, also in its beginnings', () => {
    for (const name of ['', 'coupe', 'dash']) {
      const stream = sobolStream(9, 5, 1024, name);
      for (const count of [8, 16, 32, 64]) {
        const rows = Array.from({ length: count }, (_, k) => point(stream, k));
        for (let k = 0; k < 5; k++) expect(new Set(rows.map(row => Math.floor(row[k]! * count))).size).toBe(count);
      }
      // How large a block is has no say in its points.
      expect(point(sobolStream(9, 5, 64, name), 37)).toEqual(point(stream, 37));
    }
  });

  it('refuses a block that is no power of two', () => {
    for (const block of [0, 3, 1000, 2 ** 31]) expect(() => sobolStream(1, 2, block)).toThrow(/power of two/);
  });
});
