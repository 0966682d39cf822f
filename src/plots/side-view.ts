/** A car on its axles, from the side and to scale: what came out and went in, the centre of gravity, the axle loads. */
import type { Result } from '../runs/result.ts';
import { massText } from '../runs/weigh/text.ts';
import type { System } from '../units.ts';
import { axleBars } from './axle-bars.ts';
import { COLOUR, INK, PAPER, QUIET } from './kit/palette.ts';
import { CHARACTER, NARROW } from './kit/layout.ts';
import { pictureOf, THEME } from './kit/picture.ts';
import { summaryNumber } from './kit/series.ts';
import { numbers } from '../runs/series.ts';
import { type Box, boxes, type Note, placeNotes } from './side-view-layout.ts';
import { caption, table } from './side-view-words.ts';

/** m drawn in front of the front axle and behind the rear axle at least. */
const OVERHANG = 0.6;
/** m, radius of a wheel whose tyre size is not known. */
const WHEEL = 0.29;
/** px per line of writing. */
const LINE = 15;
/** px under the road for the names of the centres of gravity. */
const UNDER = 2 * LINE + 12;

/** The picture of a weighing: needs the series `items`, `states` and `axles`. */
export const sideView = pictureOf('The car from the side, to scale, and the load on each axle', {
  caption,
  spec,
  table,
});

function column(result: Result, name: string, key: string): Float64Array {
  return numbers(result.series[name] ?? {}, key);
}

interface Canvas {
  readonly width: number;
  /** px for a metre. */
  readonly metre: number;
  /** px from the left edge to the front axle. */
  readonly left: number;
  /** px from the top to the road. */
  readonly road: number;
  /** px for a row of names. */
  readonly row: number;
}

function spec(result: Result, system: System, width: number): object {
  const drawn = boxes(result);
  const base = column(result, 'axles', 'x_m')[1] ?? 0;
  const first = Math.min(-OVERHANG, ...drawn.map(box => box.x - box.side / 2));
  const last = Math.max(base + OVERHANG, ...drawn.map(box => box.x + box.side / 2));
  const plot = width - 4;
  const metre = plot / (last - first);
  const left = -first * metre;
  const narrow = width < NARROW;
  const notes = placeNotes(
    drawn.map(box => {
      const text = noteText(box, system, narrow);
      return {
        text,
        x: left + box.x * metre,
        length: CHARACTER * Math.max(...text.split('\n').map(line => line.length)),
      };
    }),
    plot,
  );
  const row = narrow ? 2 * LINE : LINE;
  const top = Math.max(0.9, ...drawn.map(box => box.height + box.side / 2));
  const road = (1 + Math.max(0, ...notes.map(note => note.row))) * row + 10 + top * metre;
  const canvas: Canvas = { width: plot, metre, left, road, row };
  const bars = axleBars(result, system, {
    width: plot,
    left,
    span: base * metre,
    top: road + UNDER + 14,
    narrow,
  });
  const x = { field: 'x', type: 'quantitative', scale: { domain: [0, plot], nice: false, zero: false }, axis: null };
  const y = {
    field: 'y',
    type: 'quantitative',
    scale: { domain: [bars.bottom, 0], nice: false, zero: false },
    axis: null,
  };
  return {
    config: THEME,
    width: plot,
    height: bars.bottom,
    encoding: { x, y },
    layer: [...wheels(result, canvas), ...boxMarks(drawn, notes, canvas), ...centres(result, canvas), ...bars.layers],
  };
}

/** `+ 2 × front box 110 kg`, `− engine 128 kg`; where it is narrow the mass stands on a line of its own. */
function noteText({ name, count, mass, what }: Box, system: System, narrow: boolean): string {
  return `${what === 'in' ? '+' : '−'} ${count > 1 ? `${count} × ` : ''}${name}${narrow ? '\n' : ' '}${massText(mass, system)}`;
}

const X2 = { x2: { field: 'x2' } };
const BOTH = { x2: { field: 'x2' }, y2: { field: 'y2' } };

