/** Figures over two parameters: a map for each figure, in steps of colour as on a map of heights. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading, decimalsFor, digits } from '../units/rounding.ts';
import { COLOUR, INK } from './kit/palette.ts';
import { LEFT, NARROW, RIGHT } from './kit/layout.ts';
import { type Picture, THEME } from './kit/picture.ts';
import { axisTitle, levelText, number, shortPath } from './sweep-words.ts';
import { sweepAxes, type SweepAxis, type SweepFigure, sweepFigures, thinned } from './sweep-columns.ts';

/** Maps that are drawn, values of a parameter in a map, steps of colour. */
const MOST_MAPS = 2;
const MOST_LEVELS = 24;
const STEPS = ['#f1f2f8', '#d3d6e4', '#b3b9d2', '#939bbf', '#7680aa', '#5d6796', '#475080', '#363f6d'] as const;

interface Shown {
  readonly across: readonly number[];
  readonly up: readonly number[];
}

/** The picture of a sweep over two parameters of numbers: needs the series `rows`. */
export function sweepMap(result: Result, system: System): Picture {
  const rows = result.series['rows'] ?? {};
  const [up, across] = sweepAxes(rows, system);
  if (up === undefined || across === undefined) throw new Error('a map has two axes');
  const figures = sweepFigures(rows, system)
    .filter(({ values }) => values.some(value => !Number.isNaN(value)))
    .slice(0, MOST_MAPS);
  const shown = {
    across: thinned(across.levels, MOST_LEVELS).map(Number),
    up: thinned(up.levels, MOST_LEVELS).map(Number),
  };
  const [first] = figures;
  const valueAt = first === undefined ? () => Number.NaN : valuesOf(first, across, up, shown);
  return {
    title: `The results over ${shortPath(across.label)} and ${shortPath(up.label)}`,
    caption: caption(across, up, figures, shown),
    spec: width => spec(across, up, figures, shown, width),
    table: {
      columns: [
        `${axisTitle(up)} (down), ${axisTitle(across)} (right)`,
        ...thinned(shown.across, 10).map(level => levelText({ ...across, unit: '1' }, level)),
      ],
      rows: thinned(shown.up, 12).map(level => [
        levelText({ ...up, unit: '1' }, level),
        ...thinned(shown.across, 10).map(other => cellText(first, valueAt(other, level))),
      ]),
    },
  };
}

function cellText(figure: SweepFigure | undefined, value: number): string {
  return Number.isNaN(value) ? '–' : digits(value, decimalsFor(value, figure?.unit ?? ''));
}

/** What came out at two shown levels. */
function valuesOf(
  { values }: SweepFigure,
  across: SweepAxis,
  up: SweepAxis,
  shown: Shown,
): (x: number, y: number) => number {
  const rows = new Map(shown.up.map(y => [y, new Map<number, number>()]));
  // A sweep may have millions of rows: they are gone through once.
  for (const [row, y] of up.values.entries()) {
    const found = rows.get(Number(y));
    const x = Number(across.values[row]);
    if (found?.has(x) === false) found.set(x, values[row] ?? Number.NaN);
  }
  return (x, y) => rows.get(y)?.get(x) ?? Number.NaN;
}

function spec(across: SweepAxis, up: SweepAxis, figures: readonly SweepFigure[], shown: Shown, width: number): object {
  return {
    config: THEME,
    bounds: 'flush',
    spacing: 120,
    vconcat: figures.map(figure => view(across, up, figure, shown, width)),
    resolve: { scale: { color: 'independent' } },
  };
}

function view(across: SweepAxis, up: SweepAxis, figure: SweepFigure, shown: Shown, width: number): object {
  const narrow = width < NARROW;
  const kept = [new Set(shown.across), new Set(shown.up)] as const;
  const cells = across.values.flatMap((x, row) => {
    const [y, value] = [up.values[row], figure.values[row] ?? Number.NaN];
    if (!kept[0].has(Number(x)) || !kept[1].has(Number(y)) || Number.isNaN(value)) return [];
    return [{ x: number(Number(x)), y: number(Number(y)), value }];
  });
  const values = cells.map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const ends = cells
    .filter((_, k) => k === values.indexOf(low) || k === values.indexOf(high))
    .map(cell => ({
      ...cell,
      text: digits(cell.value, decimalsFor(cell.value, figure.unit)),
      ink: cell.value - low > (high - low) / 2 ? '#ffffff' : INK,
    }));
  const band = (axis: SweepAxis, levels: readonly number[], most: number): object => ({
    type: 'ordinal',
    sort: null,
    scale: { domain: levels.map(number), paddingInner: 0, paddingOuter: 0 },
    axis: { title: axisTitle(axis), values: thinned(levels, most).map(number), labelAngle: 0, domain: false },
  });
  const x = { field: 'x', ...band(across, shown.across, narrow ? 5 : 9) };
  const y = { field: 'y', ...band(up, shown.up.toReversed(), 7) };
  return {
    width: width - LEFT - RIGHT - 24,
    height: narrow ? 170 : 220,
    title: { text: capital(columnHeading(figure.label, figure.unit)) },
    layer: [
      {
        data: { values: cells },
        mark: { type: 'rect' },
        encoding: {
          x,
          y,
          color: {
            field: 'value',
            type: 'quantitative',
            scale: { type: 'quantize', domain: low === high ? [low, low + 1] : [low, high], range: STEPS },
            legend: {
              title: null,
              orient: 'bottom',
              direction: 'horizontal',
              gradientLength: width - LEFT - RIGHT - 60,
              format: '.4~g',
              tickCount: narrow ? 3 : 6,
            },
          },
        },
      },
      {
        data: { values: ends },
        mark: { type: 'rect', filled: false, stroke: COLOUR.grip, strokeWidth: 2 },
        encoding: { x, y },
      },
      ...['#ffffff', INK].map(color => ({
        data: { values: ends.filter(({ ink }) => ink === color) },
        mark: { type: 'text', color },
        encoding: { x, y, text: { field: 'text', type: 'nominal' } },
      })),
    ],
  };
}

function caption(across: SweepAxis, up: SweepAxis, figures: readonly SweepFigure[], shown: Shown): string {
  const thin =
    shown.across.length < across.levels.length || shown.up.length < up.levels.length
      ? ` ${shown.across.length} by ${shown.up.length} of the ${across.levels.length} by ${up.levels.length} points are drawn.`
      : '';
  const blank = figures.some(({ values }) => values.some(value => Number.isNaN(value)))
    ? ' White is where a run has no answer.'
    : '';
  return `The darker, the higher; where one colour ends and the next begins, a line of equal value runs. The lowest and the highest are framed, with their value.${thin}${blank}`;
}
