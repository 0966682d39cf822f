/** `axlewatt run`: notebooks in, reports out. */
import { existsSync, mkdirSync, realpathSync, writeFileSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { csvTables, json } from '../notebook/document/export.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import { startDraftsman, stopDraftsman } from '../report/page/render-thread.ts';
import { writeReport } from '../report/report.ts';
import { terminalSummary } from '../report/terminal.ts';
import { type Terminal, USAGE } from './exit.ts';
import { exitCodeOf, runFileWith } from './notebooks.ts';
import { openRowSource, type RowSource } from './rows.ts';

export interface RunArguments {
  readonly files: readonly string[];
  readonly out: string;
  readonly json: boolean;
  readonly csv: boolean;
  readonly samples: number;
  readonly workers?: number | undefined;
  readonly quiet: boolean;
  readonly shard?: string | undefined;
}

export async function runFiles(args: RunArguments, terminal: Terminal, version: string): Promise<number> {
  const names = args.files.map(file => basename(file, extname(file)));
  const twice = names.findIndex((name, k) => names.findIndex(other => alike(other, name)) !== k);
  if (twice >= 0) {
    const name = `${names[twice] ?? ''}.html`;
    terminal.err(
      `axlewatt: two notebooks would write ${join(args.out, name)}; run them apart, each with its own --out`,
    );
    return USAGE;
  }
  // It loads what it needs while the notebook runs.
  startDraftsman(new URL('../render-worker.js', import.meta.url));
  const { out, workers, quiet, shard } = args;
  const settings = {
    out,
    version,
    quiet,
    ...(workers !== undefined && { workers }),
    ...(shard !== undefined && { shard }),
  };
  const source = openRowSource(settings, terminal);
  try {
    return await reportAll(args, names, source, terminal);
  } finally {
    stopDraftsman();
    await source.close();
  }
}

async function reportAll(
  args: RunArguments,
  names: readonly string[],
  source: RowSource,
  terminal: Terminal,
): Promise<number> {
  let code = 0;
  for (const [k, file] of args.files.entries()) {
    const outcome = await runFileWith(file, args.samples, source, terminal);
    if (source.code() !== 0) return source.code();
    if (source.parts && outcome !== null) continue;
    code = Math.max(code, exitCodeOf(outcome));
    if (outcome === null) continue;
    terminal.out(terminalSummary(outcome, { color: terminal.color, width: terminal.width }));
    code = Math.max(code, writeAll(await filesOf(outcome, names[k] ?? '', args), args, terminal));
  }
  return code;
}

/** Whether two names may be one file: many file systems do not tell capitals apart. */
function alike(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** Name and text of every file to write; the report first. */
async function filesOf(outcome: NotebookOutcome, name: string, args: RunArguments): Promise<[string, string][]> {
  const files: [string, string][] = [[`${name}.html`, await writeReport(outcome)]];
  if (args.json) files.push([`${name}.json`, json(outcome)]);
  if (args.csv) for (const table of csvTables(outcome)) files.push([`${name}.${table.name}.csv`, table.text]);
  return files;
}

function writeAll(files: readonly (readonly [string, string])[], args: RunArguments, terminal: Terminal): number {
  const folder = args.out;
  try {
    makeFolder(folder);
    const notebooks = args.files.filter(file => existsSync(file)).map(file => realpathSync(file));
    for (const [name, text] of files) {
      const path = join(folder, name);
      if (existsSync(path) && notebooks.includes(realpathSync(path))) throw new Error(`${name} is a notebook itself`);
      writeFileSync(path, text);
    }
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    terminal.err(`axlewatt: cannot write to "${folder}": ${reason}`);
    return USAGE;
  }
  terminal.out(`Report: ${join(folder, files[0]?.[0] ?? '')}`);
  return 0;
}

/** `mkdirSync` with `recursive` never comes back from a folder in which nothing can be made, such as /proc. */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  const parent = dirname(folder);
  if (parent !== folder) makeFolder(parent);
  mkdirSync(folder);
}
