/** One weighing in full: the picture, the loads against their limits, what came out and went in, the caution. */
import { capital, columnHeading, scaleOf, written } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { numbers, texts } from '../../runs/series.ts';
import { sideView } from '../../plots/side-view.ts';
import type { Result, Series } from '../../runs/result.ts';
import { lengthText, massText, shareText } from '../../runs/weigh/text.ts';
import type { System } from '../../units.ts';
import { type Card, headlineOf, type Small } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { figureOf } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { reason } from '../unanswered.ts';

export const weighReport: ReportKind = {
  kind: 'weigh',
  card: weighCard,
  words: weighWords,
  body: weighBody,
};

/** The body of a weigh cell below its warnings. Ids inside begin with `id`. */
async function weighBody(result: Result, system: System, id: string): Promise<Html> {
  return html`<p class="lead">${weighWords(result, system)}</p>
${await figureOf(sideView(result, system), `${id}-side`)}${loadsTable(result, system)}${itemsTable(result, system)}
<p class="warning"><strong>Mind:</strong> brakes, tyres, suspension and axles were made for the car as it was. A qualified person has to judge them
at the new masses; see the <a href="#cautions">cautions</a>.</p>
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

/** What stands on each axle, empty and full, against what may stand there. */
function weighCard(result: Result, system: System): Card {
  const value = (key: string): string => valueOf(result, key, system);
  const axle = (name: 'front' | 'rear'): string => {
    const left = summaryNumber(result, `${name}_margin`);
    const size = left === null ? '' : massText(Math.abs(left), system);
    const margin = left === null ? '' : left < 0 ? `: ${size} too much` : `, ${size} left`;
    return `${name} axle ${value(`kerb_${name}`)} empty, ${value(`full_${name}`)} fully loaded${margin}`;
  };
  return {
    headline: headlineOf(result, 'kerb_mass', `kerb mass, ${changed(result, system)}`, system),
    text: [
      `${capital(axle('front'))}; ${axle('rear')}.`,
      loadWords(result, system),
      tightestWords(result, system),
      ...restWords(result, system),
    ]
      .filter(text => text !== '')
      .join(' '),
    small: axleBars(result, system),
    asked: [],
  };
}

/** Who and what is aboard where the car is called fully loaded. */
function loadWords(result: Result, system: System): string {
  const items = result.series['items'] ?? {};
  const [names, what] = [texts(items, 'item'), texts(items, 'what')];
  const [counts, masses] = [numbers(items, 'count'), numbers(items, 'mass_kg')];
  const aboard = names.flatMap((name, k) => {
    if (what[k] !== 'driver' && what[k] !== 'load') return [];
    const count = counts[k] ?? 1;
    return [`${count > 1 ? `${count} ` : ''}${name} ${massText(masses[k] ?? 0, system)}`];
  });
  const only = what.includes('load') ? '' : ' alone: no load is given';
  return aboard.length === 0 ? '' : `Fully loaded is with ${aboard.join(', ')}${only}.`;
}

const MARGINS = {
  front_margin: 'the permitted front axle load',
  rear_margin: 'the permitted rear axle load',
  gross_margin: 'the permitted gross mass',
  train_margin: 'the permitted mass of car and trailer',
  hitch_margin: 'what may rest on the hitch',
  front_tyre_margin: 'what the front tyres carry',
  rear_tyre_margin: 'what the rear tyres carry',
} as const;

/** The least of what is left; nothing where something is too much already, which is told first of all. */
function tightestWords(result: Result, system: System): string {
  const left = Object.entries(MARGINS).flatMap(([key, limit]) => {
    const margin = summaryNumber(result, key);
    return margin === null ? [] : [{ margin, limit }];
  });
  const [least] = left.toSorted((a, b) => a.margin - b.margin);
  return least === undefined || least.margin < 0
    ? ''
    : `Tightest: ${massText(least.margin, system)} to ${least.limit}, scales and parts taken as exact.`;
}

/** The axles fully loaded, each of what it may carry; of the heavier one where that is not known. */
function axleBars(result: Result, system: System): Small | null {
  const loads = (['front', 'rear'] as const).map(name => {
    const load = summaryNumber(result, `full_${name}`);
    const left = summaryNumber(result, `${name}_margin`);
    return { name, load: load ?? Number.NaN, may: load === null || left === null ? null : load + left };
  });
  const most = Math.max(...loads.flatMap(({ load, may }) => [load, may ?? 0]));
  if (!(most > 0)) return null;
  return {
    kind: 'bars',
    bars: loads.map(({ name, load, may }) => ({
      name,
      share: Math.min(1, load / (may ?? most)),
      text: may === null ? massText(load, system) : `${massText(load, system)} of ${massText(may, system)}`,
      mark: may !== null && load > may ? 'out' : '',
    })),
  };
}

/** The answer in sentences, for page and terminal alike. */
export function weighWords(result: Result, system: System): string {
  const value = (key: string): string => valueOf(result, key, system);
  const front = (key: string): string => shareText(summaryNumber(result, key) ?? 0);
  const kerb = `Kerb mass ${value('kerb_mass')}, ${changed(result, system)}; ${front('kerb_front_share')} of it on the front axle (before ${front('before_front_share')}).`;
  return [kerb, ...restWords(result, system)].join(' ');
}

/** `62 kg more than before`. */
function changed(result: Result, system: System): string {
  const change = summaryNumber(result, 'mass_change') ?? 0;
  if (Math.abs(change) < 0.05) return 'as before';
  return `${massText(Math.abs(change), system)} ${change > 0 ? 'more' : 'less'} than before`;
}

/** What may still be loaded, and what would have to move. */
function restWords(result: Result, system: System): readonly string[] {
  const payload = summaryNumber(result, 'payload');
  const left =
    payload === null
      ? ''
      : payload < 0
        ? `No payload is left: the empty car is ${massText(-payload, system)} over the permitted gross mass.`
        : `${massText(payload, system)} are left for driver, passengers and luggage.`;
  return [left, moveWords(result, system)].filter(text => text !== '');
}

/** How far the named thing must move; nothing when none is named. */
function moveWords(result: Result, system: System): string {
  const name = result.summary['move'];
  if (typeof name !== 'string') return '';
  const by = summaryNumber(result, 'move_by');
  if (by === null)
    return `To keep the front share, “${name}” can not be moved far enough: ${reason(result, 'move_by')}.`;
  if (Math.abs(by) < 0.0005) return `“${name}” stands where it keeps the front share.`;
  const way = by < 0 ? 'forwards' : 'backwards';
  const to = summaryNumber(result, 'move_to') ?? 0;
  const place = `${lengthText(Math.abs(to), system)} ${to < 0 ? 'in front of' : 'behind'} the front axle`;
  return `To keep the front share, “${name}” would have to move ${lengthText(Math.abs(by), system)} ${way}, to ${place}.`;
}

/** What is left of a limit; too much is said in words and marked. */
function margin(left: number | null): (system: System) => Html {
  return system => {
    if (left === null) return html`not given`;
    const size = massText(Math.abs(left), system);
    return left < 0 ? html`<strong class="over">✗ over by ${size}</strong>` : html`${size} left`;
  };
}

function loadsTable(result: Result, system: System): Html {
  const states = result.series['states'] ?? {};
  const axles = result.series['axles'] ?? {};
  const kg = (value: number | undefined): string =>
    value === undefined || Number.isNaN(value) ? 'not given' : massText(value, system);
  const share = numbers(states, 'front_share');
  const limit = (key: string): readonly (number | undefined)[] => [...numbers(axles, key)];
  const left = (key: string): Html => margin(summaryNumber(result, key))(system);
  const gross = permittedGross(result);
  const [front, rear] = limit('load_index');
  const index = (value: number | undefined): string =>
    value === undefined || Number.isNaN(value) ? '' : ` (2 × ${value})`;
  return html`<div class="scroll" role="group" aria-label="Loads against what is permitted" tabindex="0"><table class="figures loads">
<caption>Loads against what is permitted</caption>
<thead><tr><td></td><th scope="col">front axle</th><th scope="col">rear axle</th><th scope="col">together</th><th scope="col">front share</th></tr></thead>
<tbody>
${texts(states, 'state').map(
  (
    state,
    i,
  ) => html`<tr><th scope="row">${state}</th><td>${kg(numbers(states, 'front_kg')[i])}</td><td>${kg(numbers(states, 'rear_kg')[i])}</td><td>${kg(numbers(states, 'mass_kg')[i])}</td><td>${shareText(share[i] ?? 0)}</td></tr>
`,
)}</tbody>
<tbody>
<tr><th scope="row">permitted</th><td>${kg(limit('permitted_kg')[0])}</td><td>${kg(limit('permitted_kg')[1])}</td><td>${kg(gross ?? undefined)}</td><td></td></tr>
<tr><th scope="row">fully loaded against it</th><td>${left('front_margin')}</td><td>${left('rear_margin')}</td><td>${left('gross_margin')}</td><td></td></tr>
<tr><th scope="row">tyres carry (load index)</th><td>${kg(limit('tyres_kg')[0])}${index(front)}</td><td>${kg(limit('tyres_kg')[1])}${index(rear)}</td><td></td><td></td></tr>
<tr><th scope="row">fully loaded against it</th><td>${left('front_tyre_margin')}</td><td>${left('rear_tyre_margin')}</td><td></td><td></td></tr>
</tbody></table></div>
`;
}

function permittedGross(result: Result): number | null {
  const [left, full] = [summaryNumber(result, 'gross_margin'), summaryNumber(result, 'full_mass')];
  return left === null || full === null ? null : left + full;
}

const WHAT: { readonly [what: string]: string } = { out: 'out', in: 'in', driver: 'driver', load: 'load' };

/** Everything with its place; what went in also with how far it alone would have to move. */
function itemsTable(result: Result, system: System): Html {
  const items: Series = result.series['items'] ?? {};
  const heading = (key: string): string => {
    const described = items[key];
    return described === undefined ? '' : columnHeading(described.label, scaleOf(described, system).unit);
  };
  const what = texts(items, 'what');
  const cell = (key: string, i: number, decimals: number): string => {
    const described = items[key];
    const value = described === undefined ? Number.NaN : (numbers(items, key)[i] ?? Number.NaN);
    if (described === undefined || Number.isNaN(value))
      return key === 'move_m' && what[i] === 'in' ? 'out of the car' : '';
    return written(value * scaleOf(described, system).factor, '1', decimals);
  };
  const [mm, count] = [system === 'metric' ? 2 : 1, numbers(items, 'count')];
  const keys = [
    ['mass_kg', 1],
    ['x_m', mm],
    ['height_m', mm],
    ['move_m', mm],
  ] as const;
  return html`<div class="scroll" role="group" aria-label="What came out, what went in" tabindex="0"><table class="figures items">
<caption>What came out, what went in</caption>
<thead><tr><th scope="col">thing</th><td></td>${keys.map(([key]) => html`<th scope="col">${heading(key)}</th>`)}</tr></thead>
<tbody>
${texts(items, 'item').map(
  (
    name,
    i,
  ) => html`<tr><th scope="row">${(count[i] ?? 1) > 1 ? `${count[i]} × ` : ''}${name}</th><td>${WHAT[what[i] ?? ''] ?? ''}</td>${keys.map(([key, decimals]) => html`<td>${cell(key, i, decimals)}</td>`)}</tr>
`,
)}</tbody></table></div>
`;
}
