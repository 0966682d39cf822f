/** Does a stretch of a job's rows and hands them back as bytes: the same in this thread as in any other. */
import { evaluatorOf, type Evaluator, type Evaluators, type Job } from './job.ts';
import type { Layout } from './layout.ts';
import { createRecords } from './record.ts';

/** Canonical JSON of a job, in memory that threads share: half a megabyte is not copied with every order. */
export interface JobText {
  readonly hash: string;
  readonly bytes: Uint8Array<SharedArrayBuffer>;
}

export function jobText({ text, hash }: { readonly text: string; readonly hash: string }): JobText {
  const plain = new TextEncoder().encode(text);
  const bytes = new Uint8Array(new SharedArrayBuffer(plain.length));
  bytes.set(plain);
  return { hash, bytes };
}

/** Rows to do: plain data, so that it can go to another thread. */
export interface Order {
  readonly text: JobText;
  readonly layout: Layout;
  readonly first: number;
  /** From one row to the next: more than 1 in a shard. */
  readonly step: number;
  readonly count: number;
  /** One shared number; other than 0 it says that no further row is wanted. */
  readonly stop: Int32Array;
}

export interface Batch {
  readonly bytes: Uint8Array;
  /** Rows that are in the bytes: fewer than ordered after a stop or a failure. */
  readonly rows: number;
  /** Time that it took; decides nothing but the size of the next order. */
  readonly seconds: number;
  /** Why the row after the last one could not be done; '' where nothing failed. */
  readonly failed: string;
}

export type Server = (order: Order) => Batch;

/** Answers orders; keeps the evaluator of the latest job. */
export function createServer(evaluators: Evaluators): Server {
  let hash = '';
  let evaluator: Evaluator | null = null;
  return order => {
    const began = performance.now();
    if (order.count === 0) return { bytes: new Uint8Array(0), rows: 0, seconds: 0, failed: '' };
    try {
      if (evaluator === null || hash !== order.text.hash) {
        evaluator = evaluatorOf(JSON.parse(Buffer.from(order.text.bytes).toString('utf8')) as Job, evaluators);
        hash = order.text.hash;
      }
      return evaluateRows(evaluator, order, began);
    } catch (error) {
      return { bytes: new Uint8Array(0), rows: 0, seconds: 0, failed: describe(error) };
    }
  };
}

function evaluateRows(evaluator: Evaluator, order: Order, began: number): Batch {
  const { layout, first, step, count, stop } = order;
  const records = createRecords(layout, count);
  const numbers = new Float64Array(layout.columns);
  let failed = '';
  let rows = 0;
  for (; rows < count && Atomics.load(stop, 0) === 0; rows++) {
    const row = first + rows * step;
    numbers.fill(Number.NaN);
    try {
      const code = evaluator.evaluate(row, numbers);
      records.add(row, numbers, code ?? '');
    } catch (error) {
      failed = `row ${row}: ${describe(error)}`;
      break;
    }
  }
  return { bytes: records.bytes(), rows, seconds: (performance.now() - began) / 1000, failed };
}

function describe(error: unknown): string {
  return error instanceof Error ? `${error.name}: ${error.message}` : String(error);
}
