/** `yaml sweep NAME`: runs over a grid of one to four parameters. */
import { jobOf } from '../../batch/evaluators.ts';
import type { Fields } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { sweepResult } from '../../studies/answers/sweep.ts';
import type { Wish } from '../../studies/answers/sweep.ts';
import { figureKey } from '../../studies/question/figures.ts';
import type { Study } from '../../studies/question/figures.ts';
import { swept } from '../../studies/question/study-model.ts';
import type { Result } from '../../runs/result.ts';
import { sweptWithin } from '../../studies/answers/row-samples.ts';
import type { Axis } from '../../studies/question/axis.ts';
import { PROBABILITY } from '../intervals.ts';
import { axisFields, axisOf } from './axes.ts';
import { drawnInputs } from './spread.ts';
import { samplesField, type Varied } from './varied.ts';
import { withSpec } from './fields.ts';
import { resultYield } from './result.ts';
import { ofField, outputsField, studyOf } from './study.ts';
import { studyCell } from './study-cell.ts';

const sweepFields = {
  of: ofField,
  over: {
    kind: 'groups',
    fields: axisFields,
    doc: 'one to four of them; the last one changes fastest',
    required: true,
  },
  outputs: outputsField,
  samples: samplesField,
  lowest: { kind: 'words', doc: 'figures that are better when low, for the front of best compromises' },
  highest: { kind: 'words', doc: 'figures that are better when high' },
} as const satisfies Fields;

type SweepSpec = SpecOf<typeof sweepFields>;

const MOST_ROWS = 5_000_000;
/** Points of a line that are sampled. */
const MOST_SAMPLED = 300;

export const sweep = studyCell(
  {
    kind: 'sweep',
    doc: 'runs over a grid of one to four parameters: curves, contours, and the best compromises',
    fields: sweepFields,
    notes: ['a change of pack.parallel or pack.series changes the mass of the car by 1.4 times that of the cells'],
  },
  ({ name, map, values, inputs, world }) => {
    const spec: SweepSpec = values;
    const { study, axes } = withSpec(map, name, () => {
      const found = studyOf(name, spec, world);
      const rows = spec.over ?? [];
      if (rows.length < 1 || rows.length > 4)
        throw new SpecError(`${name}.over`, `has ${rows.length} entries`, 'one to four');
      return { study: found, axes: rows.map((row, k) => axisOf(`${name}.over[${k + 1}]`, row, found, world)) };
    });
    const rows = axes.reduce((product, axis) => product * axis.values.length, 1);
    const wishes = withSpec(map, name, () => {
      if (rows > MOST_ROWS) throw new SpecError(`${name}.over`, `makes ${rows} runs`, `${MOST_ROWS} at most`);
      return wishesOf(name, spec, study);
    });
    const payload = {
      subject: swept(study.subject),
      axes: axes.map(axis => axis.values.map(value => axis.changes(value))),
    };
    const columns = study.figures.map(figureKey);
    return {
      whole: true,
      job: jobOf('sweep', payload, rows, columns),
      finish(table) {
        const result = sweepResult(study, axes, wishes, table, world.system);
        const varied = variedBy(study, axes, payload.axes, spec.samples ?? null, result);
        return resultYield(result, [...study.inputs, ...inputs], world.system, varied === null ? {} : { varied });
      },
    };
  },
);

/** The samples of each point, of which a line is drawn; null for more than one parameter, and where nothing is uncertain. */
function variedBy(
  study: Study,
  axes: readonly Axis[],
  [changes = []]: readonly Varied['rows'][],
  asked: number | null,
  result: Result,
): Varied | null {
  if (axes.length !== 1 || changes.length > MOST_SAMPLED) return null;
  const inputs = drawnInputs(study).filter(({ path }) => path !== axes[0]?.path);
  if (inputs.length === 0) return null;
  return {
    subject: study.subject,
    keys: study.figures.map(figureKey),
    inputs,
    rows: changes,
    asked,
    read: found => sweptWithin(result, { study, probability: PROBABILITY, inputs: inputs.length }, found),
  };
}

function wishesOf(name: string, spec: SweepSpec, { figures }: Study): Wish[] {
  return (['lowest', 'highest'] as const).flatMap(wish =>
    (spec[wish] ?? []).map(word => {
      const figure = figures.findIndex(each => each.name === word || each.key === word);
      if (figure < 0)
        throw new SpecError(
          `${name}.${wish}`,
          `"${word}" is not among the outputs`,
          figures.map(each => each.name).join(', '),
        );
      return { figure, wish };
    }),
  );
}
