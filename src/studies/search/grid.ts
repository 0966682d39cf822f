/** The grid of a sweep: every combination of the values of a few parameters, by number, without writing them all down. */
import * as elementary from '../../elementary.ts';
import { item } from '../../columns.ts';

/** Values of one parameter, in the order they are taken. */
export type Values =
  | { readonly kind: 'list'; readonly values: readonly number[] }
  /** `count` values from `from` to `to`, both included; evenly spaced, or by equal factors. */
  | {
      readonly kind: 'range';
      readonly from: number;
      readonly to: number;
      readonly count: number;
      readonly by?: 'steps' | 'factors';
    }
  /** From `from` in steps of `step`, `to` included where a step falls on it. */
  | { readonly kind: 'steps'; readonly from: number; readonly to: number; readonly step: number };

export interface Grid {
  /** The values of each parameter. */
  readonly axes: readonly Float64Array[];
  /** Number of rows. */
  readonly rows: number;
}

export const MOST_AXES = 4;

/** Grid of one to four parameters; the last one changes fastest. Throws a RangeError for axes that are none. */
export function gridOf(axes: readonly Values[]): Grid {
  if (axes.length < 1 || axes.length > MOST_AXES) {
    throw new RangeError(`a grid has one to ${MOST_AXES} axes, got ${axes.length}`);
  }
  const listed = axes.map(axis => Float64Array.from(valuesOf(axis)));
  const rows = listed.reduce((product, values) => product * values.length, 1);
  if (!Number.isSafeInteger(rows)) throw new RangeError(`a grid of ${rows} rows can not be counted`);
  return { axes: listed, rows };
}

/** Place of a row on each axis, from 0. */
export function gridPlaces(grid: Grid, row: number): number[] {
  let rest = checked(grid, row);
  const places = grid.axes.map(() => 0);
  for (let axis = places.length - 1; axis >= 0; axis--) {
    const { length } = item(grid.axes, axis);
    places[axis] = rest % length;
    rest = Math.floor(rest / length);
  }
  return places;
}

function checked({ rows }: Grid, row: number): number {
  if (Number.isInteger(row) && row >= 0 && row < rows) return row;
  throw new RangeError(`a grid of ${rows} rows has no row ${row}`);
}

/** The values of one axis. @throws RangeError for one that is none. */
export function valuesOf(axis: Values): readonly number[] {
  const values = axis.kind === 'list' ? axis.values : Array.from(axis.kind === 'range' ? range(axis) : steps(axis));
  if (values.length === 0 || !values.every(Number.isFinite)) {
    throw new RangeError(`an axis needs finite values, got ${JSON.stringify(axis)}`);
  }
  return values;
}

function range({ from, to, count, by = 'steps' }: Extract<Values, { kind: 'range' }>): Float64Array {
  if (!Number.isSafeInteger(count) || count < 1 || (count === 1 && from !== to)) {
    throw new RangeError(`a range from ${from} to ${to} can not have ${count} values`);
  }
  if (by === 'factors' && !(from * to > 0)) throw new RangeError(`no factor leads from ${from} to ${to}`);
  return Float64Array.from({ length: count }, (_, k) => {
    // The ends as they were given, not as they come out of the arithmetic.
    if (k === 0) return from;
    if (k === count - 1) return to;
    const share = k / (count - 1);
    return by === 'factors' ? from * elementary.pow(to / from, share) : from + share * (to - from);
  });
}

/** Share of a step by which the last value may miss `to` and still be meant: 0.1 + 0.1 + 0.1 is not 0.3. */
const SLACK = 1e-9;

function steps({ from, to, step }: Extract<Values, { kind: 'steps' }>): Float64Array {
  const exact = (to - from) / step;
  if (!(exact >= 0 && Number.isSafeInteger(Math.round(exact)))) {
    throw new RangeError(`steps of ${step} do not lead from ${from} to ${to}`);
  }
  const last = Math.floor(exact + SLACK);
  return Float64Array.from({ length: last + 1 }, (_, k) => {
    return k > 0 && k === last && Math.abs(exact - last) <= SLACK ? to : from + k * step;
  });
}
