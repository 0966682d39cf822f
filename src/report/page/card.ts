/** A card of the answer as HTML. */
import { chanceText } from '../../plots/kit/interval.ts';
import type { Asked, Card, CardTable, Headline, Small } from '../card.ts';
import { type Html, html } from './html.ts';

/** A card in a page that is put anew: its id, and what it said for the notebook as it stands; '' where that is the same. */
export interface Renewed {
  readonly id: string;
  readonly was: string;
}

/** @param href where all of it stands. @param chance that the intervals cover. */
export function cardOf(name: string, href: string, card: Card, chance: number | null, renewed?: Renewed): Html {
  const { headline, text, small, asked, alarming = false } = card;
  return html`<article class="card" data-name="${name}"${alarming ? html` data-fails` : null}${renewed === undefined ? null : html` id="${renewed.id}"`}>
<h3><a href="${href}">${name}</a></h3>
${headline === null ? null : headlineHtml(headline, chance)}${renewed === undefined || renewed.was === '' ? null : html`<p class="was">${renewed.was}</p>`}${small === null ? null : smallHtml(small, headline?.ends ?? null)}${text === '' ? null : html`<p class="${headline === null ? 'said' : 'more'}">${text}</p>`}${
  asked.length === 0
    ? null
    : html`<dl>
${asked.map(askedHtml)}</dl>
`
}</article>
`;
}

function headlineHtml({ figure, of, reason, ends, holes }: Headline, chance: number | null): Html {
  const silent = holes === '' ? null : html`<span class="holes">${holes}</span>`;
  if (figure === null)
    return html`<p class="quick"><b>–</b> <span>${of === '' ? '' : `${of}: `}${reason}</span>${silent}</p>
`;
  const within = ends === null || chance === null ? null : html`<span>${chanceText(chance)} within ${ends}</span>`;
  return html`<p class="quick"><b>${figure}</b> <span>${of}</span>${within}${silent}</p>
`;
}

/** The lines that decide, below the cards of a sheet: a card is too narrow for them. */
export function linesTable({ columns, rows }: CardTable, caption: string): Html {
  return html`<table class="lines"><caption>${caption}</caption>
<thead><tr>${columns.map(column => html`<th scope="col">${column}</th>`)}</tr></thead>
<tbody>${rows.map(
    ({
      cells,
      bad,
    }) => html`<tr class="${bad ? 'over' : ''}">${cells.map((cell, k) => (k === 0 ? html`<th scope="row">${cell}</th>` : html`<td>${cell}</td>`))}</tr>
`,
  )}</tbody></table>
`;
}

/** The numbers of the two ends, below them. */
function endsHtml(ends: string | null, right: string): Html | null {
  const found = /\[([^,\]]+),\s*([^\]]+)\]/u.exec(ends ?? '');
  if (found === null) return null;
  const [, low = '', high = ''] = found;
  // Times as a clock tells them are longer than numbers: the lower end keeps clear of the upper one.
  return html`<div class="ends" aria-hidden="true"><span style="right:max(${right},${high.length + 1}ch)">${low}</span><span style="right:0">${high}</span></div>
`;
}

function askedHtml({ question, word, answer }: Asked): Html {
  return html`<dt>${question}</dt><dd>${word === '' ? null : html`<strong>${word}</strong> `}${answer}</dd>
`;
}

/** Share of a scale that the number at its upper end takes. */
const ROOM = 0.78;

/** @param ends of the interval as text: `[8.01, 8.90] s`. */
function smallHtml(small: Small, ends: string | null): Html {
  if (small.kind === 'strip')
    return html`<div class="strip" aria-hidden="true">${small.pieces.map(
      ({ share, word, colour, ink }) =>
        html`<span style="flex:${share.toFixed(4)} 0 0;background:${colour};color:${ink}">${word}</span>`,
    )}</div>
`;
  if (small.kind === 'within') {
    const at = (share: number): string => `${(100 * share).toFixed(2)}%`;
    return html`<div class="within" aria-hidden="true"><i style="left:${at(small.low)};width:${at(small.high - small.low)}"></i><b style="left:${at(small.value)}"></b></div>
${endsHtml(ends, at(1 - Math.min(small.low, ROOM)))}`;
  }
  return html`<div class="bars" aria-hidden="true">${small.bars.map(
    ({ name, share, text, mark }) =>
      html`<span>${name}</span><span class="rail"><i class="${mark}" style="width:${(100 * share).toFixed(1)}%"></i></span><span>${mark === 'best' ? '★ ' : mark === 'out' ? '✗ ' : ''}${text}</span>
`,
  )}</div>
`;
}
