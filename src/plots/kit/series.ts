/** Columns and figures of a result, and columns in the units of display. */
import { SHOWN_BEYOND, SHOWN_MARKS, timeKey } from '../../runs/launch/marks.ts';
import type { Column, Result } from '../../runs/result.ts';
import { numbers } from '../../runs/series.ts';
import type { System } from '../../units.ts';
import { capital, columnHeading, figure, scaleOf } from '../../units/rounding.ts';
import type { Point } from './simplify.ts';

/** A column; none of that name is an error in the program. */
export function columnOf(result: Result, series: string, key: string): Column {
  const column = result.series[series]?.[key];
  if (column === undefined) throw new Error(`the series ${series} has no column ${key}`);
  return column;
}

/** Values in display units. */
export function shown(result: Result, series: string, key: string, system: System): Float64Array {
  const { factor, offset } = scaleOf(columnOf(result, series, key), system);
  return numbers(result.series[series] ?? {}, key).map(value => value * factor + offset);
}

/** `Pack voltage, V`. */
export function headingOf(result: Result, series: string, key: string, system: System): string {
  const column = columnOf(result, series, key);
  return columnHeading(capital(column.label), scaleOf(column, system).unit);
}

/** One column over another in display units; rows without a number are left out. */
export function pointsOf(result: Result, series: string, x: string, y: string, system: System): readonly Point[] {
  const across = shown(result, series, x, system);
  return Array.from(shown(result, series, y, system), (value, i) => ({ x: across[i] ?? 0, y: value })).filter(
    point => !Number.isNaN(point.y),
  );
}

/** A number of the summary, or null when it is missing, a word, or without an answer. */
export function summaryNumber(result: Result, key: string): number | null {
  const value = result.summary[key];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** A number of the summary in display units, without its interval; a dash where there is none. */
export function plainFigure(result: Result, key: string, system: System, decimals?: number): string {
  const value = summaryNumber(result, key);
  const output = result.outputs[key];
  return value === null || output === undefined ? '–' : figure(value, output, system, decimals);
}

/** Indices of at most `count` of `length` rows, evenly spread, the first and the last among them. */
export function thin(length: number, count: number): readonly number[] {
  if (length <= count) return Array.from({ length }, (_, i) => i);
  return Array.from({ length: count }, (_, i) => Math.round((i * (length - 1)) / (count - 1)));
}

/**
 * Time, s, up to which a launch is worth drawing: a little past the last of `SHOWN_MARKS`.
 */
export function span(result: Result): number {
  const series = result.series['time'];
  const times = series === undefined ? new Float64Array(0) : numbers(series, 'time_s');
  const end = times.at(-1) ?? 0;
  const passed = SHOWN_MARKS.map(mark => summaryNumber(result, timeKey(mark))).filter(time => time !== null);
  return passed.length === 0 ? end : Math.min(end, SHOWN_BEYOND * Math.max(...passed));
}
