/** What a picture is before it is drawn: a Vega-Lite spec for any width, what it shows in words, and its numbers. */
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { FONT_SIZE, LEFT } from './layout.ts';
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

/** What of a picture hangs on the result; the spec on the width too. */
interface Drawn {
  readonly caption: (result: Result, system: System) => string;
  readonly spec: (result: Result, system: System, width: number) => object;
  readonly table: (result: Result, system: System) => PictureTable;
}

/** The picture of that title of any result. */
export function pictureOf(title: string, { caption, spec, table }: Drawn): (result: Result, system: System) => Picture {
  return (result, system) => ({
    title,
    caption: caption(result, system),
    spec: width => spec(result, system, width),
    table: table(result, system),
  });
}

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
