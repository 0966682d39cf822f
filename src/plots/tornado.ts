/** Which uncertain inputs matter: for each a bar from the figure at its low end to that at its high end, and its share of the variance. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading, decimalsFor, scaleOf, shareText, written } from '../units/rounding.ts';
import { COLOUR, INK, QUIET } from './kit/palette.ts';
import { NARROW, RIGHT } from './kit/layout.ts';
import { type Picture, THEME } from './kit/picture.ts';
import { columnOf, shown, summaryNumber } from './kit/series.ts';
import { numbers, texts } from '../runs/series.ts';

/** Bars that are drawn, the widest ones. */
const MOST = 10;

/** px of one input: its name, and the bar below it. */
const ROW = 36;

interface Bar {
  readonly path: string;
  readonly low: number;
  readonly high: number;
  /** Of the variance, in all; NaN where it is not told. */
  readonly share: number;
  /** By itself; NaN likewise. */
  readonly alone: number;
  /** Standard errors of both. */
  readonly shareError: number;
  readonly aloneError: number;
}

function barsOf(result: Result, system: System): readonly Bar[] {
  const inputs = result.series['inputs'] ?? {};
  const low = shown(result, 'inputs', 'low', system);
  const high = shown(result, 'inputs', 'high', system);
  const share = numbers(inputs, 'total_1');
  const first = numbers(inputs, 'first_1');
  const [shareError, aloneError] = [numbers(inputs, 'total_error_1'), numbers(inputs, 'first_error_1')];
  const at = (column: Float64Array, k: number): number => column[k] ?? Number.NaN;
  return texts(inputs, 'path').map((path, k) => ({
    path,
    low: at(low, k),
    high: at(high, k),
    share: at(share, k),
    alone: at(first, k),
    shareError: at(shareError, k),
    aloneError: at(aloneError, k),
  }));
}

/** The picture of a rank: needs the series `inputs` and the value itself. */
export function tornado(result: Result, system: System): Picture {
  const bars = barsOf(result, system);
  const drawn = bars.filter(({ low, high }) => !Number.isNaN(low) && !Number.isNaN(high)).slice(0, MOST);
  const { unit } = scaleOf(columnOf(result, 'inputs', 'low'), system);
  const number = (value: number): string =>
    Number.isNaN(value) ? 'no answer' : written(value, '1', decimalsFor(value, unit) + 1);
  return {
    title: 'What makes the result uncertain',
    caption: caption(result, drawn, bars.length),
    spec: width => spec(result, drawn, system, width),
    table: {
      columns: [
        'input',
        columnHeading('at its 5 % point', unit),
        columnHeading('at its 95 % point', unit),
        'share of the variance by itself',
        'share in all',
      ],
      rows: bars.map(({ path, low, high, share, alone, shareError, aloneError }) => [
        path,
        number(low),
        number(high),
        percent(alone, aloneError),
        percent(share, shareError),
      ]),
    },
  };
}

function percent(share: number, error: number): string {
  return Number.isNaN(share) ? '–' : shareText(share, error);
}

/** `sharesFrom` px right of the plot, the shares stand in a column of their own. */
function spec(result: Result, drawn: readonly Bar[], system: System, width: number): object {
  const narrow = width < NARROW;
  const room = 44;
  const plot = width - room - 2 * RIGHT - 8;
  const value = summaryNumber(result, 'value');
  const output = result.outputs['value'];
  if (value === null || output === undefined) throw new Error('a rank without a value has no picture');
  const { unit, factor, offset } = scaleOf(output, system);
  const base = value * factor + offset;
  const halves = drawn.flatMap(({ low, high }, k) => [
    { y: ROW * k + 19, y2: ROW * k + 32, from: base, to: low, end: 'input at its 5 % point' },
    { y: ROW * k + 19, y2: ROW * k + 32, from: base, to: high, end: 'input at its 95 % point' },
  ]);
  const x = {
    field: 'from',
    type: 'quantitative',
    scale: { zero: false, nice: true, padding: 6 },
    axis: { title: columnHeading(capital(output.label), unit), tickCount: narrow ? 4 : 7 },
  };
  const y = {
    type: 'quantitative',
    scale: { domain: [0, ROW * drawn.length], reverse: true, nice: false },
    axis: null,
  } as const;
  const ends = ['input at its 5 % point', 'input at its 95 % point'];
  return {
    config: { ...THEME, title: { ...THEME.title, dx: 0 } },
    width: plot,
    height: ROW * drawn.length,
    layer: [
      {
        data: { values: halves },
        mark: { type: 'rect', stroke: INK, strokeWidth: 0.75 },
        encoding: {
          x,
          x2: { field: 'to' },
          y: { ...y, field: 'y' },
          y2: { field: 'y2' },
          color: {
            field: 'end',
            type: 'nominal',
            sort: null,
            scale: { domain: ends, range: ['#d3d6e4', '#5d6796'] },
            legend: { title: null, orient: 'top', direction: narrow ? 'vertical' : 'horizontal', symbolType: 'square' },
          },
        },
      },
      {
        data: { values: [{ from: base }] },
        mark: { type: 'rule', color: COLOUR.grip, strokeWidth: 1.75 },
        encoding: { x },
      },
      {
        data: { values: drawn.map(({ path }, k) => ({ y: ROW * k + 12, text: path })) },
        mark: { type: 'text', align: 'left', baseline: 'middle' },
        encoding: { x: { value: 2 }, y: { ...y, field: 'y' }, text: { field: 'text', type: 'nominal' } },
      },
      {
        data: {
          values: drawn.map(({ share, shareError }, k) => ({
            y: ROW * k + 26,
            text: Number.isNaN(share)
              ? ''
              : percent(share, shareError)
                  .replace(/ ± \d+/u, '')
                  .replace('under ', '<\u00a0'),
          })),
        },
        mark: { type: 'text', align: 'left', baseline: 'middle', color: QUIET },
        encoding: { x: { value: plot + 10 }, y: { ...y, field: 'y' }, text: { field: 'text', type: 'nominal' } },
      },
    ],
  };
}

function caption(result: Result, drawn: readonly Bar[], count: number): string {
  const rest = count > drawn.length ? ` The ${count - drawn.length} others move it less.` : '';
  const first = drawn[0] === undefined ? '' : ` ${drawn[0].path} moves it most.`;
  const told =
    summaryNumber(result, 'uncertainty') === null
      ? ''
      : ' The per cent beside a bar is the share of the variance that would stay if all other inputs were known (a total Sobol index). Such shares are estimates: the table has twice the standard error of each, and their sum may differ from all of it.';
  return `Each input by itself from its 5 % to its 95 % point, all others at their best value; the line is the result as it stands.${first}${rest}${told}`;
}
