/** Reads what a cell says of the way that is driven: once, as a trip of several legs and stops, or as a mix. */
import { nth } from '../../columns.ts';
import { type LooseLeg, meet, TooShort } from '../../cycles/join-legs.ts';
import { UNHURRIED } from '../../cycles/steady.ts';
import type { Leg, Stop, Trip } from '../../cycles/trip.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { completeSupply } from '../../model/pack/complete-supply.ts';
import { type FieldValue, type FieldValues, writtenKey } from '../fields/read-context.ts';
import { readMix } from './trip-mix.ts';
import { LOG_KEYS, ONE_OF, openWays, ROUND, rowsOf, WAYS, type Ways, wholeOf } from './trip-way.ts';

export { tripFields, withoutTrip } from './trip-fields.ts';

export interface TripRead {
  readonly trip: Trip;
  /** Sentences that the reader must see. */
  readonly notes: readonly string[];
  /** What is taken for granted of the supplies on the way. */
  readonly assumed: readonly Input[];
}

type Way = Omit<TripRead, 'assumed'>;

/**
 * A schedule, a log or a steady speed by itself is driven as it is, from the speed it starts with; a trip or a mix starts and
 * ends at rest, and stands still at its stops.
 * @param values of the cell, read by `tripFields`. @param path of the cell.
 * @param readFile text of a file in the folder of the notebook; throws UnreadableFile. @param repeats whether it is driven over and over: a steady speed then needs no length.
 * @throws SpecError, at the field in question. @throws NotebookProblem, located in the log, for what is wrong in it.
 */
export function readTrip(
  values: FieldValues,
  path: string,
  readFile: (path: string) => string,
  repeats = false,
): TripRead {
  const first = givenOf(values, path);
  const ways = openWays(values, readFile);
  const assumed: Input[] = [];
  const { trip, notes } =
    first === 'trip'
      ? ofRows(values, path, ways, assumed)
      : first === 'mix'
        ? ofMix(values, path, ways)
        : alone(values, path, ways, repeats);
  for (const key of LOG_KEYS) {
    if (values[key] === undefined || ways.logs > 0) continue;
    throw new SpecError(`${path}.${writtenKey(key)}`, 'is for a log, and there is none');
  }
  return { trip, notes: [...ways.notes, ...notes], assumed };
}

/** The one field that says what is driven. */
function givenOf(values: FieldValues, path: string): string {
  const [first, second] = [...WAYS, 'trip', 'mix'].filter(key => values[key] !== undefined);
  if (first === undefined) throw new SpecError(path, 'does not say what is driven', `${ONE_OF}; or a trip, or a mix`);
  if (second !== undefined) throw new SpecError(`${path}.${second}`, `stands beside ${first}`, 'one of the two');
  const alien = first === 'mix' ? ['distance', 'time'] : first === 'trip' ? ['distance', 'time', 'legs'] : ['legs'];
  const found = alien.find(key => values[key] !== undefined);
  if (found !== undefined) throw new SpecError(`${path}.${found}`, `does not go with ${first}`);
  return first;
}

function alone(values: FieldValues, path: string, ways: Ways, repeats: boolean): Way {
  const { title, parts } = ways.of(values, path, repeats ? ROUND : 0);
  refuseLong(pointsOf(parts), `${path}.log`);
  return { trip: { title, parts }, notes: [] };
}

function ofMix(values: FieldValues, path: string, ways: Ways): Way {
  const { title, legs, note } = readMix(rowsOf(values['mix']), values['legs'], path, ways);
  refuseLong(pointsOf(legs), `${path}.mix`);
  const { parts, notes } = met(legs, () => `${path}.mix`);
  return { trip: { title, parts }, notes: [note, ...notes] };
}

/** Points of speed over time in a trip: 55 hours at one a second. */
const MOST_POINTS = 200_000;

function refuseLong(points: number, path: string): void {
  if (points <= MOST_POINTS) return;
  const message = `makes a way of ${points} points of speed over time`;
  throw new SpecError(path, message, `at most ${MOST_POINTS}; a range is driven over and over by itself`);
}

function pointsOf(parts: readonly (Leg | Stop)[]): number {
  return parts.reduce((sum, part) => sum + (part.kind === 'leg' ? part.schedule.time.length : 0), 0);
}

