/** Does the rows of a job: what the file has already, then the rest, in this thread or in several. */
import type { WorkerPool } from './worker-pool.ts';
import { type Batch, createServer, type JobText, jobText, type Order, type Server } from './evaluate.ts';
import type { Consumer } from './consumer.ts';
import { createOrderedRows, type OrderedRows } from './ordered-rows.ts';
import { type Evaluators, type Job, type Stamp, stampOf } from './job.ts';
import { createChunkSize, type ChunkSize } from './chunk-size.ts';
import { plainBytes } from './record.ts';
import { rowAt } from './scan.ts';
import { type Shard, WHOLE } from './shard.ts';
import { openStore, type Store } from './store.ts';

export interface RunOptions {
  readonly evaluators: Evaluators;
  /** `toolName` of the version that runs. */
  readonly tool: string;
  /**
   * Threads with the same evaluators, which outlive the job; without, this thread does all. They are started when there is
   * work for a second; a caller who knows that there will be starts them himself.
   */
  readonly pool?: WorkerPool | null;
  /** Seconds of work left from which rows are handed to a pool that is ready. */
  readonly poolFrom?: number;
  /** File of the rows, for going on after an interruption; without it rows live only in the consumer. */
  readonly store?: string;
  /** The share of the rows to do, into a file of its own. It has no consumer: its rows are not all. */
  readonly shard?: Shard;
  readonly consumer?: Consumer;
  /** Aborted, it ends the run after the rows that are being done. */
  readonly signal?: AbortSignal;
  /** Told after each batch, and at the start. */
  onProgress?(done: number, total: number): void;
}

export interface RunOutcome {
  /** `interrupted` by the signal; the rows done are in the file, and the next run goes on after them. */
  readonly state: 'complete' | 'interrupted';
  /** Rows that are done: all, or fewer where the consumer had enough or the run was interrupted. */
  readonly rows: number;
  /** Rows of the job, or of its share. */
  readonly total: number;
  /** Rows that were in the file before. */
  readonly found: number;
  readonly hash: string;
}

/** Seconds of work left from which threads are worth their start, and those that are there worth the handing over. */
const START_FROM = 2;
const POOL_FROM = 0.02;
/** Seconds of work before its pace is believed. */
const START_TRIAL = 0.5;
const POOL_TRIAL = 0.01;
/** Seconds of a batch: here, short enough to hear Ctrl-C; in a thread, long enough to make the handing over cheap. */
const BATCH_HERE = 0.025;
const BATCH_THERE = 0.1;
/** Seconds of a row up to which the thread that asks works on rows itself: longer ones, or an endless one, would keep it from hearing Ctrl-C. */
const ROW_HERE = 2;
/** Orders that a thread has: while it works on one, the next one lies there. */
const GIVEN = 2;
/** Batches that wait for an earlier one, for each hand. It bounds the memory. */
const AHEAD = 16;

/**
 * The same rows, and byte for byte the same file, for any number of workers and any history of interruptions.
 * @throws BatchProblem where the file is another job's or cannot be written; Error where a row fails, naming the first one
 * that does: rows before it are kept. TypeError or RangeError for a job that is none.
 */
export async function runJob(job: Job, options: RunOptions): Promise<RunOutcome> {
  const shard = options.shard ?? WHOLE;
  if (shard.count > 1 && options.consumer !== undefined) throw new TypeError('a shard has no consumer: gather first');
  const stamp = stampOf(job, options.tool, shard);
  const store = options.store === undefined ? null : openStore(options.store, stamp);
  try {
    const ordered = createOrderedRows(stamp, options.consumer ?? null);
    if (store !== null) replay(store, ordered);
    const found = ordered.rows;
    options.onProgress?.(found, stamp.rows);
    await doRows(createWork(stamp, options, ordered, store));
    if (ordered.full) store?.finish(ordered.rows);
    const state = ordered.full ? 'complete' : 'interrupted';
    return { state, rows: ordered.rows, total: stamp.rows, found, hash: stamp.hash };
  } finally {
    store?.close();
  }
}

function replay(store: Store, ordered: OrderedRows): void {
  for (const { bytes, rows } of store.stored()) {
    store.keep(ordered.take(bytes, rows));
    // There may be further rows: made for a consumer that wanted more.
    if (ordered.full) return;
  }
}

/** All that both ways of doing the rows share. */
interface Work {
  readonly stamp: Stamp;
  readonly options: RunOptions;
  readonly chunk: ChunkSize;
  readonly stop: Int32Array;
  /** Whether a row is still wanted. */
  wanted(): boolean;
  /** Whether all are there, or the consumer has enough. */
  full(): boolean;
  /** Rows that arrived. */
  done(): number;
  order(place: number, count: number): Order;
  /** Does rows in this thread. */
  readonly serve: Server;
  /** @throws Error of the batch's failed row, after its good rows were taken. */
  take(batch: Batch): void;
}

