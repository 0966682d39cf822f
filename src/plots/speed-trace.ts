/** Speed and acceleration over time, with the limiter as a strip between them. */
import { LIMITER_MEANING } from '../model/forward/limiter.ts';
import type { Result } from '../runs/result.ts';
import { type System, toDisplay } from '../units.ts';
import { cutBands, shares } from './kit/bands.ts';
import { timeBars, timeBarsLayer } from './kit/ends-marks.ts';
import { chanceText } from './kit/interval.ts';
import { capital, columnHeading, figure, scaleOf, written } from '../units/rounding.ts';
import { simplify } from './kit/simplify.ts';
import { COLOUR, INK, INK_ON, PAPER, SIGN } from './kit/palette.ts';
import { CHARACTER, LEFT, NARROW, plotWidth } from './kit/layout.ts';
import { leftAxis, stripWords } from './kit/views.ts';
import { type Picture, type PictureTable, THEME } from './kit/picture.ts';
import { span, summaryNumber, thin } from './kit/series.ts';
import { TARGET } from '../runs/launch/run.ts';
import { numbers } from '../runs/series.ts';

const ROWS = 16;

/** The picture of a launch: needs the series `time` and the bands. */
export function speedTrace(result: Result, system: System): Picture {
  const end = span(result);
  return {
    title: 'Speed, acceleration and what holds the car back',
    caption: caption(result, system, end),
    spec: width => spec(result, system, end, width),
    table: table(result, system, end),
  };
}

/** The strip alone, as a view that shares its time axis with the views above and below. */
export function strip(result: Pick<Result, 'bands'>, end: number, across: number, height: number): object {
  const segments = cutBands(result.bands, end).map(band => {
    const room = ((band.to - band.from) / end) * across;
    const word = room > band.limiter.length * CHARACTER + 6 ? band.limiter : room > 12 ? SIGN[band.limiter] : '';
    return {
      from: band.from,
      to: band.to,
      middle: (band.from + band.to) / 2,
      fill: COLOUR[band.limiter],
      ink: INK_ON[band.limiter],
      word,
    };
  });
  const x = { field: 'from', type: 'quantitative', scale: { domain: [0, end], nice: false }, axis: null };
  return {
    width: across,
    height,
    data: { values: segments },
    layer: [
      {
        mark: { type: 'rect', stroke: PAPER, strokeWidth: 1 },
        encoding: { x, x2: { field: 'to' }, fill: { field: 'fill', type: 'nominal', scale: null } },
      },
      stripWords(x, height),
    ],
  };
}

function spec(result: Result, system: System, end: number, width: number): object {
  const narrow = width < NARROW;
  const across = plotWidth(width);
  const series = result.series['time'] ?? {};
  const time = numbers(series, 'time_s');
  const last = time.findLastIndex(t => t <= end);
  const title = (key: string): string => {
    const column = series[key];
    return column === undefined ? '' : columnHeading(capital(column.label), scaleOf(column, system).unit);
  };
  const line = (key: string, height: number, above: readonly object[], axisTitle: string | null): object => {
    const column = series[key];
    if (column === undefined) throw new Error(`the series has no column ${key}`);
    const scale = scaleOf(column, system);
    const values = numbers(series, key);
    const points = Array.from({ length: last + 1 }, (_, i) => ({
      x: time[i] ?? 0,
      y: (values[i] ?? 0) * scale.factor + scale.offset,
    }));
    return {
      width: across,
      height,
      layer: [
        {
          data: { values: simplify(points) },
          mark: { type: 'line', color: INK, strokeWidth: 2, clip: true },
          encoding: {
            x: {
              field: 'x',
              type: 'quantitative',
              scale: { domain: [0, end], nice: false },
              axis: {
                title: axisTitle,
                tickCount: narrow ? 5 : 10,
                labels: axisTitle !== null,
                ticks: axisTitle !== null,
              },
            },
            y: { field: 'y', type: 'quantitative', axis: leftAxis(6) },
          },
        },
        ...above,
      ],
    };
  };
  return {
    config: THEME,
    bounds: 'flush',
    spacing: 5,
    vconcat: [
      {
        ...line(
          'speed_m_s',
          narrow ? 180 : 230,
          [...timeBarsLayer(timeBars(result, system, end)), goal(result, system, end, across)],
          null,
        ),
        title: { text: title('speed_m_s') },
      },
      strip(result, end, across, 24),
      heading(title('acceleration_m_s2'), across),
      line('acceleration_m_s2', narrow ? 90 : 110, [], 'time since the pedal went down, s'),
    ],
  };
}

