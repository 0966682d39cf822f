/** The greatest root mean square over any stretch of a given length: what a fuse, a cable or a connector of that time constant feels. */
import { nth } from '../../columns.ts';
import { durationOf, joined, squareOf } from './track.ts';
import type { Track } from './track.ts';

/** s over which currents are told. Common practice, no source: a pulse, a full-pedal start, a hill, half an hour. */
export const WINDOWS = [1, 10, 60, 1800] as const;

/** What a run comes to over a window. */
export interface Windowed {
  /** Of the run once, with nothing before and after it. */
  readonly once: number;
  /** Of the run again and again without a pause; the same as `once` where the run is as long as the window. */
  readonly repeated: number;
  /** Whether the run is shorter than the window. */
  readonly short: boolean;
}

/**
 * sqrt of the greatest 1/w times the integral of the square over w seconds, found exactly: between two places at which either end
 * of the window comes to the end of a piece its slope is a product of two straight lines. w times the square of `once` never falls
 * with w. @param window s, above nothing.
 */
export function windowed(track: Track, window: number): Windowed {
  const duration = durationOf(track);
  if (!(duration > 0)) return { once: 0, repeated: 0, short: true };
  // The sum of many pieces is a trifle off: a window as long as the run is the run.
  if (window <= duration * (1 + 1e-12)) {
    const once = Math.sqrt(greatestSquare(track, Math.min(window, duration)) / window);
    return { once, repeated: once, short: false };
  }
  const whole = totalSquare(track);
  const runs = Math.floor(window / duration);
  const rest = window - runs * duration;
  const more = rest > 0 ? greatestSquare(joined([track, track]), rest) : 0;
  return {
    once: Math.sqrt(whole / window),
    repeated: Math.sqrt((runs * whole + more) / window),
    short: true,
  };
}

/** Root mean square of the whole of it. */
export function rootMeanSquare(track: Track): number {
  const duration = durationOf(track);
  return duration > 0 ? Math.sqrt(totalSquare(track) / duration) : 0;
}

/** The integral of the square. */
function totalSquare({ length, from, to }: Track): number {
  let sum = 0;
  for (let i = 0; i < length.length; i++) sum += squareOf(nth(length, i), nth(from, i), nth(to, i));
  return sum;
}

/** The greatest integral of the square over any `window` seconds, which the track lasts at least. */
function greatestSquare({ length, from, to }: Track, window: number): number {
  const pieces = length.length;
  const sums = new Float64Array(pieces + 1);
  for (let i = 0; i < pieces; i++) sums[i + 1] = nth(sums, i) + squareOf(nth(length, i), nth(from, i), nth(to, i));
  // s from the start of its piece to the tail of the window, and to its head.
  let [tail, behind] = [0, 0];
  let [head, before] = [0, window];
  while (head < pieces && before >= nth(length, head)) before -= nth(length, head++);
  if (head === pieces) return nth(sums, pieces);
  let most = 0;
  while (head < pieces) {
    const hTail = nth(length, tail);
    const hHead = nth(length, head);
    const aTail = nth(from, tail);
    const aHead = nth(from, head);
    const u = hTail > 0 ? (nth(to, tail) - aTail) / hTail : 0;
    const q = hHead > 0 ? (nth(to, head) - aHead) / hHead : 0;
    const r = aTail + u * behind;
    const p = aHead + q * before;
    const leftTail = hTail - behind;
    const leftHead = hHead - before;
    const step = leftTail < leftHead ? leftTail : leftHead;
    const now =
      nth(sums, head) -
      nth(sums, tail) +
      (before / 3) * (aHead * aHead + aHead * p + p * p) -
      (behind / 3) * (aTail * aTail + aTail * r + r * r);
    if (now > most) most = now;
    // What comes in at the head is all that it can gain.
    const end = p + q * step;
    const gain = step * (p * p > end * end ? p * p : end * end);
    if (now + gain > most) most = Math.max(most, crest(now, step, p, q, r, u));
    behind = leftTail <= step ? 0 : behind + step;
    before = leftHead <= step ? 0 : before + step;
    if (leftTail <= step) tail++;
    if (leftHead <= step) head++;
  }
  return most;
}

/** The most of `now` and the integral of (p + q s)^2 - (r + u s)^2 within a step: at its end, or where p + q s is r + u s, or less it. */
function crest(now: number, step: number, p: number, q: number, r: number, u: number): number {
  let most = now;
  for (let i = 0; i < 3; i++) {
    const s = i === 0 ? step : i === 1 ? (r - p) / (q - u) : (-p - r) / (q + u);
    if (!(s > 0 && s <= step)) continue;
    const then = now + s * (p * p - r * r + s * (p * q - r * u + (s * (q * q - u * u)) / 3));
    if (then > most) most = then;
  }
  return most;
}
