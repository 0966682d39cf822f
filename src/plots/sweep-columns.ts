/** The columns of a sweep, or of the points that a search tried, in the units of display. */
import type { Column, Series } from '../runs/result.ts';
import type { System } from '../units.ts';
import { thin } from './kit/series.ts';
import { columnHeading, decimalsFor, digits, scaleOf, unitText } from './kit/rounding.ts';

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
}

const isAxis = (key: string): boolean => /^at_\d$/.test(key);

export function sweepAxes(rows: Series, system: System): readonly SweepAxis[] {
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

export function sweepFigures(rows: Series, system: System): readonly SweepFigure[] {
  return Object.entries(rows).flatMap(([key, column]) =>
    isAxis(key) || !(column.values instanceof Float64Array)
      ? []
      : [{ key, label: column.label, unit: scaleOf(column, system).unit, values: displayed(column, system) }],
  );
}

/** Values of a column of numbers in the unit of display. */
function displayed(column: Column, system: System): Float64Array {
  const { factor, offset } = scaleOf(column, system);
  if (!(column.values instanceof Float64Array)) throw new Error(`column ${column.label} is text`);
  return column.values.map(value => value * factor + offset);
}

/** `drive.ratio`, `mass, kg`: the name of the car in front of a path is left out. */
export function axisTitle({ label, unit }: SweepAxis): string {
  return columnHeading(shortPath(label), unit);
}

/** A path without the name of the car or run in front; `car` as it stands. */
export function shortPath(path: string): string {
  return path.includes('.') ? path.slice(path.indexOf('.') + 1) : path;
}

/** A value of an axis as text: `1000 kg`, `sport`. */
export function levelText({ unit }: SweepAxis, level: number | string): string {
  if (typeof level === 'string') return level;
  const text = unitText(unit);
  return number(level) + (text === '' ? '' : `\u00a0${text}`);
}

/** Up to four digits, no zeros behind the point: values of an axis are round or nearly so. */
export function number(value: number): string {
  const decimals = Math.max(decimalsFor(value, '1'), Math.abs(value) < 100 ? 2 : 0);
  const text = digits(value, decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Whether a figure has an answer in some row. */
export function answered({ values }: SweepFigure): boolean {
  return values.some(value => !Number.isNaN(value));
}

/** Headings of a table with a row for each run. */
export function rowHeadings(axes: readonly SweepAxis[], figures: readonly SweepFigure[]): string[] {
  return [...axes.map(axisTitle), ...figures.map(({ label, unit }) => columnHeading(label, unit))];
}

/** A row of that table: the units stand in its headings. */
export function rowTexts(axes: readonly SweepAxis[], figures: readonly SweepFigure[], row: number): string[] {
  return [
    ...axes.map(axis => levelText({ ...axis, unit: '1' }, axis.values[row] ?? '')),
    ...figures.map(({ values, unit }) => {
      const value = values[row] ?? Number.NaN;
      return Number.isNaN(value) ? 'no answer' : digits(value, decimalsFor(value, unit));
    }),
  ];
}

/** Evenly spread indices of at most `most` levels, the first and the last among them. */
export function thinned<T>(levels: readonly T[], most: number): readonly T[] {
  if (levels.length <= most) return levels;
  return thin(levels.length, most).flatMap(k => levels.slice(k, k + 1));
}
