/** State of charge, voltage and temperatures over the distance driven. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, figure, scaleOf, written } from '../units/rounding.ts';
import { barText, endsShown, type EndsShown, lyingBar, uprightBar } from './kit/ends-marks.ts';
import { simplify } from './kit/simplify.ts';
import { COLOUR, INK } from './kit/palette.ts';
import { leftAxis, lineKey, sharedAxis, stacked } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import type { Picture, PictureTable } from './kit/picture.ts';
import { columnOf, headingOf, pointsOf, shown, thin } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

const ROWS = 12;
const TEMPERATURES = ['pack_temperature_K', 'unit_temperature_K'] as const;
/** K: less is not worth a view. */
const WARMING = 0.5;
/** px of one stretch over which the voltage is gathered. */
const STRETCH = 4;

/** The picture of a drive (series `time`) or of a depletion (series `distance`). */
export function packOverDistance(result: Result, system: System): Picture {
  const series = result.series['distance'] === undefined ? 'time' : 'distance';
  return {
    title: 'The pack on the way',
    caption: caption(result, series, system),
    spec: width => spec(result, series, system, width),
    table: table(result, series, system),
  };
}

/** The temperatures that move, or that of the pack alone. */
function warming(result: Result, series: string): readonly (typeof TEMPERATURES)[number][] {
  return TEMPERATURES.filter(key => {
    const values = numbers(result.series[series] ?? {}, key);
    return values.some(value => Math.abs(value - (values[0] ?? value)) > WARMING);
  });
}

function spec(result: Result, series: string, system: System, width: number): object {
  const narrow = width < NARROW;
  const distance = shown(result, series, 'distance_m', system);
  const warm = warming(result, series);
  const title = headingOf(result, series, 'distance_m', system).toLowerCase();
  const range = rangeEnds(result, series, system);
  const last = distance.at(-1) ?? 1;
  const x = sharedAxis(Math.max(last, range?.high ?? 0), title, narrow ? 5 : 10);
  return stacked(
    [
      {
        title: { text: headingOf(result, series, 'charge_1', system) },
        layer: [
          {
            data: { values: simplify(pointsOf(result, series, 'distance_m', 'charge_1', system)) },
            mark: { type: 'line', color: INK, strokeWidth: 2 },
            encoding: {
              x: x(false),
              y: { field: 'y', type: 'quantitative', scale: { zero: true }, axis: leftAxis(4) },
            },
          },
          ...(range === null
            ? uprightBar(endsShown(result, 'charge_end', columnOf(result, series, 'charge_1'), system), last, x(false))
            : lyingBar(range, shown(result, series, 'charge_1', system).at(-1) ?? 0, x(false))),
        ],
      },
      voltage(result, series, system, x(warm.length === 0), plotWidth(width)),
      ...(warm.length === 0 ? [] : [temperatures(result, series, system, x(true), width)]),
    ],
    { width, height: narrow ? 95 : 110, spacing: 36 },
  );
}

/** How far the car may get, of a depletion alone: a drive is as long as it is. */
function rangeEnds(result: Result, series: string, system: System): EndsShown | null {
  return endsShown(result, 'range', columnOf(result, series, 'distance_m'), system);
}

/** From the lowest to the highest voltage of each stretch: the line itself would be a black bar. */
function voltage(result: Result, series: string, system: System, x: object, across: number): object {
  const values = envelope(
    shown(result, series, 'distance_m', system),
    shown(result, series, 'pack_voltage_V', system),
    Math.max(20, Math.round(across / STRETCH)),
  );
  const y = { type: 'quantitative', scale: { zero: false }, axis: leftAxis(4) };
  return {
    title: { text: headingOf(result, series, 'pack_voltage_V', system) },
    data: { values },
    layer: [
      {
        mark: { type: 'area', color: COLOUR['motor power'], opacity: 0.55, interpolate: 'step-after' },
        encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' } },
      },
      {
        mark: { type: 'line', color: INK, strokeWidth: 1.25, interpolate: 'step-after' },
        encoding: { x, y: { ...y, field: 'mean' } },
      },
    ],
  };
}

