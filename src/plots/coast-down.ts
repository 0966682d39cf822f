/** What coast-downs found: the road load over speed with its interval, and below it what the fit leaves of each run. */
import { numbers, texts } from '../runs/series.ts';
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, scaleOf, written } from '../units/rounding.ts';
import { NARROW } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { INK, QUIET } from './kit/palette.ts';
import type { Picture } from './kit/picture.ts';
import { columnOf, plainFigure, headingOf, pointsOf, shown, thin } from './kit/series.ts';
import { leftAxis, lineKey, stacked } from './kit/views.ts';

const BAND = '#c9ced6';
const WAYS = ['measured', 'as the car cell assumes', 'windows of speed'] as const;

/** Needs the series `forces`, `windows` and `residuals`. */
export function coastDownPicture(result: Result, system: System): Picture {
  return {
    title: 'The road load, and what the fit leaves',
    caption: caption(result, system),
    spec: width => spec(result, system, width),
    table: {
      columns: ['speed_m_s', 'force_N', 'low_N', 'high_N', 'before_N'].map(key =>
        headingOf(result, 'forces', key, system),
      ),
      rows: thin(numbers(result.series['forces'] ?? {}, 'speed_m_s').length, 13).map(i =>
        ['speed_m_s', 'force_N', 'low_N', 'high_N', 'before_N'].map(key => {
          const value = shown(result, 'forces', key, system)[i] ?? Number.NaN;
          return Number.isNaN(value) ? '–' : written(value, '1', 0);
        }),
      ),
    },
  };
}

function caption(result: Result, system: System): string {
  const left = plainFigure(result, 'worst_residual', system);
  return `Above: the line is the road load on the day in still air on a level road, the band holds it in 19 of 20 such days, the points are the windows of speed. Below: what was read less what was fitted, a line for each run, ${left} in the worst pair; lines that all bend alike tell of something that the three terms do not know, such as a hump of the road.`;
}

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  return stacked(
    [
      { height: narrow ? 190 : 250, ...forces(result, system, width) },
      { height: narrow ? 120 : 140, ...residuals(result, system) },
    ],
    { width, spacing: 36 },
  );
}

function across(result: Result, system: System, last: boolean): object {
  const speeds = shown(result, 'forces', 'speed_m_s', system);
  const domain = [speeds[0] ?? 0, speeds.at(-1) ?? 1];
  return {
    field: 'x',
    type: 'quantitative',
    scale: { domain, nice: false },
    axis: {
      title: last ? headingOf(result, 'forces', 'speed_m_s', system) : null,
      tickCount: 6,
      labels: last,
      ticks: last,
    },
  };
}

function forces(result: Result, system: System, width: number): object {
  const x = across(result, system, false);
  const y = { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(5) };
  const low = pointsOf(result, 'forces', 'speed_m_s', 'low_N', system);
  const high = pointsOf(result, 'forces', 'speed_m_s', 'high_N', system);
  const band = low.map((point, i) => ({ x: point.x, y: point.y, y2: high[i]?.y ?? point.y }));
  const named = (what: string, key: string, series = 'forces'): object[] =>
    pointsOf(result, series, 'speed_m_s', key, system).map(point => ({ ...point, what }));
  const lines = [...named(WAYS[0], 'force_N'), ...named(WAYS[1], 'before_N')];
  const names = [WAYS[0], WAYS[1]];
  return {
    title: { text: columnHeading('Road load', scaleOf(columnOf(result, 'forces', 'force_N'), system).unit) },
    layer: [
      { data: { values: band }, mark: { type: 'area', color: BAND }, encoding: { x, y, y2: { field: 'y2' } } },
      {
        data: { values: lines },
        mark: { type: 'line', strokeWidth: 2 },
        encoding: {
          x,
          y,
          ...namedLines(names, lineKey(names, width)),
        },
      },
      {
        data: { values: named(WAYS[2], 'force_N', 'windows') },
        mark: { type: 'point', filled: true, size: 40, color: INK },
        encoding: { x, y },
      },
    ],
  };
}

function residuals(result: Result, system: System): object {
  const run = texts(result.series['residuals'] ?? {}, 'run');
  const [speed, off] = ['speed_m_s', 'residual_m_s'].map(key => shown(result, 'residuals', key, system));
  const values = run.map((what, i) => ({ x: speed?.[i] ?? 0, y: off?.[i] ?? 0, what }));
  return {
    title: {
      text: columnHeading('Read less fitted', scaleOf(columnOf(result, 'residuals', 'residual_m_s'), system).unit),
    },
    data: { values },
    mark: { type: 'line', color: QUIET, strokeWidth: 1, opacity: 0.8, clip: true },
    encoding: {
      x: across(result, system, true),
      y: { field: 'y', type: 'quantitative', axis: leftAxis(4) },
      detail: { field: 'what', type: 'nominal' },
    },
  };
}
