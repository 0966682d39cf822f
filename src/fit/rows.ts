/** What is asked of the rows of a log before anything is fitted to them. */
import { nth } from '../columns.ts';
import { rowError, type SpeedLog } from './speed-log.ts';

/** Steps of the clock above which rows are missing, as a multiple of the usual one, and s. Common practice, no source. */
const GAP = 2.6;
const SHORT_GAP = 0.5;

/** @param doing what the car does between the two rows. @throws LogError */
export function refuseGaps(log: Pick<SpeedLog, 'time' | 'line'>, begin: number, end: number, doing: string): void {
  const usual = usualStep(log);
  const limit = Math.max(GAP * usual, usual + SHORT_GAP);
  for (let i = begin + 1; i < end; i++) {
    const step = nth(log.time, i) - nth(log.time, i - 1);
    if (step <= limit) continue;
    const message = `the clock goes on by ${round(step)} s in one row while ${doing}, and by ${round(usual)} s as a rule`;
    throw rowError(log, i, `${message}: rows are missing or the clock jumped`, 'a run without a gap, or to: before it');
  }
}

/** Rows that a fit takes: 200 s at 50 rows a second. */
const MOST_ROWS = 10_000;

/** @throws LogError for more rows than anything is learnt from, which would take minutes. */
export function refuseMany(log: SpeedLog, begin: number, end: number): void {
  if (end - begin <= MOST_ROWS) return;
  const message = `${end - begin} rows belong to the run`;
  throw rowError(log, begin, message, `at most ${MOST_ROWS}: 10 rows a second tell as much, or one run in each log`);
}

/** s between two rows, as a rule. */
export function usualStep({ time }: Pick<SpeedLog, 'time'>): number {
  const steps = time.slice(1).map((t, i) => t - nth(time, i));
  return nth(steps.toSorted(), steps.length >> 1);
}

/** m/s: scatter of a row, from how far it is off the line between its neighbours. */
export function rowNoise(speed: Float64Array): number {
  const off = speed.slice(1, -1).map((v, i) => Math.abs(v - (nth(speed, i) + nth(speed, i + 2)) / 2));
  return off.length === 0 ? 0 : nth(off.toSorted(), off.length >> 1) / 0.6745 / Math.sqrt(1.5);
}

/** Means over so many seconds around each row. */
export function averaged({ time, speed }: Pick<SpeedLog, 'time' | 'speed'>, over: number): Float64Array {
  let [low, high, sum] = [0, 0, 0];
  return time.map(t => {
    while (high < time.length && nth(time, high) <= t + over / 2) sum += nth(speed, high++);
    while (nth(time, low) < t - over / 2) sum -= nth(speed, low++);
    return sum / (high - low);
  });
}

export function kmh(speed: number): string {
  return `${Number((3.6 * speed).toPrecision(3))} km/h`;
}

/** `1 row`, `7 rows`. */
export function rowsApart(count: number): string {
  return `${count} row${count === 1 ? '' : 's'}`;
}

function round(value: number): number {
  return Number(value.toPrecision(3));
}
