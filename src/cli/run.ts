/** `axlewatt run`: notebooks in, reports out. */
import { createHash } from 'node:crypto';
import { existsSync, realpathSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { BatchProblem } from '../batch/problem.ts';
import { csvTables, json } from '../notebook/document/export.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import { problemText } from '../notebook/document/problem.ts';
import { readNotebook } from '../notebook/files/folder.ts';
import type { Memory } from '../notebook/memory.ts';
import { UnreadableFile } from '../notebook/files/unreadable-file.ts';
import { keepDrawings } from '../report/page/draw-pair.ts';
import { dropAhead, startRenderThread, stopRenderThread } from '../report/page/render-thread.ts';
import { type SheetMark, writeBrief } from '../report/brief.ts';
import type { LiveParts } from '../report/page/live.ts';
import { picturesAhead } from '../report/page/ahead.ts';
import { cellId, writeReport } from '../report/report.ts';
import { terminalSummary } from '../report/terminal.ts';
import { FINE, INTERNAL, lastResort, type Terminal, USAGE } from './exit.ts';
import { namedNotebooks } from './folder-notebooks.ts';
import { type Rows, runFileWith } from './notebooks.ts';
import { inTheWay, openFolder, writeInto, writtenWith } from './out-folder.ts';
import { liveParts, picturesAble } from './page-scripts.ts';
import { openRowSource, type RowSource } from './rows.ts';

export interface RunArguments {
  readonly files: readonly string[];
  readonly out: string;
  readonly json: boolean;
  readonly csv: boolean;
  readonly brief: boolean;
  /** Left out: enough of them. */
  readonly samples?: number | undefined;
  readonly workers?: number | undefined;
  readonly quiet: boolean;
  readonly shard?: string | undefined;
  readonly fresh: boolean;
}

/** @param named files, and folders with such files. */
export async function runFiles(named: RunArguments, terminal: Terminal, version: string): Promise<number> {
  let args = named;
  try {
    args = { ...named, files: namedNotebooks(named.files) };
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
  const names = args.files.map(file => basename(file, extname(file)));
  const twice = names.findIndex((name, k) => names.findIndex(other => alike(other, name)) !== k);
  if (twice >= 0) {
    const name = `${names[twice] ?? ''}.html`;
    terminal.err(
      `axlewatt: two notebooks would write ${join(args.out, name)}; run them apart, each with its own --out`,
    );
    return USAGE;
  }
  const { out, workers, quiet, shard, fresh } = args;
  const settings = {
    out,
    version,
    quiet,
    fresh,
    ...(workers !== undefined && { workers }),
    ...(shard !== undefined && { shard }),
  };
  let source: RowSource;
  try {
    openFolder(out);
    source = openRowSource(settings, terminal);
  } catch (error) {
    if (!(error instanceof BatchProblem)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
  try {
    return await reportAll(args, names, drawingWhatIsNew(source), version, terminal);
  } finally {
    stopRenderThread();
    keepDrawings(null);
    await source.close();
  }
}

/** The source, with pictures drawn by two threads as soon as there is an answer that is not kept: what is kept was drawn before. */
function drawingWhatIsNew(source: RowSource): RowSource {
  // It loads what it needs while the notebook runs.
  const start = (): void => startRenderThread(new URL('../render-worker.mjs', import.meta.url));
  const told = (memory: Memory | null): Memory | null => {
    if (memory === null) start();
    return (
      memory && {
        ...memory,
        recall(question) {
          const found = memory.recall(question);
          if (found === null) start();
          return found;
        },
      }
    );
  };
  keepDrawings(told(source.pictures));
  return { ...source, memory: told(source.memory) };
}

async function reportAll(
  args: RunArguments,
  names: readonly string[],
  source: RowSource,
  version: string,
  terminal: Terminal,
): Promise<number> {
  let code = FINE;
  for (const [k, file] of args.files.entries()) {
    const name = names[k] ?? '';
    const why = source.parts ? null : whyNot(name, args);
    if (why !== null) {
      terminal.err(`axlewatt: ${file} is not run: ${why}`);
      code = Math.max(code, USAGE);
      continue;
    }
    // While it goes on with the next cells and with samples.
    const onResult: Rows['onResult'] = (result, system, cell) => picturesAhead(result, system, cellId(cell));
    const ran = await runFileWith(file, args.samples ?? 'enough', { ...source, onResult }, terminal);
    if (source.code() !== FINE) return source.code();
    if (ran.outcome === null) code = Math.max(code, ran.code);
    else if (source.parts) code = Math.max(code, tellParts(ran.outcome, ran.code, terminal));
    else
      code = Math.max(
        code,
        ran.code,
        await report(ran.outcome, name, args, version, terminal, liveParts(ran, args.samples ?? 'enough')),
      );
    dropAhead();
  }
  return code;
}

/** Whether two names may be one file: many file systems do not tell capitals apart. */
function alike(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** Why what a notebook makes cannot be written, found before it is run; null where it can. */
function whyNot(name: string, { out, json, brief, files }: RunArguments): string | null {
  const report = `${name}.html`;
  const path = join(out, report);
  const notebooks = files.filter(file => existsSync(file)).map(file => realpathSync(file));
  if (existsSync(path) && notebooks.includes(realpathSync(path))) return `${report} is a notebook itself`;
  const ours = writtenWith(path);
  const beside = [...(json ? [`${name}.json`] : []), ...(brief ? [briefName(name)] : [])];
  return [report, ...beside].map(file => inTheWay(out, file, ours)).find(why => why !== null) ?? null;
}

const BRIEF = '.brief.html';

function briefName(name: string): string {
  return `${name}${BRIEF}`;
}

/** What a sheet is known by: the day, the version, and the text of the notebook. */
function sheetMark(file: string, name: string, version: string): SheetMark {
  return {
    version,
    date: new Date().toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' }),
    hash: createHash('sha256').update(readNotebook(file)).digest('hex'),
    report: `${name}.html`,
  };
}

/** A part has no report: what keeps it from being done is told here. */
function tellParts({ problems }: NotebookOutcome, code: number, terminal: Terminal): number {
  const grave = problems.filter(({ cause }) => cause === 'axlewatt' || cause === 'files');
  for (const problem of grave) terminal.err(problemText(problem));
  return grave.length === 0 ? FINE : code;
}

/** Tells an outcome and writes its files; what fails of it leaves the rest whole. */
async function report(
  outcome: NotebookOutcome,
  name: string,
  args: RunArguments,
  version: string,
  terminal: Terminal,
  live: LiveParts | null,
): Promise<number> {
  let code = FINE;
  const onFault = (): void => void (code = INTERNAL);
  const fault = (error: unknown): void => {
    terminal.err(`${outcome.file}: ${lastResort(error).trimEnd()}`);
    onFault();
  };
  try {
    terminal.out(terminalSummary(outcome, { color: terminal.color, width: terminal.width }, onFault));
  } catch (error) {
    fault(error);
  }
  const beside: [string, string][] = [];
  try {
    if (args.json) beside.push([`${name}.json`, json(outcome)]);
    if (args.brief)
      beside.push([briefName(name), writeBrief(outcome, sheetMark(outcome.file, name, version), onFault)]);
    if (args.csv) for (const table of csvTables(outcome)) beside.push([`${name}.${table.name}.csv`, table.text]);
  } catch (error) {
    fault(error);
  }
  try {
    const before = writtenWith(join(args.out, `${name}.html`));
    const kept = before.filter(file => file !== `${name}.html` && existsSync(join(args.out, file)));
    // What is not ours must not stand in the mark: it would be ours from then on.
    const free = beside.filter(([file]) => inTheWay(args.out, file, before) === null);
    const files = [...new Set([...kept, ...free.map(([file]) => file)])];
    const page = await writeReport(outcome, { files, onFault, able: [picturesAble()], ...(live !== null && { live }) });
    code = Math.max(code, writeAll([[`${name}.html`, page], ...beside], before, args.out, terminal));
  } catch (error) {
    fault(error);
  }
  return code;
}

function writeAll(
  files: readonly (readonly [string, string])[],
  ours: readonly string[],
  folder: string,
  terminal: Terminal,
): number {
  let code = FINE;
  for (const [name, text] of files) {
    try {
      writeInto(folder, name, text, ours);
      if (name.endsWith('.html')) terminal.out(`${name.endsWith(BRIEF) ? 'Sheet' : 'Report'}: ${join(folder, name)}`);
    } catch (error) {
      if (!(error instanceof BatchProblem)) throw error;
      terminal.err(`axlewatt: ${error.message}`);
      code = USAGE;
    }
  }
  return code;
}
