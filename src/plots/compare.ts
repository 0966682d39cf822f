/** Several cars in one picture: a row of dots for each figure, with its value and its difference to the first car. */
import type { Column, Result, Series } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading, decimalsFor, digits, scaleOf, written } from '../units/rounding.ts';
import { COLOUR, INK, QUIET } from './kit/palette.ts';
import { chanceText, type Ends } from './kit/interval.ts';
import { FONT_SIZE, NARROW, RIGHT } from './kit/layout.ts';
import { type Picture, THEME } from './kit/picture.ts';
import { numbers, texts } from '../runs/series.ts';

/** Figures that are drawn; the table has all of them. */
const MOST = 6;

/** px of one car in a view. */
const ROW = 24;

/** A figure of a comparison in the unit of display. */
export interface Compared {
  readonly key: string;
  readonly column: Column;
  readonly label: string;
  readonly unit: string;
  /** NaN for a car without an answer. */
  readonly values: Float64Array;
  readonly changes: Float64Array;
  /** Of each car in turn, in SI; undefined where no samples were taken. */
  readonly ends: readonly (Ends | undefined)[];
  /** Of the difference to the first car. */
  readonly changeEnds: readonly (Ends | undefined)[];
  /** The best car; '' where none is, or where samples do not make it sure. */
  readonly best: string;
  /** The best one where that is not sure; '' else. */
  readonly likely: string;
}

/** All figures of a comparison, in the order of the cell. */
export function comparedFigures(result: Result, system: System): readonly Compared[] {
  const table = tableOf(result);
  const figures = result.series['figures'] ?? {};
  const keys = texts(figures, 'figure');
  const best = texts(figures, 'best');
  const unsure = numbers(figures, 'unsure');
  const cars = texts(table, 'car');
  const ofCar = texts(figures, 'of_car');
  const intervals = result.intervals?.of ?? {};
  return keys.map((key, k) => {
    const column = table[key];
    if (column === undefined) throw new Error(`the table has no column ${key}`);
    const { unit, factor, offset } = scaleOf(column, system);
    return {
      key,
      column,
      label: column.label,
      unit,
      values: numbers(table, key).map(value => value * factor + offset),
      changes: numbers(table, `${key}_change`).map(value => value * factor),
      best: Number.isNaN(unsure[k]) ? (best[k] ?? '') : '',
      likely: Number.isNaN(unsure[k]) ? '' : (best[k] ?? ''),
      ends: cars.map(car => intervals[`${car}_${ofCar[k] ?? ''}`]),
      changeEnds: cars.map(car => intervals[`${car}_${ofCar[k] ?? ''}_change`]),
    };
  });
}

function tableOf(result: Result): Series {
  return result.series['table'] ?? {};
}

/** `+5.2`, `−0.10`; with as many decimals as the value has. */
export function changeText(change: number, decimals: number): string {
  if (Number.isNaN(change)) return '–';
  const text = digits(change, decimals);
  return change > 0 && Number(change.toFixed(decimals)) !== 0 ? `+${text}` : text;
}

/** The picture of a comparison: needs the series `table` and `figures`. */
export function compareDots(result: Result, system: System): Picture {
  const cars = texts(tableOf(result), 'car');
  const drawn = comparedFigures(result, system)
    .filter(({ changes }) => changes.some(change => !Number.isNaN(change) && change !== 0))
    .filter(({ key }) => !/_(front|rear)_axle$/.test(key))
    .slice(0, MOST);
  return {
    title: 'The cars side by side',
    caption: caption(cars, drawn, result.intervals?.probability),
    spec: width => spec(cars, drawn, system, width),
    table: {
      columns: ['figure', ...cars],
      rows: drawn.map(({ label, unit, values }) => [
        columnHeading(label, unit),
        ...Array.from(values, value =>
          Number.isNaN(value) ? 'no answer' : written(value, '1', decimalsFor(value, unit)),
        ),
      ]),
    },
  };
}

