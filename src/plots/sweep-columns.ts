/** The columns of a sweep, or of the points that a search tried, in the units of display. */
import type { Column, Series } from '../runs/result.ts';
import type { System } from '../units.ts';
import { thin } from './kit/series.ts';
import { scaleOf } from '../units/rounding.ts';

/** What was varied. */
export interface SweepAxis {
  readonly label: string;
  readonly unit: string;
  /** Whether it is numbers, not names of cars. */
  readonly numeric: boolean;
  /** In each row: a number in the unit of display, or a name. */
  readonly values: readonly (number | string)[];
  /** Each value once, numbers in order. */
  readonly levels: readonly (number | string)[];
}

/** What came out. */
export interface SweepFigure {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  /** In each row; NaN without an answer. */
  readonly values: Float64Array;
  /** In each row, where samples were taken; NaN where too few have an answer. */
  readonly ends: { readonly low: Float64Array; readonly high: Float64Array } | null;
}

const isAxis = (key: string): boolean => /^at_\d$/.test(key);

/** Found once for a series: its pictures and tables all ask for them, and rows may be millions. */
const known = new WeakMap<Series, Map<System, readonly SweepAxis[]>>();

export function sweepAxes(rows: Series, system: System): readonly SweepAxis[] {
  const bySystem = known.get(rows) ?? new Map<System, readonly SweepAxis[]>();
  const found = bySystem.get(system) ?? axesOf(rows, system);
  known.set(rows, bySystem.set(system, found));
  return found;
}

function axesOf(rows: Series, system: System): readonly SweepAxis[] {
  return Object.entries(rows)
    .filter(([key]) => isAxis(key))
    .map(([, column]) => {
      const { unit } = scaleOf(column, system);
      const values = column.values instanceof Float64Array ? Array.from(displayed(column, system)) : column.values;
      const levels = [...new Set<number | string>(values)];
      const numeric = column.values instanceof Float64Array;
      if (numeric) levels.sort((a, b) => Number(a) - Number(b));
      return { label: column.label, unit, numeric, values, levels };
    });
}

/** @param within ends of the intervals, as `KEY_low` and `KEY_high`. */
export function sweepFigures(rows: Series, system: System, within: Series = {}): readonly SweepFigure[] {
  return Object.entries(rows).flatMap(([key, column]) =>
    isAxis(key) || !(column.values instanceof Float64Array)
      ? []
      : [
          {
            key,
            label: column.label,
            unit: scaleOf(column, system).unit,
            values: displayed(column, system),
            ends: endsOf(key, within, system),
          },
        ],
  );
}

function endsOf(key: string, within: Series, system: System): SweepFigure['ends'] {
  const [low, high] = [within[`${key}_low`], within[`${key}_high`]];
  return low === undefined || high === undefined
    ? null
    : { low: displayed(low, system), high: displayed(high, system) };
}

/** Values of a column of numbers in the unit of display. */
function displayed(column: Column, system: System): Float64Array {
  const { factor, offset } = scaleOf(column, system);
  if (!(column.values instanceof Float64Array)) throw new Error(`column ${column.label} is text`);
  return column.values.map(value => value * factor + offset);
}

/** Whether a figure has an answer in some row. */
export function answered({ values }: SweepFigure): boolean {
  return values.some(value => !Number.isNaN(value));
}

/** Evenly spread indices of at most `most` levels, the first and the last among them. */
export function thinned<T>(levels: readonly T[], most: number): readonly T[] {
  if (levels.length <= most) return levels;
  return thin(levels.length, most).flatMap(k => levels.slice(k, k + 1));
}
