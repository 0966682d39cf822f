/** How firm the answer of a search is. */
import { item, nth } from '../../columns.ts';
import type { Figure } from './gain.ts';
import type { SeekAxis, SeekConstraint, SeekProblem } from './problem.ts';
import { scaleOf } from './problem.ts';
import { feasible, outputsOf } from './trial.ts';
import type { Asking, Memory, Trial } from './trial.ts';

/** Share of the scale of a constraint by which its bound is moved. */
const SHIFT = 0.01;
/** Share of the range of a parameter over which slopes are taken. */
const STEP = 1e-3;

/** What happens to the answer when the bound of one constraint moves by a hundredth of its scale. */
export interface BoundMove {
  /** Index of the constraint. */
  readonly constraint: number;
  /** The change of the bound, above 0, in the unit of the output. */
  readonly by: number;
  /** Parameters and goal with the bound moved so that less is asked, and so that more is asked; null when nothing will do. */
  readonly looser: Moved | null;
  readonly tighter: Moved | null;
  /**
   * Change of the goal (the parameter sought, or the output) per unit of the bound: 0 for a constraint that does not hold the answer back.
   * Null where whole numbers or named parts make it jump.
   */
  readonly slope: Figure;
}

export interface Moved {
  readonly x: readonly number[];
  readonly goal: number;
}

/** Seeks again with each bound moved both ways. What was tried before is not tried again. */
export function* boundMoves(
  problem: SeekProblem,
  answer: Trial,
  solve: (changed: SeekProblem) => Asking<{ readonly trial: Trial }>,
): Asking<BoundMove[]> {
  const goalOf = ({ x, out }: Trial): number =>
    'axis' in problem.goal ? nth(x, problem.goal.axis) : nth(out, problem.goal.output);
  const moves: BoundMove[] = [];
  for (const [index, constraint] of problem.constraints.entries()) {
    const by = SHIFT * scaleOf(constraint);
    const up = yield* solve(moved(problem, index, constraint, by));
    const down = yield* solve(moved(problem, index, constraint, -by));
    const high = feasible(up.trial) ? { x: up.trial.x, goal: goalOf(up.trial) } : null;
    const low = feasible(down.trial) ? { x: down.trial.x, goal: goalOf(down.trial) } : null;
    const smooth = problem.axes.every(axis => axis.kind === 'continuous');
    const width = (high === null ? 0 : by) + (low === null ? 0 : by);
    const here = goalOf(answer);
    const slope = smooth && width > 0 ? ((high?.goal ?? here) - (low?.goal ?? here)) / width : null;
    const [looser, tighter] = constraint.sense === 'at_least' ? [low, high] : [high, low];
    moves.push({ constraint: index, by, looser, tighter, slope });
  }
  return moves;
}

/** Scales stay as they were: margins are to be compared with those of the first search. */
function moved(problem: SeekProblem, index: number, constraint: SeekConstraint, by: number): SeekProblem {
  const scaled = { ...constraint, scale: scaleOf(constraint), bound: constraint.bound + by };
  return { ...problem, constraints: problem.constraints.with(index, scaled) };
}

/** Slopes of all outputs with all parameters: central, one-sided at the end of a range; over whole numbers by one. */
export function* slopesAt(problem: SeekProblem, answer: Trial, memory: Memory): Asking<Figure[][]> {
  const pairs = problem.axes.map((axis, k) => neighbours(axis, nth(answer.x, k)));
  const points = pairs.flatMap((pair, k) => pair?.map(value => answer.x.with(k, value)) ?? []);
  const outputs = yield* outputsOf(memory, points);
  let next = 0;
  const columns = pairs.map(pair => {
    if (pair === null) return null;
    const [low, high] = [item(outputs, next), item(outputs, next + 1)];
    next += 2;
    return high.map((value, output) => (value - item(low, output)) / (pair[1] - pair[0]));
  });
  return Array.from({ length: problem.outputs }, (_, output) =>
    columns.map(column => {
      const slope = column?.[output] ?? Number.NaN;
      return Number.isFinite(slope) ? slope : null;
    }),
  );
}

function neighbours(axis: SeekAxis, value: number): readonly [number, number] | null {
  if (axis.kind === 'choice' || axis.low === axis.high) return null;
  const step = axis.kind === 'integer' ? 1 : STEP * (axis.high - axis.low);
  return [Math.max(axis.low, value - step), Math.min(axis.high, value + step)];
}
