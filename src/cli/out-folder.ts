/** The folder for what is written: found or made before any work, and nothing in it is written over that axlewatt did not write. */
import { randomBytes } from 'node:crypto';
import { closeSync, existsSync, lstatSync, mkdirSync, openSync, readSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { replaceFile } from '../batch/atomic-write.ts';
import { BatchProblem, reasonOf } from '../batch/problem.ts';
import { openRegular } from '../batch/regular-file.ts';
import { filesOfReport } from '../report/mark.ts';

/** @throws BatchProblem where nothing can be written in the folder. */
export function openFolder(folder: string): void {
  try {
    makeFolder(folder);
    const trial = join(folder, `.axlewatt-${randomBytes(4).toString('hex')}`);
    closeSync(openSync(trial, 'wx'));
    rmSync(trial);
  } catch (error) {
    throw new BatchProblem(`cannot write to "${folder}": ${reasonOf(error)}; choose another folder with --out`);
  }
}

/** `mkdirSync` with `recursive` never comes back from a folder in which nothing can be made, such as /proc. */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  const parent = dirname(folder);
  if (parent !== folder) makeFolder(parent);
  try {
    mkdirSync(folder);
  } catch (error) {
    // Another run may have been quicker.
    if (!existsSync(folder)) throw error;
  }
}

/** Bytes of a report in which its mark stands. */
const HEAD = 1 << 18;

/** Names of a report and of what was written with it; none where the file there is no report of ours. */
export function writtenWith(report: string): readonly string[] {
  let fd = -1;
  try {
    fd = openRegular(report);
    const head = Buffer.alloc(HEAD);
    const files = filesOfReport(head.toString('utf8', 0, readSync(fd, head, 0, HEAD, 0)));
    return files === null ? [] : [basename(report), ...files];
  } catch {
    return [];
  } finally {
    if (fd >= 0) closeSync(fd);
  }
}

/** Why a file is not to be written, with how to go on; null where nothing stands in its way. @param ours names that may be written over. */
export function inTheWay(folder: string, name: string, ours: readonly string[]): string | null {
  const path = join(folder, name);
  const there = lstatSync(path, { throwIfNoEntry: false });
  if (there === undefined) return null;
  const cure = 'move it away, or choose another folder with --out';
  if (there.isSymbolicLink()) return `${path} is a link, which is not written through; ${cure}`;
  if (!there.isFile()) return `${path} is no file; ${cure}`;
  return ours.includes(name) ? null : `${path} was not written by axlewatt and stays as it is; ${cure}`;
}

/** Writes a file as a whole or not at all. @throws BatchProblem where something is in its way or it cannot be written. */
export function writeInto(folder: string, name: string, text: string, ours: readonly string[]): void {
  const why = inTheWay(folder, name, ours);
  if (why !== null) throw new BatchProblem(why);
  replaceFile(join(folder, name), put => put(Buffer.from(text)));
}