function wheels(result: Result, { width, metre, left, road }: Canvas): readonly object[] {
  const places = column(result, 'axles', 'x_m');
  const radii = column(result, 'axles', 'tyre_radius_m');
  const circles = Array.from(places, (place, i) => {
    const known = radii[i] ?? Number.NaN;
    const radius = (Number.isNaN(known) ? WHEEL : known) * metre;
    return { x: left + place * metre, y: road - radius, size: (2 * radius) ** 2 };
  });
  const size = { field: 'size', type: 'quantitative', scale: null };
  return [
    {
      data: { values: [{ x: 0, x2: width, y: road }] },
      mark: { type: 'rule', color: INK, strokeWidth: 1.5 },
      encoding: X2,
    },
    {
      data: { values: circles },
      mark: {
        type: 'point',
        shape: 'circle',
        filled: true,
        fill: '#f3f2ee',
        stroke: QUIET,
        strokeWidth: 2,
        opacity: 1,
      },
      encoding: { size },
    },
    {
      data: { values: circles },
      mark: { type: 'point', shape: 'circle', filled: true, size: 20, color: QUIET, opacity: 1 },
    },
  ];
}

function boxMarks(
  drawn: readonly Box[],
  notes: readonly Note[],
  { metre, left, road, row }: Canvas,
): readonly object[] {
  const rectangles = drawn.map(box => ({
    what: box.what,
    x: left + (box.x - box.side / 2) * metre,
    x2: left + (box.x + box.side / 2) * metre,
    y: road - (box.height + box.side / 2) * metre,
    y2: road - (box.height - box.side / 2) * metre,
  }));
  const leaders = drawn.map((box, i) => ({
    x: left + box.x * metre,
    y: (notes[i]?.row ?? 0) * row + 2,
    y2: road - box.height * metre,
  }));
  const labels = notes.map(note => ({ x: note.x, y: note.row * row + 2, text: note.text, side: note.side }));
  const only = (what: Box['what']): readonly object[] => rectangles.filter(box => box.what === what);
  return [
    {
      data: { values: only('in') },
      mark: { type: 'rect', fill: COLOUR['motor power'], stroke: INK, strokeWidth: 1.2, opacity: 0.9 },
      encoding: BOTH,
    },
    {
      data: { values: only('out') },
      mark: { type: 'rect', fillOpacity: 0, stroke: INK, strokeWidth: 1.6, strokeDash: [5, 3] },
      encoding: BOTH,
    },
    {
      data: { values: leaders },
      mark: { type: 'rule', color: QUIET, strokeWidth: 0.8 },
      encoding: { y2: { field: 'y2' } },
    },
    {
      data: { values: leaders.map(({ x, y2 }) => ({ x, y: y2 })) },
      mark: { type: 'point', filled: true, size: 14, color: INK, opacity: 1 },
    },
    ...(['left', 'right'] as const).map(side => ({
      data: { values: labels.filter(label => label.side === side) },
      mark: {
        type: 'text',
        align: side === 'right' ? 'left' : 'right',
        baseline: 'top',
        dx: side === 'right' ? 3 : -3,
        lineBreak: '\n',
        lineHeight: LINE - 1,
      },
      encoding: { text: { field: 'text', type: 'nominal' } },
    })),
  ];
}

/** The centre of gravity of the empty car before and now, each with its name under the road. */
function centres(result: Result, { metre, left, road }: Canvas): readonly object[] {
  const at = (prefix: string): { x: number; y: number } => ({
    x: left + (summaryNumber(result, `${prefix}_cg_x`) ?? 0) * metre,
    y: road - (summaryNumber(result, `${prefix}_cg_height`) ?? 0) * metre,
  });
  const [before, now] = [at('before'), at('kerb')];
  const foot = road + UNDER;
  const backwards = now.x >= before.x;
  const label = (point: { x: number }, word: string, right: boolean): object => ({
    data: { values: [{ x: point.x, y: road + 5, text: `centre of gravity\n${word}` }] },
    mark: {
      type: 'text',
      align: right ? 'left' : 'right',
      baseline: 'top',
      dx: right ? 4 : -4,
      lineBreak: '\n',
      lineHeight: LINE,
      fontWeight: word === 'now' ? 600 : 400,
    },
    encoding: { text: { field: 'text', type: 'nominal' } },
  });
  const mark = { type: 'point', filled: true, stroke: INK, strokeWidth: 2, opacity: 1 };
  return [
    {
      data: { values: [before, now].map(point => ({ ...point, y2: foot })) },
      mark: { type: 'rule', color: INK, strokeWidth: 1 },
      encoding: { y2: { field: 'y2' } },
    },
    { data: { values: [before] }, mark: { ...mark, shape: 'circle', fill: PAPER, size: 110 } },
    { data: { values: [now] }, mark: { ...mark, shape: 'diamond', fill: COLOUR.grip, size: 150 } },
    label(before, 'before', !backwards),
    label(now, 'now', backwards),
  ];
}
