/** The stretch of a log in which the car is launched from rest, and what must not happen in it. */
import { nth } from '../../columns.ts';
import { averaged, kmh, refuseGaps, refuseMany, rowNoise, rowsApart } from '../rows.ts';
import { cutLog, rowError, type SpeedLog } from '../speed-log.ts';

/** m/s below which a car stands, and s of that before it moves that belong to the launch. Common practice, no source. */
const STANDS = 0.5;
const BEFORE = 1;
/** s over which speeds are averaged to see whether the pedal was left, and m/s that may be lost in a change of gear. */
const SMOOTH = 0.6;
const WAVER = 0.5;
const FEWEST = 10;

/** @param to m/s at which it ends; default: just before the highest speed. @throws LogError located in the log. */
export function ascentOf(log: SpeedLog, to = Number.POSITIVE_INFINITY): SpeedLog {
  const smooth = averaged(log, SMOOTH);
  let peak = 0;
  for (const [i, v] of smooth.entries()) if (v > nth(smooth, peak)) peak = i;
  let moves = peak;
  while (moves > 0 && nth(log.speed, moves - 1) >= STANDS) moves--;
  if (moves === 0) {
    const message = `the car goes ${kmh(nth(log.speed, 0))} already where the log begins`;
    throw rowError(log, 0, message, 'a log that begins while the car stands, a second before the pedal goes down');
  }
  const begin = log.time.findIndex(t => t >= nth(log.time, moves) - BEFORE);
  const last = Math.min(0.97 * nth(smooth, peak), to);
  const end = smooth.findIndex((v, i) => i >= moves && v >= last);
  refuseMany(log, begin, end);
  refuseGaps(log, begin, end, 'the car is launched');
  const most = WAVER + 4.5 * rowNoise(log.speed);
  let highest = moves;
  for (let i = moves; i < end; i++) {
    if (nth(smooth, i) > nth(smooth, highest)) highest = i;
    const fall = nth(smooth, highest) - nth(smooth, i);
    if (fall <= most) continue;
    throw rowError(
      log,
      i,
      `the speed falls by ${kmh(fall)} on the way up`,
      'one launch at full pedal in each log, or to: below that speed',
    );
  }
  if (end - moves < FEWEST) {
    const message = `${rowsApart(end - moves)} from rest to ${kmh(last)}`;
    throw rowError(log, moves, message, `${FEWEST} rows or more: a receiver of 10 rows a second, or a higher speed`);
  }
  return cutLog(log, begin, end);
}
