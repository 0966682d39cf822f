/** A charge over time: power, current, voltage and state of charge above each other. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { duration } from './kit/duration.ts';
import { columnHeading, scaleOf, written } from '../units/rounding.ts';
import { barText, endsShown, type EndsShown, lyingBar } from './kit/ends-marks.ts';
import { simplify } from './kit/simplify.ts';
import { INK, QUIET } from './kit/palette.ts';
import { leftAxis, lineKey, sharedAxis, stacked } from './kit/views.ts';
import { NARROW } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { pictureOf, type PictureTable } from './kit/picture.ts';
import { columnOf, plainFigure, headingOf, shown, summaryNumber, thin } from './kit/series.ts';
import { numbers, texts } from '../runs/series.ts';

const ROWS = 12;
const POWERS = ['wall_power_W', 'pack_power_W'] as const;
/** What has a view of its own below the powers. */
const BELOW = ['charge_current_A', 'pack_voltage_V', 'charge_1'] as const;
const TABLE = ['time_s', 'wall_power_W', ...BELOW] as const;
/** Views that begin at nothing. */
const FROM_ZERO = new Set<string>(['charge_current_A', 'charge_1']);

/** The picture of a charge: needs the series `time`. */
export const chargeTraces = pictureOf('The charge', { caption, spec, table });

function points(result: Result, key: string, system: System): readonly { readonly x: number; readonly y: number }[] {
  const time = shown(result, 'time', 'time_s', system);
  return simplify(Array.from(shown(result, 'time', key, system), (y, i) => ({ x: time[i] ?? 0, y })));
}

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  const views = temperatureMoves(result) ? [...BELOW, 'pack_temperature_K'] : BELOW;
  const end = Math.max(shown(result, 'time', 'time_s', system).at(-1) ?? 1, timeEnds(result, system)?.high ?? 0);
  const x = sharedAxis(end, 'time since plugging in, h', narrow ? 5 : 10);
  return stacked(
    [
      powers(result, system, x(false), width),
      ...views.map((key, i) => single(result, key, system, x(i === views.length - 1))),
    ],
    { width, height: narrow ? 95 : 110, spacing: 36 },
  );
}

function powers(result: Result, system: System, x: object, width: number): object {
  const labels = POWERS.map(key => columnOf(result, 'time', key).label);
  const values = POWERS.flatMap(key =>
    points(result, key, system).map(point => ({ ...point, what: columnOf(result, 'time', key).label })),
  );
  return {
    title: { text: columnHeading('Power', scaleOf(columnOf(result, 'time', 'wall_power_W'), system).unit) },
    layer: [
      {
        data: { values },
        mark: { type: 'line', strokeWidth: 2.25 },
        encoding: {
          x,
          y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(4) },
          ...namedLines(labels, { ...lineKey(labels, width), orient: 'top' }),
        },
      },
      ...taper(result, system, x),
    ],
  };
}

function single(result: Result, key: string, system: System, x: object): object {
  return {
    title: { text: headingOf(result, 'time', key, system) },
    layer: [
      {
        data: { values: points(result, key, system) },
        mark: { type: 'line', color: INK, strokeWidth: 2 },
        encoding: {
          x,
          y: { field: 'y', type: 'quantitative', scale: { zero: FROM_ZERO.has(key) }, axis: leftAxis(4) },
        },
      },
      ...(key === 'charge_1'
        ? lyingBar(timeEnds(result, system), shown(result, 'time', key, system).at(-1) ?? 0, x)
        : []),
      ...taper(result, system, x),
    ],
  };
}

/** How long it may take. */
function timeEnds(result: Result, system: System): EndsShown | null {
  return endsShown(result, 'time', columnOf(result, 'time', 'time_s'), system);
}

/** A line where the taper begins; nothing where there is none. */
function taper(result: Result, system: System, x: object): readonly object[] {
  const time = summaryNumber(result, 'taper_time');
  if (time === null) return [];
  const { factor } = scaleOf(columnOf(result, 'time', 'time_s'), system);
  return [
    {
      data: { values: [{ x: time * factor }] },
      mark: { type: 'rule', color: QUIET, strokeDash: [3, 3] },
      encoding: { x },
    },
  ];
}

function temperatureMoves(result: Result): boolean {
  const values = numbers(result.series['time'] ?? {}, 'pack_temperature_K');
  return values.some(value => Math.abs(value - (values[0] ?? value)) > 0.5);
}

function caption(result: Result, system: System): string {
  const told = (key: string): string => plainFigure(result, key, system);
  const taper = summaryNumber(result, 'taper_time');
  const end =
    taper === null
      ? 'The pack does not get to its highest voltage: nothing tapers.'
      : `The dashed line is where the pack gets to its highest voltage, after ${duration(taper)}: from there on the current falls.`;
  return `From the wall ${told('peak_power')} at most, ${told('mean_power')} on average. ${end}${barText(result, result.intervals?.of['time'] !== undefined, 'are done')}`;
}

function table(result: Result, system: System): PictureTable {
  const series = result.series['time'] ?? {};
  const columns = TABLE.map(key => shown(result, 'time', key, system));
  const pace = texts(series, 'pace');
  return {
    columns: [...TABLE.map(key => headingOf(result, 'time', key, system)), 'paced by'],
    rows: thin(pace.length, ROWS).map(row => [
      ...columns.map((values, i) => written(values[row] ?? 0, '1', TABLE[i] === 'charge_1' ? 0 : i < 2 ? 2 : 1)),
      pace[row] ?? '',
    ]),
  };
}
