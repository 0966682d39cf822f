/** The smallest, the largest, the best of a parameter or two that will do. */
import { item } from '../../columns.ts';
import type { Change } from '../../runs/answer/change.ts';
import { each, FINITE, group, oneOf, optional, refused, type Rule, TEXT as RULE_OF_TEXT } from '../../runs/rules.ts';
import type { Column, Result, Series } from '../../runs/result.ts';
import { formatQuantity, type System } from '../../units.ts';
import { axesOf, type Axis, type AxisSpec } from '../question/axis.ts';
import { checkAxes, checkStudy, wholeWithin } from '../question/checked.ts';
import { figureColumn, figureKey, figureText, figureTitle, pathWords } from '../question/figures.ts';
import type { Study, StudyFigure } from '../question/figures.ts';
import { rowsHere } from '../question/rows.ts';
import { foundPack } from './found-pack.ts';
import type { Uncertain } from '../sampling/uncertain.ts';
import type { SeekAxis, SeekConstraint, SeekGoal, SeekProblem } from '../search/problem.ts';
import { seekSteps } from '../search/search.ts';
import type { SeekResult } from '../search/search.ts';
import type { BoundMove } from '../search/sensitivity.ts';

export interface Condition {
  readonly text: string;
  readonly figure: StudyFigure;
  readonly sense: 'at_least' | 'at_most';
  readonly bound: number;
}

export interface Search {
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

/** How a search is done. */
export interface SeekSettings {
  /** Intervals that a range is first looked through in. */
  readonly scan: number;
  /** Null where the inputs are taken as they are. */
  readonly sure: Search['sure'];
}

/** A search that is ready to begin. */
export function searchFor(
  study: Study,
  axes: readonly Axis[],
  goal: SeekGoal,
  conditions: readonly Condition[],
  { scan, sure }: SeekSettings,
): Search {
  const constraints = conditions.map(
    ({ figure, sense, bound }): SeekConstraint => ({ output: study.figures.indexOf(figure), sense, bound }),
  );
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
    scan,
    sensitivity: sure === null && axes.length === 1,
  };
  return { study, axes, conditions, problem, promises, sure, tried: [] };
}

/**
 * Seeks here and now, the inputs taken as they are.
 * @param along one or two; of numbers the least and the greatest value count.
 * @param goal `{ kind: 'smallest', axis: 0 }`, or `{ kind: 'lowest', output: 0 }` of the figures of the study.
 * @param conditions about figures of the study: `{ figure: study.figures[0], sense: 'at_most', bound: 8, text: 'time <= 8 s' }`, the bound in SI.
 * @throws SpecError as `sweep`, for a goal that there is none of, and for a condition about a figure that the study does not have.
 */
export function seek(
  study: Study,
  along: readonly (Axis | AxisSpec)[],
  goal: SeekGoal,
  conditions: readonly Condition[],
  system: System = 'metric',
): Result {
  checkStudy(study);
  checkAxes(along, 2);
  checkGoal(goal, along.length, study.figures.length);
  checkConditions(conditions, study);
  const axes = axesOf(along, study);
  const search = searchFor(study, axes, goal, conditions, { scan: SCAN, sure: null });
  const steps = seekSteps(search.problem);
  let step = steps.next();
  while (step.done !== true) {
    const places = step.value;
    const rows = rowsHere(
      study,
      places.map(x => changesAt(axes, x)),
    );
    const columns = study.figures.map(figure => rows.column(figureKey(figure)));
    const found = places.map((x, row) => {
      const out = columns.map(column => column[row] ?? Number.NaN);
      search.tried.push({ x, out });
      return out;
    });
    step = steps.next(found);
  }
  return seekResult(search, step.value, system);
}

function checkGoal(goal: SeekGoal, axes: number, outputs: number): void {
  group<{ kind: string; axis?: number; output?: number }>({
    kind: oneOf(['smallest', 'largest', 'lowest', 'highest']),
    axis: optional(wholeWithin(0, axes - 1)),
    output: optional(wholeWithin(0, outputs - 1)),
  })(goal, 'goal');
  const given: { readonly axis?: number; readonly output?: number } = goal;
  const key = goal.kind === 'lowest' || goal.kind === 'highest' ? 'output' : 'axis';
  FINITE(given[key], `goal.${key}`);
}

function checkConditions(conditions: readonly Condition[], study: Study): void {
  const figure: Rule = (value, path) => {
    if (!study.figures.some(known => known === value)) throw refused(path, value, 'one of study.figures');
  };
  const rule = group<Condition>({ figure, sense: oneOf(['at_least', 'at_most']), bound: FINITE, text: RULE_OF_TEXT });
  each(rule)(conditions, 'conditions');
}

/** Cars have few bends. */
const SCAN = 12;

/** What a place along the axes means. */
export function changesAt(axes: readonly Axis[], x: readonly number[]): readonly Change[] {
  return axes.flatMap((axis, k) => axis.changes(x[k] ?? Number.NaN));
}

function seekAxis({ names, values, whole }: Axis): SeekAxis {
  if (names.length > 0) return { kind: 'choice', count: names.length };
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return whole ? { kind: 'integer', low, high } : { kind: 'continuous', low, high, resolution: (high - low) / 2000 };
}

/** What a search has found. @param system of units of its sentences. */
export function seekResult(search: Search, result: SeekResult, system: System): Result {
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
    .map((axis, k) => `${axis.names.length > 0 ? '' : `${pathWords(axis.path, study)} `}${shown(axis, result.x[k]!)}`)
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
        `${place}${foundPack(study.subject.questions, changesAt(axes, result.x), system)}: ${there}${sureText}`,
        ...result.atEnd.map(
          k =>
            `The ${pathWords(item(axes, k).path, study)} is at the end of the range that was looked through: a wider range may have a better answer`,
        ),
        ...(result.stretches !== null && result.stretches.length > 1
          ? [`The conditions hold in ${result.stretches.length} stretches of the range, with gaps between them`]
          : []),
        ...('axis' in search.problem.goal
          ? result.moves.flatMap(move => moveText(study, move, conditions, item(axes, 0), system))
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
function moveText(
  study: Study,
  move: BoundMove,
  conditions: readonly Condition[],
  axis: Axis,
  system: System,
): string[] {
  const condition = conditions[move.constraint];
  if (condition === undefined || axis.names.length > 0) return [];
  const { slope } = move;
  if (slope === null || slope === 0) return [];
  const change = slope * 0.1 * Math.abs(condition.bound);
  return [
    `A bound 10 % higher in ${condition.text} moves the ${pathWords(axis.path, study)} by ${formatQuantity(change, axis.unit, axis.display[system])}`,
  ];
}
