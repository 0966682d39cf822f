/** Writes a file that is there as a whole or not at all: under another name first, then in its place. */
import { randomBytes } from 'node:crypto';
import { closeSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs';
import { BatchProblem, reasonOf } from './problem.ts';
import { writeAll } from './store.ts';

const BLOCK = 1 << 16;

/**
 * @param fill calls `put` with one piece after another.
 * @param onDisk `now` where it must outlast the machine; `soon` for what tells itself whether it is whole, and is made again.
 * @throws BatchProblem where it cannot be written; an older file of the name stays then.
 */
export function replaceFile(
  target: string,
  fill: (put: (bytes: Buffer) => void) => void,
  onDisk: 'now' | 'soon' = 'now',
): void {
  // A name that nobody else writes to; 'wx' follows no link that might stand there.
  const temporary = `${target}.${randomBytes(4).toString('hex')}.unfinished`;
  let fd = -1;
  try {
    fd = openSync(temporary, 'wx');
    fillFile(fd, fill);
    if (onDisk === 'now') fsyncSync(fd);
    closeSync(fd);
    fd = -1;
    renameSync(temporary, target);
  } catch (error) {
    if (fd >= 0) closeSync(fd);
    rmSync(temporary, { force: true });
    if (error instanceof BatchProblem) throw error;
    throw new BatchProblem(`cannot write ${target}: ${reasonOf(error)}`);
  }
}

/** Small pieces are written together. */
function fillFile(fd: number, fill: (put: (bytes: Buffer) => void) => void): void {
  const block = Buffer.alloc(BLOCK);
  let used = 0;
  let position = 0;
  const write = (bytes: Buffer): void => {
    writeAll(fd, bytes, position);
    position += bytes.length;
  };
  const flush = (): void => {
    write(block.subarray(0, used));
    used = 0;
  };
  fill(bytes => {
    if (used + bytes.length > block.length) flush();
    if (bytes.length > block.length) write(bytes);
    else used += bytes.copy(block, used);
  });
  flush();
}
