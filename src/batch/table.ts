/** All rows of a job in memory, column by column: 8 bytes a number. */
import { createServer, jobText } from './evaluate.ts';
import type { Consumer } from './consumer.ts';
import { createOrderedRows } from './ordered-rows.ts';
import { type Evaluators, type Job, stampOf } from './job.ts';
import { WHOLE } from './shard.ts';

export interface Table {
  readonly rows: number;
  /** One number per row; RangeError where there is no such column. */
  column(name: string): Float64Array;
  /** Why a row has no answer, or what is special about it; '' for nothing. */
  code(row: number): string;
}

/** @returns a consumer, and the table of what it has taken so far. */
export function createTable({ columns, rows }: Pick<Job, 'columns' | 'rows'>): { consumer: Consumer; table: Table } {
  const values = columns.map(() => new Float64Array(rows));
  // Few different words for many rows.
  const words = [''];
  const known = new Map([['', 0]]);
  const word = new Uint32Array(rows);
  let taken = 0;
  const consumer: Consumer = {
    every: 1024,
    take({ first, count, numbers, codes }) {
      values.forEach((column, k) => {
        for (let row = 0; row < count; row++) column[first + row] = numbers[row * columns.length + k] ?? Number.NaN;
      });
      codes.forEach((code, k) => {
        if (code === '') return;
        const number = known.get(code) ?? words.push(code) - 1;
        known.set(code, number);
        word[first + k] = number;
      });
      taken = first + count;
      return 'more';
    },
  };
  const table: Table = {
    get rows() {
      return taken;
    },
    column(name) {
      const column = values[columns.indexOf(name)];
      if (column === undefined) throw new RangeError(`no column "${name}"; there are ${columns.join(', ')}`);
      return column.subarray(0, taken);
    },
    code: row => words[word[row] ?? 0] ?? '',
  };
  return { consumer, table };
}

/** Does a small job at once in this thread: the same numbers as `runJob`. @throws Error where a row fails. */
export function tableHere(job: Job, evaluators: Evaluators): Table {
  const stamp = stampOf(job, '', WHOLE);
  const { consumer, table } = createTable(job);
  const ordered = createOrderedRows(stamp, consumer);
  const stop = new Int32Array(1);
  const serve = createServer(evaluators);
  const text = jobText(stamp);
  while (!ordered.full) {
    const count = Math.min(1024, job.rows - ordered.rows);
    const order = { text, layout: stamp.layout, first: ordered.rows, step: 1, count, stop };
    const { bytes, rows, failed } = serve(order);
    ordered.take(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength), rows);
    if (failed !== '') throw new Error(`job "${job.kind}", ${failed}`);
  }
  return table;
}
