/** `yaml seek NAME`: the smallest, the largest, the best of a parameter or two that will do. */
import { jobOf } from '../../batch/evaluators.ts';
import type { Table } from '../../batch/table.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { assume, number, type SpecOf } from '../../model/fields/table.ts';
import type { Change } from '../../runs/answer/change.ts';
import { changesAt, searchFor, seekResult } from '../../studies/answers/seek.ts';
import type { Condition, Search } from '../../studies/answers/seek.ts';
import { figureKey } from '../../studies/question/figures.ts';
import { promise } from '../../studies/statistics/confidence.ts';
import { seekSteps } from '../../studies/search/search.ts';
import type { SeekResult } from '../../studies/search/search.ts';
import type { SeekGoal } from '../../studies/search/problem.ts';
import { oneBlock } from '../../studies/sampling/sample.ts';
import { sampled } from '../../studies/question/study-model.ts';
import { plainQuantity } from './plain-quantity.ts';
import type { World } from '../context.ts';
import { axisFields, axisOf } from './axes.ts';
import { withSpec } from './fields.ts';
import type { Pending } from './kind.ts';
import type { CellYield } from './yield.ts';
import { resultYield } from './result.ts';
import { uncertainInputs } from './spread.ts';
import { ofField, studyOf } from './study.ts';
import { studyCell } from './study-cell.ts';

const COUNT = ['1', '1'] as const;

const seekFields = {
  of: ofField,
  vary: { kind: 'groups', fields: axisFields, doc: 'one or two: a path from .. to, or cars', required: true },
  where: {
    kind: 'words',
    doc: 'what must hold, such as week.range >= 160 km or dash.time <= 8 s',
  },
  find: {
    kind: 'text',
    doc: 'smallest or largest for the first of vary; or lowest or highest and a figure: highest week.range',
    required: true,
  },
  confidence: number('1', '%', [0.5, 0.99], 'with which each condition must hold over the uncertain inputs', {
    derived: 'the inputs are taken as they are',
  }),
  samples: number(
    '1',
    COUNT,
    [16, 10_000],
    'of the uncertain inputs at each point, where a confidence is asked for',
    assume(64, 'enough for nine of ten to about three percentage points'),
  ),
  scan: number(
    '1',
    COUNT,
    [4, 256],
    'intervals that a range is first looked through in',
    assume(12, 'cars have few bends'),
  ),
  seed: number('1', COUNT, [0, 2 ** 31], 'the same seed gives the same numbers', assume(1, 'any will do')),
} as const satisfies Fields;

type SeekSpec = SpecOf<typeof seekFields>;

export const seek = studyCell(
  {
    kind: 'seek',
    doc: 'the smallest, largest or best of a parameter or two under conditions, with a confidence where one is asked for',
    fields: seekFields,
    notes: [
      'with a confidence every figure is the value that it keeps with it: a range of at least so many km in nine of ten samples',
    ],
  },
  ({ name, map, values, inputs, world }) => {
    const spec: SeekSpec = values;
    const assumed: Input[] = [];
    const search = withSpec(map, name, () => searchOf(name, spec, values, world, assumed));
    const given = [...search.study.inputs, ...inputs, ...assumed];
    return nextStep(search, seekSteps(search.problem), result =>
      resultYield(seekResult(search, result, world.system), given, world.system),
    );
  },
);

