/** Runs a notebook as the command does, and says what is wrong with what comes out. */
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { type CellKind, isPending, type Pending } from '../../src/notebook/cells/kind.ts';
import type { CellYield } from '../../src/notebook/cells/yield.ts';
import { csvTables, json } from '../../src/notebook/document/export.ts';
import type { NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { writeReport } from '../../src/report/report.ts';
import { terminalSummary } from '../../src/report/terminal.ts';
import { type Finding, findingsOf, jumps, lostFinding, slowFinding, studyDifferences } from './findings.ts';
import { files } from './files.ts';

/** A run that takes longer is slow, s of processor time. */
const SLOW = 2;

const RUNS = new Set(['launch', 'repeat', 'sheet', 'drive', 'range', 'steady', 'charge', 'coast', 'weigh']);

export interface Order {
  readonly text: string;
  /** The same with a mass that is bigger by a thousand-millionth; '' where it is not asked. */
  readonly moved: string;
  /** Whether the report is written too. */
  readonly report: boolean;
}

export async function examine({ text, moved, report }: Order): Promise<Finding[]> {
  const seconds = new Map<string, number>();
  try {
    const outcome = runNotebook(text, { file: 'odd.md', readFile, kinds: timed(seconds) });
    const found = [...findingsOf(outcome), ...studyDifferences(outcome), ...slowOnes(outcome, seconds)];
    if (report) await told(outcome);
    if (moved === '') return found;
    return [...found, ...jumps(outcome, runNotebook(moved, { file: 'odd.md', readFile }))];
  } catch (error) {
    return [lostFinding('fault', error instanceof Error ? (error.stack ?? String(error)) : String(error))];
  }
}

async function told(outcome: NotebookOutcome): Promise<void> {
  await writeReport(outcome);
  json(outcome);
  csvTables(outcome);
  terminalSummary(outcome, { color: false, width: 100 });
}

function readFile(path: string): string {
  const text = files[path];
  if (text === undefined) throw new Error(`no file ${path}`);
  return text;
}

function slowOnes(outcome: NotebookOutcome, seconds: ReadonlyMap<string, number>): Finding[] {
  return outcome.blocks.flatMap(block => {
    const taken = block.kind === 'cell' ? (seconds.get(block.name) ?? 0) : 0;
    return block.kind === 'cell' && RUNS.has(block.cell) && taken > SLOW
      ? [slowFinding(block.name, block.cell, taken)]
      : [];
  });
}

/** The kinds of cell with a clock in each, told by the name of the cell in s of processor time. */
function timed(seconds: Map<string, number>): readonly CellKind[] {
  return CELL_KINDS.map(kind => ({
    ...kind,
    prepare(cell) {
      const prepared = kind.prepare(cell);
      return {
        ...prepared,
        run(world): CellYield | Pending {
          const before = process.cpuUsage();
          const given = prepared.run(world);
          const { user, system } = process.cpuUsage(before);
          if (!isPending(given)) seconds.set(cell.piece.name, (user + system) / 1e6);
          return given;
        },
      };
    },
  }));
}
