/**
 * What a fit leaves alike in all runs. Scatter between runs does not show it, and no fit of the right model leaves it: a clock that lost time at
 * the same place, a road that is not even, a pedal that was not down.
 */
import { nth } from '../columns.ts';

export interface RunLeft {
  /** s from the same instant in all runs. */
  readonly time: Float64Array;
  /** Read less fitted. */
  readonly residuals: Float64Array;
}

export interface Alike {
  /** Mean of all runs, and s at which it is the greatest. */
  readonly off: number;
  readonly at: number;
}

/**
 * The stretch in which all runs are off the same way, each by half of `least` or more and their mean by `least` or more; null where there is none.
 * @param span s of a stretch. @param least in the unit of the residuals. @param noise of a row: a mean of few rows is off by chance.
 */
export function alikeIn(runs: readonly RunLeft[], span: number, least: number, noise: number): Alike | null {
  const parts = runs.map(run => meansOf(run, span));
  let worst: Alike | null = null;
  for (const stretch of parts[0]?.keys() ?? []) {
    const means = parts.map(part => part.get(stretch));
    if (!means.every(each => each !== undefined && each.rows > 1)) continue;
    const told = means.flatMap(each => (each === undefined ? [] : [each]));
    const off = told.reduce((all, { mean }) => all + mean, 0) / told.length;
    const rows = told.reduce((all, each) => all + each.rows, 0);
    const same = told.every(({ mean }) => mean * off > 0 && Math.abs(mean) > least / 2);
    if (!same || Math.abs(off) < Math.max(least, (4.5 * noise) / Math.sqrt(rows))) continue;
    if (worst === null || Math.abs(off) > Math.abs(worst.off)) worst = { off, at: stretch * span };
  }
  return worst;
}

interface Mean {
  readonly mean: number;
  readonly rows: number;
}

function meansOf({ time, residuals }: RunLeft, span: number): ReadonlyMap<number, Mean> {
  const sums = new Map<number, [number, number]>();
  for (const [i, r] of residuals.entries()) {
    const stretch = Math.floor(nth(time, i) / span);
    const [sum, rows] = sums.get(stretch) ?? [0, 0];
    sums.set(stretch, [sum + r, rows + 1]);
  }
  return new Map([...sums].map(([stretch, [sum, rows]]) => [stretch, { mean: sum / rows, rows }]));
}
