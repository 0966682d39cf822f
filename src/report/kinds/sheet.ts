/** The performance sheet as a table: test, value, what sets it, which standard names it. */
import { figure } from '../../units/rounding.ts';
import { duration } from '../../plots/kit/duration.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import type { Result } from '../../runs/result.ts';
import { SHEET_TESTS, type SheetTest } from '../../runs/sheet/outputs.ts';
import { HALF_HOUR } from '../../runs/sheet/thirty-minutes.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { reason } from '../unanswered.ts';

export const sheetReport: ReportKind = {
  kind: 'sheet',
  card: sheetCard,
  words: sheetWords,
  body: (result, system) => Promise.resolve(sheetBody(result, system)),
};

/** The body of a sheet cell below its warnings. */
function sheetBody(result: Result, system: System): Html {
  const gross = summaryNumber(result, 'gross_mass');
  const group = (loaded: boolean, title: string): Html =>
    html`<tbody>
<tr class="group"><th scope="rowgroup" colspan="4">${title}</th></tr>
${SHEET_TESTS.filter(test => test.gross === loaded).map(test => row(result, test, system))}</tbody>
`;
  return html`<p class="lead">${sheetWords(result, system)}</p>
<div class="scroll" role="group" aria-label="Performance sheet" tabindex="0"><table class="figures tests">
<caption>Performance sheet</caption>
<thead><tr><th scope="col">test</th><th scope="col">value</th><th scope="col">set by</th><th scope="col">named by</th></tr></thead>
${group(false, `at test mass, ${valueOf(result, 'test_mass', system)}`)}${
  gross === null ? null : group(true, `at gross mass, ${valueOf(result, 'gross_mass', system)}`)
}</table></div>
${missing(result)}<p class="note">Predictions on a level road or on the slope named, not a test to any standard. That a standard names a test is told from
memory, without its text at hand: its test mass, its warming up and its two directions may differ from this. From memory, too: ISO 8715 does its
slopes at the greatest permitted mass. The steepest hold is for moments: a drive unit that stands still under torque gets hot quickly, and a
car on a slope is held by its brakes.</p>
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

function row(result: Result, { key, limiter, standard }: SheetTest, system: System): Html {
  const label = (result.outputs[key]?.label ?? key).replace(/, gross mass$/, '');
  return html`<tr><th scope="row">${label}</th><td>${shown(result, key, system)}</td><td>${sets(result, key, limiter, system)}</td><td>${standard === '' ? 'common practice' : standard}</td></tr>
`;
}

/** A slope is told to the tenth of a percent. */
function shown(result: Result, key: string, system: System): string {
  const value = summaryNumber(result, key);
  const output = result.outputs[key];
  return value !== null && output?.unit === '1' ? figure(value, output, system, 1) : valueOf(result, key, system);
}

/** What sets it; for a slope also where the other limit would come. */
function sets(result: Result, key: string, limiter: string, system: System): string {
  const word = result.summary[limiter];
  if (typeof word !== 'string') return '–';
  const other = word === 'grip' ? (['drive', 'the drive alone'] as const) : (['grip', 'the tyres alone'] as const);
  if (result.outputs[`${key}_${other[0]}`] === undefined) return word;
  const value = summaryNumber(result, `${key}_${other[0]}`);
  return `${word} (${other[1]}: ${value === null ? 'any' : shown(result, `${key}_${other[0]}`, system)})`;
}

/** Why tests have no answer, each reason once. */
function missing(result: Result): Html {
  const gross = summaryNumber(result, 'gross_mass') !== null;
  const empty = SHEET_TESTS.filter(test => (gross || !test.gross) && summaryNumber(result, test.key) === null);
  const reasons = [...new Set(empty.map(({ key }) => reason(result, key)))];
  return html`${reasons.map(why => {
    const labels = empty.filter(({ key }) => reason(result, key) === why).map(({ key }) => result.outputs[key]?.label);
    return html`<p class="note">No ${labels.join(', ')}: ${why}.</p>
`;
  })}`;
}

function sheetCard(result: Result, system: System): Card {
  return figureCard(
    result,
    headlineOf(result, 'top_speed', 'top speed', system),
    'top_speed',
    sheetWords(result, system),
  );
}

/** For how many minutes nearly the top speed lasts, where that is less than the half hour. */
function lasting(result: Result): string {
  const time = summaryNumber(result, 'top_speed_time');
  if (time === null || time >= HALF_HOUR) return '';
  return `, 99\u00a0% of it for ${time < 120 ? `${time.toFixed(0)}\u00a0s` : duration(time)}`;
}

/** The sheet in a sentence, for page and terminal alike. */
export function sheetWords(result: Result, system: System): string {
  const told = (key: string, text: string): string => {
    const by = result.summary[`${key}_limiter`];
    return summaryNumber(result, key) === null
      ? `${text}: no answer, ${reason(result, key)}`
      : `${text} ${shown(result, key, system)}${typeof by === 'string' ? ` (${by})` : ''}`;
  };
  return `${[
    told('top_speed', 'Top speed') + lasting(result),
    told('thirty_minute_speed', '30-minute speed'),
    told('time_to_50_km_h', '0 to 50\u00a0km/h in'),
    told('time_50_to_80_km_h', '50 to 80\u00a0km/h in'),
    told('speed_12_percent', '12\u00a0% slope at'),
    told('start_slope', 'steepest start'),
  ].join('; ')}.`;
}
