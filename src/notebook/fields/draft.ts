/** Values while they are read: what a part brought in is written over by what stands beside `from`. */
import type { Place } from '../document/located.ts';
import type { FieldValue, FieldValues } from './read-context.ts';

/** By key of the field table. */
export type Draft = Map<string, FieldValue | Draft | Rows>;

/** The groups of a list. */
export class Rows {
  readonly rows: readonly { readonly draft: Draft; readonly place: Place }[];
  constructor(rows: Rows['rows']) {
    this.rows = rows;
  }
}

/** The values of a draft that is done. */
export function plain(draft: Draft): FieldValues {
  return Object.fromEntries([...draft].map(([key, value]) => [key, plainValue(value)]));
}

function plainValue(value: FieldValue | Draft | Rows): FieldValue {
  if (value instanceof Rows) return value.rows.map(row => plain(row.draft));
  return value instanceof Map ? plain(value) : value;
}
