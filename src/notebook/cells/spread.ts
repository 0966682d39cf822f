/** `yaml spread NAME`: what the spreads of the inputs make of a result. */
import { jobOf } from '../../batch/evaluators.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { assume, number, type SpecOf } from '../../model/fields/table.ts';
import { adaptively, pointsOf, spreadResult } from '../../studies/answers/spread.ts';
import { figureKey } from '../../studies/question/figures.ts';
import type { Study } from '../../studies/question/figures.ts';
import type { IndexRange } from '../../studies/question/evaluate.ts';
import { monteCarloSteps } from '../../studies/statistics/monte-carlo.ts';
import type { MonteCarlo, MonteCarloPlan } from '../../studies/statistics/monte-carlo.ts';
import { drawsOf } from '../../studies/sampling/uncertain.ts';
import { joined } from '../../studies/sampling/joint.ts';
import { sampled } from '../../studies/question/study-model.ts';
import type { Uncertain } from '../../studies/sampling/uncertain.ts';
import { uncertainOf } from '../uncertain-inputs.ts';
import { withSpec } from './fields.ts';
import type { Pending } from './kind.ts';
import { resultYield } from './result.ts';
import { ofField, outputsField, studyOf } from './study.ts';
import { studyCell } from './study-cell.ts';

/** The greatest number of samples for digits that are asked for. */
const MOST = 10_000;

const COUNT = ['1', '1'] as const;

const spreadFields = {
  of: ofField,
  outputs: outputsField,
  samples: number('1', COUNT, [16, 1e6], 'samples of the uncertain inputs', {
    derived: 'those of all runs of the page; where nobody says, 1024, or 128 where a run drives for hours',
  }),
  digits: number(
    '1',
    COUNT,
    [1, 4],
    'digits of the uncertainty that must stand still: samples are taken until they do, `samples` of them at most (10,000 where nobody says)',
    { derived: 'a fixed number of samples' },
  ),
  probability: number('1', '%', [0.5, 0.999], 'that the interval covers', assume(0.9, 'nine of ten')),
  seed: number('1', COUNT, [0, 2 ** 31], 'the same seed gives the same numbers', assume(1, 'any will do')),
} as const satisfies Fields;

export const spread = studyCell(
  {
    kind: 'spread',
    doc: 'Monte Carlo over all uncertain inputs of runs: value, interval, median and standard uncertainty of figures (JCGM 101:2008)',
    fields: spreadFields,
    notes: ['the samples are points of a scrambled Sobol sequence'],
  },
  ({ name, map, values, inputs, world }) => {
    const spec: SpecOf<typeof spreadFields> = values;
    const assumed: Input[] = [];
    const { study, drawn, plan } = withSpec(map, name, () => {
      const found = studyOf(name, spec, world);
      if (spec.outputs === undefined && found.figures.every(({ value }) => value === null))
        throw new SpecError(
          `${name}.of`,
          'has no figure with a value, so nothing can be spread',
          'a run with an answer',
        );
      const fill = filler(name, spreadFields, values, assumed);
      const uncertain = uncertainInputs(`${name}.of`, found);
      return {
        study: found,
        drawn: uncertain,
        plan: {
          draws: drawsOf(uncertain),
          outputs: found.figures.length,
          seed: fill.number('seed'),
          probability: fill.number('probability'),
          ...(spec.digits === undefined
            ? pointsOf({ samples: { fixed: spec.samples ?? world.samples } })
            : adaptively(fill.number('digits'), spec.samples ?? MOST)),
        },
      };
    });
    return sampling(study, drawn, plan, (result, codes) =>
      resultYield(
        spreadResult(study, drawn, plan, result, codes),
        [...study.inputs, ...inputs, ...assumed],
        world.system,
      ),
    );
  },
);

/** All uncertain inputs of the runs, each once. @throws SpecError where there is none. */
export function uncertainInputs(path: string, study: Study): readonly Uncertain[] {
  const found = drawnInputs(study);
  if (found.length === 0) throw new SpecError(path, 'has no uncertain input', 'a value such as 1010 kg ± 15 kg');
  return found;
}

/** The same; none where there is none. */
export function drawnInputs({ subject, inputs }: Study): readonly Uncertain[] {
  const found = new Map<string, Uncertain>();
  for (const question of subject.questions) {
    for (const each of uncertainOf(question, inputs)) if (!found.has(each.path)) found.set(each.path, each);
  }
  return joined(
    [...found.values()],
    subject.questions.flatMap(({ joint = [] }) => joint),
  );
}

type Finish = (result: MonteCarlo, codes: readonly string[]) => ReturnType<Pending['finish']>;

/** The samples of a plan with a fixed number of them, as one job. */
function sampling(study: Study, inputs: readonly Uncertain[], plan: MonteCarloPlan, finish: Finish): Pending {
  const steps = monteCarloSteps(plan);
  const first = steps.next();
  if (first.done === true) throw new Error('a plan without samples');
  const columns = study.figures.map(figureKey);
  const { seed, samples, block } = plan;
  const shared = {
    subject: sampled(study.subject),
    inputs,
    plan: { seed, samples, ...(block !== undefined && { block }) },
  };
  const codes: string[] = [];
  const rowsOf = ({ from, to }: IndexRange): Pending => {
    return {
      // Only a number of samples that is fixed from the start can be shared out.
      ...('fixed' in samples && ({ whole: true } as const)),
      job: jobOf('samples', { ...shared, first: from, changes: [] }, to - from, columns),
      finish(table) {
        for (let row = 0; row < table.rows; row++) codes.push(table.code(row));
        const next = steps.next(columns.map(key => table.column(key)));
        return next.done === true ? finish(next.value, codes) : rowsOf(next.value);
      },
    };
  };
  return rowsOf(first.value);
}
