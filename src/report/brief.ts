/** The answer on one sheet, to be printed, signed and filed: what was asked, what came out, what was assumed, what to beware of. */
import type { Input } from '../model/fields/input.ts';
import type { NotebookOutcome } from '../notebook/document/outcome.ts';
import type { ProblemData } from '../notebook/document/problem.ts';
import type { Result } from '../runs/result.ts';
import { numbers, texts } from '../runs/series.ts';
import { wordsOfPath } from '../studies/question/path-words.ts';
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
import { carStrip } from './page/car-strip.ts';
import { pageOf } from './page/shell.ts';
import type { Small } from './card.ts';
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
const TOLD = 5;
/** Digits of the hash that are printed: enough to tell the notebooks of a workshop apart. */
const DIGITS = 12;
/** Digits of an assumed value. */
const ROUGH = 3;

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
  const told = answered.map(each => ({
    name: each.name,
    card: guard.part(
      each,
      () => reportOf(each.result).card(each.result, system),
      () => null,
    ),
  }));
  const lines = told.map(({ name, card }) =>
    card?.table === undefined ? null : linesTable(card.table, `${name}: what fails or is to be looked at`),
  );
  for (const fault of guard.faults) onFault?.(fault);
  const brackets = bracketsOf(results, inputs);
  const notebook = file.replace(/^.*[\\/]/u, '');
  const digits = mark.hash.slice(0, DIGITS);
  const body = html`<header>
<h1>${title}</h1>
<p class="maker">${mark.date} · axlewatt ${mark.version} · ${notebook} · all of it in <a href="${mark.report}">${mark.report}</a> · <small>SHA-256 ${digits}</small></p>
</header>
<main>
${alarms}${ownAnswer(blocks)}${carStrip(blocks)}${cards}${limiterKey(told.map(({ card }) => card?.small))}${lines}${
  checks.length === 0
    ? null
    : html`<section><h2>Promised</h2>
${checkList(checks, true)}</section>
`
}${mindList(answered)}${assumedMost(inputs, results)}<section class="beware"><h2>Beware</h2>
<p>${brackets === null ? '' : `${brackets} `}Behind each caution, in round brackets: who decides. ${cautions(
    results,
    inputs,
  )
    .map(({ title: what, defers }) => `${what} (${shortly(defers)}).`)
    .join(' ')}</p></section>
</main>
<footer class="signed"><p>Signed is what is promised above, on this sheet (${notebook}, ${digits}), and nothing else.</p><span>date</span><span>promised by: name and signature</span><span>to: name and signature</span></footer>
`;
  return pageOf(title, reportMark([]), 'brief', body);
}

/** Who decides, without what the page says besides of it. */
function shortly(defers: string): string {
  return defers.replaceAll(/ \([^)]*\)/gu, '').replace(/;.*$/u, '');
}

/** What the letters in the bars of launches stand for: those that stand there. */
function limiterKey(smalls: readonly (Small | null | undefined)[]): Html | null {
  const pieces = smalls
    .flatMap(small => (small?.kind === 'strip' ? small.pieces : []))
    .filter(({ word }) => word !== '');
  const words = [...new Set(pieces.map(({ sign, what }) => `${sign} ${what}`))];
  if (words.length === 0) return null;
  return html`<p class="key">Bars, from standing still to the speed above them, what holds the car back: ${words.join(', ')}.</p>
`;
}

/** Spreads that nobody gave: what to measure first. What moves a figure of the page comes by what it does, all else by its width alone. */
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
  const order = weight(first) > 0 ? 'what moves the answers most first' : 'the widest spread first';
  return html`<section><h2>Assumed, ${order}</h2>
<p>${told.map(({ path, input }) => `${wordsOfPath(path)} ${inputText(input, ROUGH)}`).join('; ')}. ${shared.length} inputs are assumed in all.</p></section>
`;
}

/** By how much an input moves a figure in front, as a share of that figure; the largest of several. What a rank of the page says, or else what the samples of its runs do. */
function weightsIn(results: readonly Result[]): ReadonlyMap<string, number> {
  const weights = new Map<string, number>();
  const weigh = (path: string, moved: number): void => {
    if (Number.isFinite(moved)) weights.set(path, Math.max(weights.get(path) ?? 0, moved));
  };
  for (const { kind, series, summary, intervals } of results) {
    for (const [key, movers] of Object.entries(intervals?.movers ?? {})) {
      const ends = intervals?.of[key];
      const wide = ends === undefined ? Number.NaN : Math.abs((ends.high - ends.low) / Number(summary[key]));
      for (const { path, share } of movers) weigh(path, wide * Math.sqrt(share));
    }
    const ranked = series['inputs'];
    if (kind !== 'rank' || ranked === undefined) continue;
    const [low, high] = [numbers(ranked, 'low'), numbers(ranked, 'high')];
    const value = Number(summary['value'] ?? Number.NaN);
    for (const [k, path] of texts(ranked, 'path').entries())
      weigh(path, Math.abs(((high[k] ?? Number.NaN) - (low[k] ?? Number.NaN)) / value));
  }
  return weights;
}

/** Half the width of a spread as a share of its value; 0 without one. */
function width({ value, spread }: Input): number {
  if (typeof value !== 'number' || value === 0 || spread === undefined) return 0;
  return (spread.kind === 'normal' ? 2 * spread.standard : (spread.high - spread.low) / 2) / Math.abs(value);
}
