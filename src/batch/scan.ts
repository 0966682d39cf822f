/** Reads the good rows of a file from its start to the first that is torn, damaged or out of order. */
import { fstatSync, readSync } from 'node:fs';
import type { Stamp } from './job.ts';
import { END_BYTES, endsAt, goodBytes, mostBytes } from './record.ts';

/** Good records one after another. */
export interface Region {
  /** Valid until the next region is asked for. */
  readonly bytes: Buffer;
  readonly rows: number;
}

export interface Scan {
  readonly rows: number;
  /** Where the good rows end in the file. */
  readonly end: number;
  /** Whether the end record follows them, and nothing after it. */
  readonly complete: boolean;
  /** Bytes behind the good rows and the end record. */
  readonly left: number;
}

const CHUNK = 1 << 20;

/** Number of a row in the job, by its place in a part. */
export function rowAt({ shard }: Stamp, place: number): number {
  return shard.number - 1 + place * shard.count;
}

/**
 * Yields good rows in regions and returns what it found.
 * @param from where the header ends.
 * @param chunk bytes to read at once, about.
 */
export function* scanRows(fd: number, from: number, stamp: Stamp, chunk = CHUNK): Generator<Region, Scan> {
  const { layout } = stamp;
  const buffer = Buffer.alloc(Math.max(chunk, 4 * mostBytes(layout)));
  const total = fstatSync(fd).size;
  let held = 0;
  let offset = from;
  let rows = 0;
  for (;;) {
    held += fill(fd, buffer, held, offset + held);
    const bytes = buffer.subarray(0, held);
    let at = 0;
    let found = 0;
    while (rows + found < stamp.rows) {
      const size = goodBytes(bytes, at, layout, rowAt(stamp, rows + found));
      if (size === 0) break;
      at += size;
      found++;
    }
    if (found > 0) yield { bytes: bytes.subarray(0, at), rows: found };
    rows += found;
    offset += at;
    const whole = offset - at + held >= total;
    // What is left of the buffer holds no whole record: go on reading, unless it could have held one.
    if (whole || found === 0) {
      const complete = endsAt(bytes, at, layout, rows) && offset + END_BYTES === total;
      return { rows, end: offset, complete, left: total - offset - (complete ? END_BYTES : 0) };
    }
    buffer.copyWithin(0, at, held);
    held -= at;
  }
}

function fill(fd: number, buffer: Buffer, from: number, position: number): number {
  let got = 0;
  while (from + got < buffer.length) {
    const read = readSync(fd, buffer, from + got, buffer.length - from - got, position + got);
    if (read === 0) break;
    got += read;
  }
  return got;
}
