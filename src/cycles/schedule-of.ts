/** A schedule from columns of one's own. */
import { nth } from '../columns.ts';
import { nearest } from '../units/nearest.ts';
import { ScheduleError } from './schedule-error.ts';
import type { Schedule } from './schedule.ts';

/** What a schedule is made of: s from 0, m/s, and rise over run from each point to the next, one fewer. */
export interface ScheduleColumns {
  readonly time: ArrayLike<number>;
  readonly speed: ArrayLike<number>;
  readonly slope?: ArrayLike<number>;
  readonly title?: string;
}

/**
 * A schedule in straight lines between points. The columns are copied.
 * @throws ScheduleError that names the row, for a time that does not begin at 0 or does not go on, a speed below 0, a slope that is no
 * number, or columns of lengths that do not fit.
 */
export function scheduleOf(columns: ScheduleColumns): Schedule {
  refuseStrange(columns);
  const { time, speed, slope, title = 'schedule' } = columns;
  const times = Float64Array.from(time);
  const speeds = Float64Array.from(speed);
  const slopes = slope === undefined ? null : Float64Array.from(slope);
  checkColumns(times, speeds, slopes);
  return { title, source: '', time: times, speed: speeds, slope: slopes, phases: [] };
}

/** @throws ScheduleError for a column that there is none of, and for one that is no list of numbers. */
function refuseStrange(columns: ScheduleColumns): void {
  if (typeof columns !== 'object' || columns === null)
    throw new ScheduleError('columns', 'are no group; expected time and speed');
  for (const key of Object.keys(columns)) {
    if (!Object.hasOwn(COLUMNS, key)) {
      const meant = nearest(key, Object.keys(COLUMNS));
      const hint = meant === '' ? `expected ${Object.keys(COLUMNS).join(', ')}` : `did you mean "${meant}"?`;
      throw new ScheduleError(key, `is no column; ${hint}`);
    }
  }
  if (columns.title !== undefined && typeof columns.title !== 'string')
    throw new ScheduleError('title', 'is no text; expected what the schedule is called');
  for (const key of ['time', 'speed', 'slope'] as const) {
    const value: unknown = columns[key];
    const list = Array.isArray(value) || ArrayBuffer.isView(value);
    if (!list && (key !== 'slope' || value !== undefined))
      throw new ScheduleError(key, 'is no list of numbers; expected one number for each point');
    const strange = Array.isArray(value) ? value.findIndex(each => typeof each !== 'number') : -1;
    if (strange >= 0)
      throw new ScheduleError(`${key}[${strange}]`, 'is no number; expected one in SI: s, m/s, rise over run');
  }
}

const COLUMNS: { readonly [key in keyof Required<ScheduleColumns>]: true } = {
  time: true,
  speed: true,
  slope: true,
  title: true,
};

/**
 * Whether columns can be driven.
 * @param path before the names of the columns in the complaint.
 * @param steepest rise over run that a slope may have.
 * @throws ScheduleError as `scheduleOf`.
 */
export function checkColumns(
  times: Float64Array,
  speeds: Float64Array,
  slopes: Float64Array | null,
  path = '',
  steepest = STEEPEST,
): void {
  const wrong = (place: string, message: string): ScheduleError => new ScheduleError(`${path}${place}`, message);
  if (times.length < 2) throw wrong('time', `has ${times.length} points; expected two or more`);
  if (speeds.length !== times.length)
    throw wrong('speed', `has ${speeds.length} points, and time ${times.length}; expected as many`);
  if (slopes !== null && slopes.length !== times.length - 1)
    throw wrong('slope', `has ${slopes.length} values; expected ${times.length - 1}, one from each point to the next`);
  for (const [row, at] of times.entries()) {
    if (!Number.isFinite(at) || (row === 0 ? at !== 0 : at <= nth(times, row - 1)))
      throw wrong(`time[${row}]`, `is ${at}; expected ${row === 0 ? '0' : 'more than the one before'}`);
    const v = nth(speeds, row);
    if (!(v >= 0 && v <= FASTEST)) throw wrong(`speed[${row}]`, `is ${v} m/s; expected 0 to ${FASTEST}`);
  }
  const steep = slopes?.findIndex(each => !(Math.abs(each) <= steepest)) ?? -1;
  if (steep >= 0) throw wrong(`slope[${steep}]`, `is ${slopes?.[steep]}; expected ${-steepest} to ${steepest}`);
}

/** m/s, and rise over run: beyond them a column is in another unit. */
const FASTEST = 150;
const STEEPEST = 0.6;
