/** At what speed the energy leaves the pack, and at what speed it comes back. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, type Described, scaleOf, written } from '../units/rounding.ts';
import { COLOUR, INK } from './kit/palette.ts';
import { leftAxis, lineKey } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { pictureOf, type PictureTable, THEME } from './kit/picture.ts';
import { columnOf, shown } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

const OUT = 'out of the pack';
const BACK = 'back into it';
const FILL = [COLOUR['motor torque'], COLOUR['motor power']];

/** The picture of a drive: needs the series `speed`. */
export const powerBySpeed = pictureOf('At what speed the energy goes and comes back', { caption, spec, table });

/** Wh for a short drive, kWh for a long one. */
function energyScale(result: Result, system: System): { readonly unit: string; readonly factor: number } {
  const out = numbers(result.series['speed'] ?? {}, 'out_J').reduce((sum, value) => sum + value, 0);
  const unit = out < 3.6e7 ? 'Wh' : 'kWh';
  const what: Described = { unit: 'J', display: { metric: unit, imperial: unit } };
  return scaleOf(what, system);
}

function spec(result: Result, system: System, width: number): object {
  const scale = energyScale(result, system);
  const series = result.series['speed'] ?? {};
  const [from, to] = [shown(result, 'speed', 'from_m_s', system), shown(result, 'speed', 'to_m_s', system)];
  const values = [
    ...Array.from(numbers(series, 'out_J'), (energy, i) => ({ i, y: energy * scale.factor, what: OUT })),
    ...Array.from(numbers(series, 'back_J'), (energy, i) => ({ i, y: -energy * scale.factor, what: BACK })),
  ].map(({ i, y, what }) => ({ from: from[i], to: to[i], y, zero: 0, what }));
  const speed = columnHeading('speed', scaleOf(columnOf(result, 'speed', 'from_m_s'), system).unit);
  return {
    config: THEME,
    width: plotWidth(width),
    height: width < NARROW ? 170 : 190,
    title: { text: columnHeading('Energy', scale.unit) },
    data: { values },
    layer: [
      {
        mark: { type: 'rect', x2Offset: -1 },
        encoding: {
          x: {
            field: 'from',
            type: 'quantitative',
            scale: { domain: [0, to.at(-1) ?? 1], nice: false },
            axis: { title: speed, tickCount: width < NARROW ? 6 : 12 },
          },
          x2: { field: 'to' },
          y: { field: 'y', type: 'quantitative', axis: leftAxis(5) },
          y2: { field: 'zero' },
          fill: {
            field: 'what',
            type: 'nominal',
            scale: { domain: [OUT, BACK], range: FILL },
            legend: { ...lineKey([OUT, BACK], width), orient: 'top', symbolType: 'square', symbolSize: 120 },
          },
        },
      },
      {
        data: { values: [{ y: 0 }] },
        mark: { type: 'rule', color: INK },
        encoding: { y: { field: 'y', type: 'quantitative' } },
      },
    ],
  };
}

function caption(result: Result, system: System): string {
  const scale = energyScale(result, system);
  const series = result.series['speed'] ?? {};
  const [out, back] = [numbers(series, 'out_J'), numbers(series, 'back_J')];
  const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);
  const shownEnergy = (value: number): string => written(value * scale.factor, scale.unit);
  const most = out.indexOf(Math.max(...out));
  const came = total(back);
  return (
    `${shownEnergy(total(out))} leave the pack, most of it ${speeds(result, most, system)}; ` +
    (came > 0
      ? `${shownEnergy(came)} come back while slowing down, most of it ${speeds(result, back.indexOf(Math.max(...back)), system)}.`
      : 'nothing comes back.')
  );
}

/** `at 30 to 40 km/h`. */
function speeds(result: Result, row: number, system: System): string {
  const { unit } = scaleOf(columnOf(result, 'speed', 'from_m_s'), system);
  const at = (key: string): number => shown(result, 'speed', key, system)[row] ?? 0;
  return `at ${written(at('from_m_s'), '1', 0)} to ${written(at('to_m_s'), unit, 0)}`;
}

function table(result: Result, system: System): PictureTable {
  const scale = energyScale(result, system);
  const { unit } = scaleOf(columnOf(result, 'speed', 'from_m_s'), system);
  const [from, to, time] = ['from_m_s', 'to_m_s', 'time_s'].map(key => shown(result, 'speed', key, system));
  const series = result.series['speed'] ?? {};
  const [out, back] = [numbers(series, 'out_J'), numbers(series, 'back_J')];
  return {
    columns: [
      columnHeading('speed', unit),
      'time, min',
      columnHeading(OUT, scale.unit),
      columnHeading(BACK, scale.unit),
    ],
    rows: Array.from(out, (energy, i) => [
      `${written(from?.[i] ?? 0, '1', 0)} to ${written(to?.[i] ?? 0, '1', 0)}`,
      written(time?.[i] ?? 0, '1', 1),
      written(energy * scale.factor, '1', 2),
      written((back[i] ?? 0) * scale.factor, '1', 2),
    ]),
  };
}
