/** Reads the columns of a series by name, where one that is not there or of the other kind is an error in the program. */
import type { Column, Series } from './result.ts';

/** Numbers of a column. */
export function numbers(series: Series, key: string): Float64Array {
  const values = valuesOf(series, key);
  if (!(values instanceof Float64Array)) throw new Error(`column ${key} is text`);
  return values;
}

/** Words of a column. */
export function texts(series: Series, key: string): readonly string[] {
  const values = valuesOf(series, key);
  if (values instanceof Float64Array) throw new Error(`column ${key} is no text`);
  return values;
}

function valuesOf(series: Series, key: string): Column['values'] {
  const column = series[key];
  if (column === undefined) throw new Error(`the series has no column ${key}`);
  return column.values;
}
