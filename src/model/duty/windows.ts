/** The greatest root mean square over any stretch of a given length: what a fuse, a cable or a connector of that time constant feels. */
import { joined, valueAt, squareOf } from './track.ts';
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
  const sums = sumsOf(track);
  const duration = valueAt(sums.time, sums.pieces);
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
  const { time, square, pieces } = sumsOf(track);
  const duration = valueAt(time, pieces);
  return duration > 0 ? Math.sqrt(valueAt(square, pieces) / duration) : 0;
}

/** The integral of the square. */
function totalSquare(track: Track): number {
  const { square, pieces } = sumsOf(track);
  return valueAt(square, pieces);
}

/** s and integral of the square up to the start of each piece, and to the end. */
interface Sums {
  readonly pieces: number;
  readonly time: Float64Array;
  readonly square: Float64Array;
}

/** A track is looked at over many windows. */
const known = new WeakMap<Track, Sums>();

function sumsOf(track: Track): Sums {
  const found = known.get(track);
  if (found !== undefined) return found;
  const { length, from, to } = track;
  const pieces = length.length;
  const time = new Float64Array(pieces + 1);
  const square = new Float64Array(pieces + 1);
  let [seconds, sum] = [0, 0];
  for (let i = 0; i < pieces; i++) {
    seconds += valueAt(length, i);
    sum += squareOf(valueAt(length, i), valueAt(from, i), valueAt(to, i));
    time[i + 1] = seconds;
    square[i + 1] = sum;
  }
  const sums = { pieces, time, square };
  known.set(track, sums);
  return sums;
}

/** The greatest integral of the square over any `window` seconds, which the track lasts at least. */
function greatestSquare(track: Track, window: number): number {
  const { pieces, time, square } = sumsOf(track);
  const end = valueAt(time, pieces);
  if (!(window < end)) return valueAt(square, pieces);
  // With its head at the very end, then with its tail where each piece begins.
  let most = valueAt(square, pieces) - upTo(track, end - window);
  for (let tail = 0, head = 0; valueAt(time, tail) + window <= end; tail++) {
    const at = valueAt(time, tail) + window;
    while (head + 1 < pieces && valueAt(time, head + 1) <= at) head++;
    const before = valueAt(square, tail);
    // With all of the piece that its head is in it has no more.
    if (!(valueAt(square, head + 1) - before > most)) continue;
    const now = valueAt(square, head) + partOf(track, head, at - valueAt(time, head)) - before;
    if (now > most) most = now;
  }
  let last = 0;
  for (let tail = 0; tail < pieces && valueAt(time, tail) + window < end; tail++) {
    const until = valueAt(time, tail + 1) + window;
    while (last + 1 < pieces && valueAt(time, last + 1) < until) last++;
    // All that a window can have whose tail lies in this piece.
    if (!(valueAt(square, last + 1) - valueAt(square, tail) > most)) continue;
    const at = valueAt(time, tail) + window;
    let head = last;
    while (head > 0 && valueAt(time, head) > at) head--;
    most = withTailIn(track, window, tail, head, most);
  }
  return most;
}

/** The integral of the square from the start up to a time. */
function upTo(track: Track, at: number): number {
  const { pieces, time, square } = sumsOf(track);
  let [low, high] = [0, pieces];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (valueAt(time, middle) <= at) low = middle;
    else high = middle;
  }
  return valueAt(square, low) + partOf(track, low, at - valueAt(time, low));
}

/** The same of the first seconds of a piece. */
function partOf({ length, from, to }: Track, piece: number, seconds: number): number {
  const h = valueAt(length, piece);
  const a = valueAt(from, piece);
  return h > 0 ? squareOf(seconds, a, a + ((valueAt(to, piece) - a) * seconds) / h) : 0;
}

/** The most of `most` and the windows whose tail lies in a piece. @param first the piece in which the head then begins. */
function withTailIn(track: Track, window: number, tail: number, first: number, most: number): number {
  const { length, from, to } = track;
  const { pieces, time, square } = sumsOf(track);
  const hTail = valueAt(length, tail);
  if (!(hTail > 0)) return most;
  const aTail = valueAt(from, tail);
  const u = (valueAt(to, tail) - aTail) / hTail;
  let found = most;
  let behind = 0;
  let before = valueAt(time, tail) + window - valueAt(time, first);
  for (let head = first; head < pieces && behind < hTail; head++) {
    const hHead = valueAt(length, head);
    const q = hHead > 0 ? (valueAt(to, head) - valueAt(from, head)) / hHead : 0;
    const r = aTail + u * behind;
    const p = valueAt(from, head) + q * before;
    const step = Math.max(0, Math.min(hTail - behind, hHead - before));
    const now =
      valueAt(square, head) -
      valueAt(square, tail) +
      squareOf(before, valueAt(from, head), p) -
      squareOf(behind, aTail, r);
    found = Math.max(found, crest(now, step, p, q, r, u));
    behind = hTail - behind <= step ? hTail : behind + step;
    before = 0;
  }
  return found;
}

/** The most of `now` and the integral of (p + q s)^2 - (r + u s)^2 within a step: at its end, or where p + q s is r + u s, or less it. */
function crest(now: number, step: number, p: number, q: number, r: number, u: number): number {
  let most = now;
  // Its slope over s is (p - r + (q - u) s) (p + r + (q + u) s).
  for (let i = 0; i < 3; i++) {
    const s = i === 0 ? step : i === 1 ? (r - p) / (q - u) : (-p - r) / (q + u);
    if (!(s > 0 && s <= step)) continue;
    const then = now + s * (p * p - r * r + s * (p * q - r * u + (s * (q * q - u * u)) / 3));
    if (then > most) most = then;
  }
  return most;
}
