/** Reads and runs the notebooks that were named on the command line. */
import { folderReader, readNotebook, UnreadableFile } from '../notebook/folder.ts';
import type { NotebookOutcome } from '../notebook/outcome.ts';
import { runNotebook } from '../notebook/run.ts';
import { FAILED, FINE, type Terminal, USAGE } from './exit.ts';

/** The outcome of a notebook; null after a message where the file cannot be read. */
export function runFile(file: string, terminal: Terminal): NotebookOutcome | null {
  try {
    return runNotebook(readNotebook(file), { file, readFile: folderReader(file) });
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return null;
  }
}

export function exitCodeOf(outcome: NotebookOutcome | null): number {
  if (outcome === null) return USAGE;
  return outcome.problems.length > 0 || outcome.failedChecks > 0 ? FAILED : FINE;
}
