/** `axlewatt run`: notebooks in, reports out. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { csvTables, json } from '../notebook/export.ts';
import type { NotebookOutcome } from '../notebook/outcome.ts';
import { writeReport } from '../report/report.ts';
import { terminalSummary } from '../report/terminal.ts';
import { type Terminal, USAGE } from './exit.ts';
import { exitCodeOf, runFile } from './notebooks.ts';

export interface RunArguments {
  readonly files: readonly string[];
  readonly out: string;
  readonly json: boolean;
  readonly csv: boolean;
}

export async function runFiles(args: RunArguments, terminal: Terminal): Promise<number> {
  const names = args.files.map(file => basename(file, extname(file)));
  const twice = names.findIndex((name, k) => names.indexOf(name) !== k);
  if (twice >= 0) {
    const name = `${names[twice] ?? ''}.html`;
    terminal.err(
      `axlewatt: two notebooks would write ${join(args.out, name)}; run them apart, each with its own --out`,
    );
    return USAGE;
  }
  let code = 0;
  for (const [k, file] of args.files.entries()) {
    const outcome = runFile(file, terminal);
    code = Math.max(code, exitCodeOf(outcome));
    if (outcome === null) continue;
    terminal.out(terminalSummary(outcome, { color: terminal.color, width: terminal.width }));
    code = Math.max(code, writeAll(await filesOf(outcome, names[k] ?? '', args), args.out, terminal));
  }
  return code;
}

/** Name and text of every file to write; the report first. */
async function filesOf(outcome: NotebookOutcome, name: string, args: RunArguments): Promise<[string, string][]> {
  const files: [string, string][] = [[`${name}.html`, await writeReport(outcome)]];
  if (args.json) files.push([`${name}.json`, json(outcome)]);
  if (args.csv) for (const table of csvTables(outcome)) files.push([`${name}.${table.name}.csv`, table.text]);
  return files;
}

function writeAll(files: readonly (readonly [string, string])[], folder: string, terminal: Terminal): number {
  try {
    mkdirSync(folder, { recursive: true });
    for (const [name, text] of files) writeFileSync(join(folder, name), text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    terminal.err(`axlewatt: cannot write to "${folder}": ${reason}`);
    return USAGE;
  }
  terminal.out(`Report: ${join(folder, files[0]?.[0] ?? '')}`);
  return 0;
}
