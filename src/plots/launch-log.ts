/** Launches that were logged beside what is modelled, what holds the car back, and what the fit leaves. */
import { numbers } from '../runs/series.ts';
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, scaleOf, written } from '../units/rounding.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { INK, LINES, QUIET } from './kit/palette.ts';
import type { Picture } from './kit/picture.ts';
import { columnOf, plainFigure, headingOf, pointsOf, shown, thin } from './kit/series.ts';
import { simplify } from './kit/simplify.ts';
import { leftAxis, lineKey, sharedAxis, stackedUnderKey } from './kit/views.ts';
import { strip } from './speed-trace.ts';

const WAYS = ['with what was measured', 'as the car cell assumes'] as const;
/** Rows that are drawn as points. */
const MOST_POINTS = 400;

/** Needs the series `read`, `after` and `before`. */
export function launchLogPicture(result: Result, system: System): Picture {
  const end = shown(result, 'read', 'time_s', system).reduce((a, b) => Math.max(a, b), 1);
  return {
    title: 'Read and modelled',
    caption: caption(result, system),
    spec: width => spec(result, system, end, width),
    table: {
      columns: ['time_s', 'speed_m_s', 'residual_m_s'].map(key => headingOf(result, 'read', key, system)),
      rows: thin(numbers(result.series['read'] ?? {}, 'time_s').length, 16).map(i =>
        ['time_s', 'speed_m_s', 'residual_m_s'].map(key => written(shown(result, 'read', key, system)[i] ?? 0, '1', 2)),
      ),
    },
  };
}

function caption(result: Result, system: System): string {
  const left = plainFigure(result, 'residual', system);
  return `Points: speeds as they were read, with the time zero that the fit found for each log. The strip says what holds the car back with what was measured.${bus(result)} Below: read less fitted, ${left} in the root of the mean square; a wave in it tells of something that the model does not know, such as a change of slope.`;
}

function bus({ series, summary }: Result): string {
  const told = [
    ...(series['read_power'] === undefined ? [] : ['the power of the pack']),
    ...(series['read_wheel'] === undefined ? [] : ['the speed of the driven wheels']),
  ];
  if (told.length === 0) return '';
  const late = summary['bus_late'];
  const behind = typeof late === 'number' ? `, taken ${written(late, 's', 2)} earlier than it was written` : '';
  return ` Then ${told.join(' and ')} as the bus of the car tells it${behind}.`;
}

function spec(result: Result, system: System, end: number, width: number): object {
  const narrow = width < NARROW;
  const across = plotWidth(width);
  const x = sharedAxis(end, 'time since the pedal went down, s', narrow ? 5 : 10);
  return stackedUnderKey(
    [
      { height: narrow ? 180 : 230, ...speeds(result, system, x(false), width) },
      strip(result, end, across, 24),
      ...beside(result, system, x(false), narrow),
      { height: narrow ? 90 : 110, ...residuals(result, system, x(true)) },
    ],
    width,
  );
}

function speeds(result: Result, system: System, x: object, width: number): object {
  const y = { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(5) };
  const all = pointsOf(result, 'read', 'time_s', 'speed_m_s', system);
  const points = thin(all.length, MOST_POINTS).map(i => all[i]);
  const values = (['after', 'before'] as const).flatMap((series, i) =>
    simplify(pointsOf(result, series, 'time_s', 'speed_m_s', system)).map(point => ({ ...point, what: WAYS[i] })),
  );
  return {
    title: { text: columnHeading('Speed', scaleOf(columnOf(result, 'read', 'speed_m_s'), system).unit) },
    layer: [
      {
        data: { values: points },
        mark: { type: 'point', filled: true, size: 14, color: INK, opacity: 0.6, clip: true },
        encoding: { x, y },
      },
      {
        data: { values },
        mark: { type: 'line', strokeWidth: 2, clip: true },
        encoding: {
          x,
          y,
          ...namedLines(WAYS, lineKey(WAYS, width)),
        },
      },
    ],
  };
}

/** What the bus told: a view each. */
function beside(result: Result, system: System, x: object, narrow: boolean): readonly object[] {
  return (
    [
      ['read_power', 'power_W', 'Power of the pack'],
      ['read_wheel', 'wheel_m_s', 'Speed of the driven wheels'],
    ] as const
  ).flatMap(([read, key, title]) => {
    if (result.series[read] === undefined) return [];
    const all = pointsOf(result, read, 'time_s', key, system);
    const y = { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(narrow ? 3 : 4) };
    const line = (series: 'after' | 'before', i: number): object => ({
      data: { values: simplify(pointsOf(result, series, 'time_s', key, system)) },
      mark: { type: 'line', strokeWidth: 2, clip: true, color: LINES[i]?.colour, strokeDash: LINES[i]?.dash },
      encoding: { x, y },
    });
    return [
      {
        height: narrow ? 90 : 120,
        title: { text: columnHeading(title, scaleOf(columnOf(result, read, key), system).unit) },
        layer: [
          {
            data: { values: thin(all.length, MOST_POINTS).map(i => all[i]) },
            mark: { type: 'point', filled: true, size: 12, color: INK, opacity: 0.6, clip: true },
            encoding: { x, y },
          },
          line('after', 0),
          line('before', 1),
        ],
      },
    ];
  });
}

function residuals(result: Result, system: System, x: object): object {
  const all = pointsOf(result, 'read', 'time_s', 'residual_m_s', system);
  return {
    title: { text: columnHeading('Read less fitted', scaleOf(columnOf(result, 'read', 'residual_m_s'), system).unit) },
    data: { values: thin(all.length, MOST_POINTS).map(i => all[i]) },
    mark: { type: 'point', filled: true, size: 12, color: QUIET, clip: true },
    encoding: { x, y: { field: 'y', type: 'quantitative', axis: leftAxis(3) } },
  };
}
