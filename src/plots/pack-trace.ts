/** Pack voltage and current over time. */
import type { Column, Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { figure, columnHeading, scaleOf, unitText, written } from '../units/rounding.ts';
import { simplify } from './kit/simplify.ts';
import { COLOUR, INK } from './kit/palette.ts';
import { leftAxis } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { type Picture, THEME } from './kit/picture.ts';
import { span, thin } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

const ROWS = 12;

/** The picture of any run whose series `time` has pack voltage and current. */
export function packTrace(result: Result, system: System): Picture {
  const end = span(result);
  const series = result.series['time'] ?? {};
  const time = numbers(series, 'time_s');
  const last = time.findLastIndex(t => t <= end);
  const voltage = extreme(result, 'pack_voltage_V', last, -1);
  const current = extreme(result, 'pack_current_A', last, 1);
  const power = series['pack_power_W'] === undefined ? null : extreme(result, 'pack_power_W', last, 1);
  const said = (peak: Extreme): string =>
    `${figure(peak.value, peak.column, system)} (at ${written(peak.time, 's', 1)})`;
  return {
    title: 'What the pack goes through',
    caption:
      `The voltage sags to ${said(voltage)}; the current reaches ${said(current)}` +
      `${power === null ? '' : `, the power ${said(power)}`}, in the ${written(end, 's', 1)} shown.`,
    spec: width => spec(result, system, end, width),
    table: {
      columns: [
        'time, s',
        ...[voltage, current].map(({ column }) => columnHeading(column.label, scaleOf(column, system).unit)),
      ],
      rows: thin(last + 1, ROWS).map(i => [
        written(time[i] ?? 0, '1', 2),
        ...['pack_voltage_V', 'pack_current_A'].map(key => written(numbers(series, key)[i] ?? 0, '1', 1)),
      ]),
    },
  };
}

interface Extreme {
  readonly column: Column;
  readonly time: number;
  readonly value: number;
}

/** Largest (`sign` 1) or smallest (-1) value of a column up to row `last`. */
function extreme(result: Result, key: string, last: number, sign: 1 | -1): Extreme {
  const series = result.series['time'] ?? {};
  const column = series[key];
  if (column === undefined) throw new Error(`the series has no column ${key}`);
  const values = numbers(series, key);
  let best = 0;
  for (let i = 1; i <= last; i++) if (sign * (values[i] ?? 0) > sign * (values[best] ?? 0)) best = i;
  return { column, time: numbers(series, 'time_s')[best] ?? 0, value: values[best] ?? 0 };
}

function spec(result: Result, system: System, end: number, width: number): object {
  const narrow = width < NARROW;
  const series = result.series['time'] ?? {};
  const time = numbers(series, 'time_s');
  const last = time.findLastIndex(t => t <= end);
  const view = (key: string, title: string, colour: string, sign: 1 | -1, axisTitle: string | null): object => {
    const peak = extreme(result, key, last, sign);
    const scale = scaleOf(peak.column, system);
    const values = numbers(series, key);
    const shown = (value: number): number => value * scale.factor + scale.offset;
    const points = Array.from({ length: last + 1 }, (_, i) => ({ x: time[i] ?? 0, y: shown(values[i] ?? 0) }));
    const late = peak.time > 0.6 * end;
    const x = {
      field: 'x',
      type: 'quantitative',
      scale: { domain: [0, end], nice: false },
      axis: { title: axisTitle, tickCount: narrow ? 5 : 10, labels: axisTitle !== null, ticks: axisTitle !== null },
    };
    const y = {
      field: 'y',
      type: 'quantitative',
      scale: {
        domain: domain(
          points.map(point => point.y),
          sign === 1,
        ),
        nice: false,
      },
      axis: leftAxis(4),
    };
    return {
      width: plotWidth(width),
      height: narrow ? 100 : 120,
      title: { text: `${title}, ${unitText(scale.unit)}` },
      layer: [
        {
          data: { values: simplify(points) },
          mark: { type: 'line', color: colour, strokeWidth: 2 },
          encoding: { x, y },
        },
        {
          data: { values: [{ x: peak.time, y: shown(peak.value), text: figure(peak.value, peak.column, system) }] },
          layer: [
            { mark: { type: 'point', filled: true, size: 50, color: colour }, encoding: { x, y } },
            {
              mark: {
                type: 'text',
                align: late ? 'right' : 'left',
                baseline: sign === 1 ? 'bottom' : 'top',
                dx: late ? -6 : 6,
                dy: -3 * sign,
                fontWeight: 600,
                color: INK,
              },
              encoding: { x, y, text: { field: 'text', type: 'nominal' } },
            },
          ],
        },
      ],
    };
  };
  return {
    config: THEME,
    bounds: 'flush',
    spacing: 32,
    vconcat: [
      view('pack_voltage_V', 'Pack voltage', COLOUR['motor torque'], -1, null),
      view('pack_current_A', 'Pack current', COLOUR['pack current'], 1, 'time since the pedal went down, s'),
    ],
  };
}

/** Limits of an axis with room for a label above and below; from nothing when `zero`. */
function domain(values: readonly number[], zero: boolean): readonly [number, number] {
  const [low, high] = [Math.min(...values, ...(zero ? [0] : [])), Math.max(...values)];
  const margin = 0.22 * (high > low ? high - low : 1);
  return [zero && low === 0 ? 0 : low - margin, high + margin];
}
