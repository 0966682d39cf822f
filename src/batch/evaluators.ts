/** What axlewatt can evaluate in a batch, by the `kind` of the job. */
import type { Change } from '../runs/answer/change.ts';
import { gridPlaces, gridOf } from '../studies/search/grid.ts';
import { inputsOf } from '../studies/statistics/monte-carlo.ts';
import type { MonteCarloPlan } from '../studies/statistics/monte-carlo.ts';
import { createSubject } from '../studies/question/study-model.ts';
import type { Subject } from '../studies/question/study-model.ts';
import { changesFrom, drawsOf } from '../studies/sampling/uncertain.ts';
import type { Uncertain } from '../studies/sampling/uncertain.ts';
import { varianceShareRows } from '../studies/statistics/variance-shares.ts';
import { canonicalCopy } from './canonical.ts';
import type { Evaluator, Evaluators, Job } from './job.ts';

/** Rows of a sweep: every combination of the values of its axes, the last one changing fastest. */
export interface SweepPayload {
  readonly subject: Subject;
  /** Per axis, the changes that each of its values means. */
  readonly axes: readonly (readonly (readonly Change[])[])[];
}

/** Rows are samples of the uncertain inputs, about the subject as it is changed. */
export interface SamplesPayload {
  readonly subject: Subject;
  readonly inputs: readonly Uncertain[];
  readonly plan: Pick<MonteCarloPlan, 'seed' | 'samples' | 'block'>;
  /** Sample of row 0; default 0. */
  readonly first?: number;
  readonly changes: readonly Change[];
}

/** Rows of the estimate of variance shares. */
export interface SharesPayload {
  readonly subject: Subject;
  readonly inputs: readonly Uncertain[];
  readonly plan: { readonly seed: number; readonly block: number; readonly blocks: number };
}

/** Rows are given one by one: the points of a search. */
export interface PointsPayload {
  readonly subject: Subject;
  readonly points: readonly (readonly Change[])[];
}

function sweep({ subject, axes }: SweepPayload): Evaluator {
  const answer = createSubject(subject);
  const grid = gridOf(axes.map(values => ({ kind: 'list', values: values.map((_, index) => index) })));
  return {
    evaluate(row, out) {
      const changes: Change[] = [];
      gridPlaces(grid, row).forEach((place, axis) => changes.push(...entry(axes[axis] ?? [], place)));
      return answer(changes, out);
    },
  };
}

function samples({ subject, inputs, plan, first = 0, changes }: SamplesPayload): Evaluator {
  const answer = createSubject(subject);
  const at = inputsOf({ ...plan, draws: drawsOf(inputs), outputs: subject.outputs.length });
  const drawn = changesFrom(inputs);
  const x = new Float64Array(inputs.length);
  return {
    evaluate(row, out) {
      at(first + row, x);
      return answer(changes.length === 0 ? drawn(x) : [...drawn(x), ...changes], out);
    },
  };
}

function shares({ subject, inputs, plan }: SharesPayload): Evaluator {
  const answer = createSubject(subject);
  const { inputsAt } = varianceShareRows({ ...plan, draws: drawsOf(inputs), outputs: subject.outputs.length });
  const drawn = changesFrom(inputs);
  const x = new Float64Array(inputs.length);
  return {
    evaluate(row, out) {
      inputsAt(row, x);
      return answer(drawn(x), out);
    },
  };
}

function points({ subject, points: all }: PointsPayload): Evaluator {
  const answer = createSubject(subject);
  return { evaluate: (row, out) => answer(entry(all, row), out) };
}

/** An entry that must be there: another one would be the answer to another question. */
function entry<T>(all: readonly T[], k: number): T {
  const found = all[k];
  if (found === undefined) throw new RangeError(`there is no entry ${k} among ${all.length}`);
  return found;
}

interface Payloads {
  readonly sweep: SweepPayload;
  readonly samples: SamplesPayload;
  readonly shares: SharesPayload;
  readonly points: PointsPayload;
}

const MAKERS: { readonly [kind in keyof Payloads]: (payload: Payloads[kind]) => Evaluator } = {
  sweep,
  samples,
  shares,
  points,
};

/** @throws TypeError for a payload that JSON cannot carry as it is, naming the place. */
export function jobOf<K extends keyof Payloads>(
  kind: K,
  payload: Payloads[K],
  rows: number,
  columns: readonly string[],
): Job {
  return { kind, payload: canonicalCopy(payload), rows, columns };
}

// `jobOf` holds every payload to the type of its kind before it becomes JSON.
export const evaluators: Evaluators = new Map(
  Object.entries(MAKERS).map(([kind, make]) => [kind, payload => make(payload as never)]),
);
