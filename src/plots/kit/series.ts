/** Columns of a result in the units of display. */
import type { Column, Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { capital, columnHeading, scaleOf } from './rounding.ts';
import type { Point } from './simplify.ts';
import { numbers } from './picture.ts';

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
