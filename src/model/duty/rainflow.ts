/** Cycles of a load that goes up and down: rainflow counting as in ASTM E1049, 5.4.4, with its half cycles. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { extremesOf } from './track.ts';
import type { Track } from './track.ts';

/** A cycle, or half of one. */
export interface Cycle {
  /** From its valley to its peak. */
  readonly range: number;
  readonly mean: number;
  /** 1 or 0.5. */
  readonly count: number;
}

/** Peaks and valleys of the values in turn, the first and the last among them; equal ones after each other are one. */
export function turningPoints(values: Iterable<number>): number[] {
  const points: number[] = [];
  for (const value of values) {
    const last = points.at(-1);
    if (last === value) continue;
    const before = points.at(-2);
    if (last !== undefined && before !== undefined && last > before === value > last) points[points.length - 1] = value;
    else points.push(value);
  }
  return points;
}

/** Peaks and valleys of a track. */
export function turningPointsOf({ from, to }: Track): number[] {
  const values = new Float64Array(2 * from.length);
  for (let i = 0; i < from.length; i++) {
    values[2 * i] = nth(from, i);
    values[2 * i + 1] = nth(to, i);
  }
  return turningPoints(values);
}

/**
 * X is the range at hand, Y the one before it. Where X is no less than Y, Y is a cycle, or half of one where it holds the first point;
 * what is left at the end are halves. @param points as from `turningPoints`.
 */
export function rainflow(points: readonly number[]): Cycle[] {
  const cycles: Cycle[] = [];
  const open: number[] = [];
  const count = (a: number, b: number, weight: number): void =>
    void cycles.push({ range: Math.abs(a - b), mean: 0.5 * (a + b), count: weight });
  for (const point of points) {
    open.push(point);
    while (open.length >= 3) {
      const n = open.length;
      const [a, b, c] = [nth(open, n - 3), nth(open, n - 2), nth(open, n - 1)];
      if (Math.abs(c - b) < Math.abs(b - a)) break;
      if (n === 3) {
        count(a, b, 0.5);
        open.shift();
      } else {
        count(a, b, 1);
        open.splice(n - 3, 2);
      }
    }
  }
  for (let i = 0; i + 1 < open.length; i++) count(nth(open, i), nth(open, i + 1), 0.5);
  return cycles;
}

/** Cycles whose ranges lie between two bounds. */
export interface RangeClass {
  readonly from: number;
  readonly to: number;
  /** Weighed by their counts. */
  readonly range: number;
  readonly mean: number;
  readonly count: number;
}

/** Classes of equal width up to the greatest range, the widest first; empty ones are left out. */
export function classed(cycles: readonly Cycle[], classes: number): RangeClass[] {
  const most = cycles.reduce((greatest, { range }) => Math.max(greatest, range), 0);
  const found: RangeClass[] = [];
  for (let k = classes - 1; k >= 0; k--) {
    const [from, to] = [(most * k) / classes, (most * (k + 1)) / classes];
    const inside = cycles.filter(({ range }) => (range > from || (k === 0 && range === 0)) && range <= to);
    const count = inside.reduce((sum, cycle) => sum + cycle.count, 0);
    if (count === 0) continue;
    const mean = (of: (cycle: Cycle) => number): number =>
      inside.reduce((sum, cycle) => sum + cycle.count * of(cycle), 0) / count;
    found.push({ from, to, range: mean(({ range }) => range), mean: mean(cycle => cycle.mean), count });
  }
  return found;
}

/**
 * The range that does as much damage as all these cycles when it comes once for every so many metres: (sum n T^k)^(1/k), Miner's
 * rule with a straight line of slope k in the logarithms (Miner, J. Applied Mechanics 12, 1945; from memory).
 * @param times how often the run fits in the way that the answer is for.
 */
export function equivalentRange(cycles: readonly Cycle[], exponent: number, times: number): number {
  const most = cycles.reduce((greatest, { range }) => Math.max(greatest, range), 0);
  if (!(most > 0)) return 0;
  const damage = cycles.reduce((sum, { range, count }) => sum + count * elementary.pow(range / most, exponent), 0);
  return most * elementary.pow(times * damage, 1 / exponent);
}

/** A torque, and how far the shaft that it is on turns meanwhile. */
export interface Turning {
  /** N m. */
  readonly torque: Track;
  /** Turns of each piece. */
  readonly turns: Float64Array;
}

/**
 * The torque at which a gear that turns as far is loaded as much: (sum n T^k / sum n)^(1/k) over its turns, on the one flank or the
 * other, as ISO 6336-6 reckons with load spectra (from memory). The torque of a piece is that of its middle.
 * @param sign 1: driving flank; -1: the other one. @returns N m, and the turns on that flank.
 */
export function equivalentTorque(
  { torque, turns }: Turning,
  exponent: number,
  sign: 1 | -1,
): { readonly torque: number; readonly turns: number } {
  const { greatest, least } = extremesOf(torque);
  const most = sign > 0 ? greatest : -least;
  let [damage, whole] = [0, 0];
  for (let i = 0; i < turns.length; i++) {
    const each = sign * 0.5 * (nth(torque.from, i) + nth(torque.to, i));
    if (!(each > 0)) continue;
    whole += nth(turns, i);
    damage += nth(turns, i) * elementary.pow(each / most, exponent);
  }
  return { torque: whole > 0 ? most * elementary.pow(damage / whole, 1 / exponent) : 0, turns: whole };
}
