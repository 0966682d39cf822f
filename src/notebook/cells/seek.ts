/** `yaml seek NAME`: the smallest, the largest, the best of a parameter or two that will do. */
import { jobOf } from '../../batch/evaluators.ts';
import type { Table } from '../../batch/table.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { assume, number, type SpecOf } from '../../model/fields/table.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { Column, Result, Series } from '../../runs/result.ts';
import { promise } from '../../studies/statistics/confidence.ts';
import { seekSteps } from '../../studies/search/search.ts';
import type { SeekResult } from '../../studies/search/search.ts';
import type { BoundMove } from '../../studies/search/sensitivity.ts';
import type { SeekAxis, SeekConstraint, SeekGoal, SeekProblem } from '../../studies/search/problem.ts';
import { sampled } from '../../studies/question/study-model.ts';
import type { Uncertain } from '../../studies/sampling/uncertain.ts';
import { formatQuantity, readQuantity, type System, UnitError } from '../../units.ts';
import type { World } from '../context.ts';
import { axisFields, axisOf } from './axes.ts';
import type { Axis } from './axes.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind, CellYield, Pending } from './kind.ts';
import { resultYield } from './result.ts';
import { uncertainInputs } from './spread.ts';
import { figureColumn, figureKey, figureText, figureTitle, ofField, studyOf } from './study.ts';
import type { Study, StudyFigure } from './study.ts';

const COUNT = ['1', '1'] as const;

export const seekFields = {
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

export const seek: CellKind = {
  kind: 'seek',
  language: 'yaml',
  named: true,
  doc: 'the smallest, largest or best of a parameter or two under conditions, with a confidence where one is asked for',
  fields: seekFields,
  notes: [
    'with a confidence every figure is the value that it keeps with it: a range of at least so many km in nine of ten samples',
  ],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, seekFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, seekFields, world, name);
        const spec: SeekSpec = values;
        const assumed: Input[] = [];
        const search = withSpec(map, name, () => searchOf(name, spec, values, world, assumed));
        const given = [...search.study.inputs, ...inputs, ...assumed];
        return nextStep(search, seekSteps(search.problem), result =>
          resultYield(resultOf(search, result, world.system), given, world.system),
        );
      },
    };
  },
};

interface Condition {
  readonly text: string;
  readonly figure: StudyFigure;
  readonly sense: 'at_least' | 'at_most';
  readonly bound: number;
}

interface Search {
  readonly study: Study;
  readonly axes: readonly Axis[];
  readonly conditions: readonly Condition[];
  readonly problem: SeekProblem;
  /** Every point that was asked for, with its figures; it grows while the search runs. */
  readonly tried: { readonly x: readonly number[]; readonly out: readonly number[] }[];
  /** Whether each figure is better high: the side on which a promise must be kept. */
  readonly promises: readonly ('at_least' | 'at_most')[];
  readonly sure: {
    readonly confidence: number;
    readonly samples: number;
    readonly seed: number;
    readonly inputs: readonly Uncertain[];
  } | null;
}

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
  const conditionTexts = (spec.where ?? []).map(text => partsOf(`${name}.where`, text));
  const figureNames = [
    ...new Set([...conditionTexts.map(({ figure }) => figure), ...(words[3] === undefined ? [] : [words[3]])]),
  ];
  if (figureNames.length === 0)
    throw new SpecError(`${name}.where`, 'says nothing that must hold', 'week.range >= 160 km');
  const study = studyOf(name, { ...spec, outputs: figureNames }, world);
  const figure = (word: string): number => figureNames.indexOf(word);
  const conditions = conditionTexts.map((each): Condition => {
    const found = study.figures[figure(each.figure)]!;
    return { text: each.text, figure: found, sense: each.sense, bound: boundOf(`${name}.where`, each.bound, found) };
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
    throw new SpecError(`${name}.find`, 'whole cars have no order', 'highest or lowest and a figure');
  }
  const constraints = conditions.map(
    ({ figure: found, sense, bound }): SeekConstraint => ({ output: study.figures.indexOf(found), sense, bound }),
  );
  const sure =
    spec.confidence === undefined
      ? null
      : {
          confidence: fill.number('confidence'),
          samples: fill.number('samples'),
          seed: fill.number('seed'),
          inputs: uncertainInputs(`${name}.of`, study).filter(({ path }) => !axes.some(axis => axis.path === path)),
        };
  const promises = study.figures.map((_, k): 'at_least' | 'at_most' => {
    const condition = constraints.find(({ output }) => output === k);
    if (condition !== undefined) return condition.sense;
    return 'output' in goal && goal.output === k && goal.kind === 'lowest' ? 'at_most' : 'at_least';
  });
  const problem: SeekProblem = {
    axes: axes.map(seekAxis),
    outputs: study.figures.length,
    constraints,
    goal,
    scan: fill.number('scan'),
    sensitivity: sure === null && axes.length === 1,
  };
  return { study, axes, conditions, problem, promises, sure, tried: [] };
}

