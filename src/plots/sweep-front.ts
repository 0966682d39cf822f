/** Two figures against each other, every run a dot, the best compromises marked. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading } from '../units/rounding.ts';
import { COLOUR, INK } from './kit/palette.ts';
import { leftAxis } from './kit/views.ts';
import { NARROW, plotWidth } from './kit/layout.ts';
import { type Picture, THEME } from './kit/picture.ts';
import { texts } from '../runs/series.ts';
import { rowHeadings, rowTexts } from './sweep-words.ts';
import { sweepAxes, sweepFigures, thinned } from './sweep-columns.ts';

/** Dots that are drawn besides the marked ones; rows of the table. */
const MOST = 600;
const ROWS = 16;

/** Rows of the best compromises; empty where none were asked for. */
export function frontRows(result: Result): readonly number[] {
  const rows = result.series['rows'] ?? {};
  if (rows['on_front'] === undefined) return [];
  return texts(rows, 'on_front').flatMap((word, row) => (word === 'yes' ? [row] : []));
}

/** The picture of a sweep with two figures or more: needs the series `rows`. */
export function sweepFront(result: Result, system: System): Picture {
  const rows = result.series['rows'] ?? {};
  const axes = sweepAxes(rows, system);
  const figures = sweepFigures(rows, system);
  const [across, up] = figures;
  if (across === undefined || up === undefined) throw new Error('two figures make a scatter');
  const front = frontRows(result);
  const marked = new Set(front);
  const others = Array.from(across.values.keys()).filter(row => !marked.has(row));
  const drawn = [...thinned(others, MOST), ...front];
  const dots = drawn.flatMap(row => {
    const [x, y] = [across.values[row] ?? Number.NaN, up.values[row] ?? Number.NaN];
    return Number.isNaN(x) || Number.isNaN(y)
      ? []
      : [{ x, y, best: marked.has(row), size: marked.has(row) ? 110 : 26, opacity: marked.has(row) ? 1 : 0.4 }];
  });
  const listed = front.length > 0 ? front : others;
  return {
    title: front.length > 0 ? 'The best compromises' : 'Two results against each other',
    caption: caption(front.length, across.label, up.label, others.length),
    spec: width => spec(dots, [across, up], width),
    table: {
      columns: rowHeadings(axes, figures),
      rows: thinned(listed, ROWS).map(row => rowTexts(axes, figures, row)),
    },
  };
}

function spec(
  dots: readonly { readonly x: number; readonly y: number; readonly best: boolean }[],
  [across, up]: readonly { readonly label: string; readonly unit: string }[],
  width: number,
): object {
  const best = { field: 'best', type: 'nominal', legend: null } as const;
  const domain = [true, false];
  const scale = { zero: false, nice: true, padding: 6 };
  return {
    config: THEME,
    width: plotWidth(width),
    height: width < NARROW ? 210 : 280,
    title: { text: capital(columnHeading(up?.label ?? '', up?.unit ?? '1')) },
    data: { values: dots },
    mark: { type: 'point', filled: true },
    encoding: {
      x: {
        field: 'x',
        type: 'quantitative',
        scale,
        axis: { title: columnHeading(across?.label ?? '', across?.unit ?? '1'), tickCount: width < NARROW ? 5 : 8 },
      },
      y: { field: 'y', type: 'quantitative', scale, axis: leftAxis(5) },
      color: { ...best, scale: { domain, range: [COLOUR.grip, INK] } },
      shape: { ...best, scale: { domain, range: ['diamond', 'circle'] } },
      size: { field: 'size', type: 'quantitative', scale: null, legend: null },
      opacity: { field: 'opacity', type: 'quantitative', scale: null, legend: null },
    },
  };
}

function caption(front: number, across: string, up: string, others: number): string {
  const thinned = others > MOST ? ` ${MOST} of the other ${others} runs are drawn.` : '';
  const marked =
    front === 0
      ? ''
      : ` ${front === 1 ? 'The diamond is the best compromise' : `Diamonds are the ${front} best compromises`}: no other run is better in one of the figures asked for without being worse in another one.`;
  return `Each dot is a run: ${up} against ${across}.${marked}${thinned}`;
}
