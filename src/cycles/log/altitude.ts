/**
 * The profile of the road from altitudes that were logged. Altitude over the way is averaged in bins, freed of single false
 * readings, and smoothed by locally weighted straight lines with tricube weights (Cleveland, Robust locally
 * weighted regression, J. Am. Stat. Assoc. 74 (1979) 829-836). That the weights reach 100 m to either side is common practice.
 */
import * as elementary from '../../elementary.ts';
import { lastOf, nth } from '../../columns.ts';
import type { Schedule } from '../schedule.ts';
import type { Profile } from '../slope.ts';

/** m of road in one bin, and bins that the weights reach to either side. */
const BIN = 10;
const REACH = 10;
/** Bins between two points of the profile. */
const APART = 5;
/** m by which a single reading must stand out from both of its neighbours to be false. Common practice, no source. */
const FALSE = 10;

/** The profile, and how many readings were left out as false. */
export interface RoadProfile extends Profile {
  readonly left: number;
}

/** Altitudes over time; NaN where there is no reading. */
export interface Altitudes {
  readonly time: Float64Array;
  readonly altitude: Float64Array;
}

/** Over the way of the schedule; null where the altitudes say nothing: a car that goes nowhere, or hardly a reading. */
export function roadProfile(schedule: Schedule, altitudes: Altitudes): RoadProfile | null {
  const { sum, count, whole } = binned(schedule, altitudes);
  const filled = Array.from(count, (n, k) => (n > 0 ? k : -1)).filter(k => k >= 0);
  if (whole < BIN || filled.length < 2) return null;
  const read = filled.map(k => nth(sum, k) / nth(count, k));
  const mended = withoutFalse(filled, read);
  const altitude = bridged(filled, mended.values, count.length);
  const last = count.length - 1;
  const points: number[] = [];
  for (let k = 0; k < last; k += APART) points.push(k);
  // A last piece shorter than half of the others would be all noise.
  if (last - lastOf(points) < APART / 2 && points.length > 1) points.pop();
  points.push(last);
  const pitch = whole / last;
  return { distance: points.map(k => k * pitch), altitude: points.map(k => smoothed(altitude, k)), left: mended.count };
}

/** Sums and numbers of the readings by where on the road they were taken; bins are centred on 0, 10 m, 20 m ... */
function binned(
  { time, speed }: Schedule,
  altitudes: Altitudes,
): { readonly sum: Float64Array; readonly count: Uint32Array; readonly whole: number } {
  const metres = new Float64Array(time.length);
  for (let i = 1; i < time.length; i++) {
    metres[i] = nth(metres, i - 1) + ((nth(speed, i - 1) + nth(speed, i)) / 2) * (nth(time, i) - nth(time, i - 1));
  }
  const whole = lastOf(metres);
  const bins = Math.max(1, Math.round(whole / BIN));
  const sum = new Float64Array(bins + 1);
  const count = new Uint32Array(bins + 1);
  let piece = 1;
  for (const [row, at] of altitudes.time.entries()) {
    const altitude = nth(altitudes.altitude, row);
    if (Number.isNaN(altitude) || at < nth(time, 0) || at > lastOf(time)) continue;
    while (piece < time.length - 1 && nth(time, piece) < at) piece++;
    const part = (at - nth(time, piece - 1)) / (nth(time, piece) - nth(time, piece - 1));
    const here = nth(metres, piece - 1) + (nth(metres, piece) - nth(metres, piece - 1)) * part;
    const bin = whole > 0 ? Math.round((here / whole) * bins) : 0;
    sum[bin] = nth(sum, bin) + altitude;
    count[bin] = nth(count, bin) + 1;
  }
  return { sum, count, whole };
}

/** Readings beyond both of their neighbours by more than `FALSE`, as the straight line between those. */
function withoutFalse(
  at: readonly number[],
  values: readonly number[],
): { readonly values: readonly number[]; readonly count: number } {
  let count = 0;
  const mended = values.map((value, k) => {
    const [before, after] = [values[k - 1], values[k + 1]];
    if (before === undefined || after === undefined) return value;
    if (value <= Math.max(before, after) + FALSE && value >= Math.min(before, after) - FALSE) return value;
    count++;
    return before + ((after - before) * (nth(at, k) - nth(at, k - 1))) / (nth(at, k + 1) - nth(at, k - 1));
  });
  return { values: mended, count };
}

/** Straight lines between the bins that have a value, level beyond the outermost. */
function bridged(filled: readonly number[], values: readonly number[], bins: number): Float64Array {
  let next = 0;
  return Float64Array.from({ length: bins }, (_, k) => {
    while (next < filled.length - 1 && nth(filled, next) < k) next++;
    const [to, upper] = [nth(filled, next), nth(values, next)];
    if (next === 0 || k >= to) return upper;
    const [from, lower] = [nth(filled, next - 1), nth(values, next - 1)];
    return lower + ((upper - lower) * (k - from)) / (to - from);
  });
}

/** The value at `k` of the straight line that fits its surroundings best. */
function smoothed(altitude: Float64Array, k: number): number {
  let [w, wx, wxx, wy, wxy] = [0, 0, 0, 0, 0];
  const base = nth(altitude, k);
  for (let j = Math.max(0, k - REACH + 1); j < Math.min(altitude.length, k + REACH); j++) {
    const x = j - k;
    const weight = elementary.pow(1 - elementary.pow(Math.abs(x / REACH), 3), 3);
    const y = nth(altitude, j) - base;
    w += weight;
    wx += weight * x;
    wxx += weight * x * x;
    wy += weight * y;
    wxy += weight * x * y;
  }
  const spread = w * wxx - wx * wx;
  return base + (spread > 0 ? (wxx * wy - wx * wxy) / spread : 0);
}
