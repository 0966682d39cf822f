import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differences, diminishing } from '../../src/studies/search/gain.ts';
import { gridOf, gridPlaces } from '../../src/studies/search/grid.ts';
import type { Grid } from '../../src/studies/search/grid.ts';
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

/** The values of a row, one per axis. */
const valuesOf = (grid: Grid, row: number): readonly number[] =>
  gridPlaces(grid, row).map((place, k) => grid.axes[k]?.[place] ?? Number.NaN);

describe('a grid', () => {
  const grid = gridOf([
    { kind: 'list', values: [3, 1] },
    { kind: 'steps', from: 0, to: 0.3, step: 0.1 },
    { kind: 'range', from: 1, to: 100, count: 3, by: 'factors' },
  ]);

  it('counts its rows, the last parameter changing fastest', () => {
    expect(grid.rows).toBe(24);
    expect(Array.from(grid.axes[1]!)).toEqual([0, 0.1, 0.2, 0.3]);
    const rows = [0, 1, 3, 12, 23].map(row => valuesOf(grid, row).map(value => Math.round(value * 1e9) / 1e9));
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
        for (let row = 0; row < made.rows; row++) seen.add(valuesOf(made, row).join());
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
    expect(valuesOf(large, 1e12 - 2)).toEqual([1000, 1000, 1000, 999]);
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
    for (const row of [-1, 24, 0.5]) expect(() => gridPlaces(grid, row)).toThrow(/has no row/);
  });
});

describe('the arithmetic of a comparison', () => {
  it('takes every variant against the first', () => {
    expect(differences([10, 12, null, 7])).toEqual([0, 2, null, -3]);
    expect(differences([null, 12])).toEqual([null, null]);
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
});
