/** The stretch of a log in which the car coasts, and what must not happen in it. */
import { nth } from '../../columns.ts';
import { averaged, kmh, refuseGaps, refuseMany, rowNoise } from '../rows.ts';
import { cutLog, rowError, type SpeedLog } from '../speed-log.ts';

export interface DescentOptions {
  /** m/s at which it begins at the latest; default: the highest speed of the log. */
  readonly from?: number;
  /** m/s at which it ends. */
  readonly to: number;
}

/** s after the highest speed: the torque has gone by then. Common practice, no source. */
const SETTLES = 2;
/** Rows and m/s without which there is nothing to fit. Common practice, no source. */
const FEWEST = 15;
const LEAST = 10 / 3.6;
/** s over which speeds are averaged to see whether the car slows down, and m/s by which it may seem not to. */
const SMOOTH = 2;
const WAVER = 0.4;
/** @throws LogError, located in the log, where there is no such stretch or something else happens in it. */
export function descentOf(track: SpeedLog, { from = Number.POSITIVE_INFINITY, to }: DescentOptions): SpeedLog {
  const smooth = averaged(track, SMOOTH);
  const begin = foundBegin(track, smooth, from);
  const until = smooth.findIndex((v, i) => i > begin && v <= to);
  const end = until < 0 ? smooth.length : until;
  refuseMany(track, begin, end);
  refuseGaps(track, begin, end, 'the car coasts');
  refuseDriving(track, smooth, begin, end);
  const cut = cutLog(track, begin, end);
  const lost = cut.speed.length < FEWEST ? 0 : nth(smooth, begin) - nth(smooth, end - 1);
  if (lost < LEAST) {
    const found = cut.speed.length < FEWEST ? `${cut.speed.length} rows` : kmh(lost);
    const message = `the car coasts for ${found} only between ${kmh(nth(smooth, begin))} and ${kmh(to)}`;
    throw rowError(track, begin, message, `a log of at least ${FEWEST} rows in which it loses ${kmh(LEAST)} or more`);
  }
  return cut;
}

function foundBegin({ time }: SpeedLog, smooth: Float64Array, from: number): number {
  let peak = 0;
  for (const [i, v] of smooth.entries()) if (v >= nth(smooth, peak)) peak = i;
  let begin = peak;
  const wait = nth(smooth, peak) > from ? 0 : SETTLES;
  while (begin < smooth.length - 1 && (nth(time, begin) < nth(time, peak) + wait || nth(smooth, begin) > from)) begin++;
  // A log that starts while the car coasts already has nothing to wait for.
  return peak === 0 && nth(smooth, 0) <= from ? 0 : begin;
}

function refuseDriving(track: SpeedLog, smooth: Float64Array, begin: number, end: number): void {
  const most = WAVER + 4.5 * rowNoise(track.speed);
  let lowest = begin;
  for (let i = begin; i < end; i++) {
    if (nth(smooth, i) < nth(smooth, lowest)) lowest = i;
    const rise = nth(smooth, i) - nth(smooth, lowest);
    if (rise <= most) continue;
    const message = `the speed rises by ${kmh(rise)} again while the car is to coast`;
    throw rowError(
      track,
      i,
      message,
      'one coast-down in each log, without pedal, brake or a hill; or to: above that speed',
    );
  }
}
