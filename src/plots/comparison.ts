/** Several launches in one picture: speed over time. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, scaleOf, unitText, written } from '../units/rounding.ts';
import { timeBars, timeBarsLayer } from './kit/ends-marks.ts';
import { chanceText } from './kit/interval.ts';
import { simplify } from './kit/simplify.ts';
import { INK, LINES } from './kit/palette.ts';
import { leftAxis, lineKey } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { type Picture, THEME } from './kit/picture.ts';
import { span, summaryNumber } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

const ROWS = 12;

/** A run with the name it goes by. */
export interface Named {
  readonly name: string;
  readonly result: Result;
}

/** Launches that one picture can keep apart; the rest are left to the table beside it. */
const MOST = LINES.length;

/**
 * The picture of several launches: those that have a trace, the first `MOST` of them. What does not move off stands in the
 * caption. Null where no two of them move off.
 */
export function comparison(all: readonly Named[], system: System): Picture | null {
  const runs = all.flatMap(each => traceOf(each, system)).slice(0, MOST);
  if (runs.length < 2) return null;
  const stuck = all.filter(each => traceOf(each, system).length === 0);
  const end = Math.max(...runs.map(({ result }) => span(result)));
  return {
    title: 'The launches side by side',
    caption: `${caption(runs, system, end)}${stuck.map(({ name }) => ` ${name} does not move off.`).join('')}`,
    spec: width => spec(runs, system, end, width),
    table: {
      columns: ['time, s', ...runs.map(({ name, unit }) => columnHeading(name, unit))],
      rows: Array.from({ length: ROWS + 1 }, (_, i) => (i * end) / ROWS).map(t => [
        written(t, '1', 1),
        ...runs.map(run => {
          const at = speedAt(run, t);
          return at === null ? '–' : written(at, '1', 1);
        }),
      ]),
    },
  };
}

/** A launch that moves off. */
interface Traced extends Named {
  readonly time: Float64Array;
  /** In the unit of display. */
  readonly speeds: Float64Array;
  readonly unit: string;
}

function traceOf({ name, result }: Named, system: System): readonly Traced[] {
  const series = result.series['time'] ?? {};
  const column = series['speed_m_s'];
  if (column === undefined || !('time_s' in series)) return [];
  const { unit, factor } = scaleOf(column, system);
  const speeds = numbers(series, 'speed_m_s').map(speed => speed * factor);
  return [{ name, result, time: numbers(series, 'time_s'), speeds, unit }];
}

/** Speed in display units at `t`, between rows in proportion; null after the end of the run. */
function speedAt({ time, speeds }: Traced, t: number): number | null {
  const next = time.findIndex(at => at >= t);
  if (next < 0) return null;
  const before = Math.max(0, next - 1);
  const [t0 = 0, t1 = 0, v0 = 0, v1 = 0] = [time[before], time[next], speeds[before], speeds[next]];
  return v0 + (t1 > t0 ? ((t - t0) / (t1 - t0)) * (v1 - v0) : 0);
}

function spec(runs: readonly Traced[], system: System, end: number, width: number): object {
  const narrow = width < NARROW;
  const values = runs.flatMap(({ name, time, speeds }) => {
    const last = time.findLastIndex(t => t <= end);
    const points = Array.from({ length: last + 1 }, (_, i) => ({ x: time[i] ?? 0, y: speeds[i] ?? 0 }));
    return simplify(points).map(point => ({ ...point, what: name }));
  });
  const domain = runs.map(run => run.name);
  const colours = domain.map((_, i) => LINES[i]?.colour);
  const bars = runs.flatMap(({ result }, k) =>
    timeBars(result, system, end).map(bar => ({ ...bar, colour: colours[k] ?? INK })),
  );
  return {
    config: THEME,
    width: plotWidth(width),
    height: narrow ? 190 : 260,
    title: { text: `Speed, ${unitText(runs[0]?.unit ?? '')}` },
    layer: [
      ...timeBarsLayer(bars),
      {
        data: { values },
        mark: { type: 'line', strokeWidth: 2.25 },
        encoding: {
          x: {
            field: 'x',
            type: 'quantitative',
            scale: { domain: [0, end], nice: false },
            axis: { title: 'time since the pedal went down, s', tickCount: narrow ? 5 : 10 },
          },
          y: { field: 'y', type: 'quantitative', axis: leftAxis(6) },
          ...namedLines(domain, lineKey(domain, width)),
        },
      },
    ],
  };
}

function caption(runs: readonly Traced[], system: System, end: number): string {
  const [key, goal] = system === 'metric' ? ['time_to_100_km_h', '100 km/h'] : ['time_to_60_mph', '60 mph'];
  const times = runs.map(({ name, result }) => ({ name, time: summaryNumber(result, key) }));
  const order = times.filter(run => run.time !== null).toSorted((a, b) => Number(a.time) - Number(b.time));
  const never = times.filter(run => run.time === null).map(run => run.name);
  const barred = runs.some(({ result }) => timeBars(result, system, end).length > 0);
  const told = order.map(run => `${run.name} after ${written(Number(run.time), 's')}`);
  const mark = goal.replace(' ', '\u00a0');
  const reached =
    told.length === 0
      ? `None of them reaches ${mark} in its run.`
      : `${mark} is reached by ${told.join(', ')}${never.length === 0 ? '' : `; not by ${never.join(', ')}`}.`;
  return `Speed over the first ${written(end, 's', 1)}. ${reached}${barred ? ` Pale bars: ${chanceText(runs[0]?.result.intervals?.probability ?? 0)} of each reach that speed between their ends.` : ''}`;
}
