/** Gets the rows of a notebook's studies: on all cores, out of files that are there, interrupted when somebody says so. */
import { basename, extname, join } from 'node:path';
import { evaluators } from '../batch/evaluators.ts';
import { createInterrupt } from '../batch/interrupt.ts';
import { stampOf, toolName } from '../batch/job.ts';
import { BatchProblem, OtherJob } from '../batch/problem.ts';
import { createProgress, placeOf, QUIET } from '../batch/progress.ts';
import { runJob } from '../batch/run.ts';
import type { RunOutcome } from '../batch/run.ts';
import { setAside } from '../batch/set-aside.ts';
import { partFile, readShard, WHOLE } from '../batch/shard.ts';
import { createTable, type Table } from '../batch/table.ts';
import { createWorkerPool } from '../batch/worker-pool.ts';
import type { Memory } from '../notebook/memory.ts';
import type { RowsAsk } from '../notebook/rows-ask.ts';
import type { Terminal } from './exit.ts';
import { openKept } from './kept.ts';

/** Fewer rows are done again in less time than it takes to look for them. */
const WORTH_A_FILE = 500;

export interface RowsArguments {
  readonly out: string;
  readonly version: string;
  /** Threads; as many as the machine has cores when left out. */
  readonly workers?: number;
  readonly quiet?: boolean;
  /** `k/n`: this part of the rows of each study only. */
  readonly shard?: string;
  /** Whether what earlier runs kept is left alone, and everything worked out anew. */
  readonly fresh?: boolean;
}

export interface RowSource {
  /**
   * The rows of a cell of the notebook in `file`; null where they are not all here.
   * @param unwanted ends the work without a word.
   * @throws BatchProblem
   */
  rows(file: string, ask: RowsAsk, unwanted?: AbortSignal): Promise<Table | null>;
  /** Whether only parts are done: then there is nothing to report. */
  readonly parts: boolean;
  /** Answers of earlier runs; null where none are kept. */
  readonly memory: Memory | null;
  /** Pictures of earlier runs; null where none are kept. */
  readonly pictures: Memory | null;
  /** Aborted when somebody interrupts the run. */
  readonly signal: AbortSignal;
  /** Exit code of an interrupted run, 0 otherwise. */
  code(): number;
  close(): Promise<void>;
}

/** @throws BatchProblem for a shard that is none. */
export function openRowSource(args: RowsArguments, terminal: Terminal): RowSource {
  const shard = args.shard === undefined ? undefined : readShard(args.shard);
  const pool = createWorkerPool(new URL('../batch-worker.mjs', import.meta.url), args.workers);
  const interrupt = createInterrupt(process, text => terminal.err(text));
  const tool = toolName(args.version);
  const place = placeOf(process.stderr);
  const kept = shard === undefined && args.fresh !== true ? openKept(args.out, args.version) : null;

  /** File of the rows of a cell, of the part that is done here; undefined for rows that are not worth one. */
  function fileOf(file: string, { cell, job, whole }: RowsAsk): string | undefined {
    if (!whole || (job.rows < WORTH_A_FILE && shard === undefined)) return undefined;
    const store = join(args.out, `${basename(file, extname(file))}.${cell}.rows`);
    return shard === undefined ? store : partFile(store, shard);
  }

  async function once(
    { cell, job }: RowsAsk,
    store: string | undefined,
    unwanted: AbortSignal | undefined,
    maker = tool,
  ): Promise<Table | null> {
    const progress = args.quiet === true ? QUIET : createProgress(cell, place);
    const { consumer, table } = createTable(job);
    try {
      const outcome = await runJob(job, {
        evaluators,
        tool: maker,
        ...(pool !== null && { pool }),
        ...(store !== undefined && { store }),
        ...(shard === undefined ? { consumer } : { shard }),
        signal: unwanted === undefined ? interrupt.signal : AbortSignal.any([interrupt.signal, unwanted]),
        onProgress: (done, total) => progress.update(done, total),
      });
      progress.end();
      if (unwanted?.aborted !== true) tell(outcome, store);
      return outcome.state === 'complete' && shard === undefined ? table : null;
    } catch (error) {
      progress.end();
      throw error;
    }
  }

  function tell({ state, rows, total }: RunOutcome, store: string | undefined): void {
    if (state === 'interrupted') {
      terminal.err(
        store === undefined
          ? 'axlewatt: interrupted'
          : `axlewatt: ${rows} of ${total} rows are kept in ${store}; run the same command again to go on`,
      );
    } else if (shard !== undefined && store !== undefined) {
      terminal.out(`Part: ${store}, ${rows} rows`);
    }
  }

  async function rows(file: string, ask: RowsAsk, unwanted?: AbortSignal): Promise<Table | null> {
    if (interrupt.signal.aborted || (shard !== undefined && !ask.whole)) return null;
    const store = fileOf(file, ask);
    const before = store === undefined ? kept?.fileOf(ask.job) : undefined;
    if (kept !== null && before !== undefined) {
      try {
        return await once(ask, before, unwanted, kept.tool);
      } catch (error) {
        // What is wrong with a file that nobody asked for is no matter of the run.
        if (!(error instanceof BatchProblem)) throw error;
        kept.drop(before);
      }
    }
    try {
      return await once(ask, store, unwanted);
    } catch (error) {
      // Machines that share a folder would set each other's parts aside.
      if (!(error instanceof OtherJob) || store === undefined || shard !== undefined) throw error;
      const { kept, back } = setAside(store, stampOf(ask.job, tool, WHOLE));
      const found = back === null ? '' : `; those of this ${ask.cell} were in ${back} and are taken up again`;
      terminal.err(`axlewatt: ${store} held the rows of another ${ask.cell}, which are kept as ${kept}${found}`);
      return once(ask, store, unwanted);
    }
  }

  return {
    parts: shard !== undefined,
    memory: kept?.answers ?? null,
    pictures: kept?.pictures ?? null,
    signal: interrupt.signal,
    code: () => interrupt.code,
    rows: (file, ask, unwanted) => interrupt.during(() => rows(file, ask, unwanted)),
    async close() {
      kept?.tidy();
      await pool?.close();
    },
  };
}
