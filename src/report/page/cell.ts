/** One cell of the notebook: what came out of it, then its source. */
import type { CellBlock, CheckOutcome, NamedValue } from '../../notebook/document/outcome.ts';
import type { ProblemData } from '../../notebook/document/problem.ts';
import type { Guard } from '../guard.ts';
import { formatQuantity, type System } from '../../units.ts';
import { chartOf } from './figures.ts';
import { finished, type Html, html } from './html.ts';
import { knobsTable } from './knobs.ts';
import { problemBox } from './problem.ts';
import { runBody } from '../run.ts';

/** Name of a cell as people read it: `narrow_tyres` as `narrow tyres`. */
export function cellTitle(name: string): string {
  return name.replaceAll('_', ' ');
}

/** Where and how a cell is shown. */
export interface CellPlace {
  readonly system: System;
  readonly file: string;
  /** Unique in the page. */
  readonly id: string;
  /** Of its heading, 3 to 6. */
  readonly level: number;
  /** The problems that stand in this cell. */
  readonly problems: readonly ProblemData[];
  readonly guard: Guard;
}

/** The cell as a section: its problems, what came out of it, its source. */
export async function cellSection(block: CellBlock, place: CellPlace): Promise<Html> {
  const { system, file, id, level, problems, guard } = place;
  const tag = finished(`h${level}`);
  return html`<section class="cell ${block.cell}" id="${id}" data-name="${cellTitle(block.name)}" aria-labelledby="${id}-h">
<details class="fold" open><summary><${tag} id="${id}-h"><span class="kind">${block.cell}</span> ${cellTitle(block.name)}</${tag}></summary>
${problems.map(problemBox)}${await guard.later(block, () => cellBody(block, system, id), problemBox)}<details class="source"><summary>Source, ${file}:${block.line}</summary><pre tabindex="0"><code>${block.source}</code></pre></details>
</details></section>
`;
}

/** What came out of a cell. */
async function cellBody(block: CellBlock, system: System, id: string): Promise<Html> {
  const { result, values, chart, checks, knobs, name } = block;
  return html`${result === null ? null : await runBody(result, system, id)}${values.length === 0 ? null : valuesTable(values, cellTitle(name))}${chart === null ? null : await chartOf(chart, `${id}-chart`)}${checks.length === 0 ? null : checkList(checks)}${knobs === undefined ? null : knobsTable(knobs)}`;
}

function valuesTable(values: readonly NamedValue[], caption: string): Html {
  return html`<div class="scroll" role="group" aria-label="${caption}" tabindex="0"><table class="figures">
<caption>Values of ${caption}</caption>
<thead><tr><th scope="col">name</th><th scope="col">value</th></tr></thead>
<tbody>
${values.map(
  value => html`<tr><th scope="row"><code>${value.name}</code></th><td>${valueText(value)}</td></tr>
`,
)}</tbody></table></div>
`;
}

/** A value of a calc cell as text. */
export function valueText({ value, unit, display, spread }: NamedValue): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string' ? value : formatQuantity(value, unit, display, { digits: 5, spread });
}

/** @param slim without the comparison as it was written. */
export function checkList(checks: readonly CheckOutcome[], slim = false): Html {
  return html`<ul class="checks">
${checks.map(check => {
  const { promise, text, line, holds, found, sure } = check;
  return html`<li class="${stateOf(check)}"${holds ? null : html` id="check-${line}"`}><b>${MARKS[stateOf(check)]}</b> ${promise} <span>${slim ? null : html`<code>${text}</code>: `}${found}${sure === undefined ? null : `, ${sure.text}`}</span></li>
`;
})}</ul>
`;
}

const MARKS = { holds: '✓ holds', unsure: '≈ not sure', fails: '✗ fails' };

/** Holds; holds, but not with the probability of the intervals; fails. */
function stateOf({ holds, sure }: CheckOutcome): keyof typeof MARKS {
  if (!holds) return 'fails';
  return sure === undefined || sure.hold ? 'holds' : 'unsure';
}
