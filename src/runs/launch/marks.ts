/** The speeds and distances at which a launch is timed, and the levels that the solver watches for them. */
import { CHARGE, DISTANCE, SPEED } from '../../model/forward/state.ts';
import type { Level } from '../../solvers/system.ts';

/** m; the inch is 25.4 mm exactly (NIST SP 811). */
const FOOT = 0.3048;
const MILE = 1609.344;
const KMH = 1 / 3.6;

/** m that a car moves before the clock of a timed strip starts: one foot. */
const ROLLOUT = FOOT;

/**
 * m/s: a car that was quicker and has become as slow as that is at rest, and one that never was rolls back by as much. Nothing that comes
 * after means anything: what little power is left is spread over a speed of nearly nothing. Free wheels that begin to turn let a car sink
 * by a tenth of that.
 */
const AT_REST = 5e-3;

/** Speeds in m/s by the name that outputs use. */
export const SPEED_MARKS = {
  '50_km_h': 50 * KMH,
  '80_km_h': 80 * KMH,
  '60_mph': (60 * MILE) / 3600,
  '100_km_h': 100 * KMH,
  '120_km_h': 120 * KMH,
  '160_km_h': 160 * KMH,
} as const;

/** Distances in m by the name that outputs use. */
export const DISTANCE_MARKS = {
  '60_ft': 60 * FOOT,
  eighth_mile: MILE / 8,
  '400_m': 400,
  quarter_mile: MILE / 4,
  '1000_m': 1000,
} as const;

export type SpeedMark = keyof typeof SPEED_MARKS;
export type DistanceMark = keyof typeof DISTANCE_MARKS;
export type Mark = SpeedMark | DistanceMark | 'rollout' | 'to' | 'back' | 'over' | 'behind' | 'empty';

export const MARKS: readonly Mark[] = [
  ...(Object.keys(SPEED_MARKS) as SpeedMark[]),
  ...(Object.keys(DISTANCE_MARKS) as DistanceMark[]),
  'rollout',
  'to',
  'back',
  'over',
  'behind',
];

/** A launch is worth showing a little past the last of these: the sprint and the quarter mile, but not the long creep to the top speed. */
export const SHOWN_MARKS = ['100_km_h', '60_mph', 'quarter_mile', '400_m'] as const;
/** Of the time to the last of them. */
export const SHOWN_BEYOND = 1.05;

/** As people say them. */
export const SPEED_WORDS: { readonly [mark in SpeedMark]: string } = {
  '50_km_h': '50 km/h',
  '80_km_h': '80 km/h',
  '60_mph': '60 mph',
  '100_km_h': '100 km/h',
  '120_km_h': '120 km/h',
  '160_km_h': '160 km/h',
};

export const DISTANCE_WORDS: { readonly [mark in DistanceMark]: string } = {
  '60_ft': '60 ft',
  eighth_mile: '1/8 mile',
  '400_m': '400 m',
  quarter_mile: '1/4 mile',
  '1000_m': '1000 m',
};

/** What passing a mark is called. */
export function markWords(mark: Mark): string {
  if (mark === 'rollout') return 'has moved one foot: the clock of a timed strip starts';
  if (mark === 'back') return 'comes to rest';
  if (mark === 'empty') return 'the pack is too weak to go on';
  if (mark === 'over') return 'the other drive turns a motor faster than it may';
  if (mark === 'behind') return 'a motor that gets less torque than its own rotor takes comes to its top speed';
  if (mark === 'to') return 'reaches the target speed';
  return `passes ${markName(mark)}`;
}

/** What a mark is called where something is told of it. */
export function markName(mark: Mark): string {
  if (mark === 'rollout') return 'one foot';
  if (mark === 'back') return 'the standstill';
  if (mark === 'empty') return 'the end of the pack';
  if (mark === 'over' || mark === 'behind') return 'the greatest motor speed';
  if (mark === 'to') return 'the target speed';
  return isSpeedMark(mark) ? SPEED_WORDS[mark] : DISTANCE_WORDS[mark];
}

/** The figure that tells when a mark is passed. */
export function timeKey(mark: SpeedMark | DistanceMark): string {
  return isSpeedMark(mark) ? `time_to_${mark}` : `time_${mark}`;
}

function isSpeedMark(mark: SpeedMark | DistanceMark): mark is SpeedMark {
  return Object.hasOwn(SPEED_MARKS, mark);
}

function level(name: Mark, state: number, value: number, stop: boolean): Level {
  return { name, state, value, direction: 'rising', action: stop ? 'stop' : 'record' };
}

/**
 * The levels of a launch.
 * @param to m/s, the target speed of its own.
 * @param stop the mark that ends the run.
 * @param over m/s above which the first of two motors would be turned faster than it may; Infinity where that is no matter.
 * @param only the marks that are watched, beside those that end the run; all of them where left out.
 * @param empty state of charge that ends the run as well; below 0 for none.
 * @param behind m/s at which a motor whose wheels trail comes to its top speed, of a car that is not driven on from there; else Infinity.
 */
export function launchLevels(
  to: number,
  stop: Mark,
  over: number,
  only?: readonly Mark[],
  empty = -1,
  behind = Infinity,
): readonly Level[] {
  const { to: lastTo, stop: lastStop, over: lastOver, empty: lastEmpty } = latest;
  const alike = lastTo === to && lastStop === stop && lastOver === over && lastEmpty === empty;
  // All launches of a study have the same.
  if (!alike || latest.behind !== behind || latest.only !== only) {
    const all = makeLevels(to, stop, over, behind);
    if (empty >= 0) all.push({ name: 'empty', state: CHARGE, value: empty, direction: 'falling', action: 'stop' });
    const levels =
      only === undefined ? all : all.filter(({ name, action }) => action === 'stop' || isAmong(only, name));
    latest = { to, stop, over, behind, empty, only, levels };
  }
  return latest.levels;
}

function isAmong(marks: readonly string[], name: string): boolean {
  return marks.includes(name);
}

let latest: {
  readonly to: number;
  readonly stop: Mark;
  readonly over: number;
  readonly behind: number;
  readonly empty: number;
  readonly only: readonly Mark[] | undefined;
  readonly levels: readonly Level[];
} = { to: Number.NaN, stop: 'to', over: Infinity, behind: Infinity, empty: -1, only: undefined, levels: [] };

function makeLevels(to: number, stop: Mark, over: number, behind: number): Level[] {
  const levels: Level[] = [level('rollout', DISTANCE, ROLLOUT, stop === 'rollout')];
  for (const [name, value] of entries(SPEED_MARKS)) levels.push(level(name, SPEED, value, stop === name));
  for (const [name, value] of entries(DISTANCE_MARKS)) levels.push(level(name, DISTANCE, value, stop === name));
  levels.push(level('to', SPEED, to, stop === 'to'));
  for (const value of [AT_REST, -AT_REST])
    levels.push({ name: 'back', state: SPEED, value, direction: 'falling', action: 'stop' });
  if (over < Infinity) levels.push(level('over', SPEED, over, true));
  if (behind < Infinity) levels.push(level('behind', SPEED, behind, true));
  return levels;
}

function entries<T extends object>(table: T): [keyof T & string, T[keyof T]][] {
  return Object.entries(table) as [keyof T & string, T[keyof T]][];
}
