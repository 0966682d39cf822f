/** The first line of a file of rows: JSON that says which job, made by what, and which share of it follows. */
import { readSync } from 'node:fs';
import { canonicalJson, differences, type Json, writtenAs } from './canonical.ts';
import { type Job, type Stamp, stampOf } from './job.ts';
import { BatchProblem, reasonOf } from './problem.ts';
import { readShard, shardText } from './shard.ts';

const FORMAT = 'axlewatt rows 1';
/** Every header begins with this: "format" is the first of its keys in canonical order. */
const MAGIC = `{"format":${JSON.stringify(FORMAT)},`;
const CHUNK = 1 << 16;
/** A payload beyond it is a mistake. */
const MOST_BYTES = 1 << 28;

/** The line with its end. */
export function headerLine({ hash, text, shard, tool }: Stamp): string {
  return `${canonicalJson({ format: FORMAT, hash, job: writtenAs(text), shard: shardText(shard), tool })}\n`;
}

/**
 * Header of an open file, and the bytes it takes; null for a file that is empty, or whose header was still being written
 * when its writer was killed: it has no rows.
 * @throws BatchProblem for a file that is something else.
 */
export function readHeader(fd: number, path: string): { stamp: Stamp; bytes: number } | null {
  const chunks: Buffer[] = [];
  for (let at = 0; at < MOST_BYTES; ) {
    const chunk = Buffer.alloc(CHUNK);
    const got = readSync(fd, chunk, 0, CHUNK, at);
    const end = chunk.subarray(0, got).indexOf('\n');
    chunks.push(chunk.subarray(0, end < 0 ? got : end));
    if (end >= 0) return { stamp: parseHeader(Buffer.concat(chunks).toString('utf8'), path), bytes: at + end + 1 };
    if (at === 0 && !begins(chunk.subarray(0, got))) break;
    if (got < CHUNK) return null;
    at += got;
  }
  throw new BatchProblem(`${path} is no file of rows; move it away or choose another name`);
}

/** Whether a header may begin like this, as far as it goes. */
function begins(chunk: Buffer): boolean {
  const magic = Buffer.from(MAGIC);
  const length = Math.min(magic.length, chunk.length);
  return chunk.subarray(0, length).equals(magic.subarray(0, length));
}

function parseHeader(line: string, path: string): Stamp {
  if (!line.startsWith(MAGIC))
    throw new BatchProblem(`${path} is no file of rows; move it away or choose another name`);
  try {
    const header = JSON.parse(line) as { job: Job; tool: string; shard: string; hash: string };
    const stamp = stampOf(header.job, header.tool, readShard(header.shard));
    if (headerLine(stamp) === `${line}\n`) return stamp;
  } catch (error) {
    throw new BatchProblem(`${path} has a damaged first line (${reasonOf(error)}); delete it and run again`);
  }
  throw new BatchProblem(`${path} has a damaged first line; delete it and run again`);
}

/** What another job's file has different from ours, one entry each; empty when it is the same share of the same job. */
export function mismatches(there: Stamp, here: Stamp): string[] {
  const found =
    there.text === here.text ? [] : differences(JSON.parse(there.text) as Json, JSON.parse(here.text) as Json);
  if (there.tool !== here.tool) found.push(`made by ${there.tool}, this is ${here.tool}`);
  if (shardText(there.shard) !== shardText(here.shard)) {
    found.push(`part ${shardText(there.shard)} there, ${shardText(here.shard)} here`);
  }
  return found;
}

/** The first few of a list: nobody reads a hundred. */
export function firstFew(items: readonly string[], most = 4): string {
  const rest = items.length - most;
  return `${items.slice(0, most).join('; ')}${rest > 0 ? `; and ${rest} more` : ''}`;
}
