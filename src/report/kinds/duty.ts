/** What parts must stand, in full: every line against its data sheet, currents run by run, cycles of torque, the caution. */
import { item, nth } from '../../columns.ts';
import { WINDOWS } from '../../model/duty/windows.ts';
import { dutyCurrents } from '../../plots/duty-currents.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { windowWords } from '../../runs/duty/currents.ts';
import { partNames } from '../../runs/duty/line.ts';
import { numbers, texts } from '../../runs/series.ts';
import type { Result } from '../../runs/result.ts';
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
  alarms: dutyAlarms,
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

/** What each part that fails must stand, what its sheet allows, and what that means. */
function dutyAlarms(result: Result, system: System): readonly string[] {
  return linesOf(result, system)
    .filter(({ verdict }) => verdict === 'fail')
    .map(
      ({ part, what, run, needed, sheet, note }) =>
        `${part}: ${needed} ${what}${run === '' ? '' : ` in ${run}`}, its data sheet says ${sheet}${note === '' ? '' : ` (${note})`}: it takes a stronger part, or less asked of it`,
    );
}

/** A line as it is told. */
interface Told {
  readonly part: string;
  readonly what: string;
  readonly run: string;
  /** With its interval. */
  readonly needed: string;
  /** `≤ 360 A`; '' where the sheet says nothing. */
  readonly sheet: string;
  readonly verdict: string;
  readonly note: string;
}

function linesOf(result: Result, system: System): readonly Told[] {
  const lines = result.series['lines'];
  if (lines === undefined) return [];
  const limits = numbers(lines, 'limit');
  return texts(lines, 'figure').map((key, row) => {
    const of = (name: string): string => item(texts(lines, name), row);
    const output = result.outputs[key];
    const limit = nth(limits, row);
    const shown = output === undefined ? String(limit) : figure(limit, output, system);
    return {
      part: of('part'),
      what: of('what'),
      run: of('run'),
      needed: summaryNumber(result, key) === null ? 'none' : valueOf(result, key, system),
      sheet: Number.isNaN(limit) ? '' : `${of('side') === 'most' ? '≤' : '≥'}\u00a0${shown}`,
      verdict: of('verdict'),
      note: of('note'),
    };
  });
}

/** The worst verdict in front, with the parts that it is of; the other sentences beside it. */
function dutyCard(result: Result, system: System): Card {
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
    table: sharpest(result, system),
    asked: [],
  };
}

/** The lines that fail, then those to look at. */
function sharpest(result: Result, system: System): Card['table'] {
  const lines = linesOf(result, system);
  const rows = (['fail', 'look'] as const).flatMap(wanted =>
    lines
      .filter(({ verdict }) => verdict === wanted)
      .map(({ part, what, run, needed, sheet }) => ({
        cells: [`${part}, ${what}${run === '' ? '' : ` (${run})`}`, needed, sheet, WORD[wanted] ?? ''],
        bad: wanted === 'fail',
      })),
  );
  return rows.length === 0 ? undefined : { columns: ['part', 'needed', 'data sheet', ''], rows };
}

async function dutyBody(result: Result, system: System, id: string): Promise<Html> {
  const picture = dutyCurrents(result, system);
  return html`${verdictList(result.verdicts ?? [])}${linesTable(result, system)}${picture === null ? null : await figureOf(picture, `${id}-currents`)}${currentsTable(result)}${cyclesTable(result, system)}${everyOutput(result, system)}`;
}

const JUDGED = ['fail', 'look', 'pass'];

/** First the parts of which a data sheet is entered; then, folded, what to look for in those of the others. */
function linesTable(result: Result, system: System): Html | null {
  const lines = linesOf(result, system);
  if (lines.length === 0) return null;
  const groups = [...new Set(lines.map(({ part }) => part))].map(part => ({
    part,
    rows: lines.filter(line => line.part === part),
  }));
  const named = groups.filter(({ rows }) => rows.some(({ verdict }) => JUDGED.includes(verdict)));
  const others = groups.filter(group => !named.includes(group));
  if (named.length === 0 || others.length === 0) return groupsTable('What each part must stand', groups);
  return html`${groupsTable('What the parts must stand whose data sheets are entered', named)}
<details><summary>What to look for in the data sheets of the others: ${partNames(others.map(({ part }) => part))}</summary>
${groupsTable('What the others must stand', others)}</details>
`;
}

interface PartLines {
  readonly part: string;
  readonly rows: readonly Told[];
}

/** A group of lines for each part: what it must stand, what its sheet says, what becomes of it. */
function groupsTable(caption: string, groups: readonly PartLines[]): Html {
  return html`<div class="scroll" role="group" aria-label="${caption}" tabindex="0"><table class="figures duty">
<caption>${caption}</caption>
<thead><tr><td></td><th scope="col">must stand</th><th scope="col">data sheet</th><th scope="col">verdict</th></tr></thead>
<tbody>
${groups.map(
  ({ part, rows: own }) => html`<tr class="group"><th scope="rowgroup" colspan="4">${part}</th></tr>
${own.map(lineRow)}`,
)}</tbody>
<tfoot><tr><td colspan="4">${NO_SELECTION}</td></tr></tfoot></table></div>
`;
}

function lineRow({ what, run, needed, sheet, verdict, note }: Told): Html {
  return html`<tr class="${verdict}"><th scope="row">${what}${run === '' ? '' : ` (${run})`}${note === '' ? null : html`<small>${note}</small>`}</th><td>${needed}</td><td>${sheet}</td><td>${WORD[verdict] ?? ''}</td></tr>
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
