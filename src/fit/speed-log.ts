/** A speed as it was logged: what a fit is made to. */
import { readRows } from '../cycles/log.ts';
import type { LogOptions } from '../cycles/log.ts';
import { LogError } from '../cycles/log/error.ts';
import { openTally, type Tally } from '../cycles/log/repair.ts';
import type { LogRows } from '../cycles/log/rows.ts';
import { mendSpeeds } from '../cycles/log/speeds.ts';
import { nth } from '../columns.ts';

export interface SpeedLog {
  readonly title: string;
  /** s, growing. */
  readonly time: Float64Array;
  /** m/s. */
  readonly speed: Float64Array;
  /** 1-based lines of the log. */
  readonly line: Uint32Array;
  /** What was mended or understood, as sentences without a full stop. */
  readonly notes: readonly string[];
}

/**
 * The rows of a log as they stand, but for speeds that no car can jump to: nothing is averaged and nothing bridged.
 * @throws LogError for a log that cannot be read, or one without a column of speed.
 */
export function readSpeedLog(text: string, options: LogOptions = {}): SpeedLog {
  const tally = openTally();
  return speedLogOf(readRows(text, options, tally), options.title ?? 'log', tally);
}

/** The same of rows that were read; those without a speed are none of it. @throws LogError */
export function speedLogOf({ header, time, speed, line }: LogRows, title: string, tally: Tally): SpeedLog {
  if (speed === null) {
    const { line: at, source } = header;
    const message = 'there is no column of speed, and positions are too coarse to tell how a car slows down';
    const place = { line: at, column: 1, length: Math.max(1, source.length), source };
    throw new LogError(place, 'speed', message, 'speed [km/h]');
  }
  const told = [...speed.keys()].filter(i => !Number.isNaN(nth(speed, i)));
  const kept =
    told.length === speed.length
      ? { time, speed, line }
      : {
          time: Float64Array.from(told, i => nth(time, i)),
          speed: Float64Array.from(told, i => nth(speed, i)),
          line: Uint32Array.from(told, i => nth(line, i)),
        };
  const mended = mendSpeeds(kept, tally, 'left out');
  return { title, ...mended, notes: tally.repairs.map(({ text }) => text) };
}

/** A complaint about one row of a track. */
export function rowError({ line }: Pick<SpeedLog, 'line'>, row: number, message: string, expected: string): LogError {
  return new LogError({ line: nth(line, row), column: 1, length: 1, source: '' }, 'speed', message, expected);
}

/** Rows `from` up to but without `to`, with times from the first of them. */
export function cutLog(track: SpeedLog, from: number, to: number): SpeedLog {
  const { time, speed, line } = track;
  const start = nth(time, from);
  return {
    ...track,
    time: time.slice(from, to).map(t => t - start),
    speed: speed.slice(from, to),
    line: line.slice(from, to),
  };
}
