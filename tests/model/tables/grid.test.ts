import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluateGrid, type Grid, gridAt, surfaceThrough } from '../../../src/model/tables/grid.ts';

interface PeerLine {
  readonly at: number[];
  readonly value: number[];
  readonly slope: number[];
}

interface PeerTable {
  readonly x: number[];
  readonly y: number[];
  readonly z: number[];
  readonly along_x: PeerLine[];
  readonly along_y: PeerLine[];
}

const peer = JSON.parse(readFileSync(new URL('../../published/peer/grid.json', import.meta.url), 'utf8')) as {
  tables: { [name: string]: PeerTable };
};

const out = new Float64Array(3);

function evaluated(grid: Grid, x: number, y: number): [z: number, zx: number, zy: number] {
  evaluateGrid(grid, x, y, out);
  return [out[0]!, out[1]!, out[2]!];
}

const axis = fc
  .array(fc.double({ min: 0.2, max: 3, noNaN: true }), { minLength: 2, maxLength: 6 })
  .map(steps => steps.map((_, k) => steps.slice(0, k).reduce((sum, step) => sum + step, -2)));

/** Gaps and rises that differ by orders, where a bicubic with plain differences overshoots by as much as it rises. */
const wildAxis = fc
  .array(fc.constantFrom(0.2, 1, 3), { minLength: 4, maxLength: 4 })
  .map(steps => steps.map((_, k) => steps.slice(0, k).reduce((sum, step) => sum + step, 0)));

function tables(axis: fc.Arbitrary<number[]>, value: fc.Arbitrary<number>) {
  return fc
    .tuple(axis, axis)
    .chain(([x, y]) =>
      fc.array(value, { minLength: x.length * y.length, maxLength: x.length * y.length }).map(z => ({ x, y, z })),
    );
}

/** Any table. */
const table = tables(axis, fc.double({ min: -100, max: 100, noNaN: true }));

/** Rises along both axes, here and there not at all. */
const rising = tables(wildAxis, fc.constantFrom(0, 1, 1, 5, 50)).map(({ x, y, z }) => {
  const sums = [...z];
  for (const k of sums.keys()) {
    const [left, below] = [k >= y.length ? sums[k - y.length]! : 0, k % y.length > 0 ? sums[k - 1]! : 0];
    sums[k]! += Math.max(left, below);
  }
  return { x, y, z: sums };
});

