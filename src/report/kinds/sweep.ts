/** A sweep in full: what it says, the pictures that its parameters allow, the rows. */
import { summaryNumber } from '../../plots/kit/series.ts';
import { answered, sweepAxes, sweepFigures } from '../../plots/sweep-columns.ts';
import { rowHeadings, rowTexts } from '../../plots/sweep-words.ts';
import { frontRows, sweepFront } from '../../plots/sweep-front.ts';
import { sweepLines } from '../../plots/sweep-lines.ts';
import { sweepMap } from '../../plots/sweep-map.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import type { Pictures, ReportKind } from '../kind.ts';
import { figuresOf } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { cappedTable, everyOutput, firstVerdict, note, UNSAMPLED, verdictList, verdictWords } from './study.ts';

export const sweepReport: ReportKind = {
  kind: 'sweep',
  card: firstVerdict,
  words: verdictWords,
  pictures,
  body: sweepBody,
};

/** Rows of a table on the page. */
const ROWS = 24;

/** The body of a sweep cell below its warnings. Ids inside begin with `id`. */
async function sweepBody(result: Result, system: System, id: string): Promise<Html> {
  const drawn = await figuresOf(pictures(result, system), id);
  const missing = summaryNumber(result, 'missing') ?? 0;
  const none = missing === 0 ? '' : ` ${missing} figures have no answer.`;
  const front = frontRows(result);
  return html`${verdictList(result.verdicts ?? [])}${drawn}${front.length === 0 ? null : rowsTable(result, system, front, 'The best compromises')}<details class="numbers"><summary>The runs</summary>${rowsTable(result, system, null, 'The runs')}</details>
${note(`${summaryNumber(result, 'runs') ?? 0} runs, each at the best value of every other input.${none}${result.unsampled === true ? UNSAMPLED : ''}`)}${everyOutput(result, system)}`;
}

function pictures(result: Result, system: System): Pictures {
  const rows = result.series['rows'] ?? {};
  const axes = sweepAxes(rows, system);
  const figures = sweepFigures(rows, system).filter(answered);
  if (figures.length === 0) return [];
  const map = axes.length === 2 && axes.every(({ numeric, levels }) => numeric && levels.length > 2);
  const pair = figures.length > 1 && (axes.length > 2 || frontRows(result).length > 0);
  return [
    ...(map ? ([['map', sweepMap(result, system)]] as const) : []),
    ...(axes.length <= 2 ? ([['lines', sweepLines(result, system)]] as const) : []),
    ...(pair ? ([['front', sweepFront(result, system)]] as const) : []),
  ];
}

function rowsTable(result: Result, system: System, only: readonly number[] | null, caption: string): Html {
  const rows = result.series['rows'] ?? {};
  const axes = sweepAxes(rows, system);
  const figures = sweepFigures(rows, system);
  const shown = only ?? Array.from({ length: axes[0]?.values.length ?? 0 }, (_, row) => row);
  // Only what is kept is written out: a sweep may have millions of rows.
  const text = (k: number): string[] => rowTexts(axes, figures, shown[k] ?? 0);
  return cappedTable(rowHeadings(axes, figures), shown.length, text, caption, ROWS);
}
