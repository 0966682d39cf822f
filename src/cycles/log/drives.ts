/** One drive of a log: from its rows to speeds over time, every repair told. */
import { lastOf, nth } from '../../columns.ts';
import { type Fixes, metresOf, wayAsRead, wayOfFixes } from './fixes.ts';
import { counted, type Tally } from './repair.ts';
import { everyStep, isFine, meanSpeeds, wayOf } from './resample.ts';
import { LogError } from './error.ts';
import type { LogRows } from './rows.ts';
import { mendSpeeds } from './speeds.ts';

/** s without a row above which a straight line is told, and s above which the car was parked. Common practice, no source. */
const GAP = 5;
const PARKED = 300;
/** A log of few rows has gaps only where they are so many times longer than usual. */
const USUAL = 5;
/** m/s at either end of a stop, and m that the car may have been moved in it. */
const ROLLING = 10 / 3.6;
const MOVED = 200;

/** s between two rows above which there is a gap. */
export function longestInterval({ time }: LogRows): number {
  const intervals = time.slice(1).map((t, i) => t - nth(time, i));
  return Math.max(GAP, USUAL * nth(intervals.toSorted(), intervals.length >> 1));
}

/**
 * The rows between two stops: pauses of the recorder so long that the car was parked.
 * @throws LogError where it was driving before or after.
 */
export function splitAtStops(rows: LogRows, limit: number, tally: Tally): readonly LogRows[] {
  const { time, line } = rows;
  const starts = [0];
  for (let i = 1; i < time.length; i++) {
    if (nth(time, i) - nth(time, i - 1) <= Math.max(PARKED, limit) || !isParked(rows, i)) continue;
    tally.note(
      'parked',
      nth(line, i),
      n => `${counted(n, 'pause')} of more than 5 min taken as a stop, the car switched off`,
    );
    starts.push(i);
  }
  const pieces = starts.map((from, k) => cut(rows, from, starts[k + 1] ?? time.length));
  for (const piece of pieces) {
    if (piece.rows > 1) continue;
    tally.note('alone', nth(piece.line, 0), n => `${counted(n, 'row')} alone between two stops left out`);
  }
  return pieces.filter(piece => piece.rows > 1);
}

function isParked(rows: LogRows, i: number): boolean {
  const { time, line, speed } = rows;
  if (speed === null) return metresOf(fixesOf(rows), i - 1, i) <= MOVED;
  if (Math.max(nth(speed, i - 1), nth(speed, i)) <= ROLLING) return true;
  const message = `nothing was recorded for ${round(nth(time, i) - nth(time, i - 1))} s before this row while the car was driving`;
  const place = { line: nth(line, i), column: 1, length: 1, source: '' };
  throw new LogError(place, 'time', message, 'a log for each drive, or the rows that are missing');
}

function cut(rows: LogRows, from: number, to: number): LogRows {
  const part = (column: Float64Array | null): Float64Array | null => column?.subarray(from, to) ?? null;
  return {
    ...rows,
    rows: to - from,
    time: rows.time.subarray(from, to),
    line: rows.line.subarray(from, to),
    speed: part(rows.speed),
    latitude: part(rows.latitude),
    longitude: part(rows.longitude),
    altitude: part(rows.altitude),
  };
}

function fixesOf({ time, latitude, longitude, line }: LogRows): Fixes {
  if (latitude === null || longitude === null) throw new RangeError('a log without speed has positions');
  return { time, latitude, longitude, line };
}

export interface Driven {
  /** s of the log. */
  readonly time: Float64Array;
  /** m/s. */
  readonly speed: Float64Array;
  /** m as the log says it, before any repair. */
  readonly asRead: number;
}

/** @param limit s above which an interval is told as a gap. @throws LogError for speeds of no car. */
export function driven(rows: LogRows, limit: number, tally: Tally): Driven {
  return rows.speed === null ? byFixes(rows, limit, tally) : bySpeed({ ...rows, speed: rows.speed }, limit, tally);
}

function bySpeed(rows: LogRows & { readonly speed: Float64Array }, limit: number, tally: Tally): Driven {
  const asRead = lastOf(wayOf(rows.time, rows.speed).metres);
  const mended = mendSpeeds(rows, tally);
  noteGaps(mended.time, mended.line, limit, tally);
  if (!isFine(mended.time)) return { ...mended, asRead };
  const grid = everyStep(mended.time);
  noteResampling(mended.time, nth(mended.line, 0), tally);
  return { time: grid, speed: meanSpeeds(wayOf(mended.time, mended.speed), grid), asRead };
}

function byFixes(rows: LogRows, limit: number, tally: Tally): Driven {
  const fixes = fixesOf(rows);
  noteGaps(rows.time, rows.line, limit, tally);
  if (isFine(rows.time)) noteResampling(rows.time, nth(rows.line, 0), tally);
  const way = wayOfFixes(fixes, tally);
  const grid = isFine(way.time) ? everyStep(way.time) : way.time;
  return { time: grid, speed: meanSpeeds(way, grid), asRead: wayAsRead(fixes) };
}

function noteGaps(time: Float64Array, line: Uint32Array, limit: number, tally: Tally): void {
  const intervals = time.map((t, i) => (i === 0 ? 0 : t - nth(time, i - 1)));
  const longest = round(intervals.reduce((most, seconds) => Math.max(most, seconds), 0));
  for (const [i, seconds] of intervals.entries()) {
    if (seconds <= limit) continue;
    tally.note(
      'gap',
      nth(line, i),
      n => `${counted(n, 'gap')} of more than ${round(limit)} s bridged by a straight line, the longest ${longest} s`,
    );
  }
}

function noteResampling(time: Float64Array, line: number, tally: Tally): void {
  const rate = round((time.length - 1) / (lastOf(time) - nth(time, 0)));
  tally.note('resampled', line, () => `about ${rate} rows a second averaged to one; the way stays the same`);
}

function round(value: number): number {
  return Number(value.toPrecision(3));
}
