/** A column of a series: its values in SI, and the units that it is shown in. */
import type { Column } from './result.ts';

export function column<V extends Column['values']>(
  label: string,
  unit: string,
  metric: string,
  imperial: string,
  values: V,
): Column & { values: V } {
  return { label, unit, display: { metric, imperial }, values };
}

/** Words, such as the names of runs. */
export function textColumn(label: string, values: readonly string[]): Column & { values: readonly string[] } {
  return column(label, '', '', '', values);
}

/** Speeds, m/s. */
export function speedColumn(label: string, values: Float64Array): Column & { values: Float64Array } {
  return column(label, 'm/s', 'km/h', 'mph', values);
}

/** A column of numbers that are still to be filled in, row by row. */
export function emptyColumn(
  label: string,
  unit: string,
  metric: string,
  imperial: string,
  rows: number,
): Column & { values: Float64Array } {
  return column(label, unit, metric, imperial, new Float64Array(rows));
}
