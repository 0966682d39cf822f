/** `yaml rank NAME`: which uncertainty, and which choice, matters most for a result. */
import { jobOf } from '../../batch/evaluators.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { assume, number, type SpecOf } from '../../model/fields/table.ts';
import { barPoints, oneFigure, rankResult, readBars, sharesPlan, widest } from '../../studies/answers/rank.ts';
import type { Choice } from '../../studies/answers/rank.ts';
import { figureKey } from '../../studies/question/figures.ts';
import type { Study } from '../../studies/question/figures.ts';
import { sampled } from '../../studies/question/study-model.ts';
import { drawsOf } from '../../studies/sampling/uncertain.ts';
import { varianceShareRows, varianceSharesOf } from '../../studies/statistics/variance-shares.ts';
import { withSpec } from './fields.ts';
import { resultYield } from './result.ts';
import { uncertainInputs } from './spread.ts';
import { ofField, studyOf } from './study.ts';
import { studyCell } from './study-cell.ts';

const COUNT = ['1', '1'] as const;

const rankFields = {
  of: ofField,
  output: { kind: 'text', doc: 'the figure, such as week.range; left out: the first one of the first run' },
  choices: {
    kind: 'words',
    doc: 'paths of the car that can be chosen, such as drive.ratio: how much the figure changes with each',
  },
  points: number(
    '1',
    COUNT,
    [32, 65_536],
    'base points for the shares of the variance; each takes a run for every input and two',
    {
      ...assume(128, 'shares to about five percentage points'),
    },
  ),
  inputs: number(
    '1',
    COUNT,
    [1, 100],
    'inputs of which the shares are told: those with the widest bars',
    assume(8, 'few matter'),
  ),
  seed: number('1', COUNT, [0, 2 ** 31], 'the same seed gives the same numbers', assume(1, 'any will do')),
} as const satisfies Fields;

export const rank = studyCell(
  {
    kind: 'rank',
    doc: 'which uncertain input makes most of the uncertainty of a figure, and which choice moves it most',
    fields: rankFields,
    notes: [
      'shares of the variance are Sobol indices; the bars are each input by itself from its 5 % to its 95 % point',
    ],
  },
  ({ name, map, values, inputs, world }) => {
    const spec: SpecOf<typeof rankFields> = values;
    const assumed: Input[] = [];
    const fill = filler(name, rankFields, values, assumed);
    const { study, drawn, choices } = withSpec(map, name, () => {
      const found = studyOf(name, { ...spec, ...(spec.output !== undefined && { outputs: [spec.output] }) }, world);
      const narrowed = oneFigure(found);
      return {
        study: narrowed,
        drawn: uncertainInputs(`${name}.of`, narrowed),
        choices: choicesOf(name, spec.choices ?? [], narrowed),
      };
    });
    const points = barPoints(drawn, choices);
    const columns = study.figures.map(figureKey);
    const bars = jobOf('points', { subject: study.subject, points }, points.length, columns);
    const settings = { seed: fill.number('seed'), points: fill.number('points'), most: fill.number('inputs') };
    const given = [...study.inputs, ...inputs, ...assumed];
    return {
      job: bars,
      finish(table) {
        const told = readBars(study, drawn, choices, table);
        const chosen = widest(told, drawn, settings.most);
        const plan = sharesPlan(settings.points, settings.seed);
        const { rows } = varianceShareRows({ ...plan, draws: drawsOf(chosen), outputs: 1 });
        return {
          job: jobOf('shares', { subject: sampled(study.subject), inputs: chosen, plan }, rows, ['figure']),
          finish(shares) {
            const found = varianceSharesOf(shares.column('figure'), {
              ...plan,
              draws: drawsOf(chosen),
              outputs: 1,
            });
            return resultYield(rankResult(study, drawn, told, found, chosen), given, world.system);
          },
        };
      },
    };
  },
);

/** The present values of paths that can be chosen. */
function choicesOf(name: string, paths: readonly string[], study: Study): Choice[] {
  return paths.map(path => {
    const input = study.inputs.find(each => each.path === path || each.path.endsWith(`.${path}`));
    if (typeof input?.value !== 'number') {
      throw new SpecError(
        `${name}.choices`,
        `"${path}" is no number among the inputs of these runs`,
        'a path such as drive.ratio',
      );
    }
    return { path: input.path, value: input.value };
  });
}
