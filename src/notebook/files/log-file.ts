/** From the file of a recorded drive to the legs of a trip, with a problem located in the file for what cannot be read. */
import { type LogColumns, LogError, type LogReading, type LogUnits, readLog } from '../../cycles/log.ts';
import type { Leg, Stop } from '../../cycles/trip.ts';
import { problemAt } from '../document/located.ts';
import { NotebookProblem, type ProblemData } from '../document/problem.ts';

export interface LogFile {
  readonly parts: readonly (Leg | Stop)[];
  /** Every repair, and what was understood that could have meant something else. */
  readonly notes: readonly string[];
}

/** Share of the way by which repairs may change it before a sentence says so. */
const SAME_WAY = 1e-4;

/**
 * @param file name for messages. @param units of columns whose header names none. @param columns that were named.
 * @throws NotebookProblem, located in the file.
 */
export function readLogFile(text: string, file: string, units: LogUnits, columns: LogColumns): LogFile {
  return inLog(text, file, () => {
    const reading = readLog(text, { title: file, units, columns });
    return { parts: reading.parts, notes: notesOf(reading, file) };
  });
}

/** A step with what stands in a log; what it says against that becomes a problem located in the file. @throws NotebookProblem */
export function inLog<T>(text: string, file: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof LogError)) throw error;
    const others = error.others.map(other => problemOf(other, text, file));
    throw new NotebookProblem(problemOf(error, text, file), others);
  }
}

function problemOf({ place, message, expected }: LogError, text: string, file: string): ProblemData {
  const { line, column } = place;
  const source = place.source === '' ? (text.split(/\r\n|\r|\n/u, line)[line - 1] ?? '') : place.source;
  const length = place.source === '' ? Math.max(1, source.length) : place.length;
  return problemAt({ file, line, column, length, source }, '', message, expected);
}

function notesOf({ repairs, notes, distance, distanceRead }: LogReading, file: string): readonly string[] {
  const way =
    Math.abs(distance - distanceRead) > SAME_WAY * distance
      ? [`the log as it stands makes ${km(distanceRead)}, after the repairs ${km(distance)}`]
      : [];
  return [
    ...notes.map(text => `${file}: ${text}`),
    ...repairs.map(
      ({ text, line, kind }) => `${file}: ${text}${WHOLE.has(kind) ? '' : ` (the first in line ${line})`}`,
    ),
    ...way.map(text => `${file}: ${text}`),
  ];
}

/** Repairs that concern a drive as a whole. */
const WHOLE: ReadonlySet<string> = new Set(['resampled', 'smoothed', 'altitude']);

function km(metres: number): string {
  return `${Number((metres / 1000).toPrecision(5))} km`;
}
