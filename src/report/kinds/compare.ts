/** A comparison in full: what it says, one table of all cars, the dots. */
import { changeText, type Compared, comparedFigures, compareDots } from '../../plots/compare.ts';
import { bareEnds, chanceText, type Ends, samplesText } from '../../plots/kit/interval.ts';
import { columnHeading, decimalsFor, digits, type Scale, scaleOf, unitText, written } from '../../units/rounding.ts';
import { numbers, texts } from '../../runs/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Bar, type Card, sentenceCard } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { figureOf } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { everyOutput, note, UNSAMPLED, verdictList } from './study.ts';

export const compareReport: ReportKind = {
  kind: 'compare',
  card: compareCard,
  words: compareWords,
  body: compareBody,
  brackets: 'own',
};

/** The body of a compare cell below its warnings. Ids inside begin with `id`. */
async function compareBody(result: Result, system: System, id: string): Promise<Html> {
  const runs = texts(result.series['table'] ?? {}, 'car').length;
  return html`${verdictList(result.verdicts ?? [])}${carsTable(result, system)}
${note(`${runs} cars, each run at the best value of every input. What is uncertain is mostly the same for all of them, so that the differences are surer than the figures.${bracketsText(result)}`)}${await figureOf(compareDots(result, system), `${id}-cars`)}${everyOutput(result, system)}`;
}

/** What square brackets mean here: the same draws in every car, so that what they share falls out of the differences. */
function bracketsText({ intervals, unsampled }: Result): string {
  return intervals === undefined
    ? unsampled === true
      ? UNSAMPLED
      : ''
    : ` Square brackets: ${chanceText(intervals.probability)} lie between, of the differences too; ${samplesText(intervals)}, the same draws in every car, seed ${intervals.seed}.`;
}

/** A row for each figure, a column for each car: the value, below it the difference to the first car; the best one is marked. */
function carsTable(result: Result, system: System): Html {
  const table = result.series['table'] ?? {};
  const cars = texts(table, 'car');
  const breaks = table['breaks'] === undefined ? null : texts(table, 'breaks');
  const prices = table['price'] === undefined ? null : numbers(table, 'price');
  const figures = comparedFigures(result, system);
  const likely = figures.some(each => each.likely !== '');
  return html`<div class="scroll" role="group" aria-label="The cars in figures" tabindex="0"><table class="figures compared">
<caption>The cars in figures, with the differences to ${cars[0] ?? ''}; ★ is the best${likely ? ', ☆ not for sure' : ''}</caption>
<thead><tr><td></td>${cars.map(car => html`<th scope="col">${car}</th>`)}</tr></thead>
<tbody>
${figures.map(
  figure => html`<tr><th scope="row">${columnHeading(figure.label, figure.unit)}</th>${cars.map((car, k) => valueCell(figure, car, k, system))}</tr>
`,
)}${
  prices === null
    ? null
    : html`<tr><th scope="row">price</th>${Array.from(prices, (price, k) => html`<td>${written(price, '1', 0)}${k === 0 ? null : html`<br><small>${changeText(price - (prices[0] ?? 0), 0)}</small>`}</td>`)}</tr>
`
}${
  breaks === null
    ? null
    : html`<tr><th scope="row">breaks</th>${breaks.map(what => html`<td>${what === '' ? '–' : html`✗\u00a0${what}`}</td>`)}</tr>
`
}</tbody></table></div>`;
}

function valueCell(figure: Compared, car: string, k: number, system: System): Html {
  const { values, changes, unit, best, likely, column, ends, changeEnds } = figure;
  const value = values[k] ?? Number.NaN;
  if (Number.isNaN(value)) return html`<td>no answer</td>`;
  const decimals = decimalsFor(value, unit);
  const scale = scaleOf(column, system);
  const text = html`${car === best ? '★\u00a0' : car === likely ? '☆\u00a0' : ''}${digits(value, decimals)}`;
  // A difference of temperatures has no zero of its own.
  const change = within(changeEnds[k], { ...scale, offset: 0 }, decimals);
  return html`<td>${car === best ? html`<strong>${text}</strong>` : text}${within(ends[k], scale, decimals)}${k === 0 ? null : html`<br><small>${changeText(changes[k] ?? Number.NaN, decimals)}${change}</small>`}</td>`;
}

