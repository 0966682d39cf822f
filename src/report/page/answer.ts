/** The answer first: a card for each question, and the launches side by side. */
import { comparison } from '../../plots/comparison.ts';
import type { Block } from '../../notebook/document/outcome.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { figureOf } from './figures.ts';
import { finished, type Html, html } from './html.ts';
import type { Guard } from '../guard.ts';
import { valueOf } from './outputs.ts';
import { problemBox } from './problem.ts';
import { reportOf } from '../kinds.ts';
import type { Answered } from './answered.ts';
import { cardOf, type Renewed } from './card.ts';
import { ALARMS, BESIDES, CARS, cardId, MINDS } from './live-data.ts';
import { proseHtml } from './prose.ts';
import { alarmsOf } from '../alarms.ts';
import type { Headline } from '../card.ts';
import { knowBetter } from '../movers.ts';
import { holesAbove } from '../unanswered.ts';

/** Rows of the comparison; one that no launch has is left out. */
const COMPARED = [
  'time_to_50_km_h',
  'time_to_60_mph',
  'time_to_100_km_h',
  'time_80_to_120_km_h',
  'time_quarter_mile',
  'top_speed',
  'grip_withheld',
  'time_unlimited_grip',
  'time_without_control',
  'slip_energy_without_control',
  'slip_energy_with_control',
  'peak_pack_current',
  'lowest_pack_voltage',
] as const;

/** What the author of the notebook answers, under a heading of its own; null where nothing is lifted. */
export function ownAnswer(blocks: readonly Block[]): Html | null {
  const own = blocks.flatMap(block =>
    block.kind === 'prose' && block.answers ? [proseHtml(block.html, null).html] : [],
  );
  return own.length === 0
    ? null
    : html`<div class="prose own">${own.map(text => finished(text))}</div>
`;
}

/** The section that answers: what the author says, a card for each question in the order of the notebook, what to mind, launches side by side, what brackets mean. */
export async function answerSection(
  own: Html | null,
  strip: Html | null,
  answered: readonly Answered[],
  system: System,
  brackets: string | null,
  guard: Guard,
  live = false,
): Promise<Html> {
  return html`<section class="answer" aria-labelledby="answer">
<h2 id="answer">The answer</h2>
${part(ALARMS, alarmBox(answered, system, guard), live)}${own}${part(CARS, strip, live)}${answerCards(answered, system, guard, live ? 'live' : 'page')}${part(MINDS, mindsAndNotes(answered), live)}${part(BESIDES, await besides(answered, system, guard), live)}${answered.length === 0 ? null : pointer(brackets)}</section>
`;
}

/** Where the inputs and the cautions stand: below, where anything was worked out. */
function pointer(brackets: string | null): Html {
  return html`<p class="pointer">Predictions from the <a href="#inputs">inputs listed below</a>, some of them
assumed.${brackets === null ? '' : ` ${brackets}`} Read the <a href="#cautions">cautions</a> before acting on them.</p>
`;
}

/** A part that a live page puts anew has an id, also where there is nothing in it. */
function part(id: string, content: Html | null, live: boolean): Html | null {
  return live ? html`<div id="${id}">${content}</div>` : content;
}

/** Launches side by side; null for fewer than two. */
export function besides(answered: readonly Answered[], system: System, guard: Guard): Promise<Html | null> {
  const launches = answered.filter(({ result }) => reportOf(result).besides === true);
  if (launches.length < 2) return Promise.resolve(null);
  return guard.later(
    { name: 'launches', line: launches[0]?.line ?? 1 },
    () => sideBySide(launches, system),
    problemBox,
  );
}

/** Where cards stand: in a page, in one that is put anew, or on a sheet, where they have to fit. */
type Place = 'page' | 'live' | 'sheet';

/** What fails, in one box before every answer; null where nothing does. @param besides what fails of no result. */
export function alarmBox(
  answered: readonly Answered[],
  system: System,
  guard: Guard,
  besides: readonly { readonly name: string; readonly text: string }[] = [],
): Html | null {
  const own = answered.flatMap(each =>
    guard
      .part(
        each,
        () => alarmsOf(each.result, system),
        () => [],
      )
      .map(
        text => html`<li><a href="${each.href}">${each.name}</a>: ${text}.</li>
`,
      ),
  );
  if (own.length + besides.length === 0) return null;
  return html`<div class="alarms" role="group" aria-label="What fails"><h3>Before all else: this fails</h3>
<ul>
${besides.map(
  ({ name, text }) => html`<li><b>${name}</b>: ${text}.</li>
`,
)}${own}</ul></div>
`;
}

