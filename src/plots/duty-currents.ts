/** Currents over the length of the stretch that is looked at: what the runs ask for, and what the sheet of the pack allows. */
import { nth, item } from '../columns.ts';
import { WINDOWS } from '../model/duty/windows.ts';
import type { Result } from '../runs/result.ts';
import { numbers, texts } from '../runs/series.ts';
import type { System } from '../units.ts';
import { written } from '../units/rounding.ts';
import { windowWords } from '../runs/duty/currents.ts';
import { LINES, QUIET } from './kit/palette.ts';
import { leftAxis } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { type Picture, THEME } from './kit/picture.ts';

/** The channel that is drawn. */
const DRAWN = 'out of the pack';

interface Curve {
  readonly run: string;
  readonly points: readonly { readonly window: string; readonly amps: number; readonly short: boolean }[];
}

/** Null where nothing flows out of the pack. */
export function dutyCurrents(result: Result, _system: System): Picture | null {
  const curves = curvesOf(result);
  if (curves.length === 0) return null;
  return {
    title: 'Current out of the pack, over how long it is asked for',
    caption: captionOf(curves),
    spec: width => spec(curves, limitsOf(result), width),
    table: {
      columns: ['run', ...WINDOWS.map(window => `over ${windowWords(window)}, A`)],
      rows: curves.map(({ run, points }) => [run, ...points.map(({ amps }) => written(amps, '1'))]),
    },
  };
}

function curvesOf({ series }: Result): readonly Curve[] {
  const currents = series['currents'];
  if (currents === undefined) return [];
  const runs = texts(currents, 'run');
  const duration = numbers(currents, 'duration_s');
  return texts(currents, 'channel').flatMap((channel, row): Curve[] => {
    if (channel !== DRAWN) return [];
    const points = WINDOWS.map(window => ({
      window: windowWords(window),
      amps: nth(numbers(currents, `current_${window}_s_A`), row),
      short: nth(duration, row) < window,
    }));
    return [{ run: item(runs, row), points }];
  });
}

/** What the sheet of the pack allows over each window, where it says so. */
function limitsOf({ series }: Result): readonly { readonly window: string; readonly amps: number }[] {
  const lines = series['lines'];
  if (lines === undefined) return [];
  const [keys, limits] = [texts(lines, 'figure'), numbers(lines, 'limit')];
  return WINDOWS.flatMap(window => {
    const row = keys.indexOf(`pack_current_${window}_s`);
    const amps = row < 0 ? Number.NaN : nth(limits, row);
    return Number.isNaN(amps) ? [] : [{ window: windowWords(window), amps }];
  });
}

function spec(
  curves: readonly Curve[],
  limits: readonly { readonly window: string; readonly amps: number }[],
  width: number,
): object {
  const names = curves.map(({ run }) => run);
  const looks = names.map((_, i) => item(LINES, i % LINES.length));
  const values = curves.flatMap(({ run, points }) => points.map(point => ({ what: run, ...point })));
  const x = {
    field: 'window',
    type: 'ordinal',
    sort: null,
    axis: { title: 'root mean square over', labelAngle: 0 },
    scale: { padding: 0.3 },
  };
  const y = { field: 'amps', type: 'quantitative', axis: leftAxis(5), scale: { zero: true } };
  const legend = { title: null, orient: 'bottom', columns: width < NARROW ? 2 : 5 };
  return {
    config: THEME,
    width: plotWidth(width),
    height: width < NARROW ? 200 : 240,
    title: { text: 'Current, A' },
    layer: [
      {
        data: { values },
        mark: { type: 'line', strokeWidth: 2, point: { filled: true, size: 45 } },
        encoding: {
          x,
          y,
          ...namedLines(names, legend, looks),
        },
      },
      ...(limits.length === 0
        ? []
        : [
            {
              data: { values: limits },
              mark: { type: 'tick', thickness: 3, size: 46, color: '#8c1d16' },
              encoding: { x, y },
            },
            {
              data: { values: limits.slice(0, 1).map(each => ({ ...each, text: 'data sheet' })) },
              mark: { type: 'text', baseline: 'bottom', dy: -5, color: QUIET },
              encoding: { x, y, text: { field: 'text', type: 'nominal' } },
            },
          ]),
    ],
  };
}

function captionOf(curves: readonly Curve[]): string {
  const told = WINDOWS.map((window, i) => {
    const worst = curves.reduce((a, b) => (item(b.points, i).amps > item(a.points, i).amps ? b : a));
    return `${written(item(worst.points, i).amps, 'A')} over ${windowWords(window)} (${worst.run})`;
  });
  const short = curves.filter(({ points }) => points.some(point => point.short)).map(({ run }) => run);
  const ends =
    short.length === 0 ? '' : ` ${short.join(', ')}: shorter than the longest of them, with nothing before and after.`;
  return `The worst stretch of each length: ${told.join(', ')}.${ends}`;
}
