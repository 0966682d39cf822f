/** Reads the log of a drive that somebody recorded: what was driven, and all that had to be mended. */
import { lastOf, nth } from '../columns.ts';
import { driven, longestInterval, splitAtStops } from './log/drives.ts';
import { LogError } from './log/error.ts';
import type { BusOptions, LogColumns, LogUnits } from './log/header.ts';
import { createLineCutter } from './log/lines.ts';
import { counted, openTally, type Repair, type Tally } from './log/repair.ts';
import { onItsRoad } from './log/road.ts';
import { type LogRows, LogTable } from './log/rows.ts';
import type { Schedule } from './schedule.ts';
import { distanceOf } from './statistics.ts';
import type { Leg, Stop } from './trip.ts';

export { LogError } from './log/error.ts';
export type { LogColumns, LogUnits } from './log/header.ts';

export interface LogOptions {
  /** Default `log`. */
  readonly title?: string;
  /** For columns whose header names no unit: `{ time: 's', speed: 'km/h' }`. */
  readonly units?: LogUnits;
  /** Names of columns as the header writes them: `{ speed: 'Speed (OBD)' }`. */
  readonly columns?: LogColumns;
}

export interface LogReading {
  /** Drives, and stops where nothing was recorded for longer than 5 min; at least one drive. */
  readonly parts: readonly (Leg | Stop)[];
  /** Rows with a reading, those of one time counted once. */
  readonly rows: number;
  /** m as the log says it, unrepaired, and m of all drives. */
  readonly distanceRead: number;
  readonly distance: number;
  /** What was mended, in the order in which it was found. */
  readonly repairs: readonly Repair[];
  /** What was understood that could have meant something else, as sentences without a full stop. */
  readonly notes: readonly string[];
}

/** Takes a log in chunks of text, cut anywhere. */
export interface LogReader {
  /** @throws LogError for a header that cannot be read, or where too much is wrong in the rows. */
  push(chunk: string): void;
  /** @throws LogError for all that is wrong in the rows: the first problem, and the others in it. */
  finish(): LogReading;
}

/**
 * A CSV table with a header: time and speed, or time, latitude and longitude in decimal degrees (WGS 84); perhaps altitude.
 * Separators, units, decimal commas and forms of time are recognised; a unit that is not said is an error, never a guess.
 */
export function createLogReader(options: LogOptions = {}): LogReader {
  const tally = openTally();
  const table = new LogTable(options.units ?? {}, options.columns ?? {}, tally);
  const cutter = createLineCutter((line, number) => table.take(line, number));
  return {
    push: chunk => cutter.push(chunk),
    finish() {
      cutter.finish();
      return readingOf(table.finish(), options.title ?? 'log', tally);
    },
  };
}

/** The same for a text as a whole. @throws LogError. */
export function readLog(text: string, options: LogOptions = {}): LogReading {
  const reader = createLogReader(options);
  reader.push(text);
  return reader.finish();
}

/** The rows of a log, nothing averaged and nothing bridged. @param bus null for a drive. @throws LogError. */
export function readRows(text: string, options: LogOptions, tally: Tally, bus: BusOptions | null = null): LogRows {
  const table = new LogTable(options.units ?? {}, options.columns ?? {}, tally, bus);
  const cutter = createLineCutter((line, number) => table.take(line, number));
  cutter.push(text);
  cutter.finish();
  return table.finish();
}

function readingOf(rows: LogRows, title: string, tally: Tally): LogReading {
  const notes = notesOf(rows);
  const limit = longestInterval(rows);
  const parts: (Leg | Stop)[] = [];
  let [distanceRead, distance, until] = [0, 0, 0];
  for (const piece of splitAtStops(rows, limit, tally)) {
    const { time, speed, asRead } = driven(piece, limit, tally);
    const from = nth(time, 0);
    if (parts.length > 0) parts.push({ kind: 'stop', seconds: from - until });
    const level = { title, source: `a log of ${counted(piece.rows, 'row')}`, speed, slope: null, phases: [] };
    const schedule = withRoad({ ...level, time: time.map(t => t - from) }, piece, from, tally, notes);
    parts.push({ kind: 'leg', schedule, load: null });
    distanceRead += asRead;
    distance += distanceOf(schedule);
    until = lastOf(time);
  }
  if (distance === 0) throw stands(rows);
  return { parts, rows: rows.rows, distanceRead, distance, repairs: tally.repairs, notes };
}

function withRoad(schedule: Schedule, rows: LogRows, from: number, tally: Tally, notes: string[]): Schedule {
  const { altitude, line } = rows;
  if (altitude === null) return schedule;
  const road = onItsRoad(schedule, { time: rows.time.map(t => t - from), altitude }, nth(line, 0), tally);
  if (road === null) notes.push('the altitude was passed over, as there is too little of it: the road is level');
  return road ?? schedule;
}

function stands({ header: { line, source } }: LogRows): LogError {
  const place = { line, column: 1, length: Math.max(1, source.length), source };
  return new LogError(place, '', 'the car never moves in this log', 'a log of a drive');
}

function notesOf({ header, commas, speed, latitude }: LogRows): string[] {
  const notes: string[] = [];
  const word = header.separator === ';' ? 'semicolons' : header.separator === '\t' ? 'tabs' : '';
  if (word !== '') notes.push(`${word} set off the columns${commas ? ', commas are decimal points' : ''}`);
  if (speed !== null && latitude !== null) notes.push('the speeds are those of the speed column, not of the positions');
  const { passedOver } = header;
  if (passedOver.length > 0) {
    const shown = passedOver.slice(0, 8).map(name => `"${name}"`);
    notes.push(
      `${counted(passedOver.length, 'column')} passed over: ${shown.join(', ')}${passedOver.length > 8 ? ' ...' : ''}`,
    );
  }
  return notes;
}
