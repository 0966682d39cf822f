/** `axlewatt check`: says what is wrong, and nothing else. */
import { folded, problemText } from '../notebook/document/problem.ts';
import { type Terminal, USAGE } from './exit.ts';
import { UnreadableFile } from '../notebook/files/unreadable-file.ts';
import { namedNotebooks } from './folder-notebooks.ts';
import { runFile } from './notebooks.ts';

/** @param named notebooks, and folders of them. */
export function checkFiles(named: readonly string[], terminal: Terminal): number {
  let files: readonly string[];
  try {
    files = namedNotebooks(named);
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
  const codes = files.map(file => {
    const { outcome, code } = runFile(file, terminal);
    const { own, waiting } = folded(outcome?.problems ?? []);
    for (const problem of own) terminal.err(problemText(problem));
    if (waiting !== '') terminal.err(`${file}: ${waiting}`);
    for (const block of outcome?.blocks ?? []) {
      if (block.kind !== 'cell') continue;
      for (const { line, text, found, holds } of block.checks) {
        if (!holds) terminal.err(`${file}:${line}: check does not hold: ${text} (${found})`);
      }
    }
    return code;
  });
  return Math.max(...codes);
}
