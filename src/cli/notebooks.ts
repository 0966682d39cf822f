/** Reads and runs the notebooks that were named on the command line. */
import { folderReader, readNotebook, UnreadableFile } from '../notebook/files/folder.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import { runNotebook, runNotebookWith } from '../notebook/run.ts';
import { BatchProblem } from '../batch/problem.ts';
import { FAILED, FINE, type Terminal, USAGE } from './exit.ts';
import type { RowSource } from './rows.ts';

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

/** The same with rows from elsewhere; null too where they are not all here. */
export async function runFileWith(
  file: string,
  samples: number,
  source: RowSource,
  terminal: Terminal,
): Promise<NotebookOutcome | null> {
  try {
    const options = { file, readFile: folderReader(file), samples };
    return await runNotebookWith(readNotebook(file), options, ask => source.rows(file, ask));
  } catch (error) {
    if (!(error instanceof UnreadableFile) && !(error instanceof BatchProblem)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return null;
  }
}

export function exitCodeOf(outcome: NotebookOutcome | null): number {
  if (outcome === null) return USAGE;
  return outcome.problems.length > 0 || outcome.failedChecks > 0 ? FAILED : FINE;
}
