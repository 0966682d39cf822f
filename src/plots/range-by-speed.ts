/** Range over steady speed, with the consumption below it. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { figure, scaleOf, written } from '../units/rounding.ts';
import { barText, endsShown, uprightBar } from './kit/ends-marks.ts';
import { INK, LINES } from './kit/palette.ts';
import { leftAxis, lineKey, sharedAxis, stacked } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { pictureOf, type PictureTable } from './kit/picture.ts';
import { columnOf, plainFigure, headingOf, pointsOf, shown, summaryNumber } from './kit/series.ts';

const KEYS = ['speed_m_s', 'range_m', 'consumption_J_m', 'consumption_wall_J_m'] as const;

/** The picture of a steady run: needs the series `speed`. */
export const rangeBySpeed = pictureOf('Range at a steady speed', { caption, spec, table });

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  const speeds = shown(result, 'speed', 'speed_m_s', system);
  const title = headingOf(result, 'speed', 'speed_m_s', system).toLowerCase();
  const x = sharedAxis(speeds.at(-1) ?? 1, title, narrow ? 6 : 10);
  return stacked(
    [
      {
        height: narrow ? 160 : 190,
        title: { text: headingOf(result, 'speed', 'range_m', system) },
        layer: [
          {
            data: { values: pointsOf(result, 'speed', 'speed_m_s', 'range_m', system) },
            mark: {
              type: 'line',
              color: INK,
              strokeWidth: 2,
              interpolate: 'monotone',
              point: { filled: true, size: 35, color: INK },
            },
            encoding: {
              x: x(false),
              y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(5) },
            },
          },
          ...asked(result, system, x(false), plotWidth(width)),
        ],
      },
      { height: narrow ? 120 : 140, ...consumption(result, system, x(true), width) },
    ],
    { width, spacing: 36 },
  );
}

/** The speed that the cell asks about, with its range. */
function asked(result: Result, system: System, x: object, across: number): readonly object[] {
  const [speed, range] = [summaryNumber(result, 'speed'), summaryNumber(result, 'range')];
  const [speedOutput, rangeOutput] = [result.outputs['speed'], result.outputs['range']];
  if (speed === null || range === null || speedOutput === undefined || rangeOutput === undefined) return [];
  const at = (value: number, key: 'speed_m_s' | 'range_m'): number => {
    const { factor, offset } = scaleOf(columnOf(result, 'speed', key), system);
    return value * factor + offset;
  };
  const end = shown(result, 'speed', 'speed_m_s', system).at(-1) ?? 1;
  const point = { x: at(speed, 'speed_m_s'), y: at(range, 'range_m') };
  if (point.x > end) return [];
  const late = (point.x / end) * across > across - 150;
  const values = [{ ...point, text: `${figure(range, rangeOutput, system)} at ${figure(speed, speedOutput, system)}` }];
  const encoding = { x, y: { field: 'y', type: 'quantitative' } };
  return [
    ...uprightBar(endsShown(result, 'range', columnOf(result, 'speed', 'range_m'), system), point.x, x),
    {
      data: { values },
      layer: [
        { mark: { type: 'point', filled: false, size: 130, strokeWidth: 2, color: LINES[1]?.colour }, encoding },
        {
          mark: {
            type: 'text',
            fontWeight: 600,
            color: INK,
            align: late ? 'right' : 'left',
            baseline: late ? 'top' : 'bottom',
            dx: late ? -8 : 9,
            dy: late ? 6 : -6,
          },
          encoding: { ...encoding, text: { field: 'text', type: 'nominal' } },
        },
      ],
    },
  ];
}

function consumption(result: Result, system: System, x: object, width: number): object {
  const keys = ['consumption_J_m', 'consumption_wall_J_m'] as const;
  const values = keys.flatMap((key, i) =>
    pointsOf(result, 'speed', 'speed_m_s', key, system).map(point => ({ ...point, what: PLACES[i] })),
  );
  const labels = PLACES.filter(place => values.some(({ what }) => what === place));
  const { unit } = scaleOf(columnOf(result, 'speed', 'consumption_J_m'), system);
  return {
    title: { text: `Consumption, ${unit}` },
    data: { values },
    mark: { type: 'line', strokeWidth: 2.25, interpolate: 'monotone' },
    encoding: {
      x,
      y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(4) },
      ...namedLines(labels, lineKey(labels, width)),
    },
  };
}

const PLACES = ['at the pack', 'at the wall'] as const;

function caption(result: Result, system: System): string {
  const told = (key: string): string => plainFigure(result, key, system);
  const ranges = shown(result, 'speed', 'range_m', system);
  const missing = Array.from(shown(result, 'speed', 'speed_m_s', system)).filter((_, i) => Number.isNaN(ranges[i]));
  const { unit } = scaleOf(columnOf(result, 'speed', 'speed_m_s'), system);
  const first = missing[0];
  const end = shown(result, 'speed', 'speed_m_s', system).at(-1) ?? 0;
  const { factor } = scaleOf(columnOf(result, 'speed', 'speed_m_s'), system);
  const drawn =
    (summaryNumber(result, 'speed') ?? Infinity) * factor <= end && result.intervals?.of['range'] !== undefined;
  const not =
    first === undefined ? '' : ` From ${written(first, unit, 0)} on the car does not hold the speed to the end.`;
  return `${told('range')} at ${told('speed')}; of the speeds drawn it goes farthest at ${told('farthest_speed')}, ${told('farthest')}. Level road, the wind and weather of the cell, no stops: traffic costs more.${not}${barText(result, drawn, 'have a range')}`;
}

function table(result: Result, system: System): PictureTable {
  const columns = KEYS.map(key => shown(result, 'speed', key, system));
  return {
    columns: KEYS.map(key => headingOf(result, 'speed', key, system)),
    rows: Array.from(columns[0] ?? [], (_, row) =>
      columns.map(values => {
        const value = values[row] ?? Number.NaN;
        return Number.isNaN(value) ? 'not held' : written(value, '1', 0);
      }),
    ),
  };
}
