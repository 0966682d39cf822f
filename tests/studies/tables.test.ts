import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brokenLimits } from '../../src/studies/search/broken-limits.ts';
import { differences, diminishing, gainPerAdded, relativeDifferences } from '../../src/studies/search/gain.ts';
import { gridOf, gridPlaces, gridRow } from '../../src/studies/search/grid.ts';
import { paretoFront } from '../../src/studies/search/pareto.ts';
import type { Wish } from '../../src/studies/search/pareto.ts';

describe('the Pareto front', () => {
  /** By the definition, every row against every other. */
  function byDefinition(columns: readonly number[][], wishes: readonly Wish[]): number[] {
    const rows = columns[0]!.map((_, row) =>
      columns.map((column, k) => (wishes[k] === 'low' ? column[row]! : -column[row]!)),
    );
    const known = (row: number[]) => !row.some(Number.isNaN);
    const dominated = (b: number[]) =>
      rows.some(a => known(a) && a.every((value, k) => value <= b[k]!) && a.some((value, k) => value < b[k]!));
    return rows.flatMap((row, index) => (known(row) && !dominated(row) ? [index] : []));
  }

  it('is what the definition says, with ties and rows without answers', () => {
    const value = fc.oneof(
      { weight: 20, arbitrary: fc.integer({ min: -4, max: 4 }) },
      fc.constantFrom(Number.NaN, -0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
    );
    const table = fc
      .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 0, max: 40 }))
      .chain(([width, rows]) =>
        fc.tuple(
          fc.array(fc.array(value, { minLength: rows, maxLength: rows }), { minLength: width, maxLength: width }),
          fc.array(fc.constantFrom<Wish>('low', 'high'), { minLength: width, maxLength: width }),
        ),
      );
    fc.assert(
      fc.property(table, ([columns, wishes]) => {
        expect(paretoFront(columns, wishes)).toEqual(byDefinition(columns, wishes));
      }),
      { numRuns: 500 },
    );
  });

  it('takes a hundred thousand rows that are all on it', () => {
    const n = 100_000;
    const up = Float64Array.from({ length: n }, (_, k) => (k * 7919) % n);
    const third = up.map(x => (x * 31) % n);
    expect(paretoFront([up, up.map(x => -x)], ['low', 'low'])).toHaveLength(n);
    expect(paretoFront([up, up.map(x => -x), third], ['low', 'low', 'high'])).toHaveLength(n);
    expect(paretoFront([up, third, up.map(x => -x), third], ['low', 'low', 'low', 'high'])).toHaveLength(n);
  });

  it('refuses columns that do not fit', () => {
    expect(() => paretoFront([], [])).toThrow(/columns of one length/);
    expect(() => paretoFront([[1, 2], [1]], ['low', 'low'])).toThrow(RangeError);
    expect(() => paretoFront([[1]], [])).toThrow(RangeError);
  });
});

