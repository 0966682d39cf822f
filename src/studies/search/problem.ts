/** A question of the kind "the smallest pack that will do" in numbers. */
import { item } from '../../columns.ts';
import type { Bound } from '../statistics/confidence.ts';

/** What may be changed: one or two of these. */
export type SeekAxis =
  /** Any value in between; the answer is found to within `resolution` (a millionth of the span unless stated). */
  | { readonly kind: 'continuous'; readonly low: number; readonly high: number; readonly resolution?: number }
  /** Whole numbers, both limits included: cells in parallel. */
  | { readonly kind: 'integer'; readonly low: number; readonly high: number }
  /** Named parts, by their index from 0; they have no order. */
  | { readonly kind: 'choice'; readonly count: number };

/** What must hold. Margins are compared as shares of `scale`: of the bound unless stated (of 1 for a bound of 0). */
export interface SeekConstraint extends Bound {
  /** Index of the output. */
  readonly output: number;
  readonly scale?: number;
}

/** `smallest` and `largest` value of a parameter that satisfies the constraints; or the parameters with the best output. */
export type SeekGoal =
  | { readonly kind: 'smallest' | 'largest'; readonly axis: number }
  | { readonly kind: 'lowest' | 'highest'; readonly output: number };

export interface SeekProblem {
  readonly axes: readonly SeekAxis[];
  /** Number of outputs of the model. */
  readonly outputs: number;
  readonly constraints: readonly SeekConstraint[];
  readonly goal: SeekGoal;
  /**
   * Intervals in which an axis is looked through before anything is assumed of the model; 32 unless stated. With two continuous
   * parameters a search takes some 40 times as many evaluations as with one: fewer intervals suit a slow model. What happens and is over
   * between two points of the scan, and does not show at them, is not seen. Up to four times as many whole numbers are all tried.
   */
  readonly scan?: number;
  /** Whether to ask how the answer moves with each bound, by two more searches for each; true unless stated. */
  readonly sensitivity?: boolean;
}

export const DEFAULT_SCAN = 32;

/** How a level of the search chooses: the first that will do, the best that will do, the one with most in hand. */
export type Aim = 'first' | 'best' | 'clearest';

/** One axis of the search, from the outermost in. */
export interface Level {
  readonly axis: number;
  readonly aim: Aim;
}

/**
 * The nesting of a search. Named parts are tried one by one, outermost. For the smallest of a parameter that parameter comes next, and
 * the other one, inside, is set to what leaves most in hand: the smallest value that will do is then a single sign change. For the
 * best of an output whole numbers stand outside of continuous ones.
 */
export function levelsOf({ axes, goal }: SeekProblem): Level[] {
  const rank = (axis: number): number => {
    if (item(axes, axis).kind === 'choice') return 0;
    if ('axis' in goal) return goal.axis === axis ? 1 : 2;
    return item(axes, axis).kind === 'integer' ? 1 : 2;
  };
  const order = axes.map((_, axis) => axis).toSorted((a, b) => rank(a) - rank(b));
  return order.map(axis => {
    if (item(axes, axis).kind === 'choice' || !('axis' in goal)) return { axis, aim: 'best' };
    return { axis, aim: goal.axis === axis ? 'first' : 'clearest' };
  });
}

/** Throws a RangeError for a problem that is none. */
export function checkProblem({ axes, outputs, constraints, goal, scan = DEFAULT_SCAN }: SeekProblem): void {
  if (axes.length < 1 || axes.length > 2)
    throw new RangeError(`one or two parameters can be sought, got ${axes.length}`);
  axes.forEach(checkAxis);
  if (!Number.isInteger(scan) || scan < 2) throw new RangeError(`a scan has two intervals at least, got ${scan}`);
  for (const { output, bound, scale } of constraints) {
    if (!isOutput(output, outputs) || !Number.isFinite(bound) || !((scale ?? 1) > 0)) {
      throw new RangeError(`no constraint: output ${output} of ${outputs}, bound ${bound}, scale ${scale}`);
    }
  }
  if ('output' in goal) {
    if (!isOutput(goal.output, outputs)) throw new RangeError(`there is no output ${goal.output} to seek`);
    return;
  }
  const axis = axes[goal.axis];
  if (axis === undefined) throw new RangeError(`there is no parameter ${goal.axis} to seek`);
  if (axis.kind === 'choice')
    throw new RangeError('named parts have no order: seek the lowest or highest of an output');
}

function isOutput(index: number, outputs: number): boolean {
  return Number.isInteger(index) && index >= 0 && index < outputs;
}

function checkAxis(axis: SeekAxis, index: number): void {
  if (axis.kind === 'choice') {
    if (Number.isSafeInteger(axis.count) && axis.count > 0) return;
    throw new RangeError(`parameter ${index} needs one part at least, got ${axis.count}`);
  }
  const { low, high } = axis;
  const whole = axis.kind === 'integer';
  const fine = whole ? Number.isSafeInteger(low) && Number.isSafeInteger(high) && low <= high : low < high;
  if (!fine || !Number.isFinite(high - low)) {
    throw new RangeError(
      `parameter ${index} can not lie between ${low} and ${high}${whole ? ' as a whole number' : ''}`,
    );
  }
  if (axis.kind === 'continuous' && axis.resolution !== undefined && !(axis.resolution > 0)) {
    throw new RangeError(`parameter ${index} needs a resolution above 0, got ${axis.resolution}`);
  }
}

/** What a margin of a constraint is a share of. */
export function scaleOf({ scale, bound }: SeekConstraint): number {
  return scale ?? (Math.abs(bound) || 1);
}
