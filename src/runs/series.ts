/** Reads the columns of a series by name, where one that is not there or of the other kind is an error in the program. */
import { named } from '../columns.ts';
import type { Series } from './result.ts';

/** Numbers of a column. */
export function numbers(series: Series, key: string): Float64Array {
  const { values } = named(series, key);
  if (!(values instanceof Float64Array)) throw new Error(`column ${key} is text`);
  return values;
}

/** Words of a column. */
export function texts(series: Series, key: string): readonly string[] {
  const { values } = named(series, key);
  if (values instanceof Float64Array) throw new Error(`column ${key} is no text`);
  return values;
}
