/** Where the boxes of a side view stand and where their names go. */
import type { Result } from '../runs/result.ts';
import { numbers, texts } from '../runs/series.ts';

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
  const names = texts(items, 'item');
  const what = texts(items, 'what');
  const column = (key: string, i: number): number => numbers(items, key)[i] ?? 0;
  const found = names.flatMap((name, i): Box[] => {
    const kind = what[i];
    if (kind !== 'in' && kind !== 'out') return [];
    const mass = column('mass_kg', i);
    const side = SQUARE * Math.sqrt(mass);
    return [
      { name, what: kind, count: column('count', i), mass, x: column('x_m', i), height: column('height_m', i), side },
    ];
  });
  return found.toSorted((a, b) => b.mass - a.mass);
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

/** What wants a name, px. */
export interface Wanted {
  readonly text: string;
  /** Of the line. */
  readonly x: number;
  /** Of the text. */
  readonly length: number;
}

/** px between a line and the text beside it, and between texts. */
const GAP = 5;
/** Up to so many names every way to divide them between left and right is tried. */
const TRIED = 24;

/**
 * Puts names in rows so that no name covers another and no line runs through a name: a name that lies over the line of
 * another stands above that one. Of the ways to let the rightmost names reach to the left, the one that keeps to the
 * picture, breaks no rule and needs the fewest rows. Same order as `wanted`.
 */
export function placeNotes(wanted: readonly Wanted[], width: number): readonly Note[] {
  const order = wanted.map((_, index) => index).toSorted((a, b) => (wanted[a]?.x ?? 0) - (wanted[b]?.x ?? 0));
  const splits = order.length > TRIED ? [null] : [...order.map((_, k) => k), order.length];
  const tried = splits.map(split => {
    const spans = wanted.map((note, index) => {
      const fits = note.x + note.length + GAP <= width;
      const right = split === null ? fits : order.indexOf(index) < split;
      const [from, to] = right ? [note.x, note.x + note.length + GAP] : [note.x - note.length - GAP, note.x];
      return { x: note.x, from, to, side: right ? ('right' as const) : ('left' as const) };
    });
    const { rows, broken } = stack(spans);
    const outside = spans.reduce((sum, { from, to }) => sum + Math.max(0, -from) + Math.max(0, to - width), 0);
    const most = Math.max(0, ...rows);
    const notes = wanted.map(
      ({ text, x }, i): Note => ({ text, x, row: most - (rows[i] ?? 0), side: spans[i]?.side ?? 'right' }),
    );
    return { notes, cost: [outside, broken, most] };
  });
  return tried.toSorted((a, b) => compare(a.cost, b.cost))[0]?.notes ?? [];
}

function compare(a: readonly number[], b: readonly number[]): number {
  const first = a.findIndex((value, i) => value !== b[i]);
  return first < 0 ? 0 : (a[first] ?? 0) - (b[first] ?? 0);
}

interface Span {
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

/** Rows counted from below, and how often a line had to run through a name after all. */
function stack(spans: readonly Span[]): { readonly rows: readonly number[]; readonly broken: number } {
  const under = spans.map((one, i) => spans.flatMap((other, j) => (i !== j && covers(one, other) ? [j] : [])));
  const rows: number[] = Array(spans.length).fill(-1);
  let broken = 0;
  for (let placed = 0; placed < spans.length; placed++) {
    const waiting = (i: number): number => (under[i] ?? []).filter(j => rows[j] === -1).length;
    const open = rows.flatMap((row, i) => (row === -1 ? [i] : []));
    const next = open.reduce((best, i) => (waiting(i) < waiting(best) ? i : best));
    broken += waiting(next);
    let row = 1 + Math.max(-1, ...(under[next] ?? []).map(j => rows[j] ?? -1));
    while (spans.some((other, j) => rows[j] === row && overlap(other, spans[next] ?? other))) row += 1;
    rows[next] = row;
  }
  return { rows, broken };
}

/** Whether a name lies over the line of another. */
function covers(name: Span, { x }: Span): boolean {
  return x > name.from + 1 && x < name.to - 1;
}

function overlap(a: Span, b: Span): boolean {
  return a.from < b.to && b.from < a.to;
}
