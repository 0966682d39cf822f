/** Worker threads that answer orders: piscina keeps them, hands out the orders in turn and reports a thread that dies. */
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Piscina } from 'piscina';
import type { Batch, Order } from './evaluate.ts';
import { reasonOf } from './problem.ts';

/** Threads for one job after another. */
export interface WorkerPool {
  /** Threads beside the one that asks. */
  readonly workers: number;
  /** Whether the threads wait for orders. */
  readonly ready: boolean;
  /** Starts the threads, once; resolves when they are ready, or have failed: then orders fail. It takes about 0.1 s. */
  start(): Promise<void>;
  /** Never rejects: a thread that died is a failed batch. */
  run(order: Order): Promise<Batch>;
  /** Ends the threads. */
  close(): Promise<void>;
}

/**
 * @param file bundled worker, whose default export is a `Server`.
 * @param hands threads that work, with the one that asks; as many as the machine has cores when left out.
 * @returns null for less than two, or where there is no such file: rows are done in the thread that asks, then.
 */
export function createWorkerPool(file: URL, hands = availableParallelism()): WorkerPool | null {
  const filename = fileURLToPath(file);
  if (hands < 2 || !existsSync(filename)) return null;
  const workers = hands - 1;
  let pool: Piscina<Order, Batch> | null = null;
  let starting: Promise<void> | null = null;
  let ready = false;
  let broken: unknown = null;
  const waiting = new Set<(batch: Batch) => void>();
  const fail = (error: unknown): void => {
    broken = error;
    for (const answer of waiting) answer(failed(error));
  };
  const start = async (): Promise<void> => {
    try {
      // Loaded only where it is wanted.
      const { Piscina } = await import('piscina');
      const options = {
        filename,
        minThreads: workers,
        maxThreads: workers,
        // The next order lies there already when one is done: the thread that asks is at work itself.
        concurrentTasksPerWorker: 2,
        stricterFIFO: true,
        recordTiming: false,
      };
      pool = new Piscina<Order, Batch>(options);
      // A thread that cannot even load its file has no order that could fail: piscina would let all wait for ever.
      pool.on('error', fail);
      await Promise.all(Array.from({ length: workers }, () => run(NOTHING)));
    } catch (error) {
      fail(error);
    }
    ready = true;
  };
  const run = (order: Order): Promise<Batch> =>
    new Promise<Batch>(resolve => {
      if (pool === null || broken !== null) {
        resolve(failed(broken ?? new Error('it was not started')));
        return;
      }
      const answer = (batch: Batch): void => {
        waiting.delete(answer);
        resolve(batch);
      };
      waiting.add(answer);
      pool.run(order).then(answer, error => answer(failed(error)));
    });
  return {
    workers,
    get ready() {
      return ready;
    },
    start: () => (starting ??= start()),
    run,
    async close() {
      await starting;
      await pool?.destroy();
      pool = null;
      ready = false;
    },
  };
}

/** An order of no rows: its answer says that a thread is there. */
const NOTHING: Order = {
  text: { hash: '', bytes: new Uint8Array(new SharedArrayBuffer(0)) },
  layout: { columns: 0, seed: 0 },
  first: 0,
  step: 1,
  count: 0,
  stop: new Int32Array(1),
};

function failed(error: unknown): Batch {
  return { bytes: new Uint8Array(0), rows: 0, seconds: 0, failed: `a worker thread ended: ${reasonOf(error)}` };
}
