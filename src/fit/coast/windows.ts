/**
 * The same coast-downs by windows of speed, as ISO 10521-1 and UN GTR 15, Annex 4, 4.3.1 have it (from memory): the time from 5 km/h above
 * each reference speed to 5 km/h below it, its harmonic mean over both directions, and its statistical precision
 * p = h s / (sqrt(n) t), with h of Student's t, to be 3 % at most.
 */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import { studentQuantile } from '../student.ts';
import type { SpeedLog } from '../speed-log.ts';
import type { Pair } from './pairs.ts';

/** m/s from the reference speed to either end of its window, and between reference speeds. */
const HALF = 5 / 3.6;
const APART = 10 / 3.6;
/** s to either side over which a straight line finds when a speed is passed. */
const REACH = 2;
/** Share of the time that its precision may be at most. */
export const MOST_IMPRECISE = 0.03;

export interface Window {
  /** m/s: the reference speed. */
  readonly speed: number;
  /** s: harmonic mean over both directions and all pairs. */
  readonly time: number;
  /** Share of that time. */
  readonly precision: number;
  /** m/s2 in still air, of each pair. */
  readonly slowing: readonly number[];
}

/** Every reference speed that all runs have a whole window for. */
export function windowsOf(pairs: readonly Pair[]): readonly Window[] {
  const tracks = pairs.flatMap(({ there, back }) => [there.track, back.track]);
  const top = Math.min(...tracks.map(({ speed }) => nth(speed, 0)));
  const end = Math.max(...tracks.map(({ speed }) => nth(speed, speed.length - 1)));
  const windows: Window[] = [];
  for (let k = Math.ceil((end + HALF) / APART); k * APART + HALF <= top; k++) {
    const window = windowAt(k * APART, pairs);
    if (window !== null) windows.push(window);
  }
  return windows;
}

function windowAt(speed: number, pairs: readonly Pair[]): Window | null {
  const times = pairs.map(({ there, back }) => {
    const [out, home] = [timeIn(there.track, speed), timeIn(back.track, speed)];
    return out === null || home === null ? null : 2 / (1 / out + 1 / home);
  });
  if (!times.every(time => time !== null)) return null;
  const n = times.length;
  const time = n / times.reduce((all, each) => all + 1 / each, 0);
  const scatter = Math.sqrt(times.reduce((all, each) => all + elementary.pow(each - time, 2), 0) / Math.max(1, n - 1));
  const precision =
    n < 2 ? Number.POSITIVE_INFINITY : (studentQuantile(0.975, n - 1) * scatter) / (Math.sqrt(n) * time);
  const slowing = times.map((each, i) => (2 * HALF) / each - item(pairs, i).windAdds);
  return { speed, time, precision, slowing };
}

function timeIn(track: SpeedLog, speed: number): number | null {
  const [before, after] = [passing(track, speed + HALF), passing(track, speed - HALF)];
  return before === null || after === null || !(after > before) ? null : after - before;
}

/** s at which a speed is passed: by a straight line through the rows around it, looked for anew around what it gives. */
function passing({ time, speed }: SpeedLog, at: number): number | null {
  const first = speed.findIndex(v => v <= at);
  if (first < 0) return null;
  let middle = nth(time, first);
  for (let k = 0; k < 6; k++) {
    let [n, st, sv, stt, stv] = [0, 0, 0, 0, 0];
    for (let i = 0; i < time.length; i++) {
      const t = nth(time, i) - middle;
      if (Math.abs(t) > REACH) continue;
      const v = nth(speed, i) - at;
      [n, st, sv, stt, stv] = [n + 1, st + t, sv + v, stt + t * t, stv + t * v];
    }
    const slope = (n * stv - st * sv) / (n * stt - st * st);
    if (n < 3 || !(slope < 0)) return null;
    const step = -(sv - slope * st) / n / slope;
    middle += Math.max(-REACH, Math.min(REACH, step));
    if (Math.abs(step) < 1e-9) break;
  }
  return middle;
}
