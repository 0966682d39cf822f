/** Where the boxes of a side view stand and where their names go. */
import type { Result } from '../runs/result.ts';
import { numbers } from './picture.ts';

/** m, side of a square that stands for 1 kg: 100 kg is a square of 0.4 m. */
export const SQUARE = 0.04;

export interface Box {
  readonly name: string;
  readonly what: 'out' | 'in';
  readonly count: number;
  /** kg of all pieces. */
  readonly mass: number;
  /** m. */
  readonly x: number;
  readonly height: number;
  /** m. */
  readonly side: number;
}

/** What came out and went in, the largest first so that the small ones are drawn over them. */
export function boxes(result: Result): readonly Box[] {
  const items = result.series['items'] ?? {};
  const names = items['item']?.values ?? [];
  const what = items['what']?.values ?? [];
  const column = (key: string, i: number): number => numbers(items, key)[i] ?? 0;
  const all = Array.from(names, (name, i) => ({
    name: String(name),
    what: String(what[i]),
    count: column('count', i),
    mass: column('mass_kg', i),
    x: column('x_m', i),
    height: column('height_m', i),
    side: SQUARE * Math.sqrt(column('mass_kg', i)),
  }));
  return all.filter((box): box is Box => box.what === 'in' || box.what === 'out').toSorted((a, b) => b.mass - a.mass);
}

/** A name above the picture, with a line down to what it names. */
export interface Note {
  readonly text: string;
  /** px, of the line. */
  readonly x: number;
  /** 0 is the uppermost. */
  readonly row: number;
  /** Of the line, on which the text stands. */
  readonly side: 'left' | 'right';
}

/** px between a line and the text beside it, and between texts. */
const GAP = 5;

/**
 * Puts names in rows so that no name covers another and no line runs through a name: from the right end to the left, each
 * in the lowest row that is free of both. Same order as `wanted`.
 */
export function placeNotes(
  wanted: readonly { readonly text: string; readonly x: number }[],
  width: number,
  character: number,
): readonly Note[] {
  const placed: (Note & { readonly index: number; readonly from: number; readonly to: number })[] = [];
  const order = wanted.map((note, index) => ({ ...note, index })).toSorted((a, b) => b.x - a.x);
  for (const note of order) {
    const length = note.text.length * character + GAP;
    const right = { side: 'right', from: note.x, to: note.x + length } as const;
    const left = { side: 'left', from: note.x - length, to: note.x } as const;
    const fitting = [right, left].filter(({ from, to }) => from >= 0 && to <= width);
    const sides = fitting.length === 0 ? [right] : fitting;
    const level = sides
      .flatMap(side => placed.map(({ row }) => row + 1).concat(0).map(row => ({ ...side, row })))
      .toSorted((a, b) => a.row - b.row)
      .find(spot => placed.every(other => !clash({ ...spot, x: note.x }, other)));
    const above = 1 + Math.max(-1, ...placed.map(({ row }) => row));
    placed.push({ ...note, ...(level ?? { ...(sides[0] ?? right), row: above }) });
  }
  const rows = Math.max(0, ...placed.map(({ row }) => row));
  return placed
    .toSorted((a, b) => a.index - b.index)
    .map(({ text, x, row, side }) => ({ text, x, side, row: rows - row }));
}

interface Spot {
  readonly x: number;
  readonly from: number;
  readonly to: number;
  /** Counted from below while they are placed. */
  readonly row: number;
}

/** Names over each other in a row, or a line that rises through the name of a lower one. */
function clash(a: Spot, b: Spot): boolean {
  if (a.row === b.row) return a.from < b.to + GAP && b.from < a.to + GAP;
  const [low, high] = a.row < b.row ? [a, b] : [b, a];
  return high.x > low.from + 1 && high.x < low.to;
}