/** Cards from which on a sheet has no room for advice in each. */
const CROWDED = 6;

/** A card for each question that has something to say. */
export function answerCards(
  answered: readonly Answered[],
  system: System,
  guard: Guard,
  place: Place = 'page',
): Html | null {
  const cards = answered.flatMap(each =>
    guard.part(
      each,
      () =>
        cardHtml(
          each,
          system,
          place,
          place === 'live' ? { id: cardId(each.id), was: '' } : undefined,
          answered.length > CROWDED,
        ),
      failure => [problemBox(failure)],
    ),
  );
  if (cards.length === 0) return null;
  return html`<div class="cards${cards.length < 3 || cards.length === 4 ? ` of${cards.length}` : ''}">
${cards}</div>
`;
}

export function cardHtml(
  { name, result, href }: Answered,
  system: System,
  place: Place,
  renewed?: Renewed,
  crowded = false,
): readonly Html[] {
  const card = reportOf(result).card(result, system);
  if (card === null) return [];
  const better = knowBetter(result, card);
  const all = better === null ? card.asked : [...card.asked, better];
  const asked = place === 'sheet' ? all.filter(({ aside = false }) => !(aside === 'crowded' ? crowded : aside)) : all;
  const alarming = alarmsOf(result, system).length > 0;
  const headline = card.headline === null ? null : shortly(card.headline, result, alarming, place);
  return [cardOf(name, href, { ...card, headline, asked, alarming }, result.intervals?.probability ?? null, renewed)];
}

/** What the box above says in full is not said again. */
function shortly(headline: Headline, result: Result, alarming: boolean, place: Place): Headline {
  const { holes, key = '' } = headline;
  if (place === 'sheet')
    return alarming && holes !== '' ? { ...headline, holes: 'Not in all cases: see above' } : headline;
  return { ...headline, holes: holesAbove(result, key) || holes };
}

/** What the cells warn of beside what fails, so that nobody reads the answer without it; what several say stands there once. */
export function mindList(answered: readonly Answered[]): Html | null {
  const list = sharedList(answered, ({ warnings, broken = [] }) =>
    warnings.filter(warning => !broken.includes(warning)),
  );
  return list === null
    ? null
    : html`<div class="minds"><h3>Mind</h3>
${list}</div>
`;
}

/** The same, and apart from it how things were read. */
export function mindsAndNotes(answered: readonly Answered[]): Html | null {
  const list = sharedList(answered, ({ notes }) => notes ?? []);
  return html`${mindList(answered)}${
    list === null
      ? null
      : html`<details class="remarks"><summary>Notes: how things were read</summary>
${list}</details>
`
  }`;
}

function sharedList(answered: readonly Answered[], of: (result: Result) => readonly string[]): Html | null {
  const texts = new Set(answered.flatMap(({ result }) => of(result)));
  if (texts.size === 0) return null;
  return html`<ul>
${[...texts].map(
  shared => html`<li>${answered
    .filter(({ result }) => of(result).includes(shared))
    .map(({ name, href }, i) => html`${i === 0 ? '' : ', '}<a href="${href}">${name}</a>`)}: ${shared}</li>
`,
)}</ul>
`;
}

async function sideBySide(launches: readonly Answered[], system: System): Promise<Html> {
  const outputs = launches[0]?.result.outputs ?? {};
  const rows = COMPARED.filter(key => launches.some(({ result }) => (result.summary[key] ?? null) !== null));
  const picture = comparison(launches, system);
  return html`${picture === null ? null : await figureOf(picture, 'side-by-side')}<div class="scroll" role="group" aria-label="Comparison of the launches" tabindex="0"><table class="figures besides">
<caption>The launches in figures</caption>
<thead><tr><td></td>${launches.map(({ name }) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>
${rows.map(
  key => html`<tr><th scope="row">${outputs[key]?.label ?? key}</th>${launches.map(({ result }) => html`<td>${valueOf(result, key, system)}</td>`)}</tr>
`,
)}</tbody></table></div>
`;
}