describe('a grid', () => {
  const grid = gridOf([
    { kind: 'list', values: [3, 1] },
    { kind: 'steps', from: 0, to: 0.3, step: 0.1 },
    { kind: 'range', from: 1, to: 100, count: 3, by: 'factors' },
  ]);

  it('counts its rows, the last parameter changing fastest', () => {
    expect(grid.rows).toBe(24);
    expect(Array.from(grid.axes[1]!)).toEqual([0, 0.1, 0.2, 0.3]);
    const x = new Float64Array(3);
    const rows = [0, 1, 3, 12, 23].map(row => {
      gridRow(grid, row, x);
      return Array.from(x, value => Math.round(value * 1e9) / 1e9);
    });
    expect(rows).toEqual([
      [3, 0, 1],
      [3, 0, 10],
      [3, 0.1, 1],
      [1, 0, 1],
      [1, 0.3, 100],
    ]);
    expect(gridPlaces(grid, 23)).toEqual([1, 3, 2]);
  });

  it('has every combination once', () => {
    const length = fc.integer({ min: 1, max: 5 });
    fc.assert(
      fc.property(fc.array(length, { minLength: 1, maxLength: 4 }), lengths => {
        const made = gridOf(
          lengths.map(n => ({ kind: 'list' as const, values: Array.from({ length: n }, (_, k) => 10 * k) })),
        );
        const seen = new Set<string>();
        const x = new Float64Array(lengths.length);
        for (let row = 0; row < made.rows; row++) {
          gridRow(made, row, x);
          expect(Array.from(x)).toEqual(gridPlaces(made, row).map(place => 10 * place));
          seen.add(x.join());
        }
        expect(seen.size).toBe(lengths.reduce((product, n) => product * n, 1));
      }),
    );
  });

  it('keeps the ends as given, goes down as well, and needs no memory for its rows', () => {
    expect(Array.from(gridOf([{ kind: 'range', from: 0.3, to: 0.1, count: 3 }]).axes[0]!)).toEqual([0.3, 0.2, 0.1]);
    expect(Array.from(gridOf([{ kind: 'steps', from: 5, to: 2, step: -2 }]).axes[0]!)).toEqual([5, 3]);
    expect(Array.from(gridOf([{ kind: 'range', from: 4, to: 4, count: 1 }]).axes[0]!)).toEqual([4]);
    const thousand = { kind: 'range', from: 1, to: 1000, count: 1000 } as const;
    const large = gridOf([thousand, thousand, thousand, thousand]);
    const x = new Float64Array(4);
    gridRow(large, 1e12 - 2, x);
    expect(Array.from(x)).toEqual([1000, 1000, 1000, 999]);
  });

  it.each([
    [[]],
    [Array.from({ length: 5 }, () => ({ kind: 'list' as const, values: [1] }))],
    [[{ kind: 'list' as const, values: [] }]],
    [[{ kind: 'list' as const, values: [Number.NaN] }]],
    [[{ kind: 'range' as const, from: 1, to: 2, count: 1 }]],
    [[{ kind: 'range' as const, from: -1, to: 2, count: 3, by: 'factors' as const }]],
    [[{ kind: 'steps' as const, from: 1, to: 2, step: -1 }]],
    [[{ kind: 'steps' as const, from: 1, to: 2, step: 0 }]],
  ])('refuses %o', axes => {
    expect(() => gridOf(axes)).toThrow(RangeError);
  });

  it('refuses rows it has not', () => {
    for (const row of [-1, 24, 0.5]) expect(() => gridRow(grid, row, new Float64Array(3))).toThrow(/has no row/);
  });
});

describe('the arithmetic of a comparison', () => {
  it('takes every variant against the first', () => {
    expect(differences([10, 12, null, 7])).toEqual([0, 2, null, -3]);
    expect(differences([null, 12])).toEqual([null, null]);
    expect(relativeDifferences([-10, 12])).toEqual([0, 2.2]);
    expect(relativeDifferences([0, 12])).toEqual([null, null]);
  });

  it('gives kilometres per added kilogram', () => {
    // 20 km for 50 kg, 30 km for 100 kg, 5 km for nothing.
    expect(gainPerAdded([100, 120, 130, 105, null], [300, 350, 400, 300, 500])).toEqual([null, 0.4, 0.3, null, null]);
    expect(() => gainPerAdded([1], [])).toThrow(/needs a cost/);
  });

  it('says where the next step stops paying', () => {
    // Rates by hand: 2 per unit, 1 per unit, 0.5 per unit; in the order of cost, whatever that of the list.
    const { steps, stops } = diminishing([130, 100, 140, 120], [30, 0, 50, 10], 0.5);
    expect(steps.map(step => [step.from, step.to, step.rate])).toEqual([
      [1, 3, 2],
      [3, 0, 0.5],
      [0, 2, 0.5],
    ]);
    expect(stops).toBe(1);
    expect(diminishing([130, 100, 140, 120], [30, 0, 50, 10], 0.25).stops).toBeNull();
    expect(diminishing([5, 4], [0, 1], 0.5).stops).toBe(0);
    expect(diminishing([5, null], [0, 1], 0.5)).toEqual({ steps: [], stops: null });
    expect(diminishing([1, 3, 2], [0, 1, 1], 0.5).steps.map(step => step.to)).toEqual([1]);
    expect(() => diminishing([1], [1], 2)).toThrow(/share/);
  });

  it('names the limits that are broken', () => {
    const limits = [
      { output: 0, sense: 'at_most', bound: 900 },
      { output: 1, sense: 'at_least', bound: 160 },
      { output: 0, sense: 'at_most', bound: 950 },
      { output: 2, sense: 'at_most', bound: 1 },
    ] as const;
    expect(brokenLimits([950, 150, null], limits)).toEqual([
      { limit: 0, value: 950, excess: 50 },
      { limit: 1, value: 150, excess: 10 },
      { limit: 3, value: null, excess: null },
    ]);
    expect(() => brokenLimits([], limits)).toThrow(/output 0 of 0/);
  });
});