const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('the surface', () => {
  it.each(Object.entries(peer.tables))("agrees with SciPy's PchipInterpolator on grid lines: %s", (_, t) => {
    const grid = surfaceThrough(t.x, t.y, t.z);
    const size = Math.max(...t.z.map(Math.abs));
    t.along_x.forEach((line, j) => {
      line.at.forEach((x, k) => {
        const [z, zx] = evaluated(grid, x, t.y[j]!);
        expect(Math.abs(z - line.value[k]!), `z(${x}, ${t.y[j]})`).toBeLessThan(1e-13 * size);
        expect(Math.abs(zx - line.slope[k]!), `slope at (${x}, ${t.y[j]})`).toBeLessThan(1e-12 * size);
      });
    });
    t.along_y.forEach((line, i) => {
      line.at.forEach((y, k) => {
        const [z, , zy] = evaluated(grid, t.x[i]!, y);
        expect(Math.abs(z - line.value[k]!), `z(${t.x[i]}, ${y})`).toBeLessThan(1e-13 * size);
        expect(Math.abs(zy - line.slope[k]!), `slope at (${t.x[i]}, ${y})`).toBeLessThan(1e-12 * size);
      });
    });
  });

  it('is exact for a product of two straight lines, between the points and beyond them', () => {
    const z = (x: number, y: number): number => (2 + 3 * x) * (5 - y);
    const [x, y] = [
      [0, 1, 4, 5],
      [-3, -1, 0, 2],
    ];
    const grid = surfaceThrough(
      x,
      y,
      x.flatMap(a => y.map(b => z(a, b))),
    );
    for (const [a, b] of [
      [0.3, -2],
      [4.5, 1.7],
      [7, 0.5],
      [2, -6],
      [-3, 9],
    ] as const) {
      const [value, zx, zy] = evaluated(grid, a, b);
      expect(value).toBeCloseTo(z(a, b), 11);
      expect(zx).toBeCloseTo(3 * (5 - b), 11);
      expect(zy).toBeCloseTo(-(2 + 3 * a), 11);
    }
  });

  it('passes through its points and never leaves the corners of a cell', () => {
    fc.assert(
      fc.property(fc.oneof(table, rising), share, share, ({ x, y, z }, u, v) => {
        const grid = surfaceThrough(x, y, z);
        const ny = y.length;
        for (let i = 0; i < x.length; i++) {
          for (let j = 0; j < ny; j++) {
            expect(Math.abs(gridAt(grid, x[i]!, y[j]!) - z[i * ny + j]!), `point ${i}, ${j}`).toBeLessThan(1e-12);
            if (i + 1 === x.length || j + 1 === ny) continue;
            const corners = [z[i * ny + j]!, z[i * ny + j + 1]!, z[(i + 1) * ny + j]!, z[(i + 1) * ny + j + 1]!];
            const between = gridAt(grid, x[i]! + u * (x[i + 1]! - x[i]!), y[j]! + v * (y[j + 1]! - y[j]!));
            expect(between).toBeGreaterThanOrEqual(Math.min(...corners) - 1e-9);
            expect(between).toBeLessThanOrEqual(Math.max(...corners) + 1e-9);
          }
        }
      }),
      { numRuns: 400 },
    );
  });

  it('is monotone on a grid line between two points, as the curve is', () => {
    fc.assert(
      fc.property(table, share, share, ({ x, y, z }, a, b) => {
        const grid = surfaceThrough(x, y, z);
        const ny = y.length;
        const [u, v] = [Math.min(a, b), Math.max(a, b)];
        for (let i = 0; i + 1 < x.length; i++) {
          for (let j = 0; j < ny; j++) {
            const h = x[i + 1]! - x[i]!;
            const [first, second] = [gridAt(grid, x[i]! + u * h, y[j]!), gridAt(grid, x[i]! + v * h, y[j]!)];
            const rise = z[(i + 1) * ny + j]! - z[i * ny + j]!;
            expect((second - first) * Math.sign(rise)).toBeGreaterThanOrEqual(-1e-9);
          }
        }
      }),
    );
  });

  it('has the slopes it says, and no kink at a grid line or a border', () => {
    fc.assert(
      fc.property(table, fc.double({ min: -4, max: 14, noNaN: true }), share, ({ x, y, z }, a, v) => {
        const grid = surfaceThrough(x, y, z);
        const h = 1e-6;
        const b = y[0]! - 1 + v * (y.at(-1)! - y[0]! + 2);
        for (const [px, py] of [[a, b], ...x.map(each => [each, b] as const), ...y.map(each => [a, each] as const)]) {
          const [, zx, zy] = evaluated(grid, px, py);
          const alongX = (gridAt(grid, px + h, py) - gridAt(grid, px - h, py)) / (2 * h);
          const alongY = (gridAt(grid, px, py + h) - gridAt(grid, px, py - h)) / (2 * h);
          // Second derivatives reach some 12 x 200 / 0.2^2, and grow outwards with the distance over 0.2.
          expect(Math.abs(zx - alongX)).toBeLessThan(h * 3e6);
          expect(Math.abs(zy - alongY)).toBeLessThan(h * 3e6);
          const [, leftX, leftY] = evaluated(grid, px - h, py - h);
          expect(Math.abs(leftX - zx)).toBeLessThan(h * 3e6);
          expect(Math.abs(leftY - zy)).toBeLessThan(h * 3e6);
        }
      }),
    );
  });

  it('has no kink at grid lines and borders of a gentle table', () => {
    const t = peer.tables['ridge']!;
    const grid = surfaceThrough(t.x, t.y, t.z);
    const h = 1e-9;
    for (const x of [...t.x, -5, 0.1, 6]) {
      for (const y of [...t.y, 0, 3.3, 9]) {
        const before = evaluated(grid, x - h, y - h);
        const after = evaluated(grid, x + h, y + h);
        before.forEach((value, k) => expect(Math.abs(value - after[k]!), `${x}, ${y}`).toBeLessThan(1e-6));
      }
    }
  });

  it('is flat across the middle of an even surface', () => {
    const grid = surfaceThrough([0, 1, 2], [0, 1, 3], [5, 6, 14, 4, 7, 13, 3, 9, 12], { even: true });
    for (const x of [0, 0.4, 1, 1.9, 3]) expect(evaluated(grid, x, 0)[2]).toBe(0);
    expect(evaluated(grid, 1, 0.01)[2]).toBeGreaterThan(0);
    expect(() => surfaceThrough([0, 1], [1, 2], [1, 2, 3, 4], { even: true })).toThrow(/starts at y = 0/);
  });

  it('gives the same whatever was asked before', () => {
    const t = peer.tables['loss of a motor']!;
    const [used, fresh] = [surfaceThrough(t.x, t.y, t.z), () => surfaceThrough(t.x, t.y, t.z)];
    for (const [x, y] of [
      [1290, 140],
      [1, 1],
      [600, 50],
      [600, 49.9],
      [-5, 300],
      [420, 80],
    ] as const) {
      expect(gridAt(used, x, y)).toBe(gridAt(fresh(), x, y));
    }
  });

  it('gives NaN for NaN', () => {
    const grid = surfaceThrough([0, 1], [0, 1], [0, 1, 2, 3]);
    expect(gridAt(grid, Number.NaN, 0.5)).toBeNaN();
    expect(gridAt(grid, 0.5, Number.NaN)).toBeNaN();
    expect(gridAt(grid, 0.5, 0.5)).toBe(1.5);
  });

  it.each([
    [[0], [0, 1], [0, 1], /two x or more/],
    [[0, 1], [0, 0], [0, 1, 2, 3], /y must ascend, but number 2 is 0 after 0/],
    [[0, Number.NaN], [0, 1], [0, 1, 2, 3], /x 2 of the grid/],
    [[0, 1], [0, 1], [0, 1, 2], /as many values, not 3/],
    [[0, 1], [4, 5], [0, 1, 2, Infinity], /value at \(1, 5\)/],
  ])('refuses the table %j, %j, %j', (x, y, z, message) => {
    expect(() => surfaceThrough(x, y, z)).toThrow(RangeError);
    expect(() => surfaceThrough(x, y, z)).toThrow(message);
  });
});
