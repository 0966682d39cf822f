/** From one row of a trip to what is driven in it: a schedule, a log or a steady speed. */
import type { LogColumns, LogUnits } from '../../cycles/log.ts';
import type { LooseLeg } from '../../cycles/join-legs.ts';
import { isScheduleName, scheduleNamed, scheduleNames } from '../../cycles/schedules.ts';
import { steadyOver, steadySchedule } from '../../cycles/steady.ts';
import type { Leg, Stop } from '../../cycles/trip.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { UnreadableFile } from '../files/unreadable-file.ts';
import { type LogFile, readLogFile } from '../files/log-file.ts';
import { type FieldValue, type FieldValues, writtenKey } from '../fields/read-context.ts';

/** The fields that say by what a row is driven. */
export const WAYS = ['schedule', 'log', 'speed'] as const;
/** Fields that are about logs alone. */
export const LOG_KEYS = ['timeUnit', 'speedUnit', 'altitudeUnit', 'columns'] as const;
/** Rows that are right, for messages. */
export const ONE_OF = 'schedule: wltc, log: drive.csv, or speed: 100 km/h with a distance or a time';

export interface Way {
  readonly title: string;
  readonly parts: readonly (Leg | Stop)[];
  readonly steady: LooseLeg['steady'];
}

/** Finds the ways of the rows of one cell; a log that several rows name is read once. */
export interface Ways {
  /** @param distance m, of a steady speed that says neither distance nor time; 0 where it must. @throws SpecError, at a field of the row. @throws NotebookProblem, located in a log. */
  of(row: FieldValues, path: string, distance?: number): Way;
  /** What was mended in the logs. */
  readonly notes: readonly string[];
  /** Logs that were read. */
  readonly logs: number;
}

/** Characters of all logs of one cell together, some million rows. */
const MOST_TEXT = 64 * 1024 * 1024;

/** @param cell values of the cell: the units and columns of its logs, where a row says nothing else. @param readFile throws UnreadableFile. */
export function openWays(cell: FieldValues, readFile: (path: string) => string): Ways {
  const files = new Map<string, LogFile>();
  let characters = 0;
  const log: ReadLog = (file, path, row) => {
    const [units, columns] = [
      { ...unitsOf(cell), ...unitsOf(row) },
      { ...columnsOf(cell), ...columnsOf(row) },
    ];
    const key = JSON.stringify([file, units, columns]);
    const known = files.get(key);
    if (known !== undefined) return known;
    const text = textOf(file, path, readFile);
    characters += text.length;
    if (characters > MOST_TEXT) {
      const message = `the logs up to here have ${characters} characters`;
      throw new SpecError(`${path}.log`, message, `at most ${MOST_TEXT} in one cell, or a row for every second only`);
    }
    const found = readLogFile(text, file, units, columns);
    files.set(key, found);
    return found;
  };
  return {
    of: (row, path, distance = 0) => wayOf(distance > 0 && isOpenSpeed(row) ? { ...row, distance } : row, path, log),
    get notes() {
      return [...files.values()].flatMap(({ notes }) => notes);
    },
    get logs() {
      return files.size;
    },
  };
}

/** Metres of a round that is driven over and over where nobody says its length: of all rows of a mix together, or of one steady speed. Common practice, no source. */
export const ROUND = 100e3;

/** Whether a row is a steady speed of no stated length. */
export function isOpenSpeed({ speed, distance, time }: FieldValues): boolean {
  return speed !== undefined && distance === undefined && time === undefined;
}

/** A list of rows as it was read. */
export function rowsOf(value: FieldValue | undefined): readonly FieldValues[] {
  return Array.isArray(value) ? value.filter((row): row is FieldValues => typeof row === 'object') : [];
}

/** A whole number. @throws SpecError */
export function wholeOf(value: FieldValue | undefined, otherwise: number, path: string): number {
  if (typeof value !== 'number') return otherwise;
  if (!Number.isInteger(value)) throw new SpecError(path, `${value} is not a whole number`);
  return value;
}

