/** Rows and answers of notebooks that stay open, in memory: what a change does not reach is there at once. */
import { stampOf } from '../../batch/job.ts';
import { WHOLE } from '../../batch/shard.ts';
import type { Table } from '../../batch/table.ts';
import type { Memory } from '../../notebook/memory.ts';
import type { RowsAsk } from '../../notebook/rows-ask.ts';

/** Characters of answers, and numbers of rows, that are kept at most: what was not asked for longest goes first. */
const MOST_CHARACTERS = 2 ** 26;
const MOST_NUMBERS = 2 ** 23;

export interface Known {
  readonly memory: Memory;
  /** Null where they are not known. */
  tableOf(ask: RowsAsk): Table | null;
  know(ask: RowsAsk, table: Table): void;
  /** Hands what is new to what is kept for other days. */
  save(): void;
}

/** @param under where answers are kept for other days; null for nowhere. */
export function createKnown(under: Memory | null): Known {
  const answers = createBounded<string>(MOST_CHARACTERS, text => text.length);
  const tables = createBounded<Table>(MOST_NUMBERS, table => table.rows);
  const unsaved = new Map<string, string>();
  const keyOf = ({ job }: RowsAsk): string => stampOf(job, '', WHOLE).hash;
  return {
    memory: {
      recall(question) {
        const found = answers.get(question) ?? under?.recall(question) ?? null;
        if (found !== null) answers.set(question, found);
        return found;
      },
      keep(question, answer) {
        answers.set(question, answer);
        unsaved.set(question, answer);
      },
    },
    tableOf: ask => tables.get(keyOf(ask)) ?? null,
    know: (ask, table) => tables.set(keyOf(ask), table),
    save() {
      for (const [question, answer] of unsaved) under?.keep(question, answer);
      unsaved.clear();
    },
  };
}

interface Bounded<T> {
  get(key: string): T | undefined;
  set(key: string, value: T): void;
}

function createBounded<T>(most: number, sizeOf: (value: T) => number): Bounded<T> {
  const kept = new Map<string, T>();
  let size = 0;
  const drop = (key: string): void => {
    const value = kept.get(key);
    if (value === undefined) return;
    size -= sizeOf(value);
    kept.delete(key);
  };
  return {
    get: key => kept.get(key),
    set(key, value) {
      // A Map keeps the order in which it was filled.
      drop(key);
      kept.set(key, value);
      size += sizeOf(value);
      for (const oldest of kept.keys()) {
        if (size <= most || oldest === key) break;
        drop(oldest);
      }
    },
  };
}
