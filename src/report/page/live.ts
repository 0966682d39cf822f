/** What makes a page turn: the engine, packed; the script that unpacks it, named by its hash; the notebook itself. */
import { createHash } from 'node:crypto';
import { RUN_CELLS } from '../../notebook/cells/run-cell.ts';
import type { CellBlock, NotebookOutcome } from '../../notebook/document/outcome.ts';
import type { Result } from '../../runs/result.ts';
import { finished, type Html, html } from './html.ts';
import { DATA, ENGINE, type LiveData } from './live-data.ts';
import { LIVE_STYLE } from './live-style.ts';
import { levelsOf } from './prose.ts';
import type { Running } from './shell.ts';
import { STYLE } from './style.ts';

/** What only who runs the notebook knows. */
export interface LiveParts extends Pick<LiveData, 'text' | 'samples' | 'files'> {
  /** The script of the worker, gzipped, in base64. */
  readonly engine: string;
  /** The script of the page. */
  readonly script: string;
}

export function runningOf(parts: LiveParts, outcome: NotebookOutcome, idOf: (block: CellBlock) => string): Running {
  const style = STYLE + LIVE_STYLE;
  return {
    policy: [
      "default-src 'none'",
      `script-src '${hashOf(parts.script)}'`,
      'worker-src blob:',
      `style-src-elem '${hashOf(style)}'`,
      // Bars and bands of the answer say their widths and colours themselves.
      "style-src-attr 'unsafe-inline'",
      'img-src data:',
      "base-uri 'none'",
      "form-action 'none'",
    ].join('; '),
    style: LIVE_STYLE,
    scripts: scripts(parts, dataOf(parts, outcome, idOf)),
  };
}

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

function scripts({ engine, script }: LiveParts, data: LiveData): Html {
  // In JSON a bracket may be written by its number: then nothing in it ends the script.
  const json = JSON.stringify(data, (_, value: unknown) => (value instanceof Float64Array ? [...value] : value));
  return html`<script type="application/json" id="${DATA}">${finished(json.replaceAll('<', '\\u003c'))}</script>
<script type="text/plain" id="${ENGINE}">${finished(engine)}</script>
<script>${finished(script)}</script>
`;
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
