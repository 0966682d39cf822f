/** What a search tried: each figure over the parameter, with the bound that it must keep and the place that was found. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading, scaleOf, written } from '../units/rounding.ts';
import { COLOUR, INK, QUIET } from './kit/palette.ts';
import { leftAxis, stacked } from './kit/views.ts';
import { NARROW } from './kit/layout.ts';
import type { Picture } from './kit/picture.ts';
import { thin } from './kit/series.ts';
import { numbers, texts } from '../runs/series.ts';
import { answered, sweepAxes, type SweepAxis, type SweepFigure, sweepFigures } from './sweep-columns.ts';
import { axisTitle, rowHeadings, rowTexts, shortPath } from './sweep-words.ts';

const ROWS = 16;

/** The picture of a search over one parameter or two: needs the series `tried` and `conditions`. The first one is drawn. */
export function seekTried(result: Result, system: System): Picture {
  const tried = result.series['tried'] ?? {};
  const axes = sweepAxes(tried, system);
  const [axis] = axes;
  if (axis === undefined) throw new Error('a search varies something');
  const figures = sweepFigures(tried, system).filter(answered);
  const what = texts(tried, 'what');
  return {
    title: 'What was tried',
    caption: caption(axes, texts(result.series['conditions'] ?? {}, 'figure').length > 0, what),
    spec: width => spec(result, axis, figures, what, system, width),
    table: {
      columns: [...rowHeadings(axes, figures), ''],
      rows: rowsShown(what).map(row => [...rowTexts(axes, figures, row), what[row] ?? '']),
    },
  };
}

/** Thinned, the row that was found among them. */
function rowsShown(what: readonly string[]): readonly number[] {
  const found = what.findIndex(word => word !== '');
  const kept = new Set([...thin(what.length, ROWS), ...(found < 0 ? [] : [found])]);
  return [...kept].toSorted((a, b) => a - b);
}

function spec(
  result: Result,
  axis: SweepAxis,
  figures: readonly SweepFigure[],
  what: readonly string[],
  system: System,
  width: number,
): object {
  const height = width < NARROW ? 110 : 130;
  return stacked(
    figures.map((figure, i) => view(result, axis, figure, what, system, i === figures.length - 1, width)),
    { width, height, spacing: 44 },
  );
}

function view(
  result: Result,
  axis: SweepAxis,
  figure: SweepFigure,
  what: readonly string[],
  system: System,
  last: boolean,
  width: number,
): object {
  const labels = { title: last ? axisTitle(axis) : null, labels: last };
  const whole = axis.numeric && axis.levels.every(Number.isInteger) && axis.levels.length <= 12;
  const x =
    axis.numeric && !whole
      ? {
          field: 'x',
          type: 'quantitative',
          scale: { zero: false, nice: false, padding: 8 },
          axis: { ...labels, tickCount: width < NARROW ? 5 : 9 },
        }
      : { field: 'x', type: 'ordinal', sort: null, scale: { domain: axis.levels }, axis: { ...labels, labelAngle: 0 } };
  const y = { field: 'y', type: 'quantitative', scale: { zero: false, nice: false, padding: 16 }, axis: leftAxis(4) };
  const dots = axis.values.flatMap((at, row) => {
    const value = figure.values[row] ?? Number.NaN;
    return Number.isNaN(value) ? [] : [{ x: at, y: value, found: what[row] !== '', size: what[row] === '' ? 40 : 150 }];
  });
  const bounds = boundsOf(result, figure.key, system);
  const found = { field: 'found', type: 'nominal', legend: null } as const;
  const domain = [true, false];
  return {
    title: { text: capital(columnHeading(figure.label, figure.unit)) },
    layer: [
      ...(bounds.length === 0
        ? []
        : [
            {
              data: { values: bounds },
              mark: { type: 'rule', color: QUIET, strokeDash: [4, 3], strokeWidth: 1.5 },
              encoding: { y },
            },
            {
              data: { values: bounds },
              mark: { type: 'text', align: 'left', baseline: 'bottom', dx: 3, dy: -2, color: QUIET },
              encoding: { x: { value: 0 }, y, text: { field: 'text', type: 'nominal' } },
            },
          ]),
      {
        // What was found lies on top.
        data: { values: dots.toSorted((a, b) => Number(a.found) - Number(b.found)) },
        mark: { type: 'point', filled: true, opacity: 1 },
        encoding: {
          x,
          y,
          color: { ...found, scale: { domain, range: [COLOUR.grip, INK] } },
          shape: { ...found, scale: { domain, range: ['diamond', 'circle'] } },
          size: { field: 'size', type: 'quantitative', scale: null, legend: null },
        },
      },
    ],
  };
}

/** The bounds on a figure in its unit of display. */
function boundsOf(
  result: Result,
  key: string,
  system: System,
): readonly { readonly y: number; readonly text: string }[] {
  const conditions = result.series['conditions'] ?? {};
  const column = result.series['tried']?.[key];
  if (column === undefined) return [];
  const { unit, factor, offset } = scaleOf(column, system);
  const bound = numbers(conditions, 'bound_si');
  const sense = texts(conditions, 'sense');
  return texts(conditions, 'figure').flatMap((name, k) => {
    const y = (bound[k] ?? Number.NaN) * factor + offset;
    return name === key ? [{ y, text: `${sense[k]} ${written(y, unit)}` }] : [];
  });
}

function caption(axes: readonly SweepAxis[], bounded: boolean, what: readonly string[]): string {
  const [axis, second] = axes;
  const word = what.find(each => each !== '') ?? 'found';
  const others = second === undefined ? '' : ` ${capital(shortPath(second.label))} differs from dot to dot.`;
  const bounds = bounded ? ' Dashed lines are what must be kept.' : '';
  return `Each dot is a point that was tried, ${what.length} in all, over ${shortPath(axis?.label ?? '')}; the diamond is what was ${word === 'found' ? 'found' : 'closest'}.${bounds}${others}`;
}