function createWork(stamp: Stamp, options: RunOptions, ordered: OrderedRows, store: Store | null): Work {
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const chunk = createChunkSize(plainBytes(stamp.layout));
  const text: JobText = jobText(stamp);
  return {
    stamp,
    options,
    chunk,
    stop,
    serve: createServer(options.evaluators),
    wanted: () => !ordered.full && options.signal?.aborted !== true,
    full: () => ordered.full,
    done: () => ordered.rows,
    order: (place, count) => ({
      text,
      layout: stamp.layout,
      first: rowAt(stamp, place),
      step: stamp.shard.count,
      count,
      stop,
    }),
    take(batch) {
      chunk.learn(batch.rows, batch.seconds);
      const bytes = Buffer.from(batch.bytes.buffer, batch.bytes.byteOffset, batch.bytes.byteLength);
      const wanted = ordered.take(bytes, batch.rows);
      store?.write(bytes.subarray(0, wanted));
      options.onProgress?.(ordered.rows, stamp.rows);
      if (batch.failed !== '' && !ordered.full) throw new Error(`job "${stamp.job.kind}", ${batch.failed}`);
    },
  };
}

async function doRows(work: Work): Promise<void> {
  const { signal, pool = null } = work.options;
  const stop = (): void => void Atomics.store(work.stop, 0, 1);
  signal?.addEventListener('abort', stop, { once: true });
  if (signal?.aborted === true) stop();
  try {
    await doHere(work, pool);
    if (work.wanted() && pool !== null) await doTogether(work, pool);
  } finally {
    signal?.removeEventListener('abort', stop);
  }
}

/** Does rows in this thread: all, or until the pool is ready and there is enough left for it. */
async function doHere(work: Work, pool: WorkerPool | null): Promise<void> {
  const { stamp, chunk, options } = work;
  const { poolFrom = POOL_FROM } = options;
  let spent = 0;
  while (work.wanted()) {
    const left = stamp.rows - work.done();
    const seconds = left * chunk.perRow;
    if (pool?.ready === true && spent >= Math.min(POOL_TRIAL, poolFrom) && seconds >= poolFrom) return;
    if (spent >= START_TRIAL && seconds >= START_FROM) void pool?.start();
    const batch = work.serve(work.order(work.done(), chunk.next(left, 1, BATCH_HERE)));
    spent += batch.seconds;
    work.take(batch);
    await turn();
  }
}

/** Signals, timers and threads get their turn. */
function turn(): Promise<void> {
  return new Promise(resolve => setImmediate(resolve));
}

/** Rows that were ordered, in the order of the rows; `batch` is null until they are done. */
interface Ahead {
  readonly count: number;
  batch: Batch | null;
  readonly answer: Promise<unknown>;
}

/** Orders ahead, works itself meanwhile as one of the hands, and takes what is done in the order of the rows. */
async function doTogether(work: Work, pool: WorkerPool): Promise<void> {
  const { stamp, chunk } = work;
  const hands = pool.workers + 1;
  const ahead: Ahead[] = [];
  let next = work.done();
  let given = 0;
  const nextOrder = (seconds: number): Order => {
    const order = work.order(next, chunk.next(stamp.rows - next, hands, seconds));
    next += order.count;
    return order;
  };
  const give = (order: Order): void => {
    given += 1;
    const answer = pool.run(order).then(batch => {
      given -= 1;
      entry.batch = batch;
    });
    const entry: Ahead = { count: order.count, batch: null, answer };
    ahead.push(entry);
  };
  const more = (): boolean => work.wanted() && next < stamp.rows && ahead.length < AHEAD * hands;
  try {
    for (;;) {
      while (more() && given < GIVEN * pool.workers) give(nextOrder(BATCH_THERE));
      if (more() && chunk.perRow > 0 && chunk.perRow < ROW_HERE) {
        const order = nextOrder(BATCH_HERE);
        ahead.push({ count: order.count, batch: work.serve(order), answer: Promise.resolve() });
        await turn();
      } else {
        await ahead[0]?.answer;
      }
      for (let first = ahead[0]; first !== undefined && first.batch !== null; first = ahead[0]) {
        ahead.shift();
        work.take(first.batch);
        // After a batch that stopped half way, later ones do not follow on.
        if (work.full() || first.batch.rows < first.count) return;
      }
      if (ahead.length === 0 && !more()) return;
    }
  } finally {
    // What nobody wants any more is answered at once: the pool is idle for the next job.
    Atomics.store(work.stop, 0, 1);
    await Promise.all(ahead.map(({ answer }) => answer));
  }
}
