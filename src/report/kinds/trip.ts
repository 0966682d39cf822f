/** A drive and a range in full: the words, the pictures, the phases. */
import { duration } from '../../plots/kit/duration.ts';
import { energy } from '../../plots/energy.ts';
import { columnHeading, figure, scaleOf, written } from '../../units/rounding.ts';
import { packOverDistance } from '../../plots/pack-distance.ts';
import { plainFigure, summaryNumber } from '../../plots/kit/series.ts';
import { numbers, texts } from '../../runs/series.ts';
import { loggedPower, loggedWords } from '../../plots/logged-power.ts';
import { powerBySpeed } from '../../plots/power-by-speed.ts';
import { rangeByTemperature } from '../../plots/range-by-temperature.ts';
import { scheduleTrace } from '../../plots/schedule-trace.ts';
import { intervalText } from '../../plots/kit/interval.ts';
import type { Result, Series } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf, sentenceCard } from '../card.ts';
import type { BodyParts, Pictures, ReportKind } from '../kind.ts';
import { figuresOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { holesSentence, reason } from '../unanswered.ts';
import { NO_PROMISE } from './no-promise.ts';
import { notThere } from './not-there.ts';

const travelReport = {
  card: travelCard,
  words: travelWords,
  pictures,
  body: travelBody,
  ledger: 'folded',
  cautions: [NO_PROMISE],
} as const;

// A drive is held back here and there for seconds: its words say by what.
export const driveReport: ReportKind = { kind: 'drive', ...travelReport, band: false };
export const rangeReport: ReportKind = { kind: 'range', ...travelReport };

/** Rows of a table of phases; beyond, phases of one name are put together. */
const ROWS = 16;

/** The body of a drive or range cell below its warnings. Ids inside begin with `id`. */
async function travelBody(result: Result, system: System, id: string, { ledger }: BodyParts): Promise<Html> {
  const words = html`<p class="lead">${travelWords(result, system)}</p>
`;
  const drawn = await figuresOf(pictures(result, system), id);
  if (drawn === null) return words;
  return html`${words}${drawn}${result.series['phases'] === undefined ? null : phasesTable(result.series['phases'], system)}
${plugsList(result)}
${ledger}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

/** What came of the stops with a plug, one by one. */
function plugsList({ events }: Result): Html | null {
  const told = events.filter(({ what }) => what.startsWith('plugged in'));
  if (told.length === 0) return null;
  return html`<p>Stops with a plug:</p>
<ol>${told.map(({ time, what }) => html`<li>After ${duration(time)}: ${what}.</li>`)}</ol>`;
}

function pictures(result: Result, system: System): Pictures {
  const { time, speed, distance, temperature } = result.series;
  const far = temperature !== undefined && numbers(temperature, 'range_m').some(value => !Number.isNaN(value));
  return [
    ...(time === undefined ? [] : ([['schedule', scheduleTrace(result, system)]] as const)),
    ...(result.series['logged'] === undefined ? [] : ([['logged', loggedPower(result, system)]] as const)),
    ...(far ? ([['seasons', rangeByTemperature(result, system)]] as const) : []),
    ...(Object.keys(result.ledger.in).length === 0 ? [] : ([['energy', energy(result, system)]] as const)),
    ...(speed === undefined ? [] : ([['by-speed', powerBySpeed(result, system)]] as const)),
    ...(time === undefined && distance === undefined ? [] : ([['pack', packOverDistance(result, system)]] as const)),
  ];
}

function phasesTable(phases: Series, system: System): Html | null {
  const names = texts(phases, 'phase');
  if (names.length === 0) return null;
  const keys = ['time_s', 'distance_m', 'energy_J', 'consumption_J_m'];
  const rows = names.map((name, i) => ({
    name,
    count: 1,
    values: keys.slice(0, 3).map(key => numbers(phases, key)[i] ?? 0),
  }));
  const kept = rows.length > ROWS ? byName(rows) : rows;
  const scales = keys.map(key => {
    const column = phases[key];
    if (column === undefined) throw new Error(`the phases have no column ${key}`);
    return { label: column.label, ...scaleOf(column, system) };
  });
  return numbersTable(
    {
      columns: ['phase', ...scales.map(({ label, unit }) => columnHeading(label, unit))],
      rows: kept.map(({ name, count, values }) => [
        count === 1 ? name : `${name}, ${count} times`,
        ...[...values, (values[2] ?? 0) / (values[1] ?? 1)].map((value, k) =>
          written(value * (scales[k]?.factor ?? 1), '1', DECIMALS[k]),
        ),
      ]),
    },
    'Phase by phase, energy out of the pack',
  );
}

const DECIMALS = [1, 2, 2, 0] as const;

interface PhaseRow {
  readonly name: string;
  readonly count: number;
  readonly values: readonly number[];
}

/** The sums of the phases of one name. */
function byName(rows: readonly PhaseRow[]): readonly PhaseRow[] {
  const found = new Map<string, PhaseRow>();
  for (const row of rows) {
    const { count = 0, values = [] } = found.get(row.name) ?? {};
    found.set(row.name, {
      name: row.name,
      count: count + 1,
      values: row.values.map((value, k) => value + (values[k] ?? 0)),
    });
  }
  return [...found.values()];
}

/** How far, or what it takes, and at what. */
function travelCard(result: Result, system: System): Card {
  const range = result.kind === 'range';
  if (summaryNumber(result, 'consumption') === null) return sentenceCard(travelAnswer(result, system));
  const value = (key: string): string => valueOf(result, key, system);
  const charge = `From ${rounded(result, 'charge_start', system)} to ${rounded(result, 'charge_end', system)}`;
  const air = rounded(result, 'air_temperature', system);
  if (range) {
    const headline = headlineOf(result, 'range', `range at ${air}, ${value('trip')}`, system);
    return figureCard(result, headline, 'range', `${charge}: ${consumption(result, system)}.${weak(result)}`);
  }
  const headline = headlineOf(result, 'consumption', `at the pack, ${value('trip')}, ${air}`, system);
  const took = `${value('distance')} in ${duration(summaryNumber(result, 'time') ?? 0)}`;
  const held = loggedWords(result);
  const short = notThere(result, system);
  if (short !== null) {
    const of = `of ${value('trip')}, ${air}`;
    const stays = { ...headline, figure: short.short, of, within: null, ends: null };
    const used = `${value('consumption')} at the pack as far as it got`;
    return figureCard(result, stays, '', `${short.told} ${took}, ${used}. ${charge}.`);
  }
  const text = `${took}. ${charge}. ${behind(result, system)}${held === '' ? '' : ` ${held}`}`;
  return figureCard(result, headline, 'consumption', text);
}

/** The answer in one sentence, `112 km from 95 % to 5 % at −5 °C: 197 Wh/km at the pack, 240 from the wall.` */
export function travelAnswer(result: Result, system: System): string {
  const range = result.kind === 'range';
  const key = range ? 'range' : 'distance';
  const [way, holes] = [summaryNumber(result, key), holesSentence(result, key, system)];
  if (way === null || way === 0) {
    return `${range ? 'No range' : 'Nothing driven'}: ${way === null ? reason(result, key) : 'the car does not begin'}.${holes}`;
  }
  const value = (key: string): string => valueOf(result, key, system);
  const took = range ? '' : ` in ${duration(summaryNumber(result, 'time') ?? 0)}`;
  const short = notThere(result, system);
  return `${short === null ? '' : `${short.told} `}${value(key)}${took} from ${rounded(result, 'charge_start', system)} to ${rounded(result, 'charge_end', system)} at ${rounded(result, 'air_temperature', system)} (${value('trip')}): ${consumption(result, system)}.${holes}${weak(result)}`;
}

/** `−5 °C`, `95 %`: without decimals. */
export function rounded(result: Result, key: string, system: System): string {
  return plainFigure(result, key, system, 0);
}

/** `850 Wh`, `3.15 kWh`. */
function energyText(joules: number): string {
  const [value, unit] = Math.abs(joules) < 3.6e6 ? [joules / 3600, 'Wh'] : [joules / 3.6e6, 'kWh'];
  return written(value, unit);
}

/** `197 Wh/km at the pack, 240 from the wall`. */
export function consumption(result: Result, system: System): string {
  const output = result.outputs['consumption_wall'];
  const wall = summaryNumber(result, 'consumption_wall');
  const pack = `${valueOf(result, 'consumption', system)} at the pack`;
  if (wall === null || output === undefined) return pack;
  const bare = { unit: '1', display: { metric: '1', imperial: '1' } };
  const { factor } = scaleOf(output, system);
  const ends = result.intervals?.of['consumption_wall'];
  const shown =
    ends === undefined
      ? written(wall * factor, '1', 0)
      : intervalText(
          wall * factor,
          { low: ends.low * factor, high: ends.high * factor, error: ends.error * factor },
          bare,
          system,
        );
  return `${pack}, ${shown} from the wall`;
}

function weak(result: Result): string {
  if (result.summary['ended_by'] === 'pack too weak') {
    return ' It ends before the pack is empty: it no longer gives the power that is asked.';
  }
  return result.summary['ended_by'] === 'stuck' ? ' It ends where the car can not go on.' : '';
}

/** What becomes of it, for page and terminal alike. */
export function travelWords(result: Result, system: System): string {
  const answer = travelAnswer(result, system);
  if (summaryNumber(result, 'consumption') === null) return answer;
  return [
    answer,
    behind(result, system),
    loggedWords(result),
    consumers(result, system),
    braking(result),
    seasons(result, system),
  ]
    .filter(text => text !== '')
    .join(' ');
}

/** What a car does not drive of a trip is told as the trip is. */
const FAR = { unit: 'm', display: { metric: 'km', imperial: 'mile' } };

/** Whether a drive keeps up. */
function behind(result: Result, system: System): string {
  if (result.kind !== 'drive' || notThere(result, system) !== null) return '';
  const [limited, tooSlow] = [summaryNumber(result, 'limited_time'), summaryNumber(result, 'time_too_slow')];
  const missed = summaryNumber(result, 'distance_missed') ?? 0;
  const lost = summaryNumber(result, 'time_lost') ?? 0;
  const late = lost >= 0.5 ? `, and arrives ${duration(lost)} late` : '';
  const short = missed >= 100 ? `, and ${figure(missed, FAR, system)} are missing at the end` : '';
  if (limited === null || limited < 0.5)
    return short === '' ? 'It keeps up with the schedule.' : `It keeps up as far as it gets${short}.`;
  const slow = tooSlow !== null && tooSlow > 0 ? `, ${duration(tooSlow)} of it more than 2\u00a0km/h too slow` : '';
  return `For ${duration(limited)} the car can not do what is asked${slow}${late}${short}; ${valueOf(result, 'limiter', system)} holds it back.`;
}

function consumers(result: Result, system: System): string {
  const share = summaryNumber(result, 'auxiliaries_share');
  return share === null || share < 0.005
    ? ''
    : `Lights, pumps, heating and cooling take ${valueOf(result, 'auxiliaries_share', system)} of it.`;
}

/** J below which consumers took what slowing down gave, and brakes nothing that counts: 1 Wh. Common practice, no source. */
const NOTHING_BACK = 3600;

function braking(result: Result): string {
  const [returned, brakes] = [summaryNumber(result, 'returned'), summaryNumber(result, 'brakes')];
  if (returned === null || brakes === null || returned + brakes <= 0) return '';
  const taken = brakes < NOTHING_BACK ? 'next to nothing' : energyText(brakes);
  if (returned < NOTHING_BACK && brakes < NOTHING_BACK) return '';
  if (returned === 0) return `Slowing down brings nothing back into the pack; ${taken} go into the brakes.`;
  if (returned < NOTHING_BACK)
    return `What slowing down gives feeds lights, pumps and heating at once, and next to nothing is left for the pack; the brakes take ${taken}.`;
  return `Slowing down brings ${energyText(returned)} back, the brakes take ${taken}.`;
}

/** From the worst to the best temperature. */
function seasons(result: Result, system: System): string {
  const series = result.series['temperature'];
  if (series === undefined) return '';
  const [at, far] = [numbers(series, 'temperature_K'), numbers(series, 'range_m')];
  const rows = Array.from(far, (range, i) => ({ range, at: at[i] ?? 0 })).filter(({ range }) => !Number.isNaN(range));
  if (rows.length < 2) return '';
  const [best, worst] = [
    rows.reduce((a, b) => (b.range > a.range ? b : a)),
    rows.reduce((a, b) => (b.range < a.range ? b : a)),
  ];
  const column = series['range_m'];
  const degrees = series['temperature_K'];
  if (column === undefined || degrees === undefined) return '';
  const told = (row: { range: number; at: number }): string =>
    `${figure(row.range, column, system)} at ${figure(row.at, degrees, system, 0)}`;
  return `Over the year: ${told(worst)}, ${told(best)}.`;
}
