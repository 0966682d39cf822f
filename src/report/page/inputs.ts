/** Every input, sorted by where it came from: given, computed, assumed; what several cells share stands there once. */
import type { Input, Origin, Spread } from '../../model/fields/input.ts';
import { formatQuantity, unitLabel } from '../../units.ts';
import { breakable } from './breakable.ts';
import { type Html, html } from './html.ts';

const KINDS: readonly {
  readonly kind: Origin['kind'];
  readonly title: string;
  readonly lead: string;
  readonly from: string;
}[] = [
  { kind: 'given', title: 'Given', lead: 'Written in the notebook.', from: 'stands in' },
  { kind: 'computed', title: 'Computed', lead: 'Worked out from what was given.', from: 'how' },
  {
    kind: 'assumed',
    title: 'Assumed',
    lead: 'Left out in the notebook and filled in here. Measure what matters, write it down, and it moves up to the given.',
    from: 'source',
  },
];

/** A source that is longer than this, or has more than one line, is told in a note below the tables. */
const SHORT = 48;

/** An input that one cell or several have alike. */
export interface SharedInput {
  /** First parts of the paths: the cells. */
  readonly cells: readonly string[];
  /** The rest of the path. */
  readonly path: string;
  readonly input: Input;
}

/** Puts inputs together that differ only in the cell they belong to; in the order of their first appearance. */
export function shareInputs(inputs: readonly Input[]): readonly SharedInput[] {
  const found = new Map<string, { cells: string[]; path: string; input: Input }>();
  for (const input of inputs) {
    const dot = input.path.indexOf('.');
    const [cell, path] = dot < 0 ? ['', input.path] : [input.path.slice(0, dot), input.path.slice(dot + 1)];
    const key = JSON.stringify([cell === '', path, input.value, input.unit, input.spread ?? null, input.origin]);
    const shared = found.get(key);
    if (shared === undefined) found.set(key, { cells: [cell], path, input });
    else if (!shared.cells.includes(cell)) shared.cells.push(cell);
  }
  return [...found.values()];
}

/** The section on inputs; the spreads are listed, and it is said whether they are `carried` through to the results. */
export function inputsSection(inputs: readonly Input[], file: string, carried = false): Html {
  const shared = shareInputs(inputs);
  const of = (kind: Origin['kind']): readonly SharedInput[] => shared.filter(({ input }) => input.origin.kind === kind);
  const notes = notesOf(shared);
  return html`<section aria-labelledby="inputs">
<h2 id="inputs">Given, computed, assumed</h2>
<p>These results rest on ${of('given').length} given, ${of('computed').length} computed and ${of('assumed').length} assumed inputs. They are worked
out at the value shown of each; ± is a standard uncertainty, two numbers with “..” are the limits between which it may lie (JCGM 100),
with the value shown as likely to be passed as not. ${
    carried
      ? 'Results with square brackets carry these spreads: samples of all of them at once, each independent of the others (JCGM 101).'
      : 'The spreads are listed here and are not carried through to the results.'
  }</p>
${KINDS.map(({ kind, title, lead, from }) => {
  const own = of(kind);
  return own.length === 0
    ? null
    : html`<details class="fold" open><summary><h3>${title}</h3></summary>
<p>${lead}</p>
<div class="columns">${inputsTable(own, title, from, file, notes)}</div></details>
`;
})}${
  notes.length === 0
    ? null
    : html`<details class="fold" open><summary><h3>Sources</h3></summary>
<ol class="notes columns">
${notes.map(
  (note, i) => html`<li id="source-${i + 1}">${note}</li>
`,
)}</ol></details>
`
}</section>
`;
}

/** The sources too long to stand in a table, each once. */
function notesOf(shared: readonly SharedInput[]): readonly string[] {
  const texts = shared
    .flatMap(({ input }) => [sourceText(input.origin), input.spreadSource ?? null])
    .filter(text => text !== null && text.length > SHORT);
  return [...new Set(texts)].filter(text => text !== null);
}

function inputsTable(
  inputs: readonly SharedInput[],
  title: string,
  from: string,
  file: string,
  notes: readonly string[],
): Html {
  const groups = new Map<string, SharedInput[]>();
  for (const shared of inputs) {
    const name = shared.cells.join(', ');
    groups.set(name, [...(groups.get(name) ?? []), shared]);
  }
  return html`<table class="inputs">
<caption class="unseen">${title}</caption>
<thead><tr><th scope="col">input</th><th scope="col">value</th><th scope="col">${from}</th></tr></thead>
${[...groups].map(
  ([name, rows]) => html`<tbody>
${
  name === ''
    ? null
    : html`<tr class="group"><th scope="rowgroup" colspan="3">${breakable(name)}</th></tr>
`
}${rows.map(
  ({
    path,
    input,
  }) => html`<tr><th scope="row">${breakable(path)}</th><td>${inputText(input)}</td><td>${originText(input, file, notes)}</td></tr>
`,
)}</tbody>
`,
)}</table>
`;
}

/** `1100 kg ± 12 kg`, `0.57 (0.56 .. 0.58)`, `−5 °C`; text as it stands. A number and its unit stay on one line. @param digits that are told at most. */
export function inputText({ value, unit, display, spread }: Input, digits = 5): string {
  // A list of numbers is told in the unit of display already.
  if (typeof value === 'string') return unit === '' ? value : `${value} ${unitLabel(display)}`.trimEnd();
  const label = unitLabel(display);
  const text = (within: Spread | undefined): string =>
    formatQuantity(value, unit, display, { digits, spread: within })
      .replaceAll(label === '' ? '' : ` ${label}`, label === '' ? '' : `\u00a0${label.replaceAll(' ', '\u00a0')}`)
      .replace(/(?<=^|\s)-(?=\d)/g, '−');
  return spread?.kind === 'rectangular' ? `${text(undefined)} (${text(spread)})` : text(spread);
}

function originText({ origin, spreadSource }: Input, file: string, notes: readonly string[]): Html {
  if (origin.kind !== 'given') return noteText(sourceText(origin), notes);
  const place = origin.file === file ? `line ${origin.line}` : `${origin.file}:${origin.line}`;
  return spreadSource === undefined ? html`${place}` : html`${place}, spread assumed: ${noteText(spreadSource, notes)}`;
}

function noteText(source: string | null, notes: readonly string[]): Html {
  const note = source === null ? -1 : notes.indexOf(source);
  return note < 0 ? html`${source}` : html`<a href="#source-${note + 1}">source ${note + 1}</a>`;
}

function sourceText(origin: Origin): string | null {
  if (origin.kind === 'given') return null;
  return origin.kind === 'computed' ? origin.formula : origin.source;
}
