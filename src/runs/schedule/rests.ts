/** The rests of a schedule: nothing moves there, so that intervals of seconds are driven as one. */
import { nth } from '../../columns.ts';
import type { Schedule } from '../../cycles/schedule.ts';

/** s: a polarisation that comes to rest after the brakes goes quicker than it does at a steady speed, and is 4e-6 off after steps of 4 s. */
const LONGEST_REST = 2;

const known = new WeakMap<Schedule, Int32Array>();

/**
 * Of each interval of a schedule the point up to which a car that follows drives it in one go: the next one, but in a rest as many on as one
 * step goes, up to where a phase begins or ends or the slope changes. Worked out once for each schedule.
 */
export function pointsAhead(schedule: Schedule): Int32Array {
  const found = known.get(schedule) ?? lookAhead(schedule);
  known.set(schedule, found);
  return found;
}

function lookAhead({ time, speed, slope, phases }: Schedule): Int32Array {
  const marks = new Set(phases.flatMap(({ from, to }) => [from, to]));
  const ends = Int32Array.from({ length: time.length - 1 }, (_, i) => i + 1);
  ends.forEach((next, i) => {
    let end = next;
    while (speed[i] === 0 && speed[end] === 0 && speed[end + 1] === 0) {
      if (marks.has(nth(time, end)) || slope?.[i] !== slope?.[end]) break;
      if (nth(time, end + 1) - nth(time, i) > LONGEST_REST) break;
      end++;
    }
    ends[i] = end;
  });
  return ends;
}
