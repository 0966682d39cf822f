/**
 * A rating as makers write it: a current for ever, and greater ones for a time. The heat of a pulse over what is given for ever,
 * (Ip^2 - Ic^2) tp, is a budget: any other current spends it by its own heat over that, and less gives it back until it is whole.
 * The same rule as that of the pack (`pack/state.ts`, `pulseBudget`).
 */
import { nth } from '../../columns.ts';
import { pulseBudget } from '../pack/state.ts';
import { squareOf } from './track.ts';
import type { Track } from './track.ts';

/** A current that is given for a time. */
export interface Pulse {
  /** A. */
  readonly current: number;
  /** s, from a rested part. */
  readonly time: number;
}

/** What a run spends of a budget. */
export interface Spent {
  /** Of the budget, the most that is spent at any instant of the run; above 1 it is overspent. */
  readonly share: number;
  /** s after which it is spent; null where it never is. */
  readonly after: number | null;
}

/** s for which a constant current may be given; Infinity for one that is given for ever. */
export function timeAt(current: number, continuous: number, pulse: Pulse): number {
  const over = current * current - continuous * continuous;
  return over > 0 ? pulseBudget(continuous, pulse) / over : Infinity;
}

/** @param track A, of either sign: its heat counts. @throws RangeError for a pulse that is no more than what is given for ever. */
export function spentOf({ length, from, to }: Track, continuous: number, pulse: Pulse): Spent {
  const budget = pulseBudget(continuous, pulse);
  if (!(budget > 0)) throw new RangeError('a pulse must be above the current that is given for ever');
  const last = continuous * continuous;
  let [filled, most, time] = [0, 0, 0];
  let after: number | null = null;
  for (let i = 0; i < length.length; i++) {
    const [h, a, b] = [nth(length, i), nth(from, i), nth(to, i)];
    let [s0, i0] = [0, a];
    // Within each part the current is on one side of what is given for ever.
    for (const s1 of crossings(h, a, b, continuous)) {
      const i1 = a + ((b - a) * s1) / (h > 0 ? h : 1);
      const gained = squareOf(s1 - s0, i0, i1) - last * (s1 - s0);
      const then = Math.max(0, filled + gained);
      if (after === null && then >= budget) after = time + s0 + instantOf(s1 - s0, i0, i1, last, budget - filled);
      filled = then;
      if (filled > most) most = filled;
      [s0, i0] = [s1, i1];
    }
    time += h;
  }
  return { share: most / budget, after };
}

/** s in a straight piece at which its size is a given one, ascending, and its end. */
function crossings(h: number, a: number, b: number, size: number): readonly number[] {
  if (Math.abs(a) <= size && Math.abs(b) <= size) return [h];
  if (Math.min(a, b) >= size || Math.max(a, b) <= -size) return [h];
  const found = [-size, size].map(level => ((level - a) / (b - a)) * h).filter(s => s > 0 && s < h);
  return [...new Set(found.toSorted((s, t) => s - t)), h];
}

/** s within a part of growing spending after which so much more is spent. */
function instantOf(h: number, a: number, b: number, last: number, missing: number): number {
  let [low, high] = [0, h];
  for (let i = 0; i < 60; i++) {
    const s = 0.5 * (low + high);
    if (squareOf(s, a, a + ((b - a) * s) / h) - last * s < missing) low = s;
    else high = s;
  }
  return high;
}
