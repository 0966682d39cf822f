/** The intervals of a run: what the spreads of its inputs make of its figures. */
import { jobOf } from '../batch/evaluators.ts';
import type { Job } from '../batch/job.ts';
import type { Table } from '../batch/table.ts';
import { item, nth } from '../columns.ts';
import { effort } from '../model/effort.ts';
import type { Input } from '../model/fields/input.ts';
import type { Question } from '../runs/answer/question.ts';
import type { RunKind } from '../runs/kind.ts';
import { runKindOf } from '../runs/kinds.ts';
import type { Intervals, Result } from '../runs/result.ts';
import { oneBlock } from '../studies/sampling/sample.ts';
import { createSubject, sampled } from '../studies/question/study-model.ts';
import { drawsOf, type Uncertain, valuesFrom } from '../studies/sampling/uncertain.ts';
import { inputsOf, type MonteCarloPlan } from '../studies/statistics/monte-carlo.ts';
import { moversOf } from '../studies/statistics/movers.ts';
import { figureCoverages } from '../studies/statistics/figure-coverage.ts';
import { allStandStill } from '../studies/statistics/standing.ts';
import { uncertainOf } from './uncertain-inputs.ts';

export const PROBABILITY = 0.9;
export const SEED = 1;

/** The samples of one run, which may be taken in several goes. */
export interface IntervalPlan {
  /** All that its intervals hang on, beside how many samples are taken. */
  readonly about: unknown;
  /** Units of `effort` that one sample takes, as one with every input at its own value does. */
  work(): number;
  /** What makes the next samples, up to so many in all. */
  job(upTo: number): Job;
  take(table: Table): void;
  /** Whether more samples would leave the digits of its headlines as they are. */
  standsStill(): boolean;
  read(): Intervals;
}

/** Which samples are taken: those of a spread of the page, where it has one of this run. */
export type Points = Pick<Intervals, 'seed' | 'block'>;

export const USUAL_POINTS: Points = { seed: SEED };

/**
 * Null where no input is uncertain, or no figure is known for the run.
 * @param most samples that are ever taken: which points they are depends on nothing else but `points`.
 */
export function intervalPlan(
  question: Question,
  result: Result,
  inputs: readonly Input[],
  most: number,
  { seed, block }: Points = USUAL_POINTS,
): IntervalPlan | null {
  const kind = runKindOf(question.run.kind);
  const drawn = uncertainOf(question, inputs);
  // One that the run does not have may be there in some of the samples.
  const keys = shownKeys(kind, result);
  if (drawn.length === 0 || keys.length === 0) return null;
  const subject = sampled({ questions: [question], outputs: keys.map(key => ({ question: 0, key })) });
  const plan = { seed, samples: { fixed: most }, block: block ?? oneBlock(most) };
  const columns = keys.map((): number[] => []);
  const codes: string[] = [];
  const values = keys.map(key => numberOrNull(result.summary[key]));
  const headlines = keys.filter(key => kind.headlines.includes(key) && typeof result.summary[key] === 'number');
  const coverages = (): Intervals => ({
    probability: PROBABILITY,
    samples: codes.length,
    seed,
    ...(block !== undefined && { block }),
    inputs: drawn.length,
    ...figureCoverages(
      {
        keys,
        values,
        columns: columns.map(column => Float64Array.from(column)),
        code: sample => item(codes, sample),
      },
      PROBABILITY,
    ),
  });
  return {
    about: { subject, inputs: drawn, plan, values },
    work() {
      const before = effort.spent;
      createSubject(subject)([], new Float64Array(keys.length));
      return effort.spent - before;
    },
    job: upTo =>
      jobOf('samples', { subject, inputs: drawn, plan, first: codes.length, changes: [] }, upTo - codes.length, keys),
    take(table) {
      for (const [k, key] of keys.entries()) for (const value of table.column(key)) item(columns, k).push(value);
      for (let row = 0; row < table.rows; row++) codes.push(table.code(row));
    },
    standsStill: () => allStandStill(coverages(), headlines),
    read: () => ({ ...coverages(), ...moved(drawn, headlines, key => item(columns, keys.indexOf(key)), plan) }),
  };
}

/** Samples by which it is told what moves a figure: more say no more than the first digit of a share. */
const MOST_TOLD = 1024;

/** What moves the figures, by the samples that were taken. */
function moved(
  inputs: readonly Uncertain[],
  figures: readonly string[],
  columnOf: (key: string) => readonly number[],
  plan: Pick<MonteCarloPlan, 'seed' | 'samples' | 'block'>,
): Pick<Intervals, 'movers'> {
  const [first] = figures;
  if (first === undefined) return {};
  const samples = Math.min(MOST_TOLD, columnOf(first).length);
  const at = inputsOf({ ...plan, draws: drawsOf(inputs), outputs: 1 });
  const x = new Float64Array(inputs.length);
  const { paths, fill } = valuesFrom(inputs);
  const drawn = new Float64Array(paths.length);
  const values = inputs.map(() => new Float64Array(samples));
  for (let sample = 0; sample < samples; sample++) {
    at(sample, x);
    fill(x, drawn);
    for (let k = 0; k < values.length; k++) item(values, k)[sample] = nth(drawn, k);
  }
  const movers = moversOf(
    inputs.map(({ path }, k) => ({ path, values: item(values, k) })),
    figures.map(key => columnOf(key).slice(0, samples)),
  ).flatMap((found, k) => (found.length === 0 ? [] : [[item(figures, k), found] as const]));
  return movers.length === 0 ? {} : { movers: Object.fromEntries(movers) };
}

/** Those that the kind names; where they hang on what is asked all that are no counts. */
function shownKeys({ intervals, outputs }: RunKind, { summary, ...result }: Result): readonly string[] {
  if (Object.keys(outputs).length > 0) return intervals.filter(key => typeof summary[key] !== 'string');
  return Object.keys(summary).filter(key => typeof summary[key] === 'number' && result.outputs[key]?.unit !== '1');
}

function numberOrNull(value: number | string | null | undefined): number | null {
  return typeof value === 'number' ? value : null;
}
