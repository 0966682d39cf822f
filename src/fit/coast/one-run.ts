/** One coast-down: its three terms by the closed form, and how far its residuals hang together. */
import { nth } from '../../columns.ts';
import { type Fitted, leastSquares } from '../least-squares.ts';
import { cutLog, rowError, type SpeedLog } from '../speed-log.ts';
import { slopesAfter, speedAfter, type Slowing, SpeedSlopes } from './closed-form.ts';

export interface RunFit {
  readonly track: SpeedLog;
  readonly slowing: Slowing;
  /** m/s at the first row. */
  readonly start: number;
  /** m/s, read less fitted. */
  readonly residuals: Float64Array;
  /** Rows left out because they stand far off. */
  readonly left: number;
}

/** Usual sizes: 0.01 of gravity, the drag of a car. */
export const SCALE = [0.1, 0.005, 4e-4, 1] as const;
const BOUNDS = [
  [-5, 5],
  [-0.5, 0.5],
  [-0.05, 0.05],
  [0, 150],
] as const;
/** Multiples of the usual scatter beyond which a row is none of the run, and the share of rows that may be. */
const FAR = 5;
const MOST_LEFT = 0.05;

/** @throws LogError where too many rows stand far off. */
export function fitRun(track: SpeedLog): RunFit {
  const first = fitted(track);
  const far = farFrom(first.residuals);
  const left = first.residuals.filter(each => Math.abs(each) > far).length;
  if (left === 0) return told(track, first, 0);
  if (left > MOST_LEFT * track.speed.length) {
    const row = first.residuals.findIndex(each => Math.abs(each) > far);
    throw rowError(
      track,
      row,
      `${left} of ${track.speed.length} speeds stand off the coast-down, this one by ${Number((3.6 * nth(first.residuals, row)).toPrecision(2))} km/h`,
      'a run without brake, pedal or gusts; or a receiver that sees the sky',
    );
  }
  const kept = [...first.residuals.keys()].filter(i => Math.abs(nth(first.residuals, i)) <= far);
  const cut: SpeedLog = {
    ...track,
    time: Float64Array.from(kept, i => nth(track.time, i)),
    speed: Float64Array.from(kept, i => nth(track.speed, i)),
    line: Uint32Array.from(kept, i => nth(track.line, i)),
  };
  return told(cutLog(cut, 0, cut.time.length), fitted(cut), left);
}

/** Terms with which the car would have stopped or run away are told from others by how far off they are, m/s. */
const RUN_AWAY = 1e3;
const LEAST_SPEED = -200;

/** m/s, read less modelled. */
export function readLess({ time, speed }: SpeedLog, slowing: Slowing, start: number): Float64Array {
  return speed.map((v, i) => {
    const modelled = speedAfter(slowing, start, nth(time, i));
    return Number.isNaN(modelled) ? RUN_AWAY : v - Math.max(LEAST_SPEED, modelled);
  });
}

/** Slopes of that along a, b, c and the start: a column each. */
export function readLessSlopes(
  { time }: SpeedLog,
  slowing: Slowing,
  start: number,
): readonly [Float64Array, Float64Array, Float64Array, Float64Array] {
  const [a, b, c, begin] = [time.slice(), time.slice(), time.slice(), time.slice()];
  const slopes = new SpeedSlopes();
  for (const [i, t] of time.entries()) {
    slopesAfter(slowing, start, t, slopes);
    const told = speedAfter(slowing, start, t) > LEAST_SPEED;
    a[i] = told ? -slopes.a : 0;
    b[i] = told ? -slopes.b : 0;
    c[i] = told ? -slopes.c : 0;
    begin[i] = told ? -slopes.start : 0;
  }
  return [a, b, c, begin];
}

function fitted(track: SpeedLog): Fitted {
  return leastSquares({
    residuals: ([a = 0, b = 0, c = 0, start = 0]) => readLess(track, { a, b, c }, start),
    slopes: ([a = 0, b = 0, c = 0, start = 0]) => readLessSlopes(track, { a, b, c }, start),
    start: [0.12, 0.001, 3.6e-4, nth(track.speed, 0)],
    scale: SCALE,
    within: BOUNDS,
  });
}

function told(track: SpeedLog, fit: Fitted, left: number): RunFit {
  const [a = 0, b = 0, c = 0, start = 0] = fit.parameters;
  return {
    track,
    left,
    slowing: { a, b, c },
    start,
    residuals: fit.residuals,
  };
}

function farFrom(residuals: Float64Array): number {
  const off = residuals.map(Math.abs).toSorted();
  return (FAR * nth(off, off.length >> 1)) / 0.6745;
}

/**
 * By what the variance of a mean of residuals that hang together is greater than that of independent ones: 1 + 2 times the sum of their
 * autocorrelations up to the first that is below 0 (Bartlett's window left out; textbook).
 */
export function hanging(residuals: Float64Array): number {
  const n = residuals.length;
  const whole = residuals.reduce((all, r) => all + r * r, 0);
  let factor = 1;
  for (let lag = 1; lag < n / 3; lag++) {
    let sum = 0;
    for (let i = lag; i < n; i++) sum += nth(residuals, i) * nth(residuals, i - lag);
    if (!(sum > 0)) break;
    factor += (2 * sum) / whole;
  }
  return factor;
}
