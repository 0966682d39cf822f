/** The search for the smallest, largest or best of one or two parameters under constraints. */
import { item, nth } from '../../columns.ts';
import type { Figure } from './gain.ts';
import type { Evaluate } from '../question/evaluate.ts';
import { searchLine, stretchesOf } from './line.ts';
import type { Stretch } from './line.ts';
import { checkProblem, DEFAULT_SCAN, levelsOf } from './problem.ts';
import type { Level, SeekAxis, SeekProblem } from './problem.ts';
import { boundMoves, slopesAt } from './sensitivity.ts';
import type { BoundMove } from './sensitivity.ts';
import type { Line, Sight } from './probe.ts';
import { bestOf, feasible, judgeOf, outputsOf } from './trial.ts';
import type { Asking, Judge, Memory, Trial } from './trial.ts';

/** A point with its outputs; null for an output that has no answer there. */
export interface SeekPoint {
  readonly x: readonly number[];
  readonly outputs: readonly Figure[];
}

/** A constraint that the closest point fails. */
export interface Shortfall {
  /** Index of the constraint. */
  readonly constraint: number;
  /** How far it is on the wrong side, above 0, in the unit of the output; null where there is no answer. */
  readonly by: Figure;
}

export interface SeekFound extends SeekPoint {
  readonly kind: 'found';
  /** Parameters whose answer lies at the end of their range: it says more about the range than about the model. */
  readonly atEnd: readonly number[];
  /**
   * All the parts of the (outermost) range where the constraints hold, seen with the resolution of the scan; more than one is worth
   * saying. For named parts those of the part chosen; null where there is nothing but named parts.
   */
  readonly stretches: readonly Stretch[] | null;
  /** Best of each named part of the first `choice`, null where it will not do; empty without named parts. */
  readonly choices: readonly (SeekPoint | null)[];
  /** How the answer moves with the bound of each constraint; empty when not asked for. */
  readonly moves: readonly BoundMove[];
  /** Slope of each output (row) with each parameter (column) at the answer; null for named parts and without answers. */
  readonly slopes: readonly (readonly Figure[])[];
}

/** Nothing will do. The point is the closest one: its worst constraint, as a share of its scale, fails by least. */
export interface SeekNone extends SeekPoint {
  readonly kind: 'none';
  readonly fails: readonly Shortfall[];
}

/** With the number of evaluations of the model. */
export type SeekResult = (SeekFound | SeekNone) & { readonly evaluations: number };

/** Seeks here and now. */
export function seek(evaluate: Evaluate, problem: SeekProblem): SeekResult {
  const steps = seekSteps(problem);
  const out = new Float64Array(problem.outputs);
  let step = steps.next();
  while (step.done !== true) {
    const answers = step.value.map(x => {
      out.fill(Number.NaN);
      evaluate(Float64Array.from(x), out);
      return Array.from(out);
    });
    step = steps.next(answers);
  }
  return step.value;
}

/**
 * The search without the work: hands out points, each to be answered by its outputs in the same order (NaN for no answer). The
 * points of one request do not depend on each other. Throws a RangeError for a problem that is none.
 */
export function* seekSteps(problem: SeekProblem): Asking<SeekResult> {
  checkProblem(problem);
  const memory: Memory = new Map();
  const found = yield* solve(problem, memory);
  const { trial } = found;
  const point = pointOf(trial);
  if (!feasible(trial)) {
    return { kind: 'none', ...point, fails: shortfalls(problem, trial), evaluations: memory.size };
  }
  const stretches = yield* rangesOf(found);
  const moves =
    problem.sensitivity === false ? [] : yield* boundMoves(problem, trial, changed => solve(changed, memory));
  const slopes = yield* slopesAt(problem, trial, memory);
  return {
    kind: 'found',
    ...point,
    atEnd: problem.axes.flatMap((axis, k) => (axis.kind !== 'choice' && isEnd(axis, nth(trial.x, k)) ? [k] : [])),
    stretches,
    choices: found.choices.map(choice => (feasible(choice) ? pointOf(choice) : null)),
    moves,
    slopes,
    evaluations: memory.size,
  };
}

/** The best trial and, of the outermost ordered level, the line it was found on. */
export interface Solved {
  readonly trial: Trial;
  readonly choices: readonly Trial[];
  readonly line: Line | null;
  readonly sights: readonly Sight[];
  readonly mirrored: boolean;
}

function* solve(problem: SeekProblem, memory: Memory): Asking<Solved> {
  const start = problem.axes.map(() => Number.NaN);
  return yield* descend({ problem, memory, judge: judgeOf(problem), levels: levelsOf(problem) }, 0, start);
}

