/** The Pareto front: rows that no other row beats. */

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
    row => !table.some(column => Number.isNaN(column[row]!)),
  );
  rows.sort((a, b) => compare(table, a, b));
  // Twins stand side by side now; the first of them stands for all.
  const single = rows.filter((row, k) => k === 0 || compare(table, rows[k - 1]!, row) !== 0);
  const chosen = new Set(frontOf(table, single));
  let on = false;
  const front = rows.filter((row, k) => {
    if (k === 0 || compare(table, rows[k - 1]!, row) !== 0) on = chosen.has(row);
    return on;
  });
  return front.toSorted((a, b) => a - b);
}

type Table = readonly Float64Array[];

/** Order by the first column, then by the next ones: no row is dominated by a later one. */
function compare(table: Table, a: number, b: number): number {
  for (const column of table) {
    const [left, right] = [column[a]!, column[b]!];
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
  return before.concat(undominated(table, before, after, 1));
}

/** So few pairs are compared one by one. */
const FEW = 256;

/** The rows that none of `best` dominates, it being known that all of `best` are as good in the columns before `from`. */
function undominated(table: Table, best: readonly number[], rows: readonly number[], from: number): readonly number[] {
  if (best.length === 0 || rows.length === 0) return rows;
  const left = table.length - from;
  if (left === 0) return [];
  if (left === 1) {
    const least = lowest(table[from]!, best);
    return rows.filter(row => table[from]![row]! < least);
  }
  if (best.length * rows.length <= FEW) return rows.filter(row => !best.some(one => asGood(table, one, row, from)));
  if (left === 2) return sweep(table[from]!, table[from + 1]!, best, rows);
  return split(table, best, rows, from);
}

/** Halves both sets at a value of one column: the better half of `best` then counts in the columns behind it only. */
function split(table: Table, best: readonly number[], rows: readonly number[], from: number): readonly number[] {
  const column = table[from]!;
  if (highest(column, best) <= lowest(column, rows)) return undominated(table, best, rows, from + 1);
  if (lowest(column, best) > highest(column, rows)) return rows;
  const values = Float64Array.from([...best, ...rows], row => column[row]!).toSorted();
  const top = values.at(-1)!;
  let place = values.length >> 1;
  // Something must lie above the cut. The values are not all equal, or one of the cases above would have held.
  while (values[place] === top) place--;
  const cut = values[place]!;
  const low = (row: number): boolean => column[row]! <= cut;
  const high = (row: number): boolean => column[row]! > cut;
  const [goodBest, poorBest] = [best.filter(low), best.filter(high)];
  const poor = undominated(table, goodBest, rows.filter(high), from + 1);
  return undominated(table, goodBest, rows.filter(low), from).concat(undominated(table, poorBest, poor, from));
}

/** Two columns: goes up the first one with the lowest value of the second one so far. */
function sweep(first: Float64Array, second: Float64Array, best: readonly number[], rows: readonly number[]): number[] {
  const rising = best.toSorted((a, b) => first[a]! - first[b]!);
  let least = Number.POSITIVE_INFINITY;
  let next = 0;
  return rows
    .toSorted((a, b) => first[a]! - first[b]!)
    .filter(row => {
      for (; next < rising.length && first[rising[next]!]! <= first[row]!; next++) {
        least = Math.min(least, second[rising[next]!]!);
      }
      return second[row]! < least || next === 0;
    });
}

function asGood(table: Table, a: number, b: number, from: number): boolean {
  for (let k = from; k < table.length; k++) if (table[k]![a]! > table[k]![b]!) return false;
  return true;
}

function lowest(column: Float64Array, rows: readonly number[]): number {
  return rows.reduce((least, row) => Math.min(least, column[row]!), Number.POSITIVE_INFINITY);
}

function highest(column: Float64Array, rows: readonly number[]): number {
  return rows.reduce((most, row) => Math.max(most, column[row]!), Number.NEGATIVE_INFINITY);
}
