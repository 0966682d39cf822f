/** What the spreads of the inputs make of figures: samples of all uncertain inputs (JCGM 101:2008). */
import { item } from '../../columns.ts';
import { pathChecker } from '../../runs/answer/paths.ts';
import { group, oneOf, optional, refused, type Rule, SHARE } from '../../runs/rules.ts';
import type { Column, Result } from '../../runs/result.ts';
import { checkStudy, SEED, UNCERTAINS, wholeWithin } from '../question/checked.ts';
import { figureColumn, figureKey, figureTitle } from '../question/figures.ts';
import type { Study } from '../question/figures.ts';
import { createSubject, sampled } from '../question/study-model.ts';
import { oneBlock } from '../sampling/sample.ts';
import { changesFrom, drawsOf } from '../sampling/uncertain.ts';
import type { Uncertain } from '../sampling/uncertain.ts';
import { figureCoverages } from '../statistics/figure-coverage.ts';
import { monteCarlo } from '../statistics/monte-carlo.ts';
import type { MonteCarlo, MonteCarloPlan } from '../statistics/monte-carlo.ts';

/**
 * Draws and asks here and now.
 * @param plan how many samples, which ones, and the probability that is covered: `{ samples: { fixed: 1000 }, seed: 1, probability: 0.9 }`.
 * @throws SpecError for an input whose path leads to no field, and for what is no study, no uncertain input or no plan.
 */
export function spread(
  study: Study,
  inputs: readonly Uncertain[],
  plan: Omit<MonteCarloPlan, 'draws' | 'outputs'>,
): Result {
  checkStudy(study);
  UNCERTAINS(inputs, 'inputs');
  PLAN(plan, 'plan');
  const check = pathChecker(study.subject.questions);
  for (const { path } of inputs) check(path);
  const whole = { ...pointsOf(plan), draws: drawsOf(inputs), outputs: study.figures.length };
  const answer = createSubject(sampled(study.subject));
  const drawn = changesFrom(inputs);
  const codes: string[] = [];
  const found = monteCarlo((x, out) => void codes.push(answer(drawn(x), out)), whole);
  return spreadResult(study, inputs, whole, found, codes);
}

const MOST = wholeWithin(1, 2 ** 30);
const FIXED = group<{ fixed: number }>({ fixed: MOST });
const ADAPTIVE = group<{ most: number }>({ most: MOST });

const SAMPLES: Rule = (value, path) => {
  if (typeof value !== 'object' || value === null) throw refused(path, value, '{ fixed: 1000 }, or { most: 100000 }');
  ('most' in value ? ADAPTIVE : FIXED)(value, path);
};

const ACCURACY: Rule = (value, path) => {
  if (typeof value !== 'object' || value === null) throw refused(path, value, '{ digits: 2 }, or { tolerance: 0.01 }');
};

const PLAN = group<Omit<MonteCarloPlan, 'draws' | 'outputs'>>({
  seed: SEED,
  source: optional(oneOf(['random', 'sobol'])),
  probability: optional(SHARE),
  watch: optional(oneOf(['symmetric', 'shortest'])),
  samples: SAMPLES,
  accuracy: optional(ACCURACY),
  block: optional(MOST),
});

/** The same points as those of the intervals of runs: all of one block, where their number is fixed. */
export function pointsOf<P extends Pick<MonteCarloPlan, 'samples' | 'block'>>(plan: P): P {
  return 'fixed' in plan.samples ? { block: oneBlock(plan.samples.fixed), ...plan } : plan;
}

/** Until the ends of the intervals stand still in so many digits of the uncertainty, or `most` samples (JCGM 101:2008, 7.9.4). */
export function adaptively(digits: number, most: number): Pick<MonteCarloPlan, 'samples' | 'accuracy' | 'block'> {
  const block = 2 ** Math.max(3, Math.floor(Math.log2(most / 16)));
  return { samples: { most: Math.max(most, 2 * block) }, accuracy: { digits }, block };
}

/** How an adaptive number of samples ended. */
function endText({ stabilised, samples }: MonteCarlo): string {
  return stabilised
    ? `After ${samples} samples the digits asked for stand still`
    : `After ${samples} samples, the most that are allowed, the digits asked for do not stand still yet`;
}

/** What samples say. @param codes of each sample, why figures have no answer, in the form of `why-not.ts`. */
export function spreadResult(
  study: Study,
  drawn: readonly Uncertain[],
  plan: MonteCarloPlan,
  found: MonteCarlo,
  codes: readonly string[],
): Result {
  const { figures } = study;
  const coverages = figureCoverages(
    {
      keys: figures.map(figureKey),
      values: figures.map(({ value }) => value),
      columns: found.columns,
      code: sample => codes[sample] ?? '',
    },
    found.probability,
  );
  const text = (label: string, values: readonly string[]): Column => ({
    label,
    unit: '',
    display: { metric: '', imperial: '' },
    values,
  });
  const summary: { [key: string]: number | null } = { samples: found.samples, inputs: drawn.length };
  const count = { metric: '1', imperial: '1' };
  const outputs: { [key: string]: Result['outputs'][string] } = {
    samples: { label: 'samples', unit: '1', display: count, doc: 'taken' },
    inputs: { label: 'uncertain inputs', unit: '1', display: count, doc: 'drawn independently of each other' },
  };
  const reasons: { [key: string]: string } = {};
  for (const [k, figure] of figures.entries()) {
    const [first] = coverages.holes[figureKey(figure)]?.reasons ?? [];
    const why = first === undefined ? '' : `: ${first.reason}`;
    const spreadOf = item(found.outputs, k);
    for (const [end, value, words] of [
      [
        '',
        figure.value ?? spreadOf.median,
        figure.value === null ? 'half of the samples lie below' : 'with every input as it is',
      ],
      ['_median', spreadOf.median, 'half of the samples lie below'],
      ['_low', spreadOf.symmetric?.low ?? null, 'low end of the interval'],
      ['_high', spreadOf.symmetric?.high ?? null, 'high end of the interval'],
      ['_uncertainty', spreadOf.standard, 'standard uncertainty'],
    ] as const) {
      const key = `${figureKey(figure)}${end}`;
      summary[key] = value;
      if (value === null) reasons[key] = `too few samples have an answer${why}`;
      const { unit, display } = figure.output;
      outputs[key] = {
        label: `${figureTitle(figure)}${end.replace('_', ', ')}`,
        unit,
        display,
        doc: words,
      };
    }
  }
  return {
    kind: 'spread',
    summary,
    reasons,
    outputs,
    series: {
      samples: Object.fromEntries(
        figures.map((figure, k) => [figureKey(figure), figureColumn(figure, item(found.columns, k))]),
      ),
      inputs: {
        path: text(
          'uncertain input',
          drawn.map(({ path }) => path),
        ),
      },
    },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [],
    opinion: null,
    verdicts: 'most' in plan.samples ? [endText(found)] : [],
    intervals: {
      probability: plan.probability ?? 0.95,
      samples: found.samples,
      seed: plan.seed,
      ...('most' in plan.samples && { block: found.block }),
      inputs: drawn.length,
      ...coverages,
    },
  };
}
