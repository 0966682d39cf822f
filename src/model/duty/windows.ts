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
export function totalSquare({ length, from, to }: Track): number {
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
    const [hTail, aTail] = [nth(length, tail), nth(from, tail)];
    const [hHead, aHead] = [nth(length, head), nth(from, head)];
    const u = hTail > 0 ? (nth(to, tail) - aTail) / hTail : 0;
    const q = hHead > 0 ? (nth(to, head) - aHead) / hHead : 0;
    const r = aTail + u * behind;
    const p = aHead + q * before;
    const now = nth(sums, head) + squareOf(before, aHead, p) - (nth(sums, tail) + squareOf(behind, aTail, r));
    if (now > most) most = now;
    const step = Math.max(0, Math.min(hTail - behind, hHead - before));
    const then = (s: number): number =>
      s > 0 && s <= step ? now + s * (p * p - r * r + s * (p * q - r * u + (s * (q * q - u * u)) / 3)) : now;
    // The slope over s: (p - r + (q - u) s) (p + r + (q + u) s).
    most = Math.max(
      most,
      then(step),
      q === u ? now : then((r - p) / (q - u)),
      q === -u ? now : then((-p - r) / (q + u)),
    );
    const atTail = hTail - behind <= step;
    const atHead = hHead - before <= step;
    behind = atTail ? 0 : behind + step;
    before = atHead ? 0 : before + step;
    if (atTail) tail++;
    if (atHead) head++;
  }
  return most;
}