function spec(cars: readonly string[], drawn: readonly Compared[], system: System, width: number): object {
  const narrow = width < NARROW;
  const longest = Math.max(...cars.map(car => car.length));
  // The drawing library takes a character for 0.8 of its height where it cuts labels short.
  const left = Math.min(0.8 * FONT_SIZE * longest + 16, narrow ? 110 : 170);
  const notes = narrow ? 108 : 128;
  const frame = { width: width - left - notes - RIGHT - 4, height: ROW * cars.length };
  return {
    config: { ...THEME, title: { ...THEME.title, dx: 4 - left } },
    bounds: 'flush',
    spacing: 54,
    vconcat: drawn.map(figure => ({ ...frame, ...view(figure, cars, system, left, frame.width) })),
  };
}

function view(figure: Compared, cars: readonly string[], system: System, left: number, room: number): object {
  const { label, unit, values, changes, best } = figure;
  const rows = cars.map((car, k) => {
    const value = values[k] ?? Number.NaN;
    const decimals = decimalsFor(value, unit);
    const change = k === 0 ? '' : ` (${changeText(changes[k] ?? Number.NaN, decimals)})`;
    const text = Number.isNaN(value) ? 'no answer' : `${digits(value, decimals)}${change}`;
    return { car, x: value, text, best: car === best, size: car === best ? 130 : 80 };
  });
  const points = rows.filter(({ x }) => !Number.isNaN(x));
  const first = rows[0]?.x ?? Number.NaN;
  const { factor, offset } = scaleOf(figure.column, system);
  const bars = cars.flatMap((car, k) => {
    const each = figure.ends[k];
    return each === undefined ? [] : [{ car, x: each.low * factor + offset, x2: each.high * factor + offset }];
  });
  const y = {
    field: 'car',
    type: 'nominal',
    sort: null,
    scale: { domain: cars },
    axis: {
      title: null,
      domain: false,
      ticks: false,
      grid: true,
      minExtent: left - 8,
      maxExtent: left - 8,
      labelLimit: left - 10,
    },
  };
  const x = {
    field: 'x',
    type: 'quantitative',
    scale: { zero: false, nice: true, padding: 8 },
    axis: { title: null, tickCount: room < 200 ? 2 : 4 },
  };
  return {
    title: { text: capital(columnHeading(label, unit)) },
    layer: [
      ...(bars.length === 0
        ? []
        : [
            {
              data: { values: bars },
              mark: { type: 'rule', color: INK, strokeWidth: 8, opacity: 0.22 },
              encoding: { x, x2: { field: 'x2' }, y },
            },
          ]),
      ...(Number.isNaN(first)
        ? []
        : [
            {
              data: { values: [{ x: first }] },
              mark: { type: 'rule', color: QUIET, strokeDash: [3, 3] },
              encoding: { x },
            },
            {
              data: { values: points.map(point => ({ ...point, x2: first })) },
              mark: { type: 'rule', color: INK, strokeWidth: 2 },
              encoding: { x, x2: { field: 'x2' }, y },
            },
          ]),
      {
        data: { values: points },
        mark: { type: 'point', filled: true, opacity: 1, stroke: INK, strokeWidth: 1 },
        encoding: {
          x,
          y,
          shape: {
            field: 'best',
            type: 'nominal',
            scale: { domain: [true, false], range: ['diamond', 'circle'] },
            legend: null,
          },
          size: { field: 'size', type: 'quantitative', scale: null, legend: null },
          color: {
            field: 'best',
            type: 'nominal',
            scale: { domain: [true, false], range: [COLOUR.grip, INK] },
            legend: null,
          },
        },
      },
      {
        data: { values: rows },
        mark: { type: 'text', align: 'left', baseline: 'middle', clip: false },
        encoding: {
          x: { value: room + 10 },
          y,
          text: { field: 'text', type: 'nominal' },
        },
      },
    ],
  };
}

function caption(cars: readonly string[], drawn: readonly Compared[], probability: number | undefined): string {
  const [first = ''] = cars;
  const best = drawn.filter(({ best }) => best !== '').map(({ label, best }) => `${best} for ${label}`);
  const marked = best.length === 0 ? '' : ` The diamond is the best of a row: ${best.join(', ')}.`;
  const pale = probability === undefined ? '' : ` Pale bars: ${chanceText(probability)} lie between their ends.`;
  return `The dashed line is ${first}; beside the dots stand the values and, in brackets, by how much they differ from it.${marked}${pale} Each row has a scale of its own, which does not begin at nothing.`;
}
