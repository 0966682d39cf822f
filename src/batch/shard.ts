/**
 * A share of a job's rows for one machine of several. Rows are dealt out like cards, so that parts take equally long even
 * where one end of a sweep is slower than the other.
 */
import { BatchProblem } from './problem.ts';

export interface Shard {
  /** From 1 to `count`. */
  readonly number: number;
  readonly count: number;
}

/** The share that is the whole. */
export const WHOLE: Shard = { number: 1, count: 1 };

const MOST = 1_000_000;

/** Reads `2/8`. @throws BatchProblem for anything else. */
export function readShard(text: string): Shard {
  const { k = '', n = '' } = /^(?<k>\d{1,7})\/(?<n>\d{1,7})$/u.exec(text.trim())?.groups ?? {};
  const shard = { number: Number(k), count: Number(n) };
  if (k === '' || shard.number < 1 || shard.number > shard.count || shard.count > MOST) {
    throw new BatchProblem(`"${text}" is no shard; expected k/n with k from 1 to n, such as 2/8`);
  }
  return shard;
}

export function shardText({ number, count }: Shard): string {
  return `${number}/${count}`;
}

/** Rows of a job that fall to a shard. */
export function shardRows(rows: number, { number, count }: Shard): number {
  return Math.max(0, Math.ceil((rows - number + 1) / count));
}

/** File of a part beside the file of the whole: `out/tour.spread.rows` -> `out/tour.spread.2-of-8.rows`. */
export function partFile(store: string, { number, count }: Shard): string {
  if (count === 1) return store;
  const { stem, ending } = split(store);
  return `${stem}.${number}-of-${count}${ending}`;
}

/** File of the whole that a part belongs to; a name that is no part's stays as it is. */
export function wholeFile(part: string): string {
  const { stem, ending } = split(part);
  return stem.replace(/\.\d+-of-\d+$/u, '') + ending;
}

function split(path: string): { stem: string; ending: string } {
  const ending = path.endsWith('.rows') ? '.rows' : '';
  return { stem: path.slice(0, path.length - ending.length), ending };
}
