/** The Pareto front: rows that no other row beats. */
import { lastOf, nth } from '../../columns.ts';

/** What is wanted of a column. */
export type Wish = 'low' | 'high';

/**
 * Indices of the rows that no other row dominates, ascending. A row dominates another when it is at least as good in every
 * column and better in one. Rows that are equal in all columns do not dominate each other: they are on the front together, or not
 * at all. A row with NaN in a column can not be compared: it is never on the front and keeps no other off it.
 *
 * Columns are all of one length, one wish for each; a RangeError otherwise. Divide and conquer after H. T. Kung, F.
 * Luccio, F. P. Preparata, J. ACM 22 (1975) 469-476: n rows of k columns take about n (log n)^(k - 1), however many of them
 * are on the front.
 */
export function paretoFront(columns: readonly ArrayLike<number>[], wishes: readonly Wish[]): number[] {
  const count = columns[0]?.length ?? 0;
  if (columns.length === 0 || wishes.length !== columns.length || columns.some(column => column.length !== count)) {
    throw new RangeError(
      `a front needs columns of one length and a wish for each, got ${columns.length} and ${wishes.length}`,
    );
  }
  // From here on low is good in every column. Adding 0 makes one zero of the two.
  const table = columns.map((column, k) =>
    Float64Array.from(column, value => (wishes[k] === 'low' ? value : -value) + 0),
  );
  const rows = Array.from({ length: count }, (_, row) => row).filter(
    row => !table.some(column => Number.isNaN(nth(column, row))),
  );
  rows.sort((a, b) => compare(table, a, b));
  // Twins stand side by side now; the first of them stands for all.
  const single = rows.filter((row, k) => k === 0 || compare(table, nth(rows, k - 1), row) !== 0);
  const chosen = new Set(frontOf(table, single));
  let on = false;
  const front = rows.filter((row, k) => {
    if (k === 0 || compare(table, nth(rows, k - 1), row) !== 0) on = chosen.has(row);
    return on;
  });
  return front.toSorted((a, b) => a - b);
}

type Table = readonly Float64Array[];

/** Order by the first column, then by the next ones: no row is dominated by a later one. */
function compare(table: Table, a: number, b: number): number {
  for (const column of table) {
    const [left, right] = [nth(column, a), nth(column, b)];
    if (left !== right) return left < right ? -1 : 1;
  }
  return 0;
}

/** Front of different rows in that order: the one of the first half, and what it leaves of the one of the second half. */
function frontOf(table: Table, rows: readonly number[]): readonly number[] {
  if (rows.length < 2) return rows;
  const half = rows.length >> 1;
  const before = frontOf(table, rows.slice(0, half));
  const after = frontOf(table, rows.slice(half));
  return before.concat(undominated(table.slice(1), before, after));
}

/** So few pairs are compared one by one. */
const FEW = 256;

/** The rows that none of `best` dominates, in the columns that are left: in all others all of `best` are known to be as good. */
function undominated(left: Table, best: readonly number[], rows: readonly number[]): readonly number[] {
  if (best.length === 0 || rows.length === 0) return rows;
  const [first, second] = left;
  if (first === undefined) return [];
  if (second === undefined) {
    const least = lowest(first, best);
    return rows.filter(row => nth(first, row) < least);
  }
  if (best.length * rows.length <= FEW) return rows.filter(row => !best.some(one => isAsGood(left, one, row)));
  if (left.length === 2) return sweep(first, second, best, rows);
  return split(first, left.slice(1), best, rows);
}

/** Halves both sets at a value of one column: the better half of `best` then counts in the columns behind it only. */
function split(
  column: Float64Array,
  behind: Table,
  best: readonly number[],
  rows: readonly number[],
): readonly number[] {
  if (highest(column, best) <= lowest(column, rows)) return undominated(behind, best, rows);
  if (lowest(column, best) > highest(column, rows)) return rows;
  const values = Float64Array.from([...best, ...rows], row => nth(column, row)).toSorted();
  const top = lastOf(values);
  let place = values.length >> 1;
  // Something must lie above the cut. The values are not all equal, or one of the cases above would have held.
  while (values[place] === top) place--;
  const cut = nth(values, place);
  const low = (row: number): boolean => nth(column, row) <= cut;
  const high = (row: number): boolean => nth(column, row) > cut;
  const [goodBest, poorBest] = [best.filter(low), best.filter(high)];
  const poor = undominated(behind, goodBest, rows.filter(high));
  const both = [column, ...behind];
  return undominated(both, goodBest, rows.filter(low)).concat(undominated(both, poorBest, poor));
}

/** Two columns: goes up the first one with the lowest value of the second one so far. */
function sweep(first: Float64Array, second: Float64Array, best: readonly number[], rows: readonly number[]): number[] {
  const rising = best.toSorted((a, b) => nth(first, a) - nth(first, b));
  let least = Number.POSITIVE_INFINITY;
  let next = 0;
  return rows
    .toSorted((a, b) => nth(first, a) - nth(first, b))
    .filter(row => {
      for (; next < rising.length && nth(first, nth(rising, next)) <= nth(first, row); next++) {
        least = Math.min(least, nth(second, nth(rising, next)));
      }
      return nth(second, row) < least || next === 0;
    });
}

function isAsGood(columns: Table, one: number, other: number): boolean {
  return columns.every(column => nth(column, one) <= nth(column, other));
}

function lowest(column: Float64Array, rows: readonly number[]): number {
  return rows.reduce((least, row) => Math.min(least, nth(column, row)), Number.POSITIVE_INFINITY);
}

function highest(column: Float64Array, rows: readonly number[]): number {
  return rows.reduce((most, row) => Math.max(most, nth(column, row)), Number.NEGATIVE_INFINITY);
}