/** Lowest, highest and mean value of each of so many equal stretches; empty ones are left out. */
export function envelope(
  x: Float64Array,
  y: Float64Array,
  stretches: number,
): readonly { readonly x: number; readonly low: number; readonly high: number; readonly mean: number }[] {
  const end = x.at(-1) ?? 0;
  const found = Array.from({ length: stretches }, () => ({ low: Infinity, high: -Infinity, sum: 0, count: 0 }));
  for (const [i, value] of y.entries()) {
    const into = found[Math.min(stretches - 1, Math.floor(((x[i] ?? 0) / (end > 0 ? end : 1)) * stretches))];
    if (into === undefined || Number.isNaN(value)) continue;
    into.low = Math.min(into.low, value);
    into.high = Math.max(into.high, value);
    into.sum += value;
    into.count++;
  }
  const kept = found.flatMap(({ low, high, sum, count }, i) =>
    count === 0 ? [] : [{ x: (i * end) / stretches, low, high, mean: sum / count }],
  );
  const last = kept.at(-1);
  return last === undefined ? [] : [...kept, { ...last, x: end }];
}

function temperatures(result: Result, series: string, system: System, x: object, width: number): object {
  const keys = warming(result, series);
  const labels = keys.map(key => columnOf(result, series, key).label);
  const values = keys.flatMap(key =>
    simplify(pointsOf(result, series, 'distance_m', key, system), 500).map(point => ({
      ...point,
      what: columnOf(result, series, key).label,
    })),
  );
  return {
    title: { text: columnHeading('Temperature', scaleOf(columnOf(result, series, TEMPERATURES[0]), system).unit) },
    data: { values },
    mark: { type: 'line', strokeWidth: 2.25 },
    encoding: {
      x,
      y: { field: 'y', type: 'quantitative', scale: { zero: false }, axis: leftAxis(4) },
      ...namedLines(labels, lineKey(labels, width)),
    },
  };
}

function caption(result: Result, series: string, system: System): string {
  const told = (key: string, value: number | undefined, decimals?: number): string =>
    value === undefined ? '–' : figure(value, columnOf(result, series, key), system, decimals);
  const of = (key: string): Float64Array => numbers(result.series[series] ?? {}, key);
  const charge = of('charge_1');
  const volts = of('pack_voltage_V');
  const low = volts.reduce((least, value) => Math.min(least, value), Infinity);
  const high = volts.reduce((most, value) => Math.max(most, value), -Infinity);
  const { of: intervals = {} } = result.intervals ?? {};
  const bar =
    'range' in intervals
      ? barText(result, true, 'get to the end of the charge')
      : barText(result, 'charge_end' in intervals, 'arrive with a charge');
  const warm = warming(result, series).map(key => {
    const values = of(key);
    const most = values.reduce((a, b) => Math.max(a, b), -Infinity);
    const name = key === 'pack_temperature_K' ? 'the pack' : 'the drive unit';
    return `${name} goes from ${told(key, values[0], 0)} to ${told(key, values.at(-1), 0)}, ${told(key, most, 0)} at most`;
  });
  const heat = warm.length === 0 ? '' : ` ${warm.join('; ').replace(/^t/, 'T')}.`;
  return (
    `From ${told('charge_1', charge[0], 0)} to ${told('charge_1', charge.at(-1), 0)} of charge. The band of the voltage is from the ` +
    `lowest to the highest of each stretch, the line its mean: between ${told('pack_voltage_V', low, 0)} and ${told('pack_voltage_V', high, 0)}.${heat}${bar}`
  );
}

function table(result: Result, series: string, system: System): PictureTable {
  const keys = ['distance_m', 'charge_1', 'pack_voltage_V', ...warming(result, series)];
  const columns = keys.map(key => shown(result, series, key, system));
  return {
    columns: keys.map(key => headingOf(result, series, key, system)),
    rows: thin(columns[0]?.length ?? 0, ROWS).map(row => columns.map(values => written(values[row] ?? 0, '1', 1))),
  };
}
