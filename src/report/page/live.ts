/** What makes a page turn: the engine, packed; the script that unpacks it, named by its hash; the notebook itself. */
import { RUN_CELLS } from '../../notebook/cells/run-cell.ts';
import type { CellBlock, NotebookOutcome } from '../../notebook/document/outcome.ts';
import type { Result } from '../../runs/result.ts';
import { finished, html } from './html.ts';
import { DATA, ENGINE, type LiveData } from './live-data.ts';
import { LIVE_STYLE } from './live-style.ts';
import { levelsOf } from './prose.ts';
import { type Able, dataElement } from './running.ts';

/** What only who runs the notebook knows. */
export interface LiveParts extends Pick<LiveData, 'text' | 'samples' | 'files'> {
  /** The script of the worker, gzipped, in base64. */
  readonly engine: string;
  /** The script of the page. */
  readonly script: string;
  /** Licences of the libraries in both. */
  readonly notices: string;
}

/** What a page with knobs runs. @param idOf the section of a cell. */
export function liveAble(parts: LiveParts, outcome: NotebookOutcome, idOf: (block: CellBlock) => string): Able {
  return {
    script: parts.script,
    data: html`${dataElement(DATA, dataOf(parts, outcome, idOf))}<script type="text/plain" id="${ENGINE}">${finished(parts.engine)}</script>
<section class="notices" aria-label="Licences"><details><summary>Licences of the software in this page</summary>
<pre>${parts.notices}</pre></details></section>
`,
    style: LIVE_STYLE,
    allowed: ['worker-src blob:'],
  };
}

function dataOf(
  { text, samples, files }: LiveParts,
  { blocks, file, title }: NotebookOutcome,
  idOf: (block: CellBlock) => string,
): LiveData {
  const levels = levelsOf(blocks, title);
  const cells = blocks.filter(block => block.kind === 'cell');
  return {
    text,
    file,
    samples,
    files,
    kept: cells.flatMap(({ cell, name, result }) =>
      result === null || RUNS.has(cell) ? [] : [[name, slim(result)] as const],
    ),
    cells: cells.map(block => ({ name: block.name, id: idOf(block), level: levels.get(block) ?? 3 })),
  };
}

/** Cells that the page runs by itself from the first. */
const RUNS: ReadonlySet<string> = new Set([...RUN_CELLS.map(({ kind }) => kind), 'weigh']);

/** A result without its tables: the figures that formulas ask for, and what is to be minded. */
function slim({ kind, summary, reasons, outputs, warnings }: Result): Result {
  return {
    kind,
    summary,
    reasons,
    outputs: Object.fromEntries(Object.entries(outputs).map(([key, output]) => [key, { ...output, doc: '' }])),
    warnings,
    series: {},
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    opinion: null,
  };
}