function searchOf(
  name: string,
  spec: SeekSpec,
  values: { readonly [key: string]: unknown },
  world: World,
  assumed: Input[],
): Search {
  const fill = filler(name, seekFields, values, assumed);
  const words = /^(smallest|largest)$|^(lowest|highest)\s+(\S+)$/.exec((spec.find ?? '').trim());
  if (words === null)
    throw new SpecError(`${name}.find`, `"${spec.find}" is not understood`, 'smallest, largest, or highest week.range');
  const conditionTexts = (spec.where ?? []).map((text, i) => partsOf(`${name}.where[${i + 1}]`, text));
  const figureNames = [
    ...new Set([...conditionTexts.map(({ figure }) => figure), ...(words[3] === undefined ? [] : [words[3]])]),
  ];
  if (figureNames.length === 0)
    throw new SpecError(`${name}.where`, 'says nothing that must hold', 'week.range >= 160 km');
  const study = studyOf(name, { ...spec, outputs: figureNames }, world);
  const figure = (word: string): number => figureNames.indexOf(word);
  const conditions = conditionTexts.map((each, i): Condition => {
    const found = study.figures[figure(each.figure)]!;
    const bound = plainQuantity(`${name}.where[${i + 1}]`, each.bound, found.output.unit);
    return { text: each.text, figure: found, sense: each.sense, bound };
  });
  const rows = spec.vary ?? [];
  if (rows.length < 1 || rows.length > 2)
    throw new SpecError(`${name}.vary`, `has ${rows.length} entries`, 'one or two');
  const axes = rows.map((row, k) => axisOf(`${name}.vary[${k + 1}]`, row, study, world));
  const goal: SeekGoal =
    words[1] === 'smallest' || words[1] === 'largest'
      ? { kind: words[1], axis: 0 }
      : { kind: words[2] === 'lowest' ? 'lowest' : 'highest', output: figure(words[3]!) };
  if ('axis' in goal && axes[0]!.names.length > 0) {
    throw new SpecError(
      `${name}.find`,
      'whole cars have no order',
      `lowest or highest and a figure, such as lowest ${axes[0]!.names[0]}.mass`,
    );
  }
  const sure =
    spec.confidence === undefined
      ? null
      : {
          confidence: fill.number('confidence'),
          samples: fill.number('samples'),
          seed: fill.number('seed'),
          inputs: uncertainInputs(`${name}.of`, study).filter(({ path }) => !axes.some(axis => axis.path === path)),
        };
  return searchFor(study, axes, goal, conditions, { scan: fill.number('scan'), sure });
}

/** `week.range >= 160 km` in its parts. @throws SpecError */
function partsOf(
  path: string,
  text: string,
): { text: string; figure: string; sense: Condition['sense']; bound: string } {
  const found = /^\s*([\w.]+)\s*(>=|<=|>|<)\s*(.+?)\s*$/.exec(text);
  if (found === null) throw new SpecError(path, `"${text}" is no condition`, 'week.range >= 160 km');
  return {
    text: text.trim(),
    figure: found[1]!,
    sense: found[2]!.startsWith('>') ? 'at_least' : 'at_most',
    bound: found[3]!,
  };
}

/** One batch of points of the search after the other. */
function nextStep(
  search: Search,
  steps: ReturnType<typeof seekSteps>,
  finish: (result: SeekResult) => CellYield,
  answers: number[][] | null = null,
): Pending | CellYield {
  const step = answers === null ? steps.next() : steps.next(answers);
  if (step.done === true) return finish(step.value);
  const points = step.value.map(x => changesAt(search.axes, x));
  const go = (found: number[][]): Pending | CellYield => {
    for (const [k, out] of found.entries()) search.tried.push({ x: step.value[k]!, out });
    return nextStep(search, steps, finish, found);
  };
  return search.sure === null ? atOnce(search, points, go) : surely(search, points, [], go);
}

function atOnce(
  { study }: Search,
  points: readonly (readonly Change[])[],
  go: (found: number[][]) => Pending | CellYield,
): Pending {
  const columns = study.figures.map(figureKey);
  return {
    job: jobOf('points', { subject: study.subject, points }, points.length, columns),
    finish: table => go(points.map((_, row) => columns.map(key => table.column(key)[row]!))),
  };
}

/** Point by point, what each figure keeps with the confidence; the same samples at every point. */
function surely(
  search: Search,
  points: readonly (readonly Change[])[],
  found: number[][],
  go: (found: number[][]) => Pending | CellYield,
): Pending {
  const { study, sure, promises } = search;
  const { samples, seed, inputs, confidence } = sure!;
  const columns = study.figures.map(figureKey);
  const payload = {
    subject: sampled(study.subject),
    inputs,
    plan: { seed, samples: { fixed: samples }, block: oneBlock(samples) },
    changes: points[found.length]!,
  };
  return {
    job: jobOf('samples', payload, samples, columns),
    finish(table: Table) {
      const promised = columns.map((key, k) => promise(table.column(key), promises[k]!, confidence) ?? Number.NaN);
      const all = [...found, promised];
      return all.length === points.length ? go(all) : surely(search, points, all, go);
    },
  };
}