interface Search {
  readonly problem: SeekProblem;
  readonly memory: Memory;
  readonly judge: Judge;
  readonly levels: readonly Level[];
}

/** Solves from one level inwards, the parameters of the levels outside being set in `x`. */
function* descend(search: Search, depth: number, x: readonly number[]): Asking<Solved> {
  const { problem, levels } = search;
  const { axis, aim } = item(levels, depth);
  const range = item(problem.axes, axis);
  if (range.kind === 'choice') return yield* descendChoices(search, depth, x, range.count);
  const mirrored = aim === 'first' && problem.goal.kind === 'largest';
  const line = lineOf(range, problem.scan ?? DEFAULT_SCAN, mirrored, places =>
    tries(search, depth, x, mirrored ? places.map(t => 0 - t) : places),
  );
  const { best, sights } = yield* searchLine(line, aim);
  return { trial: best.trial, choices: [], line, sights, mirrored };
}

function* descendChoices(search: Search, depth: number, x: readonly number[], count: number): Asking<Solved> {
  if (depth === search.levels.length - 1) {
    const trials = yield* tries(search, depth, x, [...Array(count).keys()]);
    return { trial: bestOf(trials), choices: trials, line: null, sights: [], mirrored: false };
  }
  const all: Solved[] = [];
  for (let part = 0; part < count; part++) all.push(yield* descend(search, depth + 1, set(search, depth, x, part)));
  const choices = all.map(solved => solved.trial);
  return { ...item(all, choices.indexOf(bestOf(choices))), choices };
}

/** Trials with the parameter of a level at each of some values, and those inside at their best. */
function* tries(search: Search, depth: number, x: readonly number[], values: readonly number[]): Asking<Trial[]> {
  const points = values.map(value => set(search, depth, x, value));
  if (depth === search.levels.length - 1) {
    const outputs = yield* outputsOf(search.memory, points);
    return points.map((point, k) => search.judge(point, item(outputs, k)));
  }
  const trials: Trial[] = [];
  for (const point of points) trials.push((yield* descend(search, depth + 1, point)).trial);
  return trials;
}

function set({ levels }: Search, depth: number, x: readonly number[], value: number): readonly number[] {
  return x.with(item(levels, depth).axis, value);
}

/** The stretches as the parameter counts, ascending: a line for the largest value runs backwards. */
function* rangesOf({ line, sights, mirrored }: Solved): Asking<Stretch[] | null> {
  if (line === null) return null;
  const stretches = yield* stretchesOf(line, sights);
  if (!mirrored) return stretches;
  return stretches.map(({ low, high }) => ({ low: 0 - high, high: 0 - low })).toReversed();
}

/** Share of its range to which a continuous parameter is found. */
const RESOLUTION = 1e-6;

function lineOf(
  axis: Exclude<SeekAxis, { kind: 'choice' }>,
  scan: number,
  mirrored: boolean,
  tryAll: (places: readonly number[]) => Asking<Trial[]>,
): Line {
  const whole = axis.kind === 'integer';
  function* sights(places: readonly number[]): Asking<Sight[]> {
    const trials = yield* tryAll(places);
    return trials.map((trial, k) => ({ t: nth(places, k), trial }));
  }
  return {
    low: mirrored ? 0 - axis.high : axis.low,
    high: mirrored ? 0 - axis.low : axis.high,
    whole,
    resolution: axis.kind === 'integer' ? 1 : (axis.resolution ?? RESOLUTION * (axis.high - axis.low)),
    scan,
    snap: whole ? Math.round : t => t,
    sights,
    *sight(t) {
      return item(yield* sights([t]), 0);
    },
  };
}

function pointOf({ x, out }: Trial): SeekPoint {
  return { x, outputs: out.map(value => (Number.isNaN(value) ? null : value)) };
}

function shortfalls({ constraints }: SeekProblem, { out }: Trial): Shortfall[] {
  return constraints.flatMap(({ output, sense, bound }, constraint): Shortfall[] => {
    const over = nth(out, output) - bound;
    if (Number.isNaN(over)) return [{ constraint, by: null }];
    const by = sense === 'at_least' ? -over : over;
    return by > 0 ? [{ constraint, by }] : [];
  });
}

function isEnd(axis: Exclude<SeekAxis, { kind: 'choice' }>, value: number): boolean {
  const slack = axis.kind === 'integer' ? 0 : (axis.resolution ?? RESOLUTION * (axis.high - axis.low));
  return value <= axis.low + slack || value >= axis.high - slack;
}
