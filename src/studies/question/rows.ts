/** Rows of a study: done here and now, or handed in from wherever they were done. */
import type { Change } from '../../runs/answer/change.ts';
import { pathChecker } from '../../runs/answer/paths.ts';
import { figureKey } from './figures.ts';
import type { Study } from './figures.ts';
import { createSubject } from './study-model.ts';

export interface Rows {
  readonly rows: number;
  /** One number per row, NaN where there is no answer; RangeError where there is no such column. */
  column(name: string): Float64Array;
  /** Why a row has no answer; '' for nothing. */
  code(row: number): string;
}

/**
 * Does rows in this thread: each is what changes about the cars and runs. Columns have the keys of the figures.
 * @throws SpecError for a path that leads to no field of any of the runs.
 */
export function rowsHere({ subject, figures }: Study, rows: readonly (readonly Change[])[]): Rows {
  const check = pathChecker(subject.questions);
  for (const changes of rows) for (const { path } of changes) check(path);
  const answer = createSubject(subject);
  const columns = new Map(figures.map(figure => [figureKey(figure), new Float64Array(rows.length)]));
  const out = new Float64Array(figures.length);
  const codes = rows.map((changes, row) => {
    const code = answer(changes, out);
    for (const [k, column] of [...columns.values()].entries()) column[row] = out[k] ?? Number.NaN;
    return code;
  });
  return {
    rows: rows.length,
    column(name) {
      const found = columns.get(name);
      if (found === undefined) throw new RangeError(`no column "${name}"`);
      return found;
    },
    code: row => codes[row] ?? '',
  };
}

/** Why the first row without an answer has none; undefined where no row says so. */
export function firstCode(rows: Rows): string | undefined {
  for (let row = 0; row < rows.rows; row++) if (rows.code(row) !== '') return rows.code(row);
  return undefined;
}
