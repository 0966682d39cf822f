/** Reads and runs the notebooks that were named on the command line. */
import { problemAt } from '../notebook/document/located.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import type { ProblemData } from '../notebook/document/problem.ts';
import { folderReader, readNotebook, UnreadableFile } from '../notebook/files/folder.ts';
import { runNotebook, runNotebookWith } from '../notebook/run.ts';
import type { Samples } from '../notebook/samples.ts';
import { FAILED, FINE, INTERNAL, lastResort, type Terminal, USAGE } from './exit.ts';
import type { RowSource } from './rows.ts';

export interface Ran {
  /** Null, after a message, where the file cannot be read or running it was a fault of axlewatt itself. */
  readonly outcome: NotebookOutcome | null;
  readonly code: number;
}

/** Runs a notebook in this thread. */
export function runFile(file: string, terminal: Terminal): Ran {
  try {
    return ran(runNotebook(readNotebook(file), { file, readFile: folderReader(file) }));
  } catch (error) {
    return failed(file, error, terminal);
  }
}

/** The same with samples, and rows from elsewhere. */
export async function runFileWith(file: string, samples: Samples, source: RowSource, terminal: Terminal): Promise<Ran> {
  const options = { file, readFile: folderReader(file), samples };
  try {
    return ran(await runNotebookWith(readNotebook(file), options, ask => source.rows(file, ask), source.signal));
  } catch (error) {
    if (source.signal.aborted) return { outcome: null, code: source.code() };
    return failed(file, error, terminal);
  }
}

function ran(outcome: NotebookOutcome): Ran {
  const told = asksNothing(outcome) ? { ...outcome, problems: [withoutCells(outcome.file)] } : outcome;
  return { outcome: told, code: exitCodeOf(told) };
}

/** A file without a cell and without a quoted result, which most likely is another file than the one that was meant. */
function asksNothing({ blocks, problems }: NotebookOutcome): boolean {
  return problems.length === 0 && blocks.every(block => block.kind === 'prose' && !block.html.includes('<output'));
}

function withoutCells(file: string): ProblemData {
  const place = { file, line: 1, column: 1, length: 1, source: '' };
  return problemAt(place, '', 'has no cell, so nothing is asked', 'a fenced block that begins with ```yaml car NAME');
}

function failed(file: string, error: unknown, terminal: Terminal): Ran {
  if (error instanceof UnreadableFile) {
    terminal.err(`axlewatt: ${error.message}`);
    return { outcome: null, code: USAGE };
  }
  terminal.err(`${file}: ${lastResort(error).trimEnd()}`);
  return { outcome: null, code: INTERNAL };
}

function exitCodeOf({ problems, failedChecks }: NotebookOutcome): number {
  if (problems.some(({ cause }) => cause === 'axlewatt')) return INTERNAL;
  if (problems.some(({ cause }) => cause === 'files')) return USAGE;
  return problems.length > 0 || failedChecks > 0 ? FAILED : FINE;
}
