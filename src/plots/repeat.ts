/** Launch after launch: the time each takes, and how warm the car is after it. */
import type { Result, Series } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading, figure, scaleOf, written } from '../units/rounding.ts';
import { INK, LINES } from './kit/palette.ts';
import { leftAxis, lineKey } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { type Picture, type PictureTable, THEME } from './kit/picture.ts';
import { summaryNumber } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

/** What is drawn below the times, as far as it is known. */
const WARM = ['unit_temperature_K', 'pack_temperature_K'] as const;

/** The picture of repeated launches: needs the series `runs`. */
export function repeatedLaunches(result: Result, system: System): Picture {
  const runs = result.series['runs'] ?? {};
  return {
    title: 'Launch after launch',
    caption: caption(result, runs, system),
    spec: width => spec(runs, system, width),
    table: table(runs, system),
  };
}

function known(runs: Series): readonly string[] {
  const warm = WARM.filter(key => numbers(runs, key).some(value => !Number.isNaN(value)));
  return warm.length === 0 ? ['charge_1'] : warm;
}

function spec(runs: Series, system: System, width: number): object {
  const narrow = width < NARROW;
  const across = plotWidth(width);
  const below = known(runs);
  const count = numbers(runs, 'run_1').length;
  const x = {
    field: 'run',
    type: 'quantitative',
    scale: { domain: [0.5, count + 0.5], nice: false },
    axis: { title: 'launch', values: ticks(count, narrow ? 6 : 12), format: 'd' },
  };
  const values = below.flatMap(key => points(runs, key, system));
  const labels = below.map(key => runs[key]?.label ?? key);
  return {
    config: THEME,
    bounds: 'flush',
    spacing: 34,
    vconcat: [
      {
        width: across,
        height: narrow ? 150 : 180,
        title: { text: capital(title(runs, 'time_to_target_s', system)) },
        data: { values: points(runs, 'time_to_target_s', system) },
        mark: { type: 'line', color: INK, strokeWidth: 2, point: { filled: true, size: 45, color: INK } },
        encoding: {
          x: { ...x, axis: { ...x.axis, title: null, labels: false, ticks: false } },
          y: { field: 'y', type: 'quantitative', scale: { zero: false }, axis: leftAxis(5) },
        },
      },
      {
        width: across,
        height: narrow ? 150 : 160,
        title: {
          text: columnHeading(
            below[0] === 'charge_1' ? 'State of charge' : 'Temperature',
            unitOf(runs, below[0] ?? '', system),
          ),
        },
        data: { values },
        mark: { type: 'line', strokeWidth: 2.25, point: { filled: true, size: 35 } },
        encoding: {
          x,
          y: { field: 'y', type: 'quantitative', scale: { zero: false }, axis: leftAxis(5) },
          ...namedLines(labels, lineKey(labels, width), LINES.slice(1)),
        },
      },
    ],
  };
}

/** Whole numbers from 1 to `count`, at most about `most` of them. */
function ticks(count: number, most: number): readonly number[] {
  const step = Math.max(1, Math.ceil(count / most));
  return Array.from({ length: Math.ceil(count / step) }, (_, i) => 1 + i * step);
}

function unitOf(runs: Series, key: string, system: System): string {
  const column = runs[key];
  return column === undefined ? '' : scaleOf(column, system).unit;
}

function title(runs: Series, key: string, system: System): string {
  return columnHeading(runs[key]?.label ?? key, unitOf(runs, key, system));
}

/** The launches that have this value, in display units. */
function points(runs: Series, key: string, system: System): readonly { run: number; y: number; what: string }[] {
  const column = runs[key];
  if (column === undefined) return [];
  const { factor, offset } = scaleOf(column, system);
  const count = numbers(runs, 'run_1');
  return [...numbers(runs, key)].flatMap((value, i) =>
    Number.isNaN(value) ? [] : [{ run: count[i] ?? 0, y: value * factor + offset, what: column.label }],
  );
}

function caption(result: Result, runs: Series, system: System): string {
  const [first, last] = [summaryNumber(result, 'time_first'), summaryNumber(result, 'time_last')];
  const times =
    first === null || last === null
      ? ''
      : `The first launch takes ${written(first, 's')}, the last one ${written(last, 's')}.`;
  const warm = known(runs).flatMap(key => {
    const column = runs[key];
    const end = numbers(runs, key).at(-1);
    return column === undefined || end === undefined || Number.isNaN(end)
      ? []
      : [`${column.label} of the last one ${figure(end, column, system, 0)}`];
  });
  return `${times} Below it: ${warm.join(', ')}.`;
}

function table(runs: Series, system: System): PictureTable {
  const keys = ['time_to_target_s', ...known(runs)];
  return {
    columns: ['launch', ...keys.map(key => title(runs, key, system))],
    rows: Array.from(numbers(runs, 'run_1'), (run, row) => [
      String(run),
      ...keys.map(key => {
        const column = runs[key];
        const value = numbers(runs, key)[row] ?? Number.NaN;
        if (column === undefined || Number.isNaN(value)) return '–';
        const { factor, offset } = scaleOf(column, system);
        return written(value * factor + offset, '1', key === 'time_to_target_s' ? 2 : 1);
      }),
    ]),
  };
}
