/**
 * The file of a job's rows: header, rows in order, end. What it holds depends on the job alone, never on the number of
 * threads or on interruptions: a killed run leaves a file whose good rows are the beginning of the finished one.
 *
 * Rows are written at the place where they belong, over whatever is there, and nothing is cut off before the end is
 * written: two runs of one job on one file write the same bytes at the same places and do no harm to each other.
 *
 * When things reach the disk: the system writes when it likes while the job runs; `finish` and `close` wait for the disk
 * (fsync). After a kill nothing written is lost; after a power cut perhaps the last half minute, and the checksums tell
 * where good rows end.
 */
import { closeSync, constants, fstatSync, fsyncSync, ftruncateSync, openSync, writeSync } from 'node:fs';
import { firstFew, headerLine, mismatches, readHeader } from './header.ts';
import type { Stamp } from './job.ts';
import { BatchProblem, codeOf, OtherJob, reasonOf } from './problem.ts';
import { endRecord } from './record.ts';
import { type Region, scanRows } from './scan.ts';

export interface Store {
  readonly path: string;
  /** Good rows found in the file; to be read to the end before the first `write`. */
  stored(): Iterable<Region>;
  /** Tells that of the region just read, only so many bytes are wanted, and nothing after them. */
  keep(bytes: number): void;
  /** Writes records that follow on the ones before. */
  write(bytes: Uint8Array): void;
  /** Ends the file as that of a job done in so many rows. */
  finish(rows: number): void;
  /** Lets go of the file. What stands behind the good rows of an unfinished one is no harm: it is written over. */
  close(): void;
}

/**
 * Opens the file of a job's rows, or starts one.
 * @throws BatchProblem where it cannot be written, or holds the rows of another job.
 */
export function openStore(path: string, stamp: Stamp): Store {
  // O_NOFOLLOW: what a link points to is not ours to write.
  const flags = constants.O_RDWR | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);
  const fd = attempt(path, () => openSync(path, flags));
  try {
    return storeOf(fd, path, stamp, startOf(fd, path, stamp));
  } catch (error) {
    closeSync(fd);
    throw error;
  }
}

/** Where the rows start, after the header was compared or written. */
function startOf(fd: number, path: string, stamp: Stamp): number {
  const found = attempt(path, () => readHeader(fd, path));
  if (found === null) {
    const line = Buffer.from(headerLine(stamp));
    attempt(path, () => writeAll(fd, line, 0));
    attempt(path, () => ftruncateSync(fd, line.length));
    return line.length;
  }
  if (found.stamp.hash === stamp.hash && mismatches(found.stamp, stamp).length === 0) return found.bytes;
  const what = firstFew(mismatches(found.stamp, stamp));
  throw new OtherJob(
    `${path} holds the rows of another job (${what}). To go on with that one, put the old values back; ` +
      'to start anew, delete the file or choose another name',
  );
}

function storeOf(fd: number, path: string, stamp: Stamp, start: number): Store {
  let position = start;
  let regionStart = start;
  let finished = false;
  return {
    path,
    *stored() {
      const scan = scanRows(fd, start, stamp);
      for (let step = scan.next(); ; step = scan.next()) {
        if (step.done === true) {
          finished = step.value.complete;
          return;
        }
        regionStart = position;
        position += step.value.bytes.length;
        yield step.value;
      }
    },
    keep(bytes) {
      position = regionStart + bytes;
    },
    write(bytes) {
      if (bytes.length === 0) return;
      finished = false;
      attempt(path, () => writeAll(fd, bytes, position));
      position += bytes.length;
    },
    finish(rows) {
      const end = endRecord(stamp.layout, rows);
      const length = position + end.length;
      if (!finished || fstatSync(fd).size !== length) {
        attempt(path, () => writeAll(fd, end, position));
        attempt(path, () => ftruncateSync(fd, length));
      }
      attempt(path, () => fsyncSync(fd));
      finished = true;
    },
    close() {
      try {
        if (!finished) fsyncSync(fd);
      } finally {
        closeSync(fd);
      }
    },
  };
}

/** A write may take less than it is given. */
export function writeAll(fd: number, bytes: Uint8Array, position: number): void {
  for (let done = 0; done < bytes.length; ) {
    done += writeSync(fd, bytes, done, bytes.length - done, position + done);
  }
}

function attempt<T>(path: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    if (error instanceof BatchProblem) throw error;
    if (codeOf(error) === 'ELOOP')
      throw new BatchProblem(`${path} is a link, which is not written through; move it away`);
    throw new BatchProblem(`cannot write ${path}: ${reasonOf(error)}; what it holds is kept, run again to go on`);
  }
}
