/** `yaml rank NAME`: which uncertainty, and which choice, matters most for a result. */
import { jobOf } from '../../batch/evaluators.ts';
import type { Job } from '../../batch/job.ts';
import type { Table } from '../../batch/table.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { assume, number, type SpecOf } from '../../model/fields/table.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { Column, Result } from '../../runs/result.ts';
import { sampled } from '../../studies/question/study-model.ts';
import { changesOfOne, drawsOf } from '../../studies/sampling/uncertain.ts';
import type { Uncertain } from '../../studies/sampling/uncertain.ts';
import { varianceShareRows, varianceSharesOf } from '../../studies/statistics/variance-shares.ts';
import type { VarianceShares } from '../../studies/statistics/variance-shares.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';
import { uncertainInputs } from './spread.ts';
import { figureTitle, ofField, studyOf } from './study.ts';
import type { Study, StudyFigure } from './study.ts';

const COUNT = ['1', '1'] as const;

export const rankFields = {
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

/** Bars reach from the 5 % to the 95 % point of an input. */
const LOW = 0.05;
const HIGH = 0.95;

/** A choice is moved by so much either way. */
const STEP = 0.05;

export const rank: CellKind = {
  kind: 'rank',
  language: 'yaml',
  named: true,
  doc: 'which uncertain input makes most of the uncertainty of a figure, and which choice moves it most',
  fields: rankFields,
  notes: ['shares of the variance are Sobol indices; the bars are each input by itself from its 5 % to its 95 % point'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, rankFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, rankFields, world, name);
        const spec: SpecOf<typeof rankFields> = values;
        const assumed: Input[] = [];
        const fill = filler(name, rankFields, values, assumed);
        const { study, drawn, choices } = withSpec(map, name, () => {
          const found = studyOf(name, { ...spec, ...(spec.output !== undefined && { outputs: [spec.output] }) }, world);
          const one = found.figures.slice(0, 1);
          const subject = { ...found.subject, outputs: one.map(({ question, key }) => ({ question, key })) };
          const narrowed: Study = { ...found, figures: one, subject };
          return {
            study: narrowed,
            drawn: uncertainInputs(`${name}.of`, narrowed),
            choices: choicesOf(name, spec.choices ?? [], narrowed),
          };
        });
        const bars = barJob(study, drawn, choices);
        const settings = { seed: fill.number('seed'), points: fill.number('points'), most: fill.number('inputs') };
        const given = [...study.inputs, ...inputs, ...assumed];
        return {
          job: bars,
          finish(table) {
            const told = readBars(study, drawn, choices, table);
            const chosen = told.bars.slice(0, settings.most).map(({ index }) => drawn[index]!);
            const block = 2 ** Math.max(2, Math.round(Math.log2(settings.points / 8)));
            const plan = { seed: settings.seed, block, blocks: 8 };
            const { rows } = varianceShareRows({ ...plan, draws: drawsOf(chosen), outputs: 1 });
            return {
              job: jobOf('shares', { subject: sampled(study.subject), inputs: chosen, plan }, rows, ['figure']),
              finish(shares) {
                const found = varianceSharesOf(shares.column('figure'), {
                  ...plan,
                  draws: drawsOf(chosen),
                  outputs: 1,
                });
                return resultYield(resultOf(study, drawn, told, found, chosen), given, world.system);
              },
            };
          },
        };
      },
    };
  },
};

interface Choice {
  readonly path: string;
  readonly value: number;
}

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

/** Row 0 is the car as it is; then two rows for each input, two for each choice. */
function barJob(study: Study, drawn: readonly Uncertain[], choices: readonly Choice[]): Job {
  const draws = drawsOf(drawn);
  const points: (readonly Change[])[] = [[]];
  for (const [k, input] of drawn.entries()) {
    for (const u of [LOW, HIGH]) points.push(changesOfOne(input, draws[k]!.at(u)));
  }
  for (const { path, value } of choices) {
    for (const factor of [1 - STEP, 1 + STEP]) points.push([{ path, value: value * factor }]);
  }
  return jobOf('points', { subject: study.subject, points }, points.length, ['figure']);
}

interface Bar {
  /** Of the input. */
  readonly index: number;
  readonly low: number;
  readonly high: number;
}

interface Bars {
  readonly base: number;
  /** Widest first; those without an answer first of all. */
  readonly bars: readonly Bar[];
  /** d ln y / d ln x of each choice. */
  readonly elasticities: readonly { readonly path: string; readonly elasticity: number }[];
}

