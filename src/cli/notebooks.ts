/** Reads and runs the notebooks that were named on the command line. */
import { problemAt } from '../notebook/document/located.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import type { ProblemData } from '../notebook/document/problem.ts';
import { folderReader, readNotebook } from '../notebook/files/folder.ts';
import { UnreadableFile } from '../notebook/files/unreadable-file.ts';
import { runNotebook, runNotebookWith, type RunOptions } from '../notebook/run.ts';
import type { Samples } from '../notebook/samples.ts';
import { FAILED, FINE, INTERNAL, lastResort, type Terminal, USAGE } from './exit.ts';
import type { RowSource } from './rows.ts';

export interface Ran {
  /** Null, after a message, where the file cannot be read or running it was a fault of axlewatt itself. */
  readonly outcome: NotebookOutcome | null;
  readonly code: number;
  /** What it was run from, for a page that runs it again. */
  readonly from?: RanFrom;
  /** Files that it asked for, by the path that it says, also those that could not be read. */
  readonly asked?: readonly string[];
}

export interface RanFrom {
  readonly text: string;
  /** Files that it reads, by the path that it says. */
  readonly files: readonly (readonly [path: string, text: string])[];
}

/** Runs a notebook in this thread. */
export function runFile(file: string, terminal: Terminal): Ran {
  try {
    return ran(runNotebook(readNotebook(file), { file, readFile: folderReader(file) }));
  } catch (error) {
    return failed(file, error, terminal);
  }
}

/** What a run takes of a source of rows. */
export interface Rows extends Pick<RowSource, 'rows' | 'memory' | 'signal' | 'code'> {
  /** Lets others be heard between two cells. */
  readonly pause?: () => Promise<void>;
  /** As that of `runNotebookWith`. */
  readonly onResult?: RunOptions['onResult'];
}

/** The same with samples, and rows from elsewhere. */
export async function runFileWith(file: string, samples: Samples, source: Rows, terminal: Terminal): Promise<Ran> {
  const files = new Map<string, string>();
  const read = folderReader(file);
  const asked = new Set<string>();
  const readFile = (path: string): string => {
    asked.add(path);
    const found = read(path);
    files.set(path, found);
    return found;
  };
  try {
    const text = readNotebook(file);
    const outcome = await runNotebookWith(
      text,
      {
        file,
        readFile,
        samples,
        ...(source.memory !== null && { memory: source.memory }),
        ...(source.onResult !== undefined && { onResult: source.onResult }),
      },
      ask => source.rows(file, ask),
      source.signal,
      source.pause,
    );
    return { ...ran(outcome), from: { text, files: [...files] }, asked: [...asked] };
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
