/** A speed as it was logged: what a fit is made to. */
import { readRows } from '../cycles/log.ts';
import type { LogOptions } from '../cycles/log.ts';
import { LogError } from '../cycles/log/error.ts';
import { openTally } from '../cycles/log/repair.ts';
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
  const rows = readRows(text, options, tally);
  if (rows.speed === null) {
    const { line, source } = rows.header;
    const message = 'there is no column of speed, and positions are too coarse to tell how a car slows down';
    throw new LogError(
      { line, column: 1, length: Math.max(1, source.length), source },
      'speed',
      message,
      'speed [km/h]',
    );
  }
  const { time, speed, line } = mendSpeeds({ time: rows.time, speed: rows.speed, line: rows.line }, tally, 'left out');
  return { title: options.title ?? 'log', time, speed, line, notes: tally.repairs.map(({ text }) => text) };
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
