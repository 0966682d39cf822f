/** Rows, answers and pictures of notebooks that stay open, in memory: what a change does not reach is there at once. */
import { stampOf } from '../../batch/job.ts';
import { WHOLE } from '../../batch/shard.ts';
import type { Table } from '../../batch/table.ts';
import type { Memory } from '../../notebook/memory.ts';
import type { RowsAsk } from '../../notebook/rows-ask.ts';
import type { RowSource } from '../rows.ts';

/** Characters of answers and of pictures with what they are of, and numbers of rows, that are kept at most: what was not asked for longest goes first. */
const MOST_CHARACTERS = 2 ** 26;
const MOST_NUMBERS = 2 ** 23;

export interface Known {
  readonly answers: Memory;
  readonly pictures: Memory;
  /** Null where they are not known. */
  tableOf(ask: RowsAsk): Table | null;
  know(ask: RowsAsk, table: Table): void;
  /** Hands what is new to what is kept for other days. */
  save(): void;
}

/** @param under where answers and pictures are kept for other days; null for nowhere. */
export function createKnown(under: Pick<RowSource, 'memory' | 'pictures'>): Known {
  const answers = createRemembered(under.memory);
  const pictures = createRemembered(under.pictures);
  const tables = createBounded<Table>(MOST_NUMBERS, (_, table) => table.rows);
  const keyOf = ({ job }: RowsAsk): string => stampOf(job, '', WHOLE).hash;
  return {
    answers,
    pictures,
    tableOf: ask => tables.get(keyOf(ask)) ?? null,
    know: (ask, table) => tables.set(keyOf(ask), table),
    save() {
      answers.save();
      pictures.save();
    },
  };
}

function createRemembered(under: Memory | null): Memory & { save(): void } {
  const texts = createBounded<string>(MOST_CHARACTERS, (question, text) => question.length + text.length);
  const unsaved = new Map<string, string>();
  return {
    recall(question) {
      const found = texts.get(question) ?? under?.recall(question) ?? null;
      if (found !== null) texts.set(question, found);
      return found;
    },
    keep(question, answer) {
      texts.set(question, answer);
      unsaved.set(question, answer);
    },
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

function createBounded<T>(most: number, sizeOf: (key: string, value: T) => number): Bounded<T> {
  const kept = new Map<string, T>();
  let size = 0;
  const drop = (key: string): void => {
    const value = kept.get(key);
    if (value === undefined) return;
    size -= sizeOf(key, value);
    kept.delete(key);
  };
  return {
    get: key => kept.get(key),
    set(key, value) {
      // A Map keeps the order in which it was filled.
      drop(key);
      kept.set(key, value);
      size += sizeOf(key, value);
      for (const oldest of kept.keys()) {
        if (size <= most || oldest === key) break;
        drop(oldest);
      }
    },
  };
}
