/** One point that was tried, and how it compares with another. */
import { item, nth } from '../../columns.ts';
import type { SeekProblem } from './problem.ts';
import { scaleOf } from './problem.ts';

/** A point with its outputs. */
export interface Trial {
  readonly x: readonly number[];
  /** Outputs of the model; NaN for no answer. */
  readonly out: readonly number[];
  /** What is to be made small. */
  readonly value: number;
  /** Smallest margin of all constraints, as a share of its scale: 0 or more will do. -Infinity without an answer. */
  readonly worst: number;
}

export type Judge = (x: readonly number[], out: readonly number[]) => Trial;

/**
 * A search that asks for evaluations instead of making them: it hands out points, takes their outputs, and returns in the end.
 * So the same search runs here and now or on many workers.
 */
export type Asking<T> = Generator<readonly (readonly number[])[], T, readonly (readonly number[])[]>;

/** The points tried so far, whatever they were tried for. */
export type Memory = Map<string, readonly number[]>;

export function feasible(trial: Trial): boolean {
  return trial.worst >= 0;
}

/**
 * Whether `a` is better than `b`: what will do is better than what will not (K. Deb, Comput. Methods Appl. Mech. Eng. 186
 * (2000) 311-338); of two that will do the one with the smaller value, then the one with more in hand; of two that will not
 * the one that fails by less.
 */
export function better(a: Trial, b: Trial): boolean {
  if (feasible(a) !== feasible(b)) return feasible(a);
  if (feasible(a) && a.value !== b.value) return a.value < b.value;
  return a.worst > b.worst;
}

export function bestOf(trials: readonly Trial[]): Trial {
  return trials.reduce((best, trial) => (better(trial, best) ? trial : best));
}

/** Judges points by the goal and the constraints of a problem. */
export function judgeOf({ goal, constraints }: SeekProblem): Judge {
  const sign = goal.kind === 'smallest' || goal.kind === 'lowest' ? 1 : -1;
  return (x, out) => {
    const value = sign * ('axis' in goal ? nth(x, goal.axis) : nth(out, goal.output));
    let worst = Number.isNaN(value) ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
    for (const constraint of constraints) {
      const over = nth(out, constraint.output) - constraint.bound;
      const margin = (constraint.sense === 'at_least' ? over : -over) / scaleOf(constraint);
      worst = Math.min(worst, Number.isNaN(margin) ? Number.NEGATIVE_INFINITY : margin);
    }
    return { x, out, value, worst };
  };
}

/** The same point looked at for the margin alone: the more in hand, the better. */
export function byMargin(trial: Trial): Trial {
  const answered = trial.worst > Number.NEGATIVE_INFINITY;
  return { ...trial, value: -trial.worst, worst: answered ? Number.POSITIVE_INFINITY : trial.worst };
}

/** Outputs at the points, asked for only where they are not known yet. */
export function* outputsOf(memory: Memory, points: readonly (readonly number[])[]): Asking<(readonly number[])[]> {
  const fresh = new Map(points.map(x => [keyOf(x), x] as const).filter(([key]) => !memory.has(key)));
  if (fresh.size > 0) {
    const answers = yield [...fresh.values()];
    if (answers.length !== fresh.size) throw new RangeError(`${fresh.size} points need as many answers`);
    [...fresh.keys()].forEach((key, k) => memory.set(key, item(answers, k)));
  }
  return points.map(x => {
    const known = memory.get(keyOf(x));
    if (known === undefined) throw new Error(`the point ${keyOf(x)} was not answered`);
    return known;
  });
}

function keyOf(x: readonly number[]): string {
  return x.join(' ');
}