function ofRows(values: FieldValues, path: string, ways: Ways, assumed: Input[]): Way {
  const below = (row: number): string => `${path}.trip[${row + 1}]`;
  let points = 0;
  const rows = rowsOf(values['trip']).map((row, k) => {
    const read = readRow(row, below(k), ways, assumed);
    points += read.points;
    refuseLong(points, below(k));
    return { ...read, parts: Array.from({ length: read.times }, () => read.parts).flat() };
  });
  const owners = rows.flatMap(({ parts }, row) => parts.map(() => row));
  const loose = rows.flatMap(({ parts }) => parts);
  if (!loose.some(({ kind }) => kind === 'leg'))
    throw new SpecError(`${path}.trip`, 'has no leg', `a row with ${ONE_OF}`);
  const { parts, notes } = met(loose, part => below(nth(owners, part)));
  const title = rows.length <= 4 ? rows.map(row => row.title).join(', ') : `trip in ${rows.length} stages`;
  return { trip: { title, parts }, notes };
}

interface RowRead {
  readonly title: string;
  /** Once. */
  readonly parts: readonly (LooseLeg | Stop)[];
  /** How often they are driven. */
  readonly times: number;
  /** Of speed over time, all times together. */
  readonly points: number;
}

function readRow(row: FieldValues, path: string, ways: Ways, assumed: Input[]): RowRead {
  const { stop, plug, load, slope } = row;
  if (plug !== undefined) return readPlug(row, plug, path, assumed);
  if (typeof stop === 'number') {
    const beside = Object.keys(row).find(key => key !== 'stop');
    if (beside !== undefined) throw new SpecError(`${path}.${beside}`, 'stands beside stop', 'a row of its own');
    const title = `stop of ${Number((stop / 3600).toPrecision(3))} h`;
    return { title, parts: [{ kind: 'stop', seconds: stop }], times: 1, points: 0 };
  }
  const { title, parts, steady } = ways.of(row, path);
  if (slope !== undefined && parts.some(part => part.kind === 'leg' && part.schedule.slope !== null)) {
    throw new SpecError(`${path}.slope`, 'stands beside a log that has its own altitude', 'one of the two');
  }
  const own = {
    load: typeof load === 'number' ? load : null,
    slope: typeof slope === 'number' ? slope : null,
    steady,
  };
  const once = parts.map((part): LooseLeg | Stop => (part.kind === 'stop' ? part : { ...part, ...own }));
  const times = wholeOf(row['times'], 1, `${path}.times`);
  return {
    title: times === 1 ? title : `${times} times ${title}`,
    parts: once,
    times,
    points: times * pointsOf(once),
  };
}

function isGroup(value: FieldValue): value is FieldValues {
  return typeof value === 'object' && !Array.isArray(value);
}

/** A stop at which the car is charged. */
function readPlug(row: FieldValues, plug: FieldValue, path: string, assumed: Input[]): RowRead {
  const beside = Object.keys(row).find(key => key !== 'plug' && key !== 'times');
  if (beside !== undefined) throw new SpecError(`${path}.${beside}`, 'stands beside plug', 'a row of its own');
  const { hours, to, ...rest } = isGroup(plug) ? plug : {};
  const supply = completeSupply(`${path}.plug`, rest, assumed);
  const seconds = typeof hours === 'number' ? hours : 0;
  const wished = typeof to === 'number' ? to : null;
  const stop: Stop = { kind: 'stop', seconds, plug: { supply, to: wished, waits: seconds === 0 } };
  const title =
    supply.station !== undefined
      ? `station of ${Math.round(supply.station.power / 1000)} kW`
      : `plug of ${supply.phases === 1 ? '' : `${supply.phases} times `}${supply.voltage} V and ${supply.current} A`;
  return { title, parts: [stop], times: wholeOf(row['times'], 1, `${path}.times`), points: 0 };
}

/** The legs without jumps of speed, and what that took. @param owner path of the row that a part is from. */
function met(
  loose: readonly (LooseLeg | Stop)[],
  owner: (part: number) => string,
): { readonly parts: readonly (Leg | Stop)[]; readonly notes: readonly string[] } {
  try {
    const { parts, ramps, added } = meet(loose);
    const notes: string[] = [];
    if (loose.some(part => part.kind === 'leg' && part.steady !== null)) {
      notes.push(`steady legs are reached and left with ${UNHURRIED} m/s2, within their distance or time`);
    }
    if (ramps > 0) {
      const count = ramps === 1 ? '1 ramp' : `${ramps} ramps`;
      notes.push(
        `${count} of ${UNHURRIED} m/s2, ${Math.round(added)} m in all, added where legs do not meet at one speed`,
      );
    }
    return { parts, notes };
  } catch (error) {
    if (!(error instanceof TooShort)) throw error;
    throw new SpecError(owner(error.part), error.message, `room for ${UNHURRIED} m/s2 up and down`);
  }
}
