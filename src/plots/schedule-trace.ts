/** What the schedule asks for and what the car drives, over time, with what holds it back where it can not follow. */
import { LIMITER_MEANING } from '../model/forward/limiter.ts';
import type { Band, Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { cutBands, shares } from './kit/bands.ts';
import { duration } from './kit/duration.ts';
import { capital, columnHeading, figure, scaleOf, written } from '../units/rounding.ts';
import { simplify } from './kit/simplify.ts';
import { COLOUR, INK, INK_ON, LINES, SIGN } from './kit/palette.ts';
import { CHARACTER, NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { leftAxis, lineKey, stripWords } from './kit/views.ts';
import { pictureOf, type PictureTable, THEME } from './kit/picture.ts';
import { columnOf, shown, summaryNumber, thin } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

const ROWS = 16;
const ASKED = 'asked for';
const DRIVEN = 'driven';
/** m/s between the two speeds that can be seen. */
const VISIBLE = 0.1;

/** The picture of a drive: needs the series `time` and the bands. */
export const scheduleTrace = pictureOf('The schedule and the car', { caption, spec, table });

/** The stretches in which the car could not follow. */
function heldBack(result: Result): readonly Band[] {
  return cutBands(result.bands, Infinity).filter(({ limiter }) => limiter !== 'driver');
}

/** Minutes or hours; a drive of a day is not read in minutes. */
function clock(result: Result): { readonly unit: 'min' | 'h'; readonly factor: number } {
  const end = numbers(result.series['time'] ?? {}, 'time_s').at(-1) ?? 0;
  return end > 3 * 3600 ? { unit: 'h', factor: 1 / 3600 } : { unit: 'min', factor: 1 / 60 };
}

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  const across = plotWidth(width);
  const { unit, factor } = clock(result);
  const seconds = numbers(result.series['time'] ?? {}, 'time_s');
  const end = (seconds.at(-1) ?? 1) * factor;
  const held = heldBack(result);
  const behind = fallsBehind(result);
  const lines = (behind ? [ASKED, DRIVEN] : [DRIVEN]).map(what => ({
    what,
    key: what === ASKED ? 'schedule_speed_m_s' : 'speed_m_s',
  }));
  const values = lines.flatMap(({ what, key }) => {
    const speed = shown(result, 'time', key, system);
    const points = Array.from(speed, (y, i) => ({ x: (seconds[i] ?? 0) * factor, y }));
    return simplify(points, narrow ? 700 : 1500).map(point => ({ ...point, what }));
  });
  const labels = lines.map(({ what }) => what);
  const looks = behind ? [LINES[1], LINES[0]] : [{ colour: INK, dash: [1, 0] }];
  const x = (axis: object | null): object => ({
    field: 'x',
    type: 'quantitative',
    scale: { domain: [0, end], nice: false },
    axis,
  });
  const column = columnOf(result, 'time', 'speed_m_s');
  return {
    config: THEME,
    bounds: 'flush',
    spacing: 26,
    resolve: {
      legend: { color: 'independent', strokeDash: 'independent' },
      scale: { color: 'independent', strokeDash: 'independent' },
    },
    vconcat: [
      ...(held.length === 0 ? [] : [strip(held, factor, end, across)]),
      {
        width: across,
        height: narrow ? 170 : 210,
        title: { text: columnHeading(capital(column.label), scaleOf(column, system).unit) },
        data: { values },
        mark: { type: 'line', strokeWidth: behind ? 1.5 : 1.25, clip: true },
        encoding: {
          x: x({ title: `time of driving, ${unit}`, tickCount: narrow ? 5 : 10 }),
          y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(6) },
          ...namedLines(labels, behind ? lineKey(labels, width) : null, looks),
        },
      },
    ],
  };
}

/** Coloured only where the car is held back; a stretch of seconds is widened to what can be seen. */
function strip(held: readonly Band[], factor: number, end: number, across: number): object {
  const height = 20;
  const segments = held.map(({ from, to, limiter }) => {
    const room = (((to - from) * factor) / end) * across;
    const word = room > limiter.length * CHARACTER + 6 ? limiter : room > 12 ? SIGN[limiter] : '';
    return {
      from: from * factor,
      to: to * factor,
      middle: ((from + to) / 2) * factor,
      fill: COLOUR[limiter],
      ink: INK_ON[limiter],
      word,
    };
  });
  const x = { field: 'from', type: 'quantitative', scale: { domain: [0, end], nice: false }, axis: null };
  return {
    width: across,
    height,
    view: { fill: COLOUR.driver, stroke: null },
    data: { values: segments },
    layer: [
      {
        mark: { type: 'rect', strokeWidth: 1.5, clip: true },
        encoding: {
          x,
          x2: { field: 'to' },
          fill: { field: 'fill', type: 'nominal', scale: null },
          stroke: { field: 'fill', type: 'nominal', scale: null },
        },
      },
      stripWords(x, height),
    ],
  };
}

/** Whether the two lines part anywhere, as far as an eye can tell. */
function fallsBehind(result: Result): boolean {
  const series = result.series['time'] ?? {};
  const asked = numbers(series, 'schedule_speed_m_s');
  return numbers(series, 'speed_m_s').some((speed, i) => (asked[i] ?? 0) - speed > VISIBLE);
}

function caption(result: Result, system: System): string {
  const output = result.outputs['max_speed'];
  const most = summaryNumber(result, 'max_speed');
  const fastest = most === null || output === undefined ? '' : ` It gets to ${figure(most, output, system)}.`;
  const held = heldBack(result);
  if (held.length === 0) return `The car follows the schedule all the way.${fastest}`;
  // Of all bands: without those in between, two stretches of one limiter would count as one.
  const told = shares(result.bands, Infinity)
    .filter(({ limiter }) => limiter !== 'driver')
    .map(({ limiter, time }) => `${SIGN[limiter]}, ${limiter}, ${duration(time)}: ${LIMITER_MEANING[limiter]}.`);
  const late = summaryNumber(result, 'time_too_slow') ?? 0;
  const slow =
    late > 0
      ? `For ${duration(late)} it is more than 2\u00a0km/h too slow.`
      : 'It stays within 2\u00a0km/h of the schedule.';
  return `Where the strip is coloured the car can not do what the schedule asks; elsewhere it follows. ${told.join(' ')} ${slow}${fastest}`;
}

function table(result: Result, system: System): PictureTable {
  const { unit, factor } = clock(result);
  const seconds = numbers(result.series['time'] ?? {}, 'time_s');
  const keys = ['distance_m', 'schedule_speed_m_s', 'speed_m_s'];
  const columns = keys.map(key => shown(result, 'time', key, system));
  const limiter = result.series['time']?.['limiter']?.values;
  return {
    columns: [
      `time of driving, ${unit}`,
      ...keys.map(key => {
        const column = columnOf(result, 'time', key);
        return columnHeading(column.label, scaleOf(column, system).unit);
      }),
      'held back by',
    ],
    rows: thin(seconds.length, ROWS).map(i => [
      written((seconds[i] ?? 0) * factor, '1', unit === 'h' ? 2 : 1),
      ...columns.map(values => written(values[i] ?? 0, '1', 1)),
      limiter instanceof Float64Array || limiter?.[i] === 'driver' ? '' : (limiter?.[i] ?? ''),
    ]),
  };
}