/** Reads the log of a row. */
type ReadLog = (file: string, path: string, row: FieldValues) => LogFile;

function wayOf(row: FieldValues, path: string, log: ReadLog): Way {
  const [kind, second] = WAYS.filter(key => row[key] !== undefined);
  if (kind === undefined) throw new SpecError(path, 'does not say what is driven', ONE_OF);
  if (second !== undefined) throw new SpecError(`${path}.${second}`, `stands beside ${kind}`, 'one of the two');
  if (kind === 'speed') return steadyWay(row, path);
  for (const key of ['distance', 'time']) {
    if (row[key] === undefined) continue;
    throw new SpecError(`${path}.${key}`, `goes with a speed, and a ${kind} has its own`);
  }
  for (const key of kind === 'log' ? [] : LOG_KEYS) {
    if (row[key] !== undefined && path.endsWith(']')) throw new SpecError(`${path}.${writtenKey(key)}`, 'is for a log');
  }
  const { schedule: name, log: file, load } = row;
  const carried = typeof load === 'number' ? load : null;
  if (typeof file === 'string') {
    const parts = log(file, path, row).parts.map(part => (part.kind === 'stop' ? part : { ...part, load: carried }));
    return { title: loggedTitle(file), parts, steady: null };
  }
  if (typeof name !== 'string' || !isScheduleName(name)) {
    throw new SpecError(`${path}.schedule`, 'is no schedule', `one of ${scheduleNames.join(', ')}`);
  }
  const schedule = scheduleNamed(name);
  return { title: schedule.title, parts: [{ kind: 'leg', schedule, load: carried }], steady: null };
}

function steadyWay({ speed, distance, time, load }: FieldValues, path: string): Way {
  if (distance !== undefined && time !== undefined) {
    throw new SpecError(`${path}.time`, 'stands beside distance', 'one of the two');
  }
  const schedule =
    typeof distance === 'number'
      ? steadyOver(Number(speed), distance)
      : typeof time === 'number'
        ? steadySchedule(Number(speed), time)
        : null;
  if (schedule === null) {
    const cure = 'distance: 50 km or time: 30 min beside it';
    throw new SpecError(`${path}.speed`, 'has neither a distance nor a time', cure);
  }
  const leg: Leg = { kind: 'leg', schedule, load: typeof load === 'number' ? load : null };
  return { title: schedule.title, parts: [leg], steady: time === undefined ? 'distance' : 'time' };
}

/** @throws SpecError at the log of a row. */
export function textOf(file: string, path: string, readFile: (path: string) => string): string {
  try {
    return readFile(file);
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    throw new SpecError(`${path}.log`, error.message, 'a CSV file in the folder of the notebook');
  }
}

/** Names of columns that a cell or a row says. */
export function columnsOf({ columns }: FieldValues): LogColumns {
  if (typeof columns !== 'object' || Array.isArray(columns)) return {};
  return Object.fromEntries(Object.entries(columns).filter(([, name]) => typeof name === 'string'));
}

/** Units that a cell or a row says. */
export function unitsOf({ timeUnit, speedUnit, altitudeUnit }: FieldValues): LogUnits {
  return {
    ...(typeof timeUnit === 'string' ? { time: timeUnit } : {}),
    ...(typeof speedUnit === 'string' ? { speed: speedUnit } : {}),
    ...(typeof altitudeUnit === 'string' ? { altitude: altitudeUnit } : {}),
  };
}

/** `the recorded drive "over the hill"` of `logs/over-the-hill.csv`. */
function loggedTitle(file: string): string {
  const name = file.replace(/^.*[\\/]/u, '').replace(/\.[^.]*$/u, '');
  return `recorded drive “${name.replaceAll(/[-_]+/gu, ' ')}”`;
}
