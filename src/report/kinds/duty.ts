/** What parts must stand, in full: every line against its data sheet, currents run by run, cycles of torque, the caution. */
import { item, nth } from '../../columns.ts';
import { WINDOWS } from '../../model/duty/windows.ts';
import { dutyCurrents } from '../../plots/duty-currents.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { windowWords } from '../../runs/duty/currents.ts';
import { numbers, texts } from '../../runs/series.ts';
import type { Result, Series } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { figure, scaleOf, columnHeading, written } from '../../units/rounding.ts';
import { type Card, sentenceCard } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { figureOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { valueOf } from '../page/outputs.ts';
import { everyOutput, verdictList, verdictWords } from './study.ts';

const NO_SELECTION = 'Not a selection of parts: the data sheet of the maker and a licensed professional decide.';

export const dutyReport: ReportKind = {
  kind: 'duty',
  card: dutyCard,
  words: verdictWords,
  body: dutyBody,
  cautions: [
    {
      title: 'What parts must stand is no selection of parts',
      text: 'These are figures of smooth runs of a model. Faults, jerks, corrosion, vibration, assembly and what else a part meets are not in them, nor what a standard asks of it besides.',
      defers:
        'the data sheet of the maker of each part, the electrical code of your country, and a licensed professional who has seen the car',
    },
  ],
};

const WORD: { readonly [verdict: string]: string } = {
  fail: 'fails',
  look: 'look at it',
  pass: 'passes',
  required: 'required',
  figure: '',
};

/** The worst verdict in front, with the parts that it is of; the other sentences beside it. */
function dutyCard(result: Result): Card {
  const count = (key: string): number => summaryNumber(result, key) ?? 0;
  const [fails, looks, passes] = [count('fails'), count('looks'), count('passes')];
  const judged = fails + looks + passes;
  if (judged === 0) return sentenceCard(verdictWords(result));
  const word =
    fails > 0 ? `${fails} ${fails === 1 ? 'fails' : 'fail'}` : looks > 0 ? `${looks} to look at` : 'all pass';
  const verdicts = result.verdicts ?? [];
  const [worst = '', ...others] = verdicts;
  const of = `of ${judged} lines with a data sheet${fails + looks > 0 ? `: ${worst.replace(/^.*: /u, '')}` : ''}`;
  const rest = (fails + looks > 0 ? others : verdicts).map(sentence => `${sentence}.`).join(' ');
  return {
    headline: { figure: word, of, reason: '', within: null, ends: null, holes: '' },
    text: rest,
    small: null,
    asked: [],
  };
}

async function dutyBody(result: Result, system: System, id: string): Promise<Html> {
  const picture = dutyCurrents(result, system);
  return html`${verdictList(result.verdicts ?? [])}${linesTable(result, system)}${picture === null ? null : await figureOf(picture, `${id}-currents`)}${currentsTable(result)}${cyclesTable(result, system)}${everyOutput(result, system)}`;
}

const JUDGED = ['fail', 'look', 'pass'];

/** First the parts of which a data sheet is entered; then, folded, what to look for in those of the others. */
function linesTable(result: Result, system: System): Html | null {
  const lines = result.series['lines'];
  if (lines === undefined) return null;
  const [parts, verdicts] = [texts(lines, 'part'), texts(lines, 'verdict')];
  const rows = parts.map((_, row) => row);
  const groups = [...new Set(parts)].map(part => ({ part, rows: rows.filter(row => parts[row] === part) }));
  const named = groups.filter(({ rows: own }) => own.some(row => JUDGED.includes(item(verdicts, row))));
  const others = groups.filter(group => !named.includes(group));
  const table = (caption: string, of: typeof groups): Html => groupsTable(result, lines, system, caption, of);
  if (named.length === 0 || others.length === 0) return table('What each part must stand', groups);
  return html`${table('What the parts must stand whose data sheets are entered', named)}
<details><summary>What to look for in the data sheets of the others: ${others.map(({ part }) => part).join(', ')}</summary>
${table('What the others must stand', others)}</details>
`;
}

interface PartLines {
  readonly part: string;
  /** Of the series of lines. */
  readonly rows: readonly number[];
}

/** A group of lines for each part: what it must stand, what its sheet says, what becomes of it. */
function groupsTable(
  result: Result,
  lines: Series,
  system: System,
  caption: string,
  groups: readonly PartLines[],
): Html {
  return html`<div class="scroll" role="group" aria-label="${caption}" tabindex="0"><table class="figures duty">
<caption>${caption}</caption>
<thead><tr><td></td><th scope="col">must stand</th><th scope="col">data sheet</th><th scope="col">verdict</th></tr></thead>
<tbody>
${groups.map(
  ({ part, rows: own }) => html`<tr class="group"><th scope="rowgroup" colspan="4">${part}</th></tr>
${own.map(row => lineRow(result, lines, row, system))}`,
)}</tbody>
<tfoot><tr><td colspan="4">${NO_SELECTION}</td></tr></tfoot></table></div>
`;
}

function lineRow(result: Result, lines: Series, row: number, system: System): Html {
  const key = item(texts(lines, 'figure'), row);
  const output = result.outputs[key];
  const value = summaryNumber(result, key);
  const limit = nth(numbers(lines, 'limit'), row);
  const [verdict, note, run] = ['verdict', 'note', 'run'].map(name => item(texts(lines, name), row));
  const shown = (amount: number): string => (output === undefined ? String(amount) : figure(amount, output, system));
  const sign = item(texts(lines, 'side'), row) === 'most' ? '≤' : '≥';
  const of = run === undefined || run === '' ? '' : ` (${run})`;
  return html`<tr class="${verdict ?? ''}"><th scope="row">${item(texts(lines, 'what'), row)}${of}${note === '' ? null : html`<small>${note ?? ''}</small>`}</th><td>${value === null ? 'none' : valueOf(result, key, system)}</td><td>${Number.isNaN(limit) ? '' : `${sign} ${shown(limit)}`}</td><td>${WORD[verdict ?? ''] ?? ''}</td></tr>
`;
}

/** Every channel in every run. */
function currentsTable(result: Result): Html | null {
  const currents = result.series['currents'];
  if (currents === undefined) return null;
  const channels = texts(currents, 'channel');
  if (channels.length === 0) return null;
  const amps = (key: string, row: number): string => written(nth(numbers(currents, key), row), '1');
  const window = (seconds: number, row: number): string => {
    const once = amps(`current_${seconds}_s_A`, row);
    const short = nth(numbers(currents, 'duration_s'), row) < seconds;
    return short ? `${once} (${amps(`repeated_${seconds}_s_A`, row)})` : once;
  };
  const rows = channels.map((channel, row) => [
    channel,
    item(texts(currents, 'run'), row),
    amps('current_A', row),
    ...WINDOWS.map(seconds => window(seconds, row)),
    amps('rms_A', row),
  ]);
  const columns = ['current, A', 'run', 'instant', ...WINDOWS.map(windowWords), 'whole run'];
  return html`${numbersTable({ columns, rows }, 'Currents, root mean square over the worst stretch of each length')}
<p class="note">Each way by itself: out of a part and into it. In brackets, where the run is shorter than that: the run again and again without a pause; before them, the run once. ${NO_SELECTION}</p>
`;
}

function cyclesTable(result: Result, system: System): Html | null {
  const cycles = result.series['cycles'];
  if (cycles === undefined) return null;
  const axles = texts(cycles, 'axle');
  if (axles.length === 0) return null;
  const keys = ['range_N_m', 'mean_N_m', 'count_1'] as const;
  const heading = (key: string): string => {
    const column = cycles[key];
    return column === undefined ? key : columnHeading(column.label, scaleOf(column, system).unit);
  };
  const cell = (key: (typeof keys)[number], row: number): string => {
    const column = cycles[key];
    const value = nth(numbers(cycles, key), row);
    return column === undefined
      ? ''
      : written(value * scaleOf(column, system).factor, '1', key === 'count_1' && value < 10 ? 1 : 0);
  };
  const rows = axles.map((axle, row) => [
    `${axle}, ${item(texts(cycles, 'run'), row)}`,
    ...keys.map(key => cell(key, row)),
  ]);
  return html`${numbersTable({ columns: ['axle, run', ...keys.map(heading)], rows }, 'Cycles of the torque in one half shaft, in 1000 km')}
<p class="note">Rainflow counting as in ASTM E1049, 5.4.4: from the valley to the peak of each cycle, without the dynamic factor; half cycles count half. ${NO_SELECTION}</p>
`;
}
