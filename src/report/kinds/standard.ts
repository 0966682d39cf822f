/** A standard range test in full: as tested and as on a window sticker, cycle by cycle. */
import { energy } from '../../plots/energy.ts';
import { capital, columnHeading, scaleOf, written } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { numbers, texts } from '../../runs/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf } from '../card.ts';
import type { BodyParts, Pictures, ReportKind } from '../kind.ts';
import { figuresOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { consumption } from './trip.ts';
import { holesSentence, reason } from '../unanswered.ts';
import { NO_PROMISE } from './no-promise.ts';

export const standardReport: ReportKind = {
  kind: 'standard',
  card: standardCard,
  words: standardWords,
  pictures,
  body: standardBody,
  ledger: 'folded',
  cautions: [NO_PROMISE],
};

/** The body of a range cell with a standard, below its warnings. Ids inside begin with `id`. */
async function standardBody(result: Result, system: System, id: string, { ledger }: BodyParts): Promise<Html> {
  const words = html`<p class="lead">${standardWords(result, system)}</p>
`;
  if (result.series['cycles'] === undefined) return words;
  return html`${words}${stickerTable(result, system)}
<p class="note">The car is taken as it stands in this notebook, with its own driver and load; the standards have test masses of their own. A
figure on a sticker is declared by a maker after tests on a finished car: this one is for comparing, not for printing.</p>
${await figuresOf(pictures(result, system), id)}${cyclesTable(result, system)}
${ledger}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

function pictures(result: Result, system: System): Pictures {
  return result.series['cycles'] === undefined ? [] : [['energy', energy(result, system)]];
}

function stickerTable(result: Result, system: System): Html {
  const value = (key: string | null): string => (key === null ? '' : valueOf(result, key, system));
  const adjusted = summaryNumber(result, 'range') !== summaryNumber(result, 'sticker_range');
  const rows: readonly (readonly [string, string, string | null])[] = [
    ['range', 'range', 'sticker_range'],
    ['consumption at the wall', 'consumption_wall', 'sticker_consumption'],
    ['mpg equivalent', 'mpg_equivalent', 'sticker_mpg'],
    ...(summaryNumber(result, 'steady_share') === null
      ? []
      : ([
          ['city range', 'range_city', null],
          ['highway range', 'range_highway', null],
          ['city consumption at the wall', 'consumption_city', null],
          ['highway consumption at the wall', 'consumption_highway', null],
        ] as const)),
  ];
  return numbersTable(
    {
      columns: ['', 'as tested', ...(adjusted ? ['on a sticker'] : [])],
      rows: rows.map(([label, tested, sticker]) => [label, value(tested), ...(adjusted ? [value(sticker)] : [])]),
    },
    adjusted ? 'As tested, and as on a window sticker' : 'As tested, and so on a window sticker',
  );
}

/** Cycle by cycle. */
function cyclesTable(result: Result, system: System): Html {
  const cycles = result.series['cycles'] ?? {};
  const weighted = numbers(cycles, 'weight_1').some(value => !Number.isNaN(value));
  const keys = ['distance_m', 'energy_J', 'consumption_J_m', ...(weighted ? ['weight_1'] : [])];
  const columns = keys.map(key => {
    const column = cycles[key];
    if (column === undefined) throw new Error(`the cycles have no column ${key}`);
    return { label: column.label, values: numbers(cycles, key), ...scaleOf(column, system) };
  });
  const names = texts(cycles, 'cycle');
  return numbersTable(
    {
      columns: ['cycle', ...columns.map(({ label, unit }) => columnHeading(label, unit))],
      rows: names.map((name, i) => [
        name,
        ...columns.map(({ values, factor }, k) => written((values[i] ?? 0) * factor, '1', DECIMALS[k])),
      ]),
    },
    'Cycle by cycle, energy out of the pack',
  );
}

const DECIMALS = [2, 2, 0, 1] as const;

function standardCard(result: Result, system: System): Card {
  const headline = headlineOf(result, 'range', `as tested, ${valueOf(result, 'test', system)}`, system);
  return figureCard(result, headline, 'range', headline.figure === null ? '' : capital(measured(result, system)));
}

/** The answer in one sentence. */
export function standardAnswer(result: Result, system: System): string {
  const holes = holesSentence(result, 'range', system);
  if (summaryNumber(result, 'range') === null) return `No range: ${reason(result, 'range')}.${holes}`;
  const value = (key: string): string => valueOf(result, key, system);
  return `${value('range')} as tested (${value('test')}): ${measured(result, system)}${holes}`;
}

/** What it takes, and the range that a sticker would show where that is another one. */
function measured(result: Result, system: System): string {
  const same = summaryNumber(result, 'range') === summaryNumber(result, 'sticker_range');
  const sticker = same ? '' : `; ${valueOf(result, 'sticker_range', system)} on a window sticker`;
  return `${consumption(result, system)}${sticker}.`;
}

/** What becomes of it, for page and terminal alike. */
function standardWords(result: Result, system: System): string {
  if (summaryNumber(result, 'range') === null) return standardAnswer(result, system);
  const value = (key: string): string => valueOf(result, key, system);
  const wall = summaryNumber(result, 'wall_energy');
  const charged = wall === null ? '' : `; charging takes ${value('wall_energy')} from the wall`;
  return `${standardAnswer(result, system)} At 23\u00a0°C with nothing heated, ${value('usable_energy')} come out of the full pack until it is empty${charged}.`;
}