/** Of an end, below which both are one. */
const ROUND_OFF = 1e-12;

/** ` [7.1, 8.2]`; nothing where no samples were taken, or where both ends are one. */
function within(ends: Ends | undefined, scale: Scale, decimals: number): string {
  return ends === undefined || ends.high - ends.low <= ROUND_OFF * Math.abs(ends.high)
    ? ''
    : ` ${bareEnds(ends, scale, decimals)}`;
}

/** Who is best at what: one car at all, or each at its own; and the cars side by side in the first figure that tells them apart. */
function compareCard(result: Result, system: System): Card | null {
  const { verdicts = [] } = result;
  if (verdicts.length === 0) return null;
  const told = verdicts.slice(0, TOLD).map(sentence => `${sentence}.`);
  const table = result.series['table'] ?? {};
  const cars = texts(table, 'car');
  const breaks = table['breaks'] === undefined ? [] : texts(table, 'breaks');
  const all = comparedFigures(result, system);
  const figures = all.filter(({ best }) => best !== '');
  const unsure = all.filter(({ likely }) => likely !== '').map(({ label }) => label);
  const [figure] = figures;
  if (figure === undefined) return sentenceCard(told.join(' '));
  const { values, unit, best } = figure;
  const most = Math.max(...values.filter(value => !Number.isNaN(value)));
  const bars = cars.map((name, k): Bar => {
    const value = values[k] ?? Number.NaN;
    if (Number.isNaN(value)) return { name, share: 0, text: 'no answer', mark: '' };
    const mark = (breaks[k] ?? '') !== '' ? 'out' : name === best ? 'best' : '';
    return { name, share: value / most, text: written(value, unit), mark };
  });
  const headline = { figure: best, of: bestAt(figures, cars, unsure), reason: '', within: null, ends: null, holes: '' };
  return { headline, text: told.join(' '), small: most > 0 ? { kind: 'bars', bars } : null, asked: [] };
}

const TOLD = 3;

/**
 * `is best for range; small for consumption`: nobody is to take the best at one thing for the best at all. @param figures that have a best car for
 * sure, at least one. @param unsure those in which samples do not make it sure.
 */
function bestAt(figures: readonly Compared[], cars: readonly string[], unsure: readonly string[]): string {
  const first = figures[0]?.best ?? '';
  const of = (car: string): string =>
    figures
      .filter(({ best }) => best === car)
      .map(({ label }) => label)
      .join(', ');
  const others = cars.filter(car => car !== first && of(car) !== '').map(car => `${car} for ${of(car)}`);
  const open = unsure.length === 0 ? [] : [`not sure: ${unsure.join(', ')}`];
  if (others.length === 0 && open.length === 0 && figures.length > 1)
    return `is best for all ${figures.length}: ${of(first)}`;
  return [`is best for ${of(first)}`, ...others, ...open].join('; ');
}

/** The verdicts and, for a terminal, the figures of each car. */
function compareWords(result: Result, system: System): string {
  const cars = texts(result.series['table'] ?? {}, 'car');
  const masses = comparedFigures(result, system).find(({ key }) => key.endsWith('_mass'));
  const weights =
    masses === undefined
      ? ''
      : ` ${masses.label}: ${cars.map((car, k) => `${car} ${digits(masses.values[k] ?? Number.NaN, 0)}`).join(', ')} ${unitText(masses.unit)}.`;
  return `${(result.verdicts ?? []).map(sentence => `${sentence}.`).join(' ')}${weights}`;
}
