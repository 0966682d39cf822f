/** A notebook's outcome as one HTML file that works by double click, loads nothing, runs nothing, and prints well. */
import type { CellBlock, NotebookOutcome } from '../notebook/document/outcome.ts';
import { folded, type ProblemData } from '../notebook/document/problem.ts';
import { answerSection, ownAnswer } from './page/answer.ts';
import { carStrip } from './page/car-strip.ts';
import { answeredOf, bracketsOf, cellsOf } from './page/answered.ts';
import { cautionsSection } from './page/cautions.ts';
import { cellSection, cellTitle } from './page/cell.ts';
import { contentsOf, type Entry, withIds } from './page/contents.ts';
import { finished, type Html, html } from './page/html.ts';
import { inputsSection } from './page/inputs.ts';
import { knobsOf, knobsPanel } from './page/knobs.ts';
import { liveAble, type LiveParts } from './page/live.ts';
import { place, problemBox, problemWords } from './page/problem.ts';
import { levelsOf, proseHtml } from './page/prose.ts';
import { type Able, runningOf } from './page/running.ts';
import { pageOf } from './page/shell.ts';
import { createGuard, type Guard } from './guard.ts';
import { reportMark } from './mark.ts';

export interface ReportOptions {
  /** Names of the files that are written beside the report: they stand in its mark. */
  readonly files?: readonly string[];
  /** Told of each fault of axlewatt itself; the report has a box in the place of what failed. */
  readonly onFault?: (fault: ProblemData) => void;
  /** What makes a notebook with knobs turn; left out, its page stands still. */
  readonly live?: LiveParts;
  /** What else the page can do by script; left out, nothing. */
  readonly able?: readonly Able[];
}

/** Id of the part of the page that is of a cell. @param number of the cell in the notebook, from 1. */
export function cellId(number: number): string {
  return `cell-${number}`;
}

/** The report as the text of an HTML file. The same outcome gives the same text. */
export async function writeReport(outcome: NotebookOutcome, options: ReportOptions = {}): Promise<string> {
  const { blocks, system, file, title } = outcome;
  const guard = createGuard(file, 'the report');
  const ids = new Map(cellsOf(blocks).map((block, i) => [block, cellId(i + 1)]));
  const idOf = (block: CellBlock): string => ids.get(block) ?? '';
  const answered = answeredOf(blocks, block => `#${idOf(block)}`, idOf);
  const knobs = knobsOf(blocks);
  const live = knobs.length > 0 && options.live !== undefined ? options.live : null;
  const results = answered.map(({ result }) => result);
  const brackets = bracketsOf(results, outcome.inputs);
  const own = ownAnswer(blocks);
  const answer =
    answered.length === 0 && own === null
      ? null
      : await answerSection(own, carStrip(blocks), answered, system, brackets, guard, live !== null);
  const { section: notebook, entries } = await workings(outcome, ids, guard);
  const problems = [...outcome.problems, ...guard.faults].toSorted((a, b) => a.line - b.line);
  for (const fault of guard.faults) options.onFault?.(fault);
  const contents = contentsOf([
    ...(answer === null ? [] : [partEntry('answer', 'The answer')]),
    partEntry('workings', 'The notebook'),
    ...entries,
    ...(outcome.inputs.length === 0 ? [] : [partEntry('inputs', 'Inputs')]),
    partEntry('cautions', 'Cautions'),
  ]);
  const body = html`<header>
<p class="maker">axlewatt · report on ${file}</p>
<h1>${title}</h1>
</header>
${contents}<main>
${live === null ? null : knobsPanel(knobs)}${troubles({ ...outcome, problems }, ids)}${answer}${notebook}${outcome.inputs.length === 0 ? null : inputsSection(outcome.inputs, file, brackets !== null)}${cautionsSection(results, outcome.inputs)}</main>
<footer>
<p>Written by axlewatt from ${file}. Times count from the pedal going down; “after one foot” from when the car has moved 0.3048 m.
Standard gravity 9.80665 m/s².</p>
</footer>
`;
  const running = runningOf([...(options.able ?? []), ...(live === null ? [] : [liveAble(live, outcome, idOf)])]);
  return pageOf(title, reportMark(options.files ?? []), live === null ? '' : 'live', body, running);
}

/** What is wrong, before everything else: each problem with a way to its place, each check that fails. */
function troubles(
  { blocks, problems, failedChecks }: NotebookOutcome,
  ids: ReadonlyMap<CellBlock, string>,
): Html | null {
  if (problems.length === 0 && failedChecks === 0) return null;
  const cells = cellsOf(blocks);
  const failed = cells.flatMap(block => block.checks.filter(check => !check.holds));
  const { own, waiting } = folded(problems);
  return html`<section class="troubles" aria-labelledby="troubles">
<h2 id="troubles">${[own.length === 0 ? [] : [counted(own.length, 'problem')], failedChecks === 0 ? [] : [`${counted(failedChecks, 'check')} not met`]].flat().join(', ')}</h2>
${own.map(problem => {
  const block = cells.find(cell => standsIn(problem, cell));
  if (block === undefined) return problemBox(problem);
  return html`<p><a href="#${ids.get(block) ?? ''}">${place(problem)}</a> ${problemWords(problem)}</p>
`;
})}${
  waiting === ''
    ? null
    : html`<p>${waiting}</p>
`
}${failed.map(
  check => html`<p><a href="#check-${check.line}">line ${check.line}</a> fails: ${check.promise} (<code>${check.text}</code>: ${check.found})</p>
`,
)}</section>
`;
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** Whether a problem is between the fences of a cell. */
function standsIn(problem: ProblemData, cell: CellBlock): boolean {
  return problem.line >= cell.line && problem.line <= cell.line + cell.source.trimEnd().split('\n').length + 1;
}

function partEntry(id: string, text: string): Entry {
  return { id, text: html`${text}`, rank: 'part' };
}

/** The notebook itself: its prose and its cells in their order, with what the list of contents has of it. */
async function workings(
  { blocks, title, system, file, problems }: NotebookOutcome,
  ids: ReadonlyMap<CellBlock, string>,
  guard: Guard,
): Promise<{ readonly section: Html; readonly entries: readonly Entry[] }> {
  const parts: Html[] = [];
  const entries: Entry[] = [];
  const levels = levelsOf(blocks, title);
  let first = true;
  for (const block of blocks) {
    if (block.kind === 'prose') {
      // It stands at the head of the page already.
      if (block.answers) continue;
      const prose = withIds(proseHtml(block.html, first ? title : null).html, entries.length + 1);
      entries.push(...prose.entries);
      parts.push(html`<div class="prose">${finished(prose.html)}</div>
`);
      first = false;
    } else {
      const id = ids.get(block) ?? '';
      entries.push({ id, text: html`${cellTitle(block.name)} <small>${block.cell}</small>`, rank: 'cell' });
      parts.push(
        await cellSection(block, {
          system,
          file,
          id,
          level: levels.get(block) ?? 3,
          problems: problems.filter(problem => standsIn(problem, block)),
          guard,
        }),
      );
    }
  }
  const section = html`<section class="workings" aria-labelledby="workings">
<details class="fold" open><summary><h2 id="workings">The notebook</h2></summary>
${parts}</details></section>
`;
  return { section, entries };
}
