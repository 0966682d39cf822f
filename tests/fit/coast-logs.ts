/** Coast-down logs of a car that is known, driven in wind, on a slope, through a receiver that is not perfect. All invented. */
import { normalQuantile } from '../../src/studies/sampling/normal.ts';
import { randomStream } from '../../src/studies/sampling/random-stream.ts';
import { coastRun, type CoastMeasurement } from '../../src/fit/coast/coast-down.ts';
import type { SpeedLog } from '../../src/fit/speed-log.ts';

export interface Day {
  /** Terms of the car on the day, N, N s/m, N s^2/m^2, and kg with all that turns. */
  readonly terms: readonly [number, number, number];
  readonly moved: number;
  /** Rows a second. */
  readonly rate: number;
  /** m/s: white noise of a row. */
  readonly noise: number;
  /** m/s: mean wind there, its scatter from pair to pair, and gusts that last some ten seconds. */
  readonly wind: number;
  readonly windScatter: number;
  readonly gusts: number;
  /** Rise over run there. */
  readonly slope: number;
  /** Share by which rolling resistance differs from run to run. */
  readonly warmth: number;
  /** km/h. */
  readonly from: number;
  readonly to: number;
  readonly pairs: number;
}

export const CALM: Day = {
  terms: [150, 1.2, 0.45],
  moved: 1265,
  rate: 10,
  noise: 0.05,
  wind: 1.5,
  windScatter: 0.5,
  gusts: 0.4,
  slope: 0.003,
  warmth: 0.01,
  from: 120,
  to: 20,
  pairs: 5,
};

/** Normal numbers, one after the other. */
export function normals(seed: number): () => number {
  const stream = randomStream(seed, 2);
  const u = new Float64Array(2);
  let count = 0;
  return () => {
    stream.fill(count++, u);
    return normalQuantile(u[0] ?? 0.5);
  };
}

const G = 9.80665;
const STEP = 0.05;

/** One run. */
function logged(day: Day, direction: 1 | -1, wind: number, title: string, normal: () => number): SpeedLog {
  const { terms, moved, rate, noise, gusts, slope, warmth, from, to } = day;
  const [f0, f1, f2] = terms;
  const rolls = 1 + warmth * normal();
  const time: number[] = [];
  const speed: number[] = [];
  let [v, gust, t] = [from / 3.6 + 1, gusts * normal(), 0];
  const keep = Math.exp(-STEP / 8);
  const shake = gusts * Math.sqrt(1 - keep * keep);
  for (let k = 0; v > to / 3.6 - 1 && v > 0.5 && t < 900; k++) {
    if (k % Math.round(1 / (rate * STEP)) === 0) {
      time.push(t);
      speed.push(Math.max(0, v + noise * normal()));
    }
    const slowing = (at: number): number =>
      ((f0 + f1 * at) * rolls + f2 * (at + direction * wind + gust) ** 2) / moved + direction * G * slope;
    const half = v - (slowing(v) * STEP) / 2;
    v -= slowing(half) * STEP;
    gust = keep * gust + shake * normal();
    t += STEP;
  }
  return {
    title,
    time: Float64Array.from(time),
    speed: Float64Array.from(speed),
    line: Uint32Array.from(time, (_, i) => i + 2),
    notes: [],
  };
}

/** The runs of such a day, there and back in turn. */
export function runsOn(
  day: Day,
  normal: () => number,
): { readonly there: readonly SpeedLog[]; readonly back: readonly SpeedLog[] } {
  const winds = Array.from({ length: day.pairs }, () => day.wind + day.windScatter * normal());
  return {
    there: winds.map((wind, i) => logged(day, 1, wind, `there ${i + 1}`, normal)),
    back: winds.map((wind, i) => logged(day, -1, wind, `back ${i + 1}`, normal)),
  };
}

/** Everything that is measured of such a day, with the mass and the temperature off by what their uncertainty allows. */
export function measuredOn(day: Day, seed: number): CoastMeasurement {
  const normal = normals(seed);
  const { there, back } = runsOn(day, normal);
  const span = { from: day.from / 3.6, to: day.to / 3.6 };
  const uncertain = (value: number, standard: number) => ({ value: value + standard * normal(), standard });
  return {
    there: there.map(track => coastRun(track, span)),
    back: back.map(track => coastRun(track, span)),
    mass: uncertain(day.moved - 35, 6),
    turning: uncertain(35, 3),
    day: {
      temperature: { value: 293.15, standard: 0 },
      altitude: { value: 0, standard: 0 },
      humidity: { value: 0.5, standard: 0 },
    },
    standard: { temperature: 293.15, pressure: 101_325 },
  };
}

/** A run as a logger writes it. */
export function csvOf({ time, speed }: Pick<SpeedLog, 'time' | 'speed'>): string {
  const rows = Array.from(time, (t, i) => `${t.toFixed(2)},${(3.6 * (speed[i] ?? 0)).toFixed(2)}`);
  return `time [s],speed [km/h]\n${rows.join('\n')}\n`;
}
