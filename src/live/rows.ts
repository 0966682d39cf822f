/** Does the rows that a notebook waits for, a few at a time, so that a newer setting is heard in between. */
import { evaluators } from '../batch/evaluators.ts';
import type { Job } from '../batch/job.ts';
import type { Table } from '../batch/table.ts';
import type { Turning } from '../notebook/rows-ask.ts';

/** ms after which others are heard. */
const AT_ONCE = 12;

/** A newer setting came. */
export class Overtaken extends Error {}

/** @param breathe resolves once others were heard, and throws Overtaken where nobody waits for the answer any more. */
export async function answered<T>(steps: Turning<T>, breathe: () => Promise<void>): Promise<T> {
  let step = steps.next();
  while (step.done !== true) {
    if (step.value === null) {
      await breathe();
      step = steps.next(null);
      continue;
    }
    let table: Table;
    try {
      table = await tableOf(step.value.job, breathe);
    } catch (error) {
      if (error instanceof Overtaken) throw error;
      step = steps.throw(error);
      continue;
    }
    step = steps.next(table);
  }
  return step.value;
}

async function tableOf({ kind, payload, rows, columns }: Job, breathe: () => Promise<void>): Promise<Table> {
  const evaluator = evaluators.get(kind)?.(payload);
  if (evaluator === undefined) throw new RangeError(`no evaluator "${kind}"`);
  const values = columns.map(() => new Float64Array(rows));
  const codes: string[] = [];
  const row = new Float64Array(columns.length);
  let began = performance.now();
  for (let k = 0; k < rows; k++) {
    row.fill(Number.NaN);
    codes.push(evaluator.evaluate(k, row) ?? '');
    for (const [c, column] of values.entries()) column[k] = row[c] ?? Number.NaN;
    if (performance.now() - began < AT_ONCE) continue;
    await breathe();
    began = performance.now();
  }
  return {
    rows,
    column(name) {
      const found = values[columns.indexOf(name)];
      if (found === undefined) throw new RangeError(`no column "${name}"; there are ${columns.join(', ')}`);
      return found;
    },
    code: k => codes[k] ?? '',
  };
}
