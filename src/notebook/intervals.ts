/** The intervals of a run: what the spreads of its inputs make of its figures. */
import { jobOf } from '../batch/evaluators.ts';
import type { Job } from '../batch/job.ts';
import type { Table } from '../batch/table.ts';
import type { Input } from '../model/fields/input.ts';
import type { Question } from '../runs/answer/question.ts';
import { runKindOf } from '../runs/kinds.ts';
import type { Intervals, Result } from '../runs/result.ts';
import { sampled } from '../studies/question/study-model.ts';
import { figureCoverages } from '../studies/statistics/figure-coverage.ts';
import { uncertainOf } from './uncertain-inputs.ts';

const PROBABILITY = 0.9;
const SEED = 1;

/** Runs that drive for hours of simulated time get fewer samples: share of those that are asked for. */
const SLOW = 0.25;

export interface IntervalPlan {
  readonly job: Job;
  read(table: Table): Intervals;
}

/** Null where no input is uncertain, or no figure is known for the run. */
export function intervalPlan(
  question: Question,
  result: Result,
  inputs: readonly Input[],
  samples: number,
): IntervalPlan | null {
  const kind = runKindOf(question.run.kind);
  const drawn = uncertainOf(question, inputs);
  // One that the run does not have may be there in some of the samples.
  const keys = kind.intervals.filter(key => typeof result.summary[key] !== 'string');
  if (drawn.length === 0 || keys.length === 0) return null;
  const fixed = Math.max(8, Math.round(kind.slow ? SLOW * samples : samples));
  const block = 2 ** Math.max(0, Math.round(Math.log2(fixed / 8)));
  const rows = Math.ceil(fixed / block) * block;
  const values = keys.map(key => numberOrNull(result.summary[key]));
  const payload = {
    subject: sampled({ questions: [question], outputs: keys.map(key => ({ question: 0, key })) }),
    inputs: drawn,
    plan: { seed: SEED, samples: { fixed: rows }, block },
    changes: [],
  };
  return {
    job: jobOf('samples', payload, rows, keys),
    read: table => ({
      probability: PROBABILITY,
      samples: rows,
      seed: SEED,
      inputs: drawn.length,
      ...figureCoverages(
        { keys, values, columns: keys.map(key => table.column(key)), code: sample => table.code(sample) },
        PROBABILITY,
      ),
    }),
  };
}

function numberOrNull(value: number | string | null | undefined): number | null {
  return typeof value === 'number' ? value : null;
}
