/** The answer first: one card per launch, and the launches side by side. */
import { cutBands } from '../../plots/kit/bands.ts';
import { comparison, type Named } from '../../plots/comparison.ts';
import { COLOUR, INK_ON, SIGN } from '../../plots/kit/palette.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { chanceText } from '../../plots/kit/interval.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { figureOf } from './figures.ts';
import { type Html, html } from './html.ts';
import type { Guard } from '../guard.ts';
import { valueOf } from './outputs.ts';
import { problemBox } from './problem.ts';
import { verdict, type Wasted } from '../kinds/launch.ts';

/** A launch with its name and the id of its place further down. */
export interface Launch extends Named {
  readonly id: string;
  /** Line of its cell. */
  readonly line: number;
}

/** A warning of a cell, with the id of its place further down. */
export interface Mind {
  readonly name: string;
  readonly text: string;
  readonly id: string;
}

/** The answer of a cell in one sentence, with the id of its place further down. */
export interface Told {
  readonly name: string;
  readonly text: string;
  readonly id: string;
}

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
  'peak_pack_current',
  'lowest_pack_voltage',
] as const;

const WORDS: { readonly [word in Wasted]: string } = {
  yes: 'Yes.',
  partly: 'In part.',
  hardly: 'Hardly.',
  no: 'No.',
  unknown: 'Not known.',
};

/** The section that answers: cards, with two launches or more the comparison, a sentence for each other question, what brackets mean. */
export async function answerSection(
  launches: readonly Launch[],
  system: System,
  minds: readonly Mind[],
  told: readonly Told[],
  brackets: string | null,
  guard: Guard,
): Promise<Html> {
  return html`<section class="answer" aria-labelledby="answer">
<h2 id="answer">The answer</h2>
${
  launches.length === 0
    ? null
    : html`<div class="cards${launches.length === 2 || launches.length === 4 ? ' even' : ''}">
${launches.map(launch => guard.part(launch, () => card(launch, system), problemBox))}</div>
`
}${toldList(told)}${mindList(minds)}${launches.length < 2 ? null : await guard.later({ name: 'launches', line: launches[0]?.line ?? 1 }, () => sideBySide(launches, system), problemBox)}<p class="pointer">Predictions from the <a href="#inputs">inputs listed below</a>, some of them
assumed.${brackets === null ? '' : ` ${brackets}`} Read the <a href="#cautions">cautions</a> before acting on them.</p>
</section>
`;
}

function toldList(told: readonly Told[]): Html | null {
  if (told.length === 0) return null;
  return html`<ul class="told">
${told.map(({ name, text, id }) => html`<li><a href="#${id}">${name}</a>: <strong>${text}</strong></li>\n`)}</ul>
`;
}

/** What the cells warn of, so that nobody reads the answer without it; what several say stands there once. */
function mindList(minds: readonly Mind[]): Html | null {
  if (minds.length === 0) return null;
  return html`<div class="minds"><h3>Mind</h3>
<ul>
${[...new Set(minds.map(({ text }) => text))].map(
  shared => html`<li>${minds
    .filter(({ text }) => text === shared)
    .map(({ name, id }, i) => html`${i === 0 ? '' : ', '}<a href="#${id}">${name}</a>`)}: ${shared}</li>
`,
)}</ul></div>
`;
}

function card({ name, result, id }: Launch, system: System): Html {
  const { headline, held, wasted, tyres, control, levers } = verdict(result, system);
  const holes = headline.holes === '' ? null : html`<span class="holes">${headline.holes}</span>`;
  const quick =
    headline.figure === null
      ? html`<p class="quick"><b>–</b> <span>${headline.of}: ${headline.reason}</span>${holes}</p>`
      : html`<p class="quick"><b>${headline.figure}</b> <span>${headline.of}</span>${headline.ends === null ? null : html`<span>${chanceText(result.intervals?.probability ?? 0)} within ${headline.ends}</span>`}${holes}</p>`;
  const head = html`<h3><a href="#${id}">${name}</a></h3>
${quick}
`;
  // A car that does not move off is held back by nothing else than what has just been said.
  if (result.bands.length === 0)
    return html`<article class="card">
${head}</article>
`;
  return html`<article class="card">
${head}${miniStrip(result, system)}
<dl>
<dt>What holds it back?</dt><dd>${held}</dd>
<dt>Do the tyres waste the power?</dt><dd><strong>${WORDS[wasted]}</strong> ${tyres}</dd>
${
  control === ''
    ? null
    : html`<dt>What is traction control worth?</dt><dd>${control}</dd>
`
}${
  levers.length === 0
    ? null
    : html`<dt>What would help?</dt><dd>${levers.join(' ')}</dd>
`
}</dl>
</article>
`;
}

/** px that the strip in a card has at least. */
const STRIP = 170;

/** The limiter band as far as the headline goes. For the eye only: the words beside it say the same. */
function miniStrip(result: Result, system: System): Html {
  const end =
    summaryNumber(result, system === 'metric' ? 'time_to_100_km_h' : 'time_to_60_mph') ?? result.bands.at(-1)?.to ?? 0;
  const bands = cutBands(result.bands, end);
  return html`<div class="strip" aria-hidden="true">${bands.map(({ from, to, limiter }) => {
    const share = (to - from) / end;
    const long = `${SIGN[limiter]} · ${limiter}`;
    const word = share * STRIP > long.length * 6.5 + 8 ? long : share * STRIP > 11 ? SIGN[limiter] : '';
    return html`<span style="flex:${share.toFixed(4)} 0 0;background:${COLOUR[limiter]};color:${INK_ON[limiter]}">${word}</span>`;
  })}</div>`;
}

async function sideBySide(launches: readonly Launch[], system: System): Promise<Html> {
  const outputs = launches[0]?.result.outputs ?? {};
  const rows = COMPARED.filter(key => launches.some(({ result }) => (result.summary[key] ?? null) !== null));
  const picture = comparison(launches, system);
  return html`${picture === null ? null : await figureOf(picture, 'side-by-side')}<div class="scroll" role="region" aria-label="Comparison of the launches" tabindex="0"><table class="figures">
<caption>The launches in figures</caption>
<thead><tr><td></td>${launches.map(({ name }) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>
${rows.map(
  key => html`<tr><th scope="row">${outputs[key]?.label ?? key}</th>${launches.map(({ result }) => html`<td>${valueOf(result, key, system)}</td>`)}</tr>
`,
)}</tbody></table></div>
`;
}
