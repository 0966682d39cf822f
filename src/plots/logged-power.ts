/** The power out of the pack as a log has it and as it was predicted, and what is between them. */
import { capital, columnHeading, scaleOf, written } from '../units/rounding.ts';
import type { Result } from '../runs/result.ts';
import { numbers } from '../runs/series.ts';
import type { System } from '../units.ts';
import { NARROW } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { QUIET } from './kit/palette.ts';
import type { Picture } from './kit/picture.ts';
import { columnOf, headingOf, pointsOf, shown, thin } from './kit/series.ts';
import { leftAxis, lineKey, sharedAxis, stackedUnderKey } from './kit/views.ts';

const KEYS = { read_W: 'as read', driven_W: 'as predicted' } as const;
const ROWS = 16;

/** Needs the series `logged`. */
export function loggedPower(result: Result, system: System): Picture {
  return {
    title: 'Read and predicted',
    caption: `Power out of the pack as the log has it and as predicted, each a mean over ${stretch(result)}. ${loggedWords(result)} Below: read less predicted; one side all along tells of the car, a wave of the road, the wind or the heating.`,
    spec: width => spec(result, system, width),
    table: {
      columns: COLUMNS.map(key => headingOf(result, 'logged', key, system)),
      rows: thin(numbers(result.series['logged'] ?? {}, 'time_s').length, ROWS).map(i =>
        COLUMNS.map(key => written(shown(result, 'logged', key, system)[i] ?? 0, '1', 2)),
      ),
    },
  };
}

const COLUMNS = ['time_s', 'read_W', 'driven_W', 'difference_W'] as const;

/** J of both over what both last; null where nothing was logged. */
function loggedEnergies({ series }: Result): { readonly read: number; readonly driven: number } | null {
  const { logged } = series;
  if (logged === undefined) return null;
  const length = numbers(logged, 'length_s');
  const sum = (key: string): number =>
    numbers(logged, key).reduce((all, watts, k) => all + watts * (length[k] ?? 0), 0);
  return { read: sum('read_W'), driven: sum('driven_W') };
}

/** `The log has 4.92 kWh out of the pack, the prediction 5.20 kWh: 5.4 % less was taken than predicted.`; '' where nothing was logged. */
export function loggedWords(result: Result): string {
  const found = loggedEnergies(result);
  if (found === null) return '';
  const { read, driven } = found;
  const kWh = (joules: number): string => written(joules / 3.6e6, 'kWh');
  const off = Math.abs(driven) > 0 ? (100 * (read - driven)) / Math.abs(driven) : Number.NaN;
  const size = written(Math.abs(off), '%', 1);
  const less = Number.isNaN(off) ? '' : `: ${size} ${off < 0 ? 'less' : 'more'} was taken than predicted`;
  return `The log has ${kWh(read)} out of the pack, the prediction ${kWh(driven)}${less}.`;
}

function stretch({ series }: Result): string {
  return written(numbers(series['logged'] ?? {}, 'length_s')[0] ?? 0, 's', 1);
}

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  const end = shown(result, 'logged', 'time_s', system).reduce((a, b) => Math.max(a, b), 0);
  const { unit } = scaleOf(columnOf(result, 'logged', 'time_s'), system);
  const x = sharedAxis(end, `time of driving, ${unit}`, narrow ? 5 : 10);
  const power = scaleOf(columnOf(result, 'logged', 'read_W'), system).unit;
  const keys = Object.entries(KEYS);
  const values = keys.flatMap(([key, what]) =>
    pointsOf(result, 'logged', 'time_s', key, system).map(point => ({ ...point, what })),
  );
  const words = keys.map(([, what]) => what);
  return stackedUnderKey(
    [
      {
        height: narrow ? 160 : 200,
        title: { text: columnHeading('Pack power', power) },
        data: { values },
        mark: { type: 'line', strokeWidth: 1.5, clip: true },
        encoding: {
          x: x(false),
          y: { field: 'y', type: 'quantitative', axis: leftAxis(5) },
          ...namedLines(words, lineKey(words, width)),
        },
      },
      {
        height: narrow ? 90 : 110,
        title: { text: columnHeading(capital(columnOf(result, 'logged', 'difference_W').label), power) },
        data: { values: pointsOf(result, 'logged', 'time_s', 'difference_W', system) },
        mark: { type: 'area', color: QUIET, opacity: 0.6, clip: true },
        encoding: { x: x(true), y: { field: 'y', type: 'quantitative', axis: leftAxis(3) } },
      },
    ],
    width,
  );
}
