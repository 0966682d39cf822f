/**
 * Where rows arrive in order, from the file or fresh: hands them to the consumer in portions of a fixed size, so that what it
 * sums and decides does not depend on how the rows were dealt out.
 */
import type { Consumer } from './consumer.ts';
import type { Stamp } from './job.ts';
import { readRecord } from './record.ts';

export interface OrderedRows {
  readonly rows: number;
  /** Whether no further row is wanted: all are there, or the consumer has enough. */
  readonly full: boolean;
  /** Takes records that follow on the ones before; returns the bytes of those that are wanted. */
  take(bytes: Buffer, rows: number): number;
}

export function createOrderedRows(stamp: Stamp, consumer: Consumer | null): OrderedRows {
  const state = { rows: 0, full: false };
  if (consumer === null) {
    return {
      get rows() {
        return state.rows;
      },
      get full() {
        return state.rows >= stamp.rows;
      },
      take(bytes, rows) {
        state.rows += rows;
        return bytes.length;
      },
    };
  }
  if (!Number.isInteger(consumer.every) || consumer.every < 1) {
    throw new RangeError(`a consumer takes a whole number of rows at a time, not ${consumer.every}`);
  }
  const { columns } = stamp.layout;
  const every = Math.min(consumer.every, stamp.rows);
  const numbers = new Float64Array(every * columns);
  const codes: string[] = [];
  return {
    get rows() {
      return state.rows;
    },
    get full() {
      return state.full;
    },
    take(bytes, rows) {
      let at = 0;
      for (let k = 0; k < rows && !state.full; k++) {
        const { code, size } = readRecord(bytes, at, stamp.layout, numbers, codes.length * columns);
        at += size;
        codes.push(code);
        state.rows++;
        const last = state.rows === stamp.rows;
        if (codes.length < every && !last) continue;
        const count = codes.length;
        const portion = { first: state.rows - count, count, numbers: numbers.subarray(0, count * columns), codes };
        state.full = consumer.take(portion) === 'enough' || last;
        codes.length = 0;
      }
      return at;
    },
  };
}
