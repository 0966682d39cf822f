/** Makes room for the rows of a job where those of another one stand. Finished work is never thrown away, and found again. */
import { closeSync, existsSync, renameSync } from 'node:fs';
import { readHeader } from './header.ts';
import type { Stamp } from './job.ts';
import { openRegular } from './regular-file.ts';

export interface SetAside {
  /** Where the rows of the other job are now. */
  readonly kept: string;
  /** File in which rows of this job had been set aside before: it is in its place again; null where there is none. */
  readonly back: string | null;
}

/** @param store file that holds the rows of another job than `stamp`. */
export function setAside(store: string, stamp: Stamp): SetAside {
  let number = 1;
  let back: string | null = null;
  for (; existsSync(oldFile(store, number)); number++) {
    if (back === null && holds(oldFile(store, number), stamp)) back = oldFile(store, number);
  }
  const kept = oldFile(store, number);
  renameSync(store, kept);
  if (back === null) return { kept, back };
  renameSync(back, store);
  // What had to go takes the place of what came back: the numbers stay without a gap.
  renameSync(kept, back);
  return { kept: back, back };
}

/** `out/tour.spread.old.rows`, `out/tour.spread.old-2.rows`, ... */
function oldFile(store: string, number: number): string {
  return store.replace(/\.rows$/u, `${number === 1 ? '.old' : `.old-${number}`}.rows`);
}

function holds(path: string, { hash, shard }: Stamp): boolean {
  let fd = -1;
  try {
    fd = openRegular(path);
    const found = readHeader(fd, path)?.stamp;
    return found?.hash === hash && found.shard.number === shard.number && found.shard.count === shard.count;
  } catch {
    // Whatever it is, it is not ours.
    return false;
  } finally {
    if (fd >= 0) closeSync(fd);
  }
}
