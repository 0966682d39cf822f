/**
 * Coast-downs in both directions, two by two: a car, a wind and a slope through both. The scatter between pairs holds all that changes from
 * one to the next: gusts, the receiver, how warm the tyres are.
 */
import { item, nth } from '../../columns.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';
import { type Fitted, leastSquares, scatterCovariance } from '../least-squares.ts';
import type { Slowing } from './closed-form.ts';
import { hanging, readLess, readLessSlopes, type RunFit, SCALE } from './one-run.ts';

export interface Pair {
  readonly there: RunFit;
  readonly back: RunFit;
  /** Of the car alone, in still air on a level road. */
  readonly slowing: Slowing;
  /** m/s against a car that goes there. */
  readonly wind: number;
  /** Rise over run on the way there. */
  readonly slope: number;
  /** m/s2 that the wind adds on the mean of both directions. */
  readonly windAdds: number;
  /** m/s, read less fitted. */
  readonly residuals: { readonly there: Float64Array; readonly back: Float64Array };
  readonly fit: Fitted;
  /** m/s, root of their mean square. */
  readonly noise: number;
}

/** m/s and rise over run that are usual. */
const WIND = 3;
const SLOPE = 0.005;

/** As many pairs as both directions have, in the order of driving. */
export function pairsOf(there: readonly RunFit[], back: readonly RunFit[]): readonly Pair[] {
  const count = Math.min(there.length, back.length);
  return Array.from({ length: count }, (_, k) => pairOf(item(there, k), item(back, k)));
}

/**
 * With wind w and slope s against a car that goes there, a + c (v + w)^2 + g s has the terms a + c w^2 + g s and b + 2 c w there, and those
 * with -w and -s back. The square of a wind that is itself uncertain is too great by its variance, which is taken off.
 */
function pairOf(there: RunFit, back: RunFit): Pair {
  const middle = (key: keyof Slowing): number => (there.slowing[key] + back.slowing[key]) / 2;
  const [c0, cut] = [middle('c'), there.residuals.length];
  const w0 = Math.max(-WIND, Math.min(WIND, (there.slowing.b - back.slowing.b) / (4 * c0)));
  const s0 = (there.slowing.a - back.slowing.a) / (2 * STANDARD_GRAVITY);
  const fit = leastSquares({
    residuals: parameters => {
      const all = new Float64Array(cut + back.residuals.length);
      all.set(readLess(there.track, runOf(parameters, 1), nth(parameters, 5)), 0);
      all.set(readLess(back.track, runOf(parameters, -1), nth(parameters, 6)), cut);
      return all;
    },
    slopes: parameters => pairSlopes(there, back, parameters),
    start: [middle('a') - c0 * w0 * w0, middle('b'), c0, w0, s0, there.start, back.start],
    scale: [SCALE[0], SCALE[1], SCALE[2], WIND, SLOPE, SCALE[3], SCALE[3]],
    within: [
      [-5, 5],
      [-0.5, 0.5],
      [-0.05, 0.05],
      [-50, 50],
      [-0.3, 0.3],
      [0, 150],
      [0, 150],
    ],
  });
  const [a = 0, b = 0, c = 0, wind = 0, slope = 0] = fit.parameters;
  const residuals = { there: fit.residuals.slice(0, cut), back: fit.residuals.slice(cut) };
  const factor = (hanging(residuals.there) + hanging(residuals.back)) / 2;
  const variance = factor * nth(item(scatterCovariance(fit), 3), 3);
  return {
    there,
    back,
    slowing: { a: a + c * variance, b, c },
    wind,
    slope,
    windAdds: c * (wind * wind - variance),
    residuals,
    fit,
    noise: Math.sqrt(fit.squares / fit.residuals.length),
  };
}

/** What slows the car in one direction. */
function runOf(parameters: readonly number[], direction: 1 | -1): Slowing {
  const [a = 0, b = 0, c = 0, wind = 0, slope = 0] = parameters;
  return { a: a + c * wind * wind + direction * STANDARD_GRAVITY * slope, b: b + 2 * direction * c * wind, c };
}

/** Slopes of the residuals of both runs along the seven parameters of a pair, by those along the terms of each run. */
function pairSlopes(there: RunFit, back: RunFit, parameters: readonly number[]): readonly Float64Array[] {
  const [, , c = 0, wind = 0] = parameters;
  const cut = there.residuals.length;
  const columns = Array.from({ length: 7 }, () => new Float64Array(cut + back.residuals.length));
  const runs = [
    { run: there, direction: 1, from: 0 },
    { run: back, direction: -1, from: cut },
  ] as const;
  for (const [k, { run, direction, from }] of runs.entries()) {
    const [a, b, square, start] = readLessSlopes(run.track, runOf(parameters, direction), nth(parameters, 5 + k));
    item(columns, 0).set(a, from);
    item(columns, 1).set(b, from);
    item(columns, 5 + k).set(start, from);
    const [along, blown, uphill] = [item(columns, 2), item(columns, 3), item(columns, 4)];
    for (let i = 0; i < a.length; i++) {
      const [byA, byB] = [nth(a, i), nth(b, i)];
      along[from + i] = nth(square, i) + wind * wind * byA + 2 * direction * wind * byB;
      blown[from + i] = 2 * c * (wind * byA + direction * byB);
      uphill[from + i] = direction * STANDARD_GRAVITY * byA;
    }
  }
  return columns;
}
