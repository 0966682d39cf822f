/** Which limits a variant breaks. */
import { keeps } from '../statistics/confidence.ts';
import type { Bound } from '../statistics/confidence.ts';
import type { Figure } from './gain.ts';

/** One limit on one output. */
export interface Limit extends Bound {
  /** Index of the output. */
  readonly output: number;
}

export interface BrokenLimit {
  /** Index of the limit in the list. */
  readonly limit: number;
  /** What the variant has; null where it has no answer, which breaks the limit too. */
  readonly value: Figure;
  /** How far it is on the wrong side, in the unit of the output, above 0; null without an answer. */
  readonly excess: Figure;
}

/** The limits that the outputs of a variant break, in the order of the list. Equal to the bound is kept. */
export function brokenLimits(outputs: readonly Figure[], limits: readonly Limit[]): BrokenLimit[] {
  return limits.flatMap((limit, index): BrokenLimit[] => {
    const value = outputs[limit.output];
    if (value === undefined) throw new RangeError(`limit ${index} is on output ${limit.output} of ${outputs.length}`);
    if (value === null || Number.isNaN(value)) return [{ limit: index, value: null, excess: null }];
    if (keeps(value, limit)) return [];
    return [{ limit: index, value, excess: Math.abs(value - limit.bound) }];
  });
}
