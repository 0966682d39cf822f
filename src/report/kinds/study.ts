/** What the pages of all studies have in common: their verdicts, and tables that stay small. */
import { capital } from '../../units/rounding.ts';
import { thin } from '../../plots/kit/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, sentenceCard } from '../card.ts';
import { numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs } from '../page/outputs.ts';

/** The sentences that answer, as a list; nothing where there are none. */
export function verdictList(sentences: readonly string[]): Html | null {
  if (sentences.length === 0) return null;
  return html`<ul class="verdicts">
${sentences.map(
  (sentence, i) => html`<li>${i === 0 ? html`<strong>${sentence}.</strong>` : `${sentence}.`}</li>
`,
)}</ul>
`;
}

/** The verdicts as one text: `a. b. c.`; what begins with the name of a cell or a path keeps its small letter. */
export function verdictWords({ verdicts = [] }: Result): string {
  return verdicts.map(sentence => `${sentence}.`).join(' ');
}

/** The first verdict, for the answer. */
export function firstVerdict({ verdicts = [] }: Result): Card | null {
  const [first] = verdicts;
  return first === undefined ? null : sentenceCard(`${first}.`);
}

/** A table of at most `most` of `length` rows, evenly thinned, with a word on those that are left out. Only the shown rows are written. */
export function cappedTable(
  columns: readonly string[],
  length: number,
  row: (index: number) => readonly string[],
  caption: string,
  most: number,
): Html {
  const kept = thin(length, most);
  const left =
    kept.length === length
      ? null
      : html`<p class="note">${kept.length} of ${length} rows are shown. All of them are in the CSV files that <code>axlewatt run --csv</code> writes.</p>
`;
  return html`${numbersTable({ columns, rows: kept.map(row) }, caption)}
${left}`;
}

/** All outputs with their names, for formulas. */
export function everyOutput(result: Result, system: System): Html {
  return html`<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

/** Where a page takes no intervals unasked. */
export const UNSAMPLED =
  ' There are no intervals: so many long runs are more work than a page takes unasked; samples: 64 in this cell gives them.';

/** A note below a table or a picture. */
export function note(text: string): Html {
  return html`<p class="note">${capital(text)}</p>
`;
}
