/** Figures over one parameter: a view for each figure, a line for each value of a second parameter. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading } from '../units/rounding.ts';
import { INK, LINES } from './kit/palette.ts';
import { leftAxis, lineKey, stacked } from './kit/views.ts';
import { chanceText, samplesText } from './kit/interval.ts';
import { NARROW } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import type { Picture } from './kit/picture.ts';
import { thin } from './kit/series.ts';
import { answered, sweepAxes, type SweepAxis, type SweepFigure, sweepFigures, thinned } from './sweep-columns.ts';
import { axisTitle, levelText, rowHeadings, rowTexts, shortPath } from './sweep-words.ts';

/** Views and lines that are drawn, points that are marked one by one, points of a line. */
const MOST_VIEWS = 4;
const MOST_MARKED = 40;
const MOST_POINTS = 300;
const ROWS = 12;

/** The picture of a sweep over one or two parameters: needs the series `rows`. */
export function sweepLines(result: Result, system: System): Picture {
  const rows = result.series['rows'] ?? {};
  const { across, along } = roles(sweepAxes(rows, system));
  const figures = sweepFigures(rows, system, result.series['within']).filter(answered);
  const drawn = figures.slice(0, MOST_VIEWS);
  const levels = along === null ? [] : thinned(along.levels, LINES.length);
  const axes = along === null ? [across] : [across, along];
  return {
    title: `The results over ${shortPath(across.label)}`,
    caption: `${caption(across, along, levels, figures.length - drawn.length)}${drawn.some(({ ends }) => ends !== null) ? ` The pale band: ${chanceText(result.intervals?.probability ?? 0)} lie within it; ${result.intervals === undefined ? '' : samplesText(result.intervals)}, the same draws at every point.` : ''}`,
    spec: width => spec(across, along, levels, drawn, width),
    table: {
      columns: rowHeadings(axes, figures),
      rows: thin(across.values.length, ROWS).map(row => rowTexts(axes, figures, row)),
    },
  };
}

/** The parameter to the right is one of numbers, and the one with more values; the other one makes the lines. */
function roles(axes: readonly SweepAxis[]): { readonly across: SweepAxis; readonly along: SweepAxis | null } {
  const order = axes.toSorted((a, b) => Number(b.numeric) - Number(a.numeric) || b.levels.length - a.levels.length);
  const [across, along = null] = order;
  if (across === undefined) throw new Error('a sweep has an axis');
  return { across, along };
}

function spec(
  across: SweepAxis,
  along: SweepAxis | null,
  levels: readonly (number | string)[],
  drawn: readonly SweepFigure[],
  width: number,
): object {
  const narrow = width < NARROW;
  const height = narrow ? 120 : 140;
  return stacked(
    drawn.map((figure, i) => view(across, along, levels, figure, i === drawn.length - 1, width)),
    { width, height, spacing: 44 },
  );
}

function view(
  across: SweepAxis,
  along: SweepAxis | null,
  levels: readonly (number | string)[],
  figure: SweepFigure,
  last: boolean,
  width: number,
): object {
  const lines = levels.map(level => (along === null ? '' : levelText(along, level)));
  const points = pointsOf(across, along, levels, figure);
  const marked = across.levels.length <= MOST_MARKED;
  const axis = { title: last ? axisTitle(across) : null, labels: last, tickCount: width < NARROW ? 5 : 9 };
  const x = across.numeric
    ? { field: 'x', type: 'quantitative', scale: { zero: false, nice: false, padding: 8 }, axis }
    : {
        field: 'x',
        type: 'nominal',
        sort: null,
        scale: { domain: across.levels },
        axis: { ...axis, labelAngle: 0, labelLimit: 90 },
      };
  const legend = along !== null ? { ...lineKey(lines, width), title: shortPath(along.label) } : null;
  const named = namedLines(lines, legend);
  return {
    title: { text: capital(columnHeading(figure.label, figure.unit)) },
    layer: [
      ...within(across, figure, x),
      {
        data: { values: points },
        mark: across.numeric
          ? {
              type: 'line',
              strokeWidth: 2,
              ...(along === null && { color: INK }),
              ...(marked && { point: { filled: true, size: 32, opacity: 1 } }),
            }
          : { type: 'point', filled: true, size: 70, opacity: 1, color: INK },
        encoding: {
          x,
          y: { field: 'y', type: 'quantitative', scale: { zero: false }, axis: leftAxis(4) },
          ...(along !== null && {
            color: named.color,
            ...(across.numeric && { strokeDash: named.strokeDash }),
          }),
        },
      },
    ],
  };
}

/** The band of the intervals behind a line of numbers, bars beside single points; nothing where no samples were taken. */
function within(across: SweepAxis, { ends }: SweepFigure, x: object): readonly object[] {
  if (ends === null) return [];
  const values = across.values.flatMap((at, row) => {
    const [low, high] = [ends.low[row] ?? Number.NaN, ends.high[row] ?? Number.NaN];
    return Number.isNaN(low) || Number.isNaN(high) ? [] : [{ x: at, low, high }];
  });
  const y = { field: 'low', type: 'quantitative', scale: { zero: false }, axis: leftAxis(4) };
  return [
    {
      data: { values },
      mark: across.numeric
        ? { type: 'area', color: INK, opacity: 0.16 }
        : { type: 'rule', color: INK, strokeWidth: 8, opacity: 0.22 },
      encoding: { x, y, y2: { field: 'high' } },
    },
  ];
}

/** The points of the lines that are drawn, thinned; a point without an answer leaves a gap. */
function pointsOf(
  across: SweepAxis,
  along: SweepAxis | null,
  levels: readonly (number | string)[],
  { values }: SweepFigure,
): readonly object[] {
  const kept = new Set(thinned(across.levels, MOST_POINTS));
  return across.values.flatMap((x, row) => {
    const level = along?.values[row];
    if (!kept.has(x) || (level !== undefined && !levels.includes(level))) return [];
    const y = values[row] ?? Number.NaN;
    return [
      { x, y: Number.isNaN(y) ? null : y, what: along === null || level === undefined ? '' : levelText(along, level) },
    ];
  });
}

function caption(across: SweepAxis, along: SweepAxis | null, levels: readonly unknown[], left: number): string {
  const points = `${across.levels.length} values of ${shortPath(across.label)}`;
  const lines =
    along === null
      ? ''
      : levels.length < along.levels.length
        ? `, a line for ${levels.length} of the ${along.levels.length} values of ${shortPath(along.label)}`
        : `, a line for each value of ${shortPath(along.label)}`;
  const rest = left > 0 ? ` ${left} more figures stand in the table.` : '';
  return `Worked out at ${points}${lines}; nothing is known between the points. The scales do not begin at nothing.${rest}`;
}
