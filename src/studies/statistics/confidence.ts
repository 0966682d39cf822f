/** How sure it is that a quantity keeps a limit. */

import { item, nth } from '../../columns.ts';
import { sortedAnswers } from './estimate.ts';

/** A limit on one output: `at_least` or `at_most` the bound, in the unit of the output; the bound itself is allowed. */
export interface Bound {
  readonly sense: 'at_least' | 'at_most';
  readonly bound: number;
}

/** Whether a value keeps the bound; one that is not there (NaN) does not. */
function keeps(value: number, { sense, bound }: Bound): boolean {
  return sense === 'at_least' ? value >= bound : value <= bound;
}

/**
 * Share of the samples that keep all the bounds at once, each on its own column. A sample without an answer keeps none: a
 * car that does not get there has not got there in time. NaN is never returned; no samples at all are a RangeError.
 */
export function confidence(columns: readonly Float64Array[], bounds: readonly Bound[]): number {
  const samples = columns[0]?.length ?? 0;
  if (samples === 0) throw new RangeError('a confidence needs samples');
  let kept = 0;
  for (let i = 0; i < samples; i++) {
    if (bounds.every((bound, k) => keeps(nth(item(columns, k), i), bound))) kept++;
  }
  return kept / samples;
}

/**
 * The value that an output keeps with a confidence: the best promise that can be made. `at_least`: the largest value that
 * the share `confidence` of the samples reaches or exceeds; `at_most`: the smallest that the share does not exceed. Samples
 * without an answer count against it; null when there are so many that no value can be promised.
 */
export function promise(column: Float64Array, sense: Bound['sense'], confidence: number): number | null {
  if (!(confidence > 0 && confidence <= 1)) throw new RangeError(`a confidence lies in (0, 1], got ${confidence}`);
  const sorted = sortedAnswers(column);
  // Rounding must not turn 0.9 of 1000 into 901.
  const needed = Math.max(1, Math.ceil(confidence * column.length * (1 - 1e-12)));
  if (needed > sorted.length) return null;
  return sense === 'at_most' ? nth(sorted, needed - 1) : nth(sorted, sorted.length - needed);
}
