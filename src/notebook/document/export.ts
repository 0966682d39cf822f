/** The outcome of a notebook as CSV and JSON, for other programs. */
import { csvField } from '../../batch/csv-field.ts';
import type { Series } from '../../runs/result.ts';
import type { NotebookOutcome } from './outcome.ts';

/** One CSV file. */
export interface Table {
  /** Name without folder and ending: `dash.time`. */
  readonly name: string;
  readonly text: string;
}

/** Every series of every result, in the order of the notebook. */
export function csvTables(outcome: NotebookOutcome): Table[] {
  return outcome.blocks.flatMap(block => {
    if (block.kind !== 'cell' || block.result === null) return [];
    return Object.entries(block.result.series).map(([name, series]) => ({
      name: `${block.name}.${name}`,
      text: csv(series),
    }));
  });
}

/** A series as RFC 4180 text: keys of the columns as header, lines ended by CR LF, numbers in full precision. */
export function csv(series: Series): string {
  const columns = Object.values(series);
  const rows = columns.reduce((most, column) => Math.max(most, column.values.length), 0);
  const lines = [Object.keys(series).map(csvField).join(',')];
  for (let row = 0; row < rows; row += 1) {
    lines.push(columns.map(column => field(column.values[row] ?? '')).join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

/** A value that is not a number (infinite, undefined) is an empty field: no program reads such words alike. */
function field(value: number | string): string {
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  return csvField(value);
}

/** The whole outcome as JSON with the keys in a fixed order; typed arrays become arrays, numbers JSON has not null. */
export function json(outcome: NotebookOutcome): string {
  return `${JSON.stringify(outcome, (key, value: unknown) =>
    // What it says stands among the inputs.
    key === 'sketch' ? undefined : value instanceof Float64Array ? [...value] : value,
  )}\n`;
}
