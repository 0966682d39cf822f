/** What a sample says about a quantity. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { coverageInterval } from './coverage.ts';
import type { Interval } from './coverage.ts';

/** Null stands where too few samples have an answer. All numbers are over the samples that have one. */
export interface Estimate {
  /** Samples with an answer. */
  readonly answers: number;
  /** Samples without one (NaN). */
  readonly missing: number;
  /** Mean of the sample: the estimate of the quantity (JCGM 101:2008, 7.6). */
  readonly mean: number | null;
  /** Standard deviation of the sample, with divisor count - 1: its standard uncertainty (7.6). */
  readonly standard: number | null;
  /** Half of the answers lie below. */
  readonly median: number | null;
  /** Probabilistically symmetric coverage interval (7.7). */
  readonly symmetric: Interval | null;
  /** Shortest coverage interval (7.7). */
  readonly shortest: Interval | null;
}

/** Estimates from one output of a study; the column stays as it is. */
export function estimate(column: Float64Array, probability: number): Estimate {
  const sorted = sortedAnswers(column);
  const count = sorted.length;
  const { mean, standard } = moments(sorted);
  return {
    answers: count,
    missing: column.length - count,
    mean: count > 0 ? mean : null,
    standard: count > 1 ? standard : null,
    median: count > 0 ? (nth(sorted, (count - 1) >> 1) + nth(sorted, count >> 1)) / 2 : null,
    symmetric: coverageInterval(sorted, probability, 'symmetric'),
    shortest: coverageInterval(sorted, probability, 'shortest'),
  };
}

/** The answers of a column (all but NaN) in ascending order, in an array of their own. */
export function sortedAnswers(column: Float64Array): Float64Array {
  const answers = column.filter(value => !Number.isNaN(value));
  answers.sort();
  return answers;
}

/** Mean and standard deviation in two passes: no digits are lost where the spread is small beside the mean. */
export function moments(values: readonly number[] | Float64Array): {
  readonly mean: number;
  readonly standard: number;
} {
  const count = values.length;
  const base = values[0] ?? Number.NaN;
  let sum = 0;
  for (const value of values) sum += value - base;
  const mean = base + sum / count;
  let squares = 0;
  for (const value of values) squares += elementary.pow(value - mean, 2);
  return { mean, standard: Math.sqrt(squares / (count - 1)) };
}
