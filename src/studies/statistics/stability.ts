/** How well a Monte-Carlo result is known, by the scatter of its blocks. */
import * as elementary from '../../elementary.ts';
import { coverageInterval } from './coverage.ts';
import type { CoverageKind } from './coverage.ts';
import { moments, sortedAnswers } from './estimate.ts';

/** What is watched of an output (JCGM 101:2008, 7.9.4). */
const WATCHED = ['mean', 'standard', 'low', 'high'] as const;

/**
 * Numerical error of a result: twice the standard deviation of the average over the blocks, in the unit of the output; it
 * says what another seed would change, not how uncertain the quantity is. Null where a block has too few answers.
 */
export interface NumericalError {
  readonly mean: number | null;
  readonly standard: number | null;
  /** Of the ends of the interval watched. */
  readonly low: number | null;
  readonly high: number | null;
}

/** The watched numbers of one block and its count of answers; NaN for what it has too few answers for. */
export interface BlockFigures {
  readonly answers: number;
  readonly mean: number;
  readonly standard: number;
  readonly low: number;
  readonly high: number;
}

export function blockFigures(block: Float64Array, probability: number, kind: CoverageKind): BlockFigures {
  const sorted = sortedAnswers(block);
  const interval = coverageInterval(sorted, probability, kind);
  return {
    answers: sorted.length,
    ...moments(sorted),
    low: interval?.low ?? Number.NaN,
    high: interval?.high ?? Number.NaN,
  };
}

/** Standard deviation of all the answers of the blocks together; NaN where a block has fewer than two. */
export function pooledStandard(blocks: readonly BlockFigures[]): number {
  const total = blocks.reduce((sum, { answers }) => sum + answers, 0);
  const mean = blocks.reduce((sum, block) => sum + (block.answers / total) * block.mean, 0);
  const squares = blocks.reduce(
    (sum, block) =>
      sum +
      (block.answers - 1) * elementary.pow(block.standard, 2) +
      block.answers * elementary.pow(block.mean - mean, 2),
    0,
  );
  return Math.sqrt(squares / (total - 1));
}

/** Twice the standard deviation of the average of each watched number over the blocks (7.9.4 e to g); null for one block. */
export function numericalError(blocks: readonly BlockFigures[]): NumericalError {
  const twice = (figure: (typeof WATCHED)[number]): number | null => {
    const { standard } = moments(blocks.map(block => block[figure]));
    const error = (2 * standard) / Math.sqrt(blocks.length);
    return Number.isFinite(error) ? error : null;
  };
  return { mean: twice('mean'), standard: twice('standard'), low: twice('low'), high: twice('high') };
}

/** Whether all four are known and within the tolerance. */
export function stable(error: NumericalError, tolerance: number): boolean {
  return WATCHED.every(figure => {
    const value = error[figure];
    return value !== null && value <= tolerance;
  });
}

/**
 * Numerical tolerance of a standard uncertainty that is meant to be right to so many significant digits: half a unit of the
 * last one (7.9.2). 0 for an uncertainty of 0.
 */
export function toleranceFor(standard: number, digits: number): number {
  if (!Number.isInteger(digits) || digits < 1 || digits > 15) {
    throw new RangeError(`significant digits are a whole number from 1 to 15, got ${digits}`);
  }
  if (standard === 0) return 0;
  const exponent = Number(standard.toExponential(digits - 1).split('e')[1]);
  return 0.5 * elementary.pow(10, exponent - digits + 1);
}
