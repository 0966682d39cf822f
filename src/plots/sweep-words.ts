/** The columns of a sweep in words: headings, values, rows of a table. */
import { columnHeading, decimalsFor, digits, unitText } from '../units/rounding.ts';
import type { SweepAxis, SweepFigure } from './sweep-columns.ts';

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
