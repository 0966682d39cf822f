/** Gets the rows of a notebook's studies: on all cores, out of files that are there, interrupted when somebody says so. */
import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { createCrew } from '../batch/worker-pool.ts';
import { evaluators } from '../batch/evaluators.ts';
import { createInterrupt } from '../batch/interrupt.ts';
import { toolName } from '../batch/job.ts';
import { OtherJob } from '../batch/problem.ts';
import { createProgress, placeOf, QUIET } from '../batch/progress.ts';
import { runJob } from '../batch/run.ts';
import type { RunOutcome } from '../batch/run.ts';
import { partFile, readShard, type Shard } from '../batch/shard.ts';
import { createTable, type Table } from '../batch/table.ts';
import type { RowsAsk } from '../notebook/run.ts';
import type { Terminal } from './exit.ts';

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
}

export interface RowSource {
  /** The rows of a cell of the notebook in `file`; null where they are not all here. @throws BatchProblem */
  rows(file: string, ask: RowsAsk): Promise<Table | null>;
  /** Whether only parts are done: then there is nothing to report. */
  readonly parts: boolean;
  /** Exit code of an interrupted run, 0 otherwise. */
  code(): number;
  close(): Promise<void>;
}

/** @throws BatchProblem for a shard that is none. */
export function openRowSource(args: RowsArguments, terminal: Terminal): RowSource {
  const shard = args.shard === undefined ? undefined : readShard(args.shard);
  const crew = createCrew(new URL('../batch-worker.js', import.meta.url), args.workers);
  const interrupt = createInterrupt(process, text => terminal.err(text));
  const tool = toolName(args.version);
  const place = placeOf(process.stderr);

  async function once(file: string, { cell, job, whole }: RowsAsk): Promise<Table | null> {
    if (interrupt.signal.aborted || (shard !== undefined && !whole)) return null;
    const stored = whole && (job.rows >= WORTH_A_FILE || shard !== undefined);
    const store = stored ? join(args.out, `${basename(file, extname(file))}.${cell}.rows`) : undefined;
    if (store !== undefined) mkdirSync(args.out, { recursive: true });
    const progress = args.quiet === true ? QUIET : createProgress(cell, place);
    const { consumer, table } = createTable(job);
    try {
      const outcome = await runJob(job, {
        evaluators,
        tool,
        ...(crew !== null && { crew }),
        ...(store !== undefined && { store: shard === undefined ? store : partFile(store, shard) }),
        ...(shard === undefined ? { consumer } : { shard }),
        signal: interrupt.signal,
        onProgress: (done, total) => progress.update(done, total),
      });
      progress.end();
      tell(outcome, shard, store);
      return outcome.state === 'complete' && shard === undefined ? table : null;
    } catch (error) {
      progress.end();
      throw error;
    }
  }

  function tell({ state, rows, total }: RunOutcome, part: Shard | undefined, store: string | undefined): void {
    if (state === 'interrupted') {
      terminal.err(
        store === undefined
          ? 'axlewatt: interrupted'
          : `axlewatt: ${rows} of ${total} rows are kept in ${part === undefined ? store : partFile(store, part)}; run the same command again to go on`,
      );
    } else if (part !== undefined && store !== undefined) {
      terminal.out(`Part: ${partFile(store, part)}, ${rows} rows`);
    }
  }

  return {
    parts: shard !== undefined,
    code: () => interrupt.code,
    async rows(file, ask) {
      try {
        return await once(file, ask);
      } catch (error) {
        if (!(error instanceof OtherJob) || shard !== undefined) throw error;
        setAside(file, ask, args, terminal);
        return once(file, ask);
      }
    },
    async close() {
      interrupt.release();
      await crew?.close();
    },
  };
}

/** The notebook has changed: what was done before is kept under another name. */
function setAside(file: string, { cell }: RowsAsk, { out }: RowsArguments, terminal: Terminal): void {
  const path = join(out, `${basename(file, extname(file))}.${cell}.rows`);
  const old = path.replace(/\.rows$/u, '.old.rows');
  if (!existsSync(path)) return;
  renameSync(path, old);
  terminal.err(`axlewatt: ${path} holds the rows of another ${cell}; it is kept as ${old}`);
}
