/** `axlewatt gather`: parts that several machines wrote in, the files of one undisturbed run out. */
import { readdirSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { exportCsv, isExport } from '../batch/csv.ts';
import { gather } from '../batch/gather.ts';
import { BatchProblem, reasonOf } from '../batch/problem.ts';
import { wholeFile } from '../batch/shard.ts';
import { inTheWay, openFolder } from './out-folder.ts';
import { FAILED, FINE, type Terminal, USAGE } from './exit.ts';

export interface GatherArguments {
  /** Files of parts, or folders with such files. */
  readonly parts: readonly string[];
  /** Folder for the joined files: the one that `run` looks into. */
  readonly out: string;
  /** Whether to write the rows as CSV too. */
  readonly csv: boolean;
}

/** Joins what belongs together by its name; what does not fit is refused, part by part, and the rest is joined. */
export function gatherParts(args: GatherArguments, terminal: Terminal): number {
  return told(terminal, () => {
    const groups = groupsOf(args.parts.flatMap(filesIn));
    if (groups.size === 0) {
      terminal.err('axlewatt: no parts there; they are written by run with --shard k/n and end in .k-of-n.rows');
      return USAGE;
    }
    openFolder(args.out);
    return Math.max(
      ...[...groups].map(([name, parts]) => told(terminal, () => gatherOne(name, parts, args, terminal))),
    );
  });
}

/** What cannot be read or written is told, and is exit code 2. */
function told(terminal: Terminal, work: () => number): number {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof BatchProblem)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
}

function gatherOne(name: string, parts: readonly string[], { out, csv }: GatherArguments, terminal: Terminal): number {
  const target = join(out, name);
  const { rows, problems } = gather(parts, target);
  if (problems.length > 0) {
    terminal.err(`axlewatt: ${name} is not joined:`);
    for (const problem of problems) terminal.err(`  ${problem}`);
    return FAILED;
  }
  terminal.out(`Joined: ${target}, ${rows} rows of ${parts.length} ${parts.length === 1 ? 'part' : 'parts'}`);
  if (!csv) return FINE;
  const table = `${name.replace(/\.rows$/u, '')}.csv`;
  const why = inTheWay(out, table, isExport(join(out, table)) ? [table] : []);
  if (why !== null) throw new BatchProblem(why);
  exportCsv(target, join(out, table));
  return FINE;
}

/** Parts by the name of the whole they belong to, wherever they lie. */
function groupsOf(files: readonly string[]): Map<string, string[]> {
  const groups = new Map<string, string[]>();
  for (const file of files) {
    const name = wholeFile(basename(file));
    groups.set(name, [...(groups.get(name) ?? []), file]);
  }
  return groups;
}

/** @throws BatchProblem for what cannot be read. */
function filesIn(path: string): string[] {
  try {
    if (!statSync(path).isDirectory()) return [path];
    const parts = readdirSync(path).filter(name => name.endsWith('.rows') && wholeFile(name) !== name);
    return parts.toSorted().map(name => join(path, name));
  } catch (error) {
    throw new BatchProblem(`cannot read ${path}: ${reasonOf(error)}`);
  }
}
