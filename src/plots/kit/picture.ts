/** What a picture is before it is drawn: a Vega-Lite spec for any width, what it shows in words, and its numbers. */
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

/** A key below the plot, in as many columns as surely fit: the drawing library takes a character for 0.8 of its height. */
export function lineKey(labels: readonly string[], width: number): object {
  const longest = Math.max(...labels.map(label => label.length));
  const columns = Math.max(1, Math.min(labels.length, Math.floor((width - LEFT) / (50 + 0.8 * FONT_SIZE * longest))));
  return { title: null, orient: 'bottom', direction: 'vertical', columns, symbolType: 'stroke', symbolSize: 500 };
}

/** How views are put above each other. */
export interface Stack {
  /** px of the whole drawing. */
  readonly width: number;
  /** px of each view. */
  readonly height: number;
  /** px between two views. */
  readonly spacing: number;
}

/** Views of one height above each other; each says the rest of its spec. */
export function stacked(views: readonly object[], { width, height, spacing }: Stack): object {
  return {
    config: THEME,
    bounds: 'flush',
    spacing,
    vconcat: views.map(view => ({ width: plotWidth(width), height, ...view })),
  };
}

/** px of the plot itself in a drawing of this many across. */
export function plotWidth(width: number): number {
  return width - LEFT - RIGHT - 4;
}
