/** A charge in full: the words, the traces, the time from any state of charge to any other. */
import { chargeTraces } from '../../plots/charge.ts';
import { duration, hoursAndMinutes } from '../../plots/kit/duration.ts';
import { durationEnds, type Ends } from '../../plots/kit/interval.ts';
import { capital, figure, scaleOf, written } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { numbers } from '../../runs/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf, sentenceCard } from '../card.ts';
import type { BodyParts, Pictures, ReportKind } from '../kind.ts';
import { figuresOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { holesSentence, reason } from '../unanswered.ts';

export const chargeReport: ReportKind = {
  kind: 'charge',
  card: chargeCard,
  words: chargeWords,
  pictures,
  body: chargeBody,
  cautions: [
    {
      title: 'Charging loads a circuit for hours',
      text: 'An outlet that bears a current for a while can burn under it overnight. Cable, outlet, fuse and residual-current protection are chosen, and fixed wiring and wall boxes installed, by a licensed electrician. A pack is charged only under a battery management system that stops at the limits of its cells.',
      defers:
        'the electrical code of your country, IEC 60364-7-722 or NEC Article 625 (from memory), and that electrician',
    },
  ],
};

/** The body of a charge cell below its warnings. Ids inside begin with `id`. */
async function chargeBody(result: Result, system: System, id: string, { ledger }: BodyParts): Promise<Html> {
  const words = html`<p class="lead">${chargeWords(result, system)}</p>
`;
  if (result.series['time'] === undefined) return words;
  return html`${words}${await figuresOf(pictures(result, system), id)}${timeTable(result)}
<p class="note">The outlet, its cable, its fuse and its residual-current protection must bear this current for all of this time. Fixed wiring and wall boxes are
the work of a licensed electrician, under the electrical code of the place.</p>
${ledger}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

function pictures(result: Result, system: System): Pictures {
  return result.series['time'] === undefined ? [] : [['charge', chargeTraces(result, system)]];
}

/** From each step of charge (rows) to each later one (columns). */
function timeTable(result: Result): Html | null {
  const steps = result.series['steps'] ?? {};
  const [charge, time] = [numbers(steps, 'charge_1'), numbers(steps, 'time_s')];
  if (charge.length < 3) return null;
  const level = (value: number): string => `${Number((100 * value).toFixed(1))}\u00a0%`;
  const columns = ['from', ...Array.from(charge.subarray(1), value => `to ${level(value)}`)];
  const rows = Array.from(charge.subarray(0, -1), (value, row) => [
    level(value),
    ...Array.from(time.subarray(1), (end, i) => (i < row ? '' : hoursAndMinutes(end - (time[row] ?? 0)))),
  ]);
  return numbersTable({ columns, rows }, 'Time from one state of charge to another, in hours and minutes');
}

/** The answer in one sentence: `7 h 20 min from 20 % to 90 % at 16 A, 41 km of range per hour`. */
export function chargeAnswer(result: Result, system: System): string {
  const end = summaryNumber(result, 'end_time');
  const holes = holesSentence(result, 'time', system);
  if (end === null) return `No charge: ${reason(result, 'end_time')}.${holes}`;
  const ends = timeEnds(result);
  const spread = ends === null ? '' : ` ${durationEnds(ends)}`;
  return `${duration(end)}${spread} ${fromTo(result, system)} ${pace(result, system)}.${holes}`;
}

function chargeCard(result: Result, system: System): Card {
  const end = summaryNumber(result, 'end_time');
  if (end === null) return sentenceCard(chargeAnswer(result, system));
  const ends = timeEnds(result);
  const headline = {
    ...headlineOf(result, 'time', fromTo(result, system), system),
    figure: duration(end),
    ends: ends === null ? null : durationEnds(ends),
  };
  const wall = `${valueOf(result, 'energy_wall', system)} come from the wall`;
  return figureCard(result, headline, 'time', `${capital(pace(result, system))}; ${wall}.`);
}

/** Of the time until the charge that is wished for; null where it is not reached, or has no interval. */
function timeEnds(result: Result): Ends | null {
  return summaryNumber(result, 'time') === null ? null : (result.intervals?.of['time'] ?? null);
}

function fromTo(result: Result, system: System): string {
  const goal = summaryNumber(result, 'time') === null ? 'charge_end' : 'to';
  return `from ${valueOf(result, 'from', system)} to ${valueOf(result, goal, system)}`;
}

/** `at 16 A, 41 km of range per hour`; and why it ends before the charge that is wished for. */
function pace(result: Result, system: System): string {
  const phased = summaryNumber(result, 'peak_phase_current');
  const amps = phased ?? summaryNumber(result, 'peak_charge_current') ?? 0;
  const phases = summaryNumber(result, 'phases') ?? 1;
  const at = `at ${phases > 1 ? `${phases}\u00a0×\u00a0` : ''}${written(amps, 'A', Math.abs(amps - Math.round(amps)) < 0.05 ? 0 : 1)}${phased === null ? ' of direct current at most' : ''}`;
  const hourly = summaryNumber(result, 'range_per_hour');
  const range = hourly === null ? '' : `, ${perHour(hourly, result, system)} of range per hour`;
  return `${at}${range}${summaryNumber(result, 'time') === null ? `; ${reason(result, 'time')}` : ''}`;
}

/** `41 km`, out of a speed. */
function perHour(speed: number, result: Result, system: System): string {
  const output = result.outputs['range_per_hour'];
  const { factor } = output === undefined ? { factor: 3.6 } : scaleOf(output, system);
  const [value, unit] = [speed * factor, system === 'metric' ? 'km' : 'miles'];
  return written(value, '1', value < 10 ? 1 : 0) + `\u00a0${unit}`;
}

/** What becomes of it, for page and terminal alike. */
export function chargeWords(result: Result, system: System): string {
  const wall = summaryNumber(result, 'energy_wall');
  if (wall === null) return chargeAnswer(result, system);
  const value = (key: string): string => valueOf(result, key, system);
  const cost = summaryNumber(result, 'cost');
  const money = cost === null ? '' : `, which cost ${written(cost, '1', 2)}`;
  const taper = summaryNumber(result, 'taper_time');
  const falls =
    taper === null || taper === 0
      ? ''
      : ` After ${duration(taper)} the pack is at its highest voltage, and the current falls.`;
  return `${chargeAnswer(result, system)} ${value('energy_wall')} come from the wall${money}; ${value('efficiency')} of it is stored. ${PACE[String(result.summary['paced_by'])] ?? ''}${falls}${warming(result, system)}`;
}

/** How warm the pack gets, where that is more than a degree above its start. */
function warming(result: Result, system: System): string {
  const output = result.outputs['pack_temperature'];
  const warmest = summaryNumber(result, 'pack_temperature');
  const start = numbers(result.series['time'] ?? {}, 'pack_temperature_K')[0];
  if (warmest === null || output === undefined || start === undefined || warmest < start + 1) return '';
  return ` The pack warms from ${figure(start, output, system, 0)} to ${figure(warmest, output, system, 0)}.`;
}

/** What holds a charge back, and so what would shorten it. */
const PACE: { readonly [word: string]: string } = {
  supply: 'The supply sets the pace for most of the time: a stronger one would shorten it.',
  'supply and charger':
    'Supply and charger set the pace alike for most of the time: a stronger one of them alone would shorten it by next to nothing.',
  charger: 'The charger sets the pace for most of the time: a stronger one would shorten it.',
  'pack heater':
    'The pack is warmed for most of the time before it takes a current: a warmer place, or a stronger heater, would shorten it.',
  station: 'The power of the station sets the pace for most of the time: a stronger one would shorten it.',
  'station current':
    'The greatest current of the station sets the pace for most of the time: a higher voltage of the pack would shorten it.',
  'charger current':
    'The greatest current of the charger sets the pace for most of the time: a higher voltage of the pack, or a charger that gives more current, would shorten it.',
  'pack current':
    'The charge current that the pack takes sets the pace for most of the time: a stronger supply would not help.',
  cold: 'The cold of the pack sets the pace for most of the time: a warmer pack would take more.',
  heat: 'The warmth of the pack sets the pace for most of the time: more cooling would shorten it.',
  'cell voltage':
    'The highest voltage of the pack sets the pace for most of the time: a stronger supply would not help.',
};
