/** What a picture is before it is drawn: a Vega-Lite spec for any width, what it shows in words, and its numbers. */
import type { Result, Series } from '../../runs/result.ts';
import { HAIR, INK, LINES, PAPER, QUIET } from './palette.ts';

export interface Picture {
  /** What the picture is, a few words. */
  readonly title: string;
  /** What is seen in it, in sentences, worked out from the numbers. */
  readonly caption: string;
  /** The Vega-Lite spec for a drawing of about this many CSS pixels across. */
  spec(width: number): object;
  readonly table: PictureTable;
}

/** The numbers behind a picture, written out; rows are thinned to what a reader can take in. */
export interface PictureTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Width under which a drawing is laid out for a telephone. */
export const NARROW = 480;
/** px between the left edge and the plot, the same for all views that share an axis. */
export const LEFT = 50;
/** px between the plot and the right edge. */
export const RIGHT = 14;
/** px; the sizes are fixed because the text must be readable as drawn. */
export const FONT_SIZE = 12;
/** px, width of one character of that size on average, on the safe side. */
export const CHARACTER = 6.6;

/** Looks shared by all pictures. */
export const THEME = {
  aria: false,
  background: PAPER,
  font: 'system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif',
  padding: 2,
  view: { stroke: null },
  numberFormat: '~f',
  mark: { color: LINES[0]?.colour ?? INK },
  range: { category: LINES.map(line => line.colour) },
  title: { color: INK, fontSize: FONT_SIZE, fontWeight: 600, anchor: 'start', offset: 6, frame: 'group', dx: 4 - LEFT },
  axis: {
    labelFontSize: FONT_SIZE,
    titleFontSize: FONT_SIZE,
    labelColor: QUIET,
    titleColor: QUIET,
    titleFontWeight: 'normal',
    gridColor: HAIR,
    domainColor: QUIET,
    tickColor: QUIET,
    labelLimit: 120,
    labelFlush: false,
  },
  legend: {
    labelFontSize: FONT_SIZE,
    titleFontSize: FONT_SIZE,
    labelColor: INK,
    labelLimit: 280,
    symbolStrokeWidth: 2.5,
  },
  text: { fontSize: FONT_SIZE, color: INK },
};

/** A vertical axis whose labels take the same room in every view, so that plots above each other line up. */
export function leftAxis(ticks: number): object {
  return { title: null, tickCount: ticks, minExtent: LEFT - 6, maxExtent: LEFT - 6 };
}

/** Numbers of a column; a text column is an error in the program, not in the notebook. */
export function numbers(series: Series, key: string): Float64Array {
  const column = series[key];
  if (column === undefined) throw new Error(`the series has no column ${key}`);
  if (!(column.values instanceof Float64Array)) throw new Error(`column ${key} is text`);
  return column.values;
}

/** Words of a column; a column of numbers is an error in the program. */
export function texts(series: Series, key: string): readonly string[] {
  const column = series[key];
  if (column === undefined) throw new Error(`the series has no column ${key}`);
  if (column.values instanceof Float64Array) throw new Error(`column ${key} is no text`);
  return column.values;
}

/** A number of the summary, or null when it is missing, a word, or without an answer. */
export function summaryNumber(result: Result, key: string): number | null {
  const value = result.summary[key];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** Indices of at most `count` of `length` rows, evenly spread, the first and the last among them. */
export function thin(length: number, count: number): readonly number[] {
  if (length <= count) return Array.from({ length }, (_, i) => i);
  return Array.from({ length: count }, (_, i) => Math.round((i * (length - 1)) / (count - 1)));
}

/**
 * Time, s, up to which a launch is worth drawing: past the sprint and the quarter mile, but not the long creep to the
 * top speed.
 */
export function span(result: Result): number {
  const series = result.series['time'];
  const times = series === undefined ? new Float64Array(0) : numbers(series, 'time_s');
  const end = times.at(-1) ?? 0;
  const marks = ['time_to_100_km_h', 'time_to_60_mph', 'time_quarter_mile', 'time_400_m'];
  const passed = marks.map(key => summaryNumber(result, key)).filter(time => time !== null);
  return passed.length === 0 ? end : Math.min(end, 1.05 * Math.max(...passed));
}

/** A key below the plot, in as many columns as surely fit: the drawing library takes a character for 0.8 of its height. */
export function lineKey(labels: readonly string[], width: number): object {
  const longest = Math.max(...labels.map(label => label.length));
  const columns = Math.max(1, Math.min(labels.length, Math.floor((width - LEFT) / (50 + 0.8 * FONT_SIZE * longest))));
  return { title: null, orient: 'bottom', direction: 'vertical', columns, symbolType: 'stroke', symbolSize: 500 };
}
