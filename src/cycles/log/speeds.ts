/** Repairs of a speed that was read: jumps that no car can do, and a stand-still that never quite reads 0. */
import { nth } from '../../columns.ts';
import { LogError } from './error.ts';
import { FASTEST, HARDEST, MOST_JUMPS } from './fixes.ts';
import { counted, type Tally } from './repair.ts';

/** m/s over time in s. */
export interface Speeds {
  readonly time: Float64Array;
  readonly speed: Float64Array;
  readonly line: Uint32Array;
}

/** m/s that a reading may be off: a whole km/h or mph of a display, and some noise. */
const NOISE = 1;
/** m/s below which a car may stand, 1 km/h, and s that it must last. Common practice, no source. */
const CREEP = 1 / 3.6;
const LASTING = 5;

/** @param done what becomes of a jump. @throws LogError for speeds that jump all the time, or that no car reaches. */
export function mendSpeeds(speeds: Speeds, tally: Tally, done = 'replaced by a straight line'): Speeds {
  const kept = withoutJumps(speeds, tally, done);
  const all = kept.length === speeds.time.length;
  const time = all ? speeds.time : Float64Array.from(kept, i => nth(speeds.time, i));
  const line = all ? speeds.line : Uint32Array.from(kept, i => nth(speeds.line, i));
  const speed = all ? speeds.speed.slice() : Float64Array.from(kept, i => nth(speeds.speed, i));
  const fast = speed.findIndex(v => v > FASTEST);
  if (fast >= 0) {
    const kmh = Math.round(nth(speed, fast) * 3.6);
    throw wrong(
      nth(line, fast),
      `a speed of ${kmh} km/h`,
      `speeds up to ${Math.round(FASTEST * 3.6)} km/h; is it the right unit?`,
    );
  }
  keepStill({ time, speed, line }, tally);
  return { time, speed, line };
}

/** Rows whose speed can be reached from the row before; a straight line takes the place of the others. */
function withoutJumps({ time, speed, line }: Speeds, tally: Tally, done: string): readonly number[] {
  const jumps = (from: number, to: number): boolean =>
    Math.abs(nth(speed, to) - nth(speed, from)) > HARDEST * (nth(time, to) - nth(time, from)) + NOISE;
  let last = 0;
  while (last + 2 < time.length && jumps(last, last + 1)) last++;
  const kept = [last];
  const left = Array.from({ length: last }, (_, i) => i);
  for (let i = last + 1; i < time.length; i++) {
    if (jumps(last, i)) left.push(i);
    else {
      kept.push(i);
      last = i;
    }
  }
  if (left.length > MOST_JUMPS * time.length + 1) {
    const message = `the speed jumps as no car can in ${left.length} of ${time.length} rows, the first time here`;
    throw wrong(nth(line, nth(left, 0)), message, 'the speed of a car; are the units of time and speed right?');
  }
  for (const i of left) {
    tally.note('outlier', nth(line, i), n => `${counted(n, 'speed')} that no car can jump to ${done}`);
  }
  return kept;
}

function wrong(line: number, message: string, expected: string): LogError {
  return new LogError({ line, column: 1, length: 1, source: '' }, 'speed', message, expected);
}

/** Sets stretches below `CREEP` to 0 that last and hardly ever read 0; single small readings are left as they are. */
function keepStill({ time, speed, line }: Speeds, tally: Tally): void {
  for (let from = 0; from < speed.length; from++) {
    if (nth(speed, from) >= CREEP) continue;
    let [to, creeping] = [from, 0];
    while (to < speed.length && nth(speed, to) < CREEP) if (nth(speed, to++) > 0) creeping++;
    if (nth(time, to - 1) - nth(time, from) >= LASTING && creeping > (to - from) / 2) {
      speed.fill(0, from, to);
      tally.note(
        'stand-still',
        nth(line, from),
        n => `${n === 1 ? '1 stretch' : `${n} stretches`} below 1 km/h taken as stand-still`,
      );
    }
    from = to;
  }
}
