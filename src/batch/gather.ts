/** Joins the parts of a job into the file that one undisturbed run on one machine would have written. */
import { closeSync, lstatSync } from 'node:fs';
import { firstFew, headerLine, mismatches, readHeader } from './header.ts';
import { type Stamp, stampOf } from './job.ts';
import { BatchProblem, reasonOf } from './problem.ts';
import { openRegular } from './regular-file.ts';
import { endRecord, recordBytes } from './record.ts';
import { type Region, type Scan, scanRows } from './scan.ts';
import { shardText, WHOLE } from './shard.ts';
import { replaceFile } from './atomic-write.ts';

export interface Gathered {
  /** Rows of the whole; 0 when there are problems. */
  readonly rows: number;
  /** Why nothing was joined: one message per part that does not fit or is not there. */
  readonly problems: readonly string[];
}

interface Part {
  readonly path: string;
  readonly fd: number;
  readonly stamp: Stamp;
  /** Where the rows start. */
  readonly start: number;
}

/** @param target file to write; an older one of the same job is replaced, any other is a problem. */
export function gather(paths: readonly string[], target: string): Gathered {
  const problems: string[] = [];
  const parts = paths.flatMap(path => openPart(path, problems));
  try {
    problems.push(...misfits(parts), ...inTheWay(target, parts[0]));
    if (problems.length === 0) problems.push(...parts.flatMap(incomplete));
    const first = parts[0];
    if (problems.length > 0 || first === undefined) return { rows: 0, problems };
    return { rows: join(parts, first.stamp, target), problems };
  } finally {
    for (const { fd } of parts) closeSync(fd);
  }
}

function openPart(path: string, problems: string[]): Part[] {
  let fd = -1;
  try {
    fd = openRegular(path);
    const header = readHeader(fd, path);
    if (header !== null) return [{ path, fd, stamp: header.stamp, start: header.bytes }];
    problems.push(`${path} is empty; run its part again`);
  } catch (error) {
    problems.push(error instanceof BatchProblem ? error.message : `cannot read ${path}: ${reasonOf(error)}`);
  }
  if (fd >= 0) closeSync(fd);
  return [];
}

/** Parts of another job or another division, parts that come twice, and parts that are not there. */
function misfits(parts: readonly Part[]): string[] {
  const [first, ...others] = parts;
  if (first === undefined) return ['no part to join'];
  const { count } = first.stamp.shard;
  const found: string[] = [];
  const holders = new Map<number, string>([[first.stamp.shard.number, first.path]]);
  for (const { path, stamp } of others) {
    const { shard } = stamp;
    const other = mismatches({ ...stamp, shard: first.stamp.shard }, first.stamp);
    const holder = holders.get(shard.number);
    if (other.length > 0) found.push(`${path} is of another job than ${first.path} (${firstFew(other)})`);
    else if (shard.count !== count) {
      found.push(`${path} is part ${shardText(shard)}, ${first.path} is part ${shardText(first.stamp.shard)}`);
    } else if (holder !== undefined) found.push(`${path} is part ${shardText(shard)}, as ${holder} is; leave one out`);
    else holders.set(shard.number, path);
  }
  if (found.length > 0) return found;
  for (let number = 1; number <= count; number++) {
    if (!holders.has(number)) found.push(`part ${number}/${count} is missing; run with --shard ${number}/${count}`);
  }
  return found;
}

function inTheWay(target: string, part: Part | undefined): string[] {
  const there = lstatSync(target, { throwIfNoEntry: false });
  if (part === undefined || there === undefined) return [];
  if (there.isSymbolicLink()) return [`${target} is a link, which is not written through; move it away`];
  let fd = -1;
  try {
    fd = openRegular(target);
    const header = readHeader(fd, target);
    if (header === null || header.stamp.hash === part.stamp.hash) return [];
    return [`${target} is there already and of another job than ${part.path}; move it away`];
  } catch (error) {
    return [reasonOf(error)];
  } finally {
    if (fd >= 0) closeSync(fd);
  }
}

/** Reads a part to its end: a finished one has all its rows, each as it was written. */
function incomplete({ path, fd, stamp, start }: Part): string[] {
  const scan = scanRows(fd, start, stamp);
  let step = scan.next();
  while (step.done !== true) step = scan.next();
  const { rows, complete, left } = step.value;
  if (complete && rows === stamp.rows) return [];
  const what = left > 0 ? `damaged or cut after ${rows} of ${stamp.rows} rows` : `at ${rows} of ${stamp.rows} rows`;
  const { shard } = stamp;
  const again = shard.count > 1 ? `run with --shard ${shardText(shard)} again` : 'run again';
  return [`${path} is not finished: ${what}; ${again}, it goes on from there`];
}

/** Deals the rows back in their order. */
function join(parts: readonly Part[], { job, tool }: Stamp, target: string): number {
  const stamp = stampOf(job, tool, WHOLE);
  const hands = parts.toSorted((a, b) => a.stamp.shard.number - b.stamp.shard.number).map(createHand);
  replaceFile(target, put => {
    put(Buffer.from(headerLine(stamp)));
    for (let row = 0; row < job.rows; row++) put(hands[row % hands.length]!());
    put(endRecord(stamp.layout, job.rows));
  });
  return job.rows;
}

/** All parts are read side by side: little of each. */
const CHUNK = 1 << 16;

/** Gives the records of a part one by one. */
function createHand({ fd, stamp, start, path }: Part): () => Buffer {
  const scan: Generator<Region, Scan> = scanRows(fd, start, stamp, CHUNK);
  let bytes: Buffer = Buffer.alloc(0);
  let at = 0;
  return () => {
    if (at === bytes.length) {
      const step = scan.next();
      if (step.done === true) throw new Error(`${path} changed while it was read`);
      ({ bytes } = step.value);
      at = 0;
    }
    const size = recordBytes(bytes, at, stamp.layout);
    const record = bytes.subarray(at, at + size);
    at += size;
    return record;
  };
}
