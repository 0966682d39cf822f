/** The answer on one sheet, to be printed, signed and filed: what was asked, what came out, what was assumed, what to beware of. */
import type { Input } from '../model/fields/input.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import type { ProblemData } from '../notebook/document/problem.ts';
import type { Result } from '../runs/result.ts';
import { numbers, texts } from '../runs/series.ts';
import { createGuard } from './guard.ts';
import { reportOf } from './kinds.ts';
import { reportMark } from './mark.ts';
import { alarmBox, answerCards, mindList, ownAnswer } from './page/answer.ts';
import { answeredOf, bracketsOf, cellsOf } from './page/answered.ts';
import { linesTable } from './page/card.ts';
import { checkList } from './page/cell.ts';
import { cautions } from './page/cautions.ts';
import { type Html, html } from './page/html.ts';
import { inputText, type SharedInput, shareInputs } from './page/inputs.ts';
import { pageOf } from './page/shell.ts';
import { failuresOf } from './alarms.ts';

/** What tells one sheet from another. */
export interface SheetMark {
  /** Of axlewatt. */
  readonly version: string;
  /** As it is to be printed. */
  readonly date: string;
  /** Of the text of the notebook: SHA-256, in hexadecimal digits. */
  readonly hash: string;
  /** Name of the report with all of it. */
  readonly report: string;
}

/** Inputs that are told. */
const TOLD = 6;
/** Digits of the hash that are printed: enough to tell the notebooks of a workshop apart. */
const DIGITS = 16;

/** The sheet as the text of an HTML file. @param onFault told of each fault of axlewatt itself. */
export function writeBrief(outcome: NotebookOutcome, mark: SheetMark, onFault?: (fault: ProblemData) => void): string {
  const { blocks, system, file, title, inputs, problems } = outcome;
  const guard = createGuard(file, 'the sheet');
  const answered = answeredOf(blocks, () => mark.report);
  const results = answered.map(({ result }) => result);
  const cards = answerCards(answered, system, guard, 'sheet');
  const checks = cellsOf(blocks).flatMap(block => block.checks);
  const failures = failuresOf(cellsOf(blocks), [...problems, ...guard.faults]);
  const alarms = alarmBox(answered, system, guard, failures);
  const lines = answered.flatMap(each =>
    guard.part(
      each,
      () => {
        const table = reportOf(each.result).card(each.result, system)?.table;
        return table === undefined ? [] : [linesTable(table, `${each.name}: what fails or is to be looked at`)];
      },
      () => [],
    ),
  );
  for (const fault of guard.faults) onFault?.(fault);
  const brackets = bracketsOf(results);
  const body = html`<header>
<h1>${title}</h1>
<p class="maker">${mark.date} · axlewatt ${mark.version} · ${file} · SHA-256 ${mark.hash.slice(0, DIGITS)} · all of it: <a href="${mark.report}">${mark.report}</a></p>
</header>
<main>
${alarms}${ownAnswer(blocks)}${cards}${lines}${
  checks.length === 0
    ? null
    : html`<section><h2>Promised</h2>
${checkList(checks, true)}</section>
`
}${mindList(answered)}${assumedMost(inputs, results)}<section class="beware"><h2>Beware</h2>
<p>${brackets === null ? '' : `${brackets} `}In round brackets: who decides. ${cautions(results, inputs)
    .map(({ title: what, defers }) => `${what} (${defers}).`)
    .join(' ')}</p></section>
</main>
<footer class="signed"><span>date</span><span>name</span><span>signature</span></footer>
`;
  return pageOf(title, reportMark([]), 'brief', body);
}

/** Spreads that nobody gave: what to measure first. What a rank of the page found comes by what it does, all else by its width alone. */
function assumedMost(inputs: readonly Input[], results: readonly Result[]): Html | null {
  const weights = weightsIn(results);
  const weight = ({ cells, path }: SharedInput): number =>
    Math.max(0, ...cells.map(cell => weights.get(`${cell}.${path}`) ?? 0));
  const shared = shareInputs(inputs.filter(({ origin }) => origin.kind === 'assumed')).toSorted(
    (a, b) => weight(b) - weight(a) || width(b.input) - width(a.input),
  );
  const told = shared.filter(({ input }) => width(input) > 0).slice(0, TOLD);
  const [first] = told;
  if (first === undefined) return null;
  const order = weight(first) > 0 ? 'what moves the ranked figure most first' : 'the widest spread first';
  return html`<section><h2>Assumed, ${order}</h2>
<p>${told.map(({ path, input }) => `${path.replaceAll(/[._]/g, ' ')} ${inputText(input)}`).join('; ')}. ${shared.length} inputs are assumed in all.</p></section>
`;
}

/** By how much an input moves the figure of a rank cell, as a share of that figure; the largest of several. */
function weightsIn(results: readonly Result[]): ReadonlyMap<string, number> {
  const weights = new Map<string, number>();
  for (const { kind, series, summary } of results) {
    const ranked = series['inputs'];
    if (kind !== 'rank' || ranked === undefined) continue;
    const [low, high] = [numbers(ranked, 'low'), numbers(ranked, 'high')];
    for (const [k, path] of texts(ranked, 'path').entries()) {
      const moved = Math.abs(
        ((high[k] ?? Number.NaN) - (low[k] ?? Number.NaN)) / Number(summary['value'] ?? Number.NaN),
      );
      if (Number.isFinite(moved)) weights.set(path, Math.max(weights.get(path) ?? 0, moved));
    }
  }
  return weights;
}

/** Half the width of a spread as a share of its value; 0 without one. */
function width({ value, spread }: Input): number {
  if (typeof value !== 'number' || value === 0 || spread === undefined) return 0;
  return (spread.kind === 'normal' ? 2 * spread.standard : (spread.high - spread.low) / 2) / Math.abs(value);
}
