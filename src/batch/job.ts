/** A job is many evaluations of one pure function, described by plain JSON so that any thread or machine can do its rows. */
import { createHash } from 'node:crypto';
import { canonicalJson, type Json, writtenAs, writtenBefore } from './canonical.ts';
import type { Layout } from './layout.ts';
import { MOST_ROWS } from './record.ts';
import { type Shard, shardRows } from './shard.ts';

export interface Job {
  /** Names the evaluator that does the rows. */
  readonly kind: string;
  /** All that the rows depend on. Numbers are finite; -0 counts as 0. */
  readonly payload: Json;
  /** Rows are numbered from 0. */
  readonly rows: number;
  /** Names of the numbers in a row. */
  readonly columns: readonly string[];
}

/** Does the rows of one payload. The same row always gives the same numbers, in whatever order rows are asked for. */
export interface Evaluator {
  /**
   * @param out one number per column, NaN on entry; what stays NaN has no answer.
   * @returns optionally a word that says why there is no answer, or what is special; at most 1024 bytes of UTF-8.
   */
  evaluate(row: number, out: Float64Array): string | void;
}

/** From a job's `kind` to the maker of its evaluator. */
export type Evaluators = ReadonlyMap<string, (payload: Json) => Evaluator>;

/** A job with its names for files and threads. */
export interface Stamp {
  /** Canonical JSON of the job. */
  readonly text: string;
  /** SHA-256 over the canonical JSON of job and tool, in hex. */
  readonly hash: string;
  readonly tool: string;
  readonly job: Job;
  readonly shard: Shard;
  /** Rows that fall to the shard. */
  readonly rows: number;
  readonly layout: Layout;
}

/**
 * @param tool name and version of what makes the numbers; another version is another job. See `toolName`.
 * @throws TypeError or RangeError for a job that is none.
 */
export function stampOf(job: Job, tool: string, shard: Shard): Stamp {
  checkJob(job);
  const { kind, payload, rows, columns } = job;
  const text = canonicalJson({ kind, payload: writtenBefore(payload), rows, columns });
  const hash = createHash('sha256')
    .update(canonicalJson({ job: writtenAs(text), tool }))
    .digest('hex');
  // Records carry the job in their checksums: those of another job do not fit.
  const layout = { columns: columns.length, seed: Number.parseInt(hash.slice(0, 8), 16) };
  return { text, hash, tool, job: JSON.parse(text) as Job, shard, rows: shardRows(rows, shard), layout };
}

/**
 * Name of what makes the numbers. The major version of Node is part of it: sines and logarithms are those of its engine,
 * and their last digits may change with it.
 */
export function toolName(version: string): string {
  return `axlewatt ${version}, node ${process.versions.node.split('.')[0] ?? ''}`;
}

/** @throws RangeError where no evaluator goes by the name. */
export function evaluatorOf({ kind, payload }: Job, evaluators: Evaluators): Evaluator {
  const make = evaluators.get(kind);
  if (make !== undefined) return make(payload);
  throw new RangeError(`no evaluator "${kind}"; known are ${[...evaluators.keys()].join(', ') || 'none'}`);
}

function checkJob({ kind, rows, columns }: Job): void {
  if (kind === '') throw new RangeError('a job wants a kind');
  if (!Number.isInteger(rows) || rows < 1 || rows > MOST_ROWS) {
    throw new RangeError(`a job has 1 to ${MOST_ROWS} rows, not ${rows}`);
  }
  if (columns.length === 0 || new Set(columns).size !== columns.length) {
    throw new RangeError(`the columns of a job are one or more different names, not ${JSON.stringify(columns)}`);
  }
}