function seekAxis({ names, values, whole }: Axis): SeekAxis {
  if (names.length > 0) return { kind: 'choice', count: names.length };
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return whole ? { kind: 'integer', low, high } : { kind: 'continuous', low, high, resolution: (high - low) / 2000 };
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

function boundOf(path: string, text: string, { output }: StudyFigure): number {
  try {
    return readQuantity(text, output.unit).value;
  } catch (error) {
    if (error instanceof UnitError) throw new SpecError(path, `${error.message} in "${text}"`, error.expected);
    throw error;
  }
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
  const points = step.value.map(x => search.axes.flatMap((axis, k) => axis.changes(x[k]!)));
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
  const block = 2 ** Math.max(1, Math.round(Math.log2(samples / 8)));
  const rows = Math.ceil(samples / block) * block;
  const payload = {
    subject: sampled(study.subject),
    inputs,
    plan: { seed, samples: { fixed: rows }, block },
    changes: points[found.length]!,
  };
  return {
    job: jobOf('samples', payload, rows, columns),
    finish(table: Table) {
      const promised = columns.map((key, k) => promise(table.column(key), promises[k]!, confidence) ?? Number.NaN);
      const all = [...found, promised];
      return all.length === points.length ? go(all) : surely(search, points, all, go);
    },
  };
}

function resultOf(search: Search, result: SeekResult, system: System): Result {
  const { study, axes, conditions, sure } = search;
  const outputs: { [key: string]: Result['outputs'][string] } = {};
  const summary: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const found = result.kind === 'found';
  const shown = (axis: Axis, value: number): string =>
    axis.names.length > 0 ? axis.names[value]! : formatQuantity(value, axis.unit, axis.display[system]);
  for (const [k, axis] of axes.entries()) {
    const key = axis.path.replaceAll('.', '_');
    const value = result.x[k]!;
    summary[key] = !found ? null : axis.names.length > 0 ? axis.names[value]! : value;
    if (!found) reasons[key] = 'nothing in this range will do';
    outputs[key] =
      axis.names.length > 0
        ? { label: axis.label, unit: '', display: { metric: '', imperial: '' }, doc: 'found' }
        : { label: axis.label, unit: axis.unit, display: axis.display, doc: 'found' };
  }
  for (const [k, figure] of study.figures.entries()) {
    const key = figureKey(figure);
    summary[key] = result.outputs[k] ?? null;
    if (summary[key] === null) reasons[key] = 'the run has no answer there';
    const doc = sure === null ? 'there' : `kept there by ${Math.round(100 * sure.confidence)} % of the samples`;
    outputs[key] = { ...figure.output, label: figureTitle(figure), doc };
  }
  summary['evaluations'] = result.evaluations;
  outputs['evaluations'] = {
    label: 'points tried',
    unit: '1',
    display: { metric: '1', imperial: '1' },
    doc: 'of the search',
  };
  const place = axes
    .map((axis, k) => `${axis.names.length > 0 ? '' : `${axis.label} `}${shown(axis, result.x[k]!)}`)
    .join(' and ');
  const there = study.figures
    .map((figure, k) => {
      const value = result.outputs[k] ?? null;
      const side =
        sure === null || value === null ? '' : `${search.promises[k] === 'at_least' ? 'at least' : 'at most'} `;
      return `${figureTitle(figure)} ${side}${figureText(figure, value, system)}`;
    })
    .join(', ');
  const sureText = sure === null ? '' : `, each with a confidence of ${Math.round(100 * sure.confidence)} %`;
  const verdicts = found
    ? [
        `${place}: ${there}${sureText}`,
        ...result.atEnd.map(
          k =>
            `${axes[k]!.label} is at the end of the range that was looked through: a wider range may have a better answer`,
        ),
        ...(result.stretches !== null && result.stretches.length > 1
          ? [`The conditions hold in ${result.stretches.length} stretches of the range, with gaps between them`]
          : []),
        ...('axis' in search.problem.goal
          ? result.moves.flatMap(move => moveText(move, conditions, axes[0]!, system))
          : []),
      ]
    : [
        `Nothing in this range will do; closest is ${place}: ${there}${sureText}`,
        ...result.fails.map(({ constraint, by }) => {
          const condition = conditions[constraint]!;
          return by === null
            ? `${condition.text} has no answer there`
            : `${condition.text} is missed there by ${figureText(condition.figure, by, system)}`;
        }),
      ];
  return {
    kind: 'seek',
    summary,
    reasons,
    outputs,
    series: { tried: triedOf(search, result), conditions: conditionsOf(search) },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [],
    opinion: null,
    verdicts,
  };
}

/** Every point that was tried, each once, in order of the parameters: the figures there, and which one was found. */
function triedOf({ study, axes, tried }: Search, result: SeekResult): Series {
  const byPlace = new Map(tried.map(each => [each.x.join(' '), each]));
  const rows = [...byPlace.values()].toSorted((a, b) => {
    const k = a.x.findIndex((value, i) => value !== b.x[i]);
    return k < 0 ? 0 : a.x[k]! - b.x[k]!;
  });
  const series: { [key: string]: Column } = {};
  for (const [k, { label, unit, display, names }] of axes.entries()) {
    series[`at_${k + 1}`] =
      names.length > 0
        ? { label, ...TEXT, values: rows.map(({ x }) => names[x[k]!]!) }
        : { label, unit, display, values: Float64Array.from(rows, ({ x }) => x[k]!) };
  }
  for (const [k, figure] of study.figures.entries()) {
    series[figureKey(figure)] = figureColumn(
      figure,
      Float64Array.from(rows, ({ out }) => out[k]!),
    );
  }
  const here = result.x.join(' ');
  const word = result.kind === 'found' ? 'found' : 'closest';
  series['what'] = { label: 'what', ...TEXT, values: rows.map(({ x }) => (x.join(' ') === here ? word : '')) };
  return series;
}

/** A row for each condition: the figure, which way, the bound as it is read. */
function conditionsOf({ conditions }: Search): Series {
  return {
    figure: { label: 'figure', ...TEXT, values: conditions.map(({ figure }) => figureKey(figure)) },
    sense: {
      label: 'sense',
      ...TEXT,
      values: conditions.map(({ sense }) => (sense === 'at_least' ? 'at least' : 'at most')),
    },
    bound_si: {
      label: 'bound, in SI units',
      unit: '1',
      display: { metric: '1', imperial: '1' },
      values: Float64Array.from(conditions, ({ bound }) => bound),
    },
    condition: { label: 'condition', ...TEXT, values: conditions.map(({ text }) => text) },
  };
}

const TEXT = { unit: '', display: { metric: '', imperial: '' } };

/** `A bound 10 % higher moves the answer by ...`. */
function moveText(move: BoundMove, conditions: readonly Condition[], axis: Axis, system: System): string[] {
  const condition = conditions[move.constraint];
  if (condition === undefined || axis.names.length > 0) return [];
  const { slope } = move;
  if (slope === null || slope === 0) return [];
  const change = slope * 0.1 * Math.abs(condition.bound);
  return [
    `A bound 10 % higher in ${condition.text} moves ${axis.label} by ${formatQuantity(change, axis.unit, axis.display[system])}`,
  ];
}
