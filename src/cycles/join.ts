/** Schedules put together and taken apart. */
import { item, lastOf, nth } from '../columns.ts';
import type { Phase, Schedule } from './schedule.ts';

/**
 * m/s between the end of one schedule and the start of the next that still count as meeting, as the speeds of two sources may
 * differ by rounding.
 */
const MEETING = 1e-9;

/** One of the schedules that are joined, with the name its stretch has in the whole; '' for none. */
export interface Piece {
  readonly name: string;
  readonly schedule: Schedule;
}

/**
 * One schedule after the other. The pieces are the phases of the whole where they have names; a piece without a name
 * brings its own phases along.
 * @throws RangeError where one ends at another speed than the next one starts at: `rampTo` makes them meet.
 */
export function join(title: string, source: string, pieces: readonly Piece[]): Schedule {
  if (pieces.length === 0) throw new RangeError('nothing to join');
  const time: number[] = [0];
  const speed: number[] = [nth(item(pieces, 0).schedule.speed, 0)];
  const slope: number[] = [];
  const phases: Phase[] = [];
  for (const [k, { name, schedule }] of pieces.entries()) {
    const from = lastOf(time);
    const before = lastOf(speed);
    if (Math.abs(before - nth(schedule.speed, 0)) > MEETING) {
      throw new RangeError(`piece ${k + 1} starts at ${schedule.speed[0]} m/s, the one before ends at ${before} m/s`);
    }
    for (let i = 1; i < schedule.time.length; i++) {
      time.push(from + nth(schedule.time, i));
      speed.push(nth(schedule.speed, i));
      slope.push(schedule.slope?.[i - 1] ?? 0);
    }
    if (name !== '') phases.push({ name, from, to: lastOf(time) });
    else phases.push(...schedule.phases.map(each => ({ ...each, from: from + each.from, to: from + each.to })));
  }
  const level = pieces.every(({ schedule }) => schedule.slope === null);
  return {
    title,
    source,
    time: Float64Array.from(time),
    speed: Float64Array.from(speed),
    slope: level ? null : Float64Array.from(slope),
    phases,
  };
}

/** The same schedule so many times, one after the other. @throws RangeError as `join`, or where `times` is no whole number from 1. */
export function repeated(schedule: Schedule, times: number): Schedule {
  if (!Number.isInteger(times) || times < 1) throw new RangeError(`${times} is no number of repeats`);
  if (times === 1) return schedule;
  const pieces = Array.from({ length: times }, (_, k) => ({ name: `${k + 1}`, schedule }));
  return join(`${schedule.title}, ${times} times`, schedule.source, pieces);
}

/**
 * A stretch of a schedule, its clock set to 0 at `from`; phases that lie wholly in it are kept.
 * @param from s. @param to s. @throws RangeError unless 0 <= from < to <= the end.
 */
export function stretch(schedule: Schedule, title: string, from: number, to: number): Schedule {
  const { time, speed } = schedule;
  const end = lastOf(time);
  if (!(from >= 0 && from < to && to <= end)) throw new RangeError(`no stretch from ${from} s to ${to} s in ${end} s`);
  const first = time.findIndex(t => t > from);
  const last = time.findLastIndex(t => t < to);
  const inner = time.subarray(first, last + 1);
  return {
    title,
    source: schedule.source,
    time: Float64Array.of(0, ...inner.map(t => t - from), to - from),
    speed: Float64Array.of(speedAt(schedule, from), ...speed.subarray(first, last + 1), speedAt(schedule, to)),
    slope: schedule.slope === null ? null : schedule.slope.slice(first - 1, last + 1),
    phases: schedule.phases
      .filter(phase => phase.from >= from && phase.to <= to && phase.to - phase.from < to - from)
      .map(phase => ({ ...phase, from: phase.from - from, to: phase.to - from })),
  };
}

/** The phase with this name as a schedule of its own. @throws RangeError where there is none. */
export function phaseOf(schedule: Schedule, name: string, title = `${schedule.title}, ${name}`): Schedule {
  const phase = schedule.phases.find(each => each.name === name);
  if (phase === undefined) throw new RangeError(`"${schedule.title}" has no phase "${name}"`);
  return stretch(schedule, title, phase.from, phase.to);
}

/** m/s at a time within the schedule. */
export function speedAt({ time, speed }: Schedule, at: number): number {
  const after = time.findIndex(t => t >= at);
  if (time[after] === at || after === 0) return nth(speed, after);
  const [t0, t1] = [nth(time, after - 1), nth(time, after)];
  return nth(speed, after - 1) + ((nth(speed, after) - nth(speed, after - 1)) * (at - t0)) / (t1 - t0);
}
