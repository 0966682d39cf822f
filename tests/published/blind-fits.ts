/**
 * What the published records tell by themselves, without any model: rules with as few constants as can be, fitted to these very records.
 * Each record is predicted by the constants of all the others (leave one out).
 */
import { nth } from '../../src/columns.ts';
import type { CycleName } from './predicted-consumption.ts';
import { quantile } from './predicted-times.ts';
import type { PredictedTime } from './predicted-times.ts';
import type { RoadLoadRecord } from './road-load-records.ts';

/** One constant: the median of time over bound of the other cars. */
export function oneConstant(times: readonly PredictedTime[]): readonly PredictedTime[] {
  return times.map(time => {
    const others = times.filter(each => each !== time).map(({ published, bound }) => published / bound);
    return { ...time, predicted: quantile(others, 0.5) * time.bound };
  });
}

/**
 * Five constants a schedule: consumption = k0 + k1 m + k2 F0 + k3 F1 + k4 F2, by least squares of the relative errors. J/m, in the
 * order of the records.
 */
export function fiveConstants(records: readonly RoadLoadRecord[], cycle: CycleName): readonly number[] {
  return records.map(record => {
    const others = records.filter(each => each !== record);
    const constants = leastSquares(
      others.map(each => termsOf(each).map(term => term / each.published[cycle])),
      others.map(() => 1),
    );
    return termsOf(record).reduce((sum, term, k) => sum + term * nth(constants, k), 0);
  });
}

/** Of like size, so that no digits are lost. */
function termsOf({ mass, f0, f1, f2 }: RoadLoadRecord): readonly number[] {
  return [500, mass / 4, 4 * f0, 20 * f1, 400 * f2];
}

/** By the normal equations, solved by elimination. @param rows of the left side. @param right side. */
function leastSquares(rows: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const count = rows[0]?.length ?? 0;
  const matrix = Array.from({ length: count }, (_, i) => [
    ...Array.from({ length: count }, (__, j) => rows.reduce((sum, row) => sum + nth(row, i) * nth(row, j), 0)),
    rows.reduce((sum, row, k) => sum + nth(row, i) * nth(right, k), 0),
  ]);
  for (let pivot = 0; pivot < count; pivot++) {
    const own = matrix[pivot] ?? [];
    for (let i = 0; i < count; i++) {
      if (i === pivot) continue;
      const row = matrix[i] ?? [];
      const factor = nth(row, pivot) / nth(own, pivot);
      matrix[i] = row.map((each, j) => each - factor * nth(own, j));
    }
  }
  return matrix.map((row, i) => nth(row, count) / nth(row, i));
}
