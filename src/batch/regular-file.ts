/** Opens files for reading that are files: a pipe would wait for ever for somebody to write into it. */
import { closeSync, constants, fstatSync, openSync } from 'node:fs';
import { BatchProblem, reasonOf } from './problem.ts';

/** Descriptor of an ordinary file, for reading. @throws BatchProblem for anything else, or where it cannot be opened. */
export function openRegular(path: string): number {
  let fd: number;
  try {
    // Without O_NONBLOCK, opening a named pipe waits for its other end.
    fd = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  } catch (error) {
    throw new BatchProblem(`cannot read ${path}: ${reasonOf(error)}`);
  }
  if (fstatSync(fd).isFile()) return fd;
  closeSync(fd);
  throw new BatchProblem(`cannot read ${path}: it is no ordinary file`);
}