/** A line of text as a view of its own: the title of a plot below another one would be drawn over that one. */
function heading(text: string, across: number): object {
  return {
    width: across,
    height: 24,
    data: { values: [{}] },
    mark: { type: 'text', align: 'left', baseline: 'bottom', fontWeight: 600, text },
    encoding: { x: { value: 4 - LEFT }, y: { value: 22 } },
  };
}

/** The dot where the sprint is over, that to a speed of its own where one was asked for, with its time beside it. */
function goal(result: Result, system: System, end: number, across: number): object {
  const unit = system === 'metric' ? 'km/h' : 'mph';
  const target = summaryNumber(result, 'target_speed') ?? TARGET;
  const own = Math.abs(target - TARGET) > 1e-9;
  const usual = system === 'metric' ? (['time_to_100_km_h', 100] as const) : (['time_to_60_mph', 60] as const);
  const [key, speed] = own ? (['time', toDisplay(target, 'm/s', unit)] as const) : usual;
  const time = summaryNumber(result, key);
  const text = `${Number(speed.toFixed(1))} ${unit} at ${time === null ? '' : written(time, 's')}`;
  const values = time === null || time > end ? [] : [{ x: time, y: speed, text }];
  // To the left of the dot, above the line, unless that would run into the axis.
  const late = time !== null && (time / end) * across > 20 * CHARACTER;
  const label = { type: 'text', fontWeight: 600 };
  const encoding = { x: { field: 'x', type: 'quantitative' }, y: { field: 'y', type: 'quantitative' } };
  return {
    data: { values },
    layer: [
      { mark: { type: 'point', filled: true, size: 70, color: INK }, encoding },
      {
        mark: late
          ? { ...label, align: 'right', baseline: 'bottom', dx: -8, dy: -4 }
          : { ...label, align: 'left', baseline: 'top', dx: 8, dy: 5 },
        encoding: { ...encoding, text: { field: 'text', type: 'nominal' } },
      },
    ],
  };
}

function caption(result: Result, system: System, end: number): string {
  const series = result.series['time'] ?? {};
  const speed = series['speed_m_s'];
  const acceleration = series['acceleration_m_s2'];
  if (speed === undefined || acceleration === undefined) return '';
  const time = numbers(series, 'time_s');
  const last = time.findLastIndex(t => t <= end);
  const start = numbers(series, 'speed_m_s')[0] ?? 0;
  const hardest = Math.max(...numbers(series, 'acceleration_m_s2'));
  const held = shares(result.bands, end).map(
    ({ limiter, time }) => `${SIGN[limiter]}, ${limiter}, ${written(time, 's', 1)}: ${LIMITER_MEANING[limiter]}.`,
  );
  return (
    `${start > 0 ? `From ${figure(start, speed, system)}` : 'From rest'} to ${figure(numbers(series, 'speed_m_s')[last] ?? 0, speed, system)} in the ${written(end, 's', 1)} shown; ` +
    `the hardest pull is ${figure(hardest, acceleration, system)}. ${timeBars(result, system, end).length === 0 ? '' : `Pale bars: ${chanceText(result.intervals?.probability ?? 0)} reach that speed between their ends. `}The strip says what holds the car back. ${held.join(' ')}`
  );
}

function table(result: Result, system: System, end: number): PictureTable {
  const series = result.series['time'] ?? {};
  const time = numbers(series, 'time_s');
  const limiter = series['limiter']?.values;
  const last = time.findLastIndex(t => t <= end);
  const keys = ['time_s', 'distance_m', 'speed_m_s', 'acceleration_m_s2'].filter(key => series[key] !== undefined);
  const columns = keys.map(key => series[key]).filter(column => column !== undefined);
  return {
    columns: [...columns.map(column => columnHeading(column.label, scaleOf(column, system).unit)), 'held back by'],
    rows: thin(last + 1, ROWS).map(i => [
      ...columns.map(column => {
        const scale = scaleOf(column, system);
        const value = Number(column.values[i]) * scale.factor + scale.offset;
        return written(value, '1', scale.unit === 's' ? 2 : 1);
      }),
      limiter instanceof Float64Array ? '' : (limiter?.[i] ?? ''),
    ]),
  };
}
