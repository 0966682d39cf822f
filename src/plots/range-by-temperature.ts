/** Range over the temperature of the air. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { figure, scaleOf, written } from '../units/rounding.ts';
import { barText, endsShown, type EndsShown, uprightBar } from './kit/ends-marks.ts';
import { COLOUR, INK, QUIET } from './kit/palette.ts';
import { leftAxis } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { pictureOf, type PictureTable, THEME } from './kit/picture.ts';
import { columnOf, headingOf, pointsOf, shown, summaryNumber } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

/** The picture of a range with a curve over temperature: needs the series `temperature`. */
export const rangeByTemperature = pictureOf('Range in every season', { caption, spec, table });

function spec(result: Result, system: System, width: number): object {
  const points = pointsOf(result, 'temperature', 'temperature_K', 'range_m', system);
  const temperatures = shown(result, 'temperature', 'temperature_K', system);
  const values = points.map(point => ({ ...point, text: written(point.y, '1', 0) }));
  const day = today(result, system)?.x ?? Number.NaN;
  const reach = (HALF / plotWidth(width)) * ((temperatures.at(-1) ?? 1) - (temperatures[0] ?? 0));
  const x = {
    field: 'x',
    type: 'quantitative',
    scale: { domain: [temperatures[0] ?? 0, temperatures.at(-1) ?? 1], nice: false, padding: 14 },
    axis: { title: headingOf(result, 'temperature', 'temperature_K', system).replace(/^T/, 't'), tickCount: 8 },
  };
  const most = Math.max(
    ...points.map(point => point.y),
    today(result, system)?.y ?? 0,
    todayEnds(result, system)?.high ?? 0,
  );
  const y = { field: 'y', type: 'quantitative', scale: { domain: [0, 1.15 * most], nice: false }, axis: leftAxis(5) };
  return {
    config: THEME,
    width: plotWidth(width),
    height: width < NARROW ? 180 : 210,
    title: { text: headingOf(result, 'temperature', 'range_m', system) },
    layer: [
      ...lineOfDay(result, system, x),
      {
        data: { values },
        mark: {
          type: 'line',
          color: INK,
          strokeWidth: 2,
          interpolate: 'monotone',
          point: { filled: true, size: 45, color: INK },
        },
        encoding: { x, y },
      },
      ...SIDES.map(({ side, ...where }) => ({
        data: { values: values.filter((point, i) => sideOf(point.x - day, reach, i === 0) === side) },
        mark: { type: 'text', baseline: 'bottom', dy: -7, color: INK, ...where },
        encoding: { x, y, text: { field: 'text', type: 'nominal' } },
      })),
    ],
  };
}

/** On which side of its point a number stands: beside the line of the cell where that would cross it. */
const SIDES = [
  { side: 'above' },
  { side: 'left', align: 'right', dx: -5 },
  { side: 'right', align: 'left', dx: 5 },
] as const;

/** px from the middle of a number to its end, and some air. */
const HALF = 16;

/** @param off of the line of the cell, and `reach` from which on a number is clear of it, both in the unit of display. */
function sideOf(off: number, reach: number, first: boolean): (typeof SIDES)[number]['side'] {
  if (!(Math.abs(off) < reach)) return 'above';
  // Left of the first number stands the axis.
  return off > 0 || first ? 'right' : 'left';
}

/** The temperature and the range of the cell itself. */
function today(result: Result, system: System): { readonly x: number; readonly y: number } | null {
  const [temperature, range] = [summaryNumber(result, 'air_temperature'), summaryNumber(result, 'range')];
  if (temperature === null || range === null) return null;
  const at = (value: number, key: string): number => {
    const { factor, offset } = scaleOf(columnOf(result, 'temperature', key), system);
    return value * factor + offset;
  };
  return { x: at(temperature, 'temperature_K'), y: at(range, 'range_m') };
}

function todayEnds(result: Result, system: System): EndsShown | null {
  return endsShown(result, 'range', columnOf(result, 'temperature', 'range_m'), system);
}

/** A line at the temperature of the cell, with the interval of its range. */
function lineOfDay(result: Result, system: System, x: object): readonly object[] {
  const point = today(result, system);
  const temperatures = shown(result, 'temperature', 'temperature_K', system);
  if (point === null || point.x < (temperatures[0] ?? 0) || point.x > (temperatures.at(-1) ?? 0)) return [];
  return [
    {
      data: { values: [point] },
      mark: { type: 'rule', color: COLOUR.grip, strokeDash: [4, 3], strokeWidth: 1.5 },
      encoding: { x },
    },
    ...uprightBar(todayEnds(result, system), point.x, x),
    {
      data: { values: [{ ...point, text: 'this cell' }] },
      mark: { type: 'text', align: 'left', baseline: 'bottom', dx: 5, color: QUIET },
      encoding: { x, y: { value: 'height' }, text: { field: 'text', type: 'nominal' } },
    },
  ];
}

function caption(result: Result, system: System): string {
  const series = result.series['temperature'] ?? {};
  const [temperature, range] = [numbers(series, 'temperature_K'), numbers(series, 'range_m')];
  const rows = Array.from(range, (far, i) => ({ far, at: temperature[i] ?? 0 })).filter(
    ({ far }) => !Number.isNaN(far),
  );
  const far = (row: { far: number; at: number }): string =>
    `${figure(row.far, columnOf(result, 'temperature', 'range_m'), system)} at ${figure(row.at, columnOf(result, 'temperature', 'temperature_K'), system, 0)}`;
  if (rows.length === 0) return 'At none of these temperatures does the car get anywhere.';
  const best = rows.reduce((a, b) => (b.far > a.far ? b : a));
  const worst = rows.reduce((a, b) => (b.far < a.far ? b : a));
  const at = summaryNumber(result, 'air_temperature') ?? Number.NaN;
  const drawn =
    at >= Math.min(...temperature) && at <= Math.max(...temperature) && result.intervals?.of['range'] !== undefined;
  const none = Array.from(range).some(Number.isNaN) ? ' Where there is no point the car can not begin.' : '';
  return `Farthest, ${far(best)}; least, ${far(worst)}, which is ${written((100 * worst.far) / best.far, '%', 0)} of it. The same trip over and over, the car soaked in that air before it starts: denser air, stiffer tyres, a colder pack and the heating or cooling that the car has.${none}${barText(result, drawn, 'have a range')}`;
}

function table(result: Result, system: System): PictureTable {
  const [temperature, range] = ['temperature_K', 'range_m'].map(key => shown(result, 'temperature', key, system));
  return {
    columns: ['temperature_K', 'range_m'].map(key => headingOf(result, 'temperature', key, system)),
    rows: Array.from(temperature ?? [], (at, i) => {
      const far = range?.[i] ?? Number.NaN;
      return [written(at, '1', 0), Number.isNaN(far) ? 'none' : written(far, '1', 0)];
    }),
  };
}