function readBars(study: Study, drawn: readonly Uncertain[], choices: readonly Choice[], table: Table): Bars {
  const values = table.column('figure');
  const width = ({ low, high }: Bar): number => (Number.isNaN(high - low) ? Infinity : Math.abs(high - low));
  const bars = drawn
    .map((_, index): Bar => ({ index, low: values[1 + 2 * index]!, high: values[2 + 2 * index]! }))
    .toSorted((a, b) => (width(a) === width(b) ? 0 : width(b) - width(a)));
  const base = values[0]!;
  const start = 1 + 2 * drawn.length;
  // Those without an answer last.
  const size = (each: { readonly elasticity: number }): number =>
    Number.isNaN(each.elasticity) ? -1 : Math.abs(each.elasticity);
  const elasticities = choices
    .map(({ path }, k) => {
      const [below, above] = [values[start + 2 * k]!, values[start + 2 * k + 1]!];
      return { path, elasticity: Math.log(above / below) / Math.log((1 + STEP) / (1 - STEP)) };
    })
    .toSorted((a, b) => size(b) - size(a));
  if (study.figures.length !== 1) throw new Error('a rank is about one figure');
  return { base, bars, elasticities };
}

function resultOf(
  study: Study,
  drawn: readonly Uncertain[],
  { base, bars, elasticities }: Bars,
  found: VarianceShares,
  chosen: readonly Uncertain[],
): Result {
  const figure = study.figures[0]!;
  const { unit, display } = figure.output;
  const column = (label: string, values: readonly number[]): Column => ({
    label,
    unit,
    display,
    values: Float64Array.from(values),
  });
  const text = (label: string, values: readonly string[]): Column => ({
    label,
    unit: '',
    display: { metric: '', imperial: '' },
    values,
  });
  const pure = (label: string, values: readonly number[]): Column => ({
    label,
    unit: '1',
    display: { metric: '%', imperial: '%' },
    values: Float64Array.from(values),
  });
  const shareOf = (path: string, key: 'first' | 'total'): number => {
    const index = chosen.findIndex(each => each.path === path);
    return index < 0 ? Number.NaN : (found.shares?.[index]?.[key] ?? Number.NaN);
  };
  const named = bars.map(({ index, low, high }) => ({ path: drawn[index]!.path, low, high }));
  const count = { metric: '1', imperial: '1' };
  return {
    kind: 'rank',
    summary: {
      value: Number.isNaN(base) ? null : base,
      inputs: drawn.length,
      uncertainty: found.variance === null ? null : Math.sqrt(found.variance),
    },
    reasons: { value: 'the run has no answer', uncertainty: 'too few samples have an answer' },
    outputs: {
      value: { ...figure.output, label: figureTitle(figure), doc: 'with every input as it is' },
      inputs: { label: 'uncertain inputs', unit: '1', display: count, doc: 'of the runs' },
      uncertainty: {
        ...figure.output,
        label: `${figureTitle(figure)}, uncertainty`,
        doc: 'standard, by the inputs whose shares are told',
      },
    },
    series: {
      inputs: {
        path: text(
          'input',
          named.map(({ path }) => path),
        ),
        low: column(
          `${figureTitle(figure)} at its 5 % point`,
          named.map(({ low }) => low),
        ),
        high: column(
          `${figureTitle(figure)} at its 95 % point`,
          named.map(({ high }) => high),
        ),
        first_1: pure(
          'share of the variance by itself',
          named.map(({ path }) => shareOf(path, 'first')),
        ),
        total_1: pure(
          'share of the variance in all',
          named.map(({ path }) => shareOf(path, 'total')),
        ),
      },
      choices: {
        path: text(
          'choice',
          elasticities.map(({ path }) => path),
        ),
        elasticity_1: {
          label: '% for 1 %',
          unit: '1',
          display: count,
          values: Float64Array.from(elasticities, each => each.elasticity),
        },
      },
    },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [],
    opinion: null,
    verdicts: [...shareVerdict(figure, chosen, found), ...choiceVerdict(figure, elasticities)],
  };
}

/** From this share of the variance on, an input makes most of it. */
const HALF = 0.5;

/** Which input makes most of the uncertainty. */
function shareVerdict(figure: StudyFigure, chosen: readonly Uncertain[], found: VarianceShares): string[] {
  const known = chosen.flatMap(({ path }, k) => {
    const total = found.shares?.[k]?.total ?? null;
    return total === null || Number.isNaN(total) ? [] : [{ path, total }];
  });
  const [first, second] = known.toSorted((a, b) => b.total - a.total);
  if (first === undefined) return [];
  const told = (one: typeof first): string => `${one.path} (${Math.round(100 * one.total)} % of the variance)`;
  if (second === undefined) return [`All of the uncertainty of ${figure.name} comes from ${told(first)}`];
  return [
    first.total >= HALF
      ? `Most of the uncertainty of ${figure.name} comes from ${told(first)}, then from ${told(second)}`
      : `No input makes most of the uncertainty of ${figure.name}: ${told(first)} comes first, then ${told(second)}`,
  ];
}

function choiceVerdict(figure: StudyFigure, elasticities: Bars['elasticities']): string[] {
  const [first] = elasticities.filter(({ elasticity }) => !Number.isNaN(elasticity));
  if (first === undefined) return [];
  const [size, way] = [Math.abs(first.elasticity).toFixed(2), first.elasticity < 0 ? 'lowers' : 'raises'];
  return [`Of the choices ${first.path} moves ${figure.name} most: 1 % more of it ${way} it by ${size} %`];
}
