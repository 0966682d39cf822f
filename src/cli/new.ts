/** `axlewatt new`: a first notebook with comments, from flags or from a few questions. */
import { lstatSync } from 'node:fs';
import { createInterface } from 'node:readline/promises';
import { replaceFile } from '../batch/atomic-write.ts';
import { BatchProblem } from '../batch/problem.ts';
import { folded, problemText } from '../notebook/document/problem.ts';
import { FIRST_QUESTIONS, type FirstAnswers, type FirstKey, firstNotebook } from '../notebook/first-notebook.ts';
import { runNotebook } from '../notebook/run.ts';
import { FAILED, FINE, type Terminal, USAGE } from './exit.ts';

export type NewArguments = { readonly file: string } & { readonly [key in FirstKey]?: string | undefined };

/** As a shell tells of Ctrl-C. */
const INTERRUPTED = 130;

/** @param asks whether somebody sits at the terminal and can be asked. */
export async function writeNew(args: NewArguments, asks: boolean, terminal: Terminal): Promise<number> {
  const { file } = args;
  if (lstatSync(file, { throwIfNoEntry: false }) !== undefined) {
    terminal.err(`axlewatt: ${file} is there already and stays as it is; choose another name`);
    return USAGE;
  }
  let text: string;
  try {
    text = firstNotebook(asks ? await asked(args) : answered(args));
  } catch (error) {
    // Ctrl-C and Ctrl-D at a question.
    if (!(error instanceof Error) || error.name !== 'AbortError') throw error;
    terminal.err(`\naxlewatt: ${file} is not written`);
    return INTERRUPTED;
  }
  try {
    replaceFile(file, put => put(Buffer.from(text)));
  } catch (error) {
    if (!(error instanceof BatchProblem)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
  terminal.out(`Written: ${file}. Edit it, then: axlewatt run ${file}`);
  const { own } = folded(runNotebook(text, { file }).problems);
  for (const problem of own) terminal.err(problemText(problem));
  if (own.length > 0) terminal.err(`axlewatt: with these answers ${file} does not run yet: mend the lines above in it`);
  return own.length > 0 ? FAILED : FINE;
}

function answered(args: NewArguments): FirstAnswers {
  const pairs = FIRST_QUESTIONS.map(({ key, usual }) => [key, args[key] ?? usual]);
  return Object.fromEntries(pairs) as FirstAnswers;
}

/** Asks for what no flag says; Enter takes the value in brackets. */
async function asked(args: NewArguments): Promise<FirstAnswers> {
  const reader = createInterface({ input: process.stdin, output: process.stderr });
  const found: { [key in FirstKey]?: string } = {};
  try {
    for (const { key, ask, usual } of FIRST_QUESTIONS) {
      found[key] = args[key] ?? ((await reader.question(`${ask} [${usual}]: `)).trim() || usual);
    }
  } finally {
    reader.close();
  }
  return answered({ ...args, ...found });
}
