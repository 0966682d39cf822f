/** A coast-down over time: speed, and below it what slows the car. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, scaleOf, written } from '../units/rounding.ts';
import { INK } from './kit/palette.ts';
import { leftAxis, lineKey, sharedAxis, stacked } from './kit/views.ts';
import { NARROW } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { pictureOf, type PictureTable } from './kit/picture.ts';
import { columnOf, plainFigure, headingOf, pointsOf, shown } from './kit/series.ts';
import { simplify } from './kit/simplify.ts';
import { numbers } from '../runs/series.ts';

const FORCES = ['drag_N', 'rolling_N', 'slope_N', 'drive_N'] as const;
const MARKS = ['speed_m_s', 'time_s', 'distance_m'] as const;

/** The picture of a coast-down: needs the series `time` and `marks`. */
export const coastTraces = pictureOf('The coast-down', { caption, spec, table });

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  const end = shown(result, 'time', 'time_s', system).at(-1) ?? 1;
  const x = sharedAxis(end, 'time since the foot came off, s', narrow ? 5 : 10);
  return stacked(
    [
      {
        height: narrow ? 150 : 180,
        title: { text: headingOf(result, 'time', 'speed_m_s', system) },
        data: { values: simplify(pointsOf(result, 'time', 'time_s', 'speed_m_s', system)) },
        mark: { type: 'line', color: INK, strokeWidth: 2.25 },
        encoding: { x: x(false), y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(5) } },
      },
      { height: narrow ? 130 : 150, ...forces(result, system, x(true), width) },
    ],
    { width, spacing: 36 },
  );
}

/** Those that are nothing all the way are left out. */
function forces(result: Result, system: System, x: object, width: number): object {
  const keys = FORCES.filter(key => numbers(result.series['time'] ?? {}, key).some(value => Math.abs(value) > LEAST));
  const labels = keys.map(key => columnOf(result, 'time', key).label);
  const values = keys.flatMap((key, i) =>
    simplify(pointsOf(result, 'time', 'time_s', key, system)).map(point => ({ ...point, what: labels[i] })),
  );
  return {
    title: { text: columnHeading('What slows the car', scaleOf(columnOf(result, 'time', 'drag_N'), system).unit) },
    data: { values },
    mark: { type: 'line', strokeWidth: 2.25 },
    encoding: {
      x,
      y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(4) },
      ...namedLines(labels, lineKey(labels, width)),
    },
  };
}

/** N that are not worth a line. */
const LEAST = 0.05;

function caption(result: Result, system: System): string {
  const told = (key: string): string => plainFigure(result, key, system);
  return `${told('force_start')} at the start, ${told('force_end')} at the end. A force below nothing pushes the car along. The friction brakes do nothing.`;
}

function table(result: Result, system: System): PictureTable {
  const columns = MARKS.map(key => shown(result, 'marks', key, system));
  return {
    columns: MARKS.map(key => headingOf(result, 'marks', key, system)),
    rows: Array.from(columns[0] ?? [], (_, row) =>
      columns.map((values, i) => written(values[row] ?? 0, '1', i === 1 ? 2 : 1)),
    ),
  };
}
