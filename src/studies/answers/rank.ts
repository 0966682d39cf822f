/** Which uncertain input makes most of the uncertainty of a figure, and which choice moves it most. */
import * as elementary from '../../elementary.ts';
import type { Change } from '../../runs/answer/change.ts';
import { item } from '../../columns.ts';
import { each, FINITE, group, optional, TEXT, within } from '../../runs/rules.ts';
import type { Column, Result } from '../../runs/result.ts';
import { capital } from '../../units/rounding.ts';
import { checkStudy, SEED, UNCERTAINS, wholeWithin } from '../question/checked.ts';
import { figureKey, figureTitle, pathWords } from '../question/figures.ts';
import type { Study, StudyFigure } from '../question/figures.ts';
import { rowsHere } from '../question/rows.ts';
import type { Rows } from '../question/rows.ts';
import { createSubject, sampled } from '../question/study-model.ts';
import { changesFrom, changesOfOne, drawsOf } from '../sampling/uncertain.ts';
import type { Uncertain } from '../sampling/uncertain.ts';
import { varianceShares } from '../statistics/variance-shares.ts';
import type { VarianceShare, VarianceShares } from '../statistics/variance-shares.ts';

/** Bars reach from the 5 % to the 95 % point of an input. */
const LOW = 0.05;

const HIGH = 0.95;

/** A choice is moved by so much either way. */
const STEP = 0.05;

export interface Choice {
  readonly path: string;
  readonly value: number;
}

/** How a ranking is done. */
export interface RankOptions {
  readonly choices?: readonly Choice[];
  /** Base points for the shares of the variance. */
  readonly points?: number;
  /** Inputs of which the shares are told. */
  readonly most?: number;
  readonly seed?: number;
}

/**
 * Ranks here and now, for the first figure of the study.
 * @throws SpecError for what is no study, no uncertain input or no option.
 */
export function rank(whole: Study, inputs: readonly Uncertain[], options: RankOptions = {}): Result {
  checkStudy(whole);
  UNCERTAINS(inputs, 'inputs');
  OPTIONS(options, 'options');
  const { choices = [], points = 128, most = 8, seed = 1 } = options;
  const study = oneFigure(whole);
  const bars = readBars(study, inputs, choices, rowsHere(study, barPoints(inputs, choices)));
  const chosen = widest(bars, inputs, most);
  const answer = createSubject(sampled(study.subject));
  const plan = { ...sharesPlan(points, seed), draws: drawsOf(chosen), outputs: 1 };
  const drawn = changesFrom(chosen);
  const [found] = varianceShares((x, out) => void answer(drawn(x), out), plan);
  if (found === undefined) throw new RangeError('a ranking is of one figure');
  return rankResult(study, inputs, bars, found, chosen);
}

const OPTIONS = group<RankOptions>({
  choices: optional(each(group<Choice>({ path: TEXT, value: FINITE }))),
  points: optional(within(1, 2 ** 24)),
  most: optional(wholeWithin(0, 1000)),
  seed: optional(SEED),
});

/** The study of its first figure alone. */
export function oneFigure(study: Study): Study {
  const figures = study.figures.slice(0, 1);
  const outputs = figures.map(({ question, key }) => ({ question, key }));
  return { ...study, figures, subject: { ...study.subject, outputs } };
}

/** The inputs with the widest bars. */
export function widest({ bars }: Bars, inputs: readonly Uncertain[], most: number): readonly Uncertain[] {
  return bars.slice(0, most).flatMap(({ index }) => inputs[index] ?? []);
}

/** Eight blocks of base points, so that the shares have an uncertainty of their own. */
export function sharesPlan(
  points: number,
  seed: number,
): {
  readonly seed: number;
  readonly block: number;
  readonly blocks: number;
} {
  return { seed, block: 2 ** Math.max(2, Math.round(Math.log2(points / 8))), blocks: 8 };
}

/** Row 0 is the car as it is; then two rows for each input, two for each choice. */
export function barPoints(drawn: readonly Uncertain[], choices: readonly Choice[]): (readonly Change[])[] {
  const draws = drawsOf(drawn);
  const points: (readonly Change[])[] = [[]];
  for (const [k, input] of drawn.entries()) {
    for (const u of [LOW, HIGH]) points.push(changesOfOne(input, item(draws, k).at(u), drawn));
  }
  for (const { path, value } of choices) {
    for (const factor of [1 - STEP, 1 + STEP]) points.push([{ path, value: value * factor }]);
  }
  return points;
}

export interface Bar {
  /** Of the input. */
  readonly index: number;
  readonly low: number;
  readonly high: number;
}

export interface Bars {
  readonly base: number;
  /** Widest first; those without an answer first of all. */
  readonly bars: readonly Bar[];
  /** d ln y / d ln x of each choice. */
  readonly elasticities: readonly { readonly path: string; readonly elasticity: number }[];
}

export function readBars(study: Study, drawn: readonly Uncertain[], choices: readonly Choice[], table: Rows): Bars {
  const [figure] = study.figures;
  if (figure === undefined || study.figures.length > 1) throw new Error('a rank is about one figure');
  const values = table.column(figureKey(figure));
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
      return { path, elasticity: elementary.log(above / below) / elementary.log((1 + STEP) / (1 - STEP)) };
    })
    .toSorted((a, b) => size(b) - size(a));
  return { base, bars, elasticities };
}

/** What bars and shares say together. */
export function rankResult(
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
  const shareOf = (path: string, key: keyof VarianceShare): number => {
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
        first_error_1: pure(
          'standard error of the share by itself',
          named.map(({ path }) => shareOf(path, 'firstError')),
        ),
        total_error_1: pure(
          'standard error of the share in all',
          named.map(({ path }) => shareOf(path, 'totalError')),
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
    verdicts: [
      ...shareVerdict(study, figure, chosen, found),
      ...choiceVerdict(study, figure, elasticities),
      ...togetherVerdict(study, chosen),
    ],
  };
}

/** Of inputs with one covariance each has what those before it leave: shares of a variance want independent parts. */
function togetherVerdict(study: Study, chosen: readonly Uncertain[]): string[] {
  const mixed = chosen.filter(({ mix }) => mix !== undefined).map(({ path }) => pathWords(path, study));
  return mixed.length === 0
    ? []
    : [`${mixed.join(', ')} are drawn together: the share of each is that of what those written before it leave open`];
}

/** From this share of the variance on, an input makes most of it. */
const HALF = 0.5;

/** Shares as people say them, each from its first number on. */
const ABOUT: readonly (readonly [from: number, words: string])[] = [
  [0.9, 'nearly all'],
  [0.7, 'about three quarters'],
  [0.6, 'about two thirds'],
  [0.42, 'about half'],
  [0.29, 'about a third'],
  [0.18, 'about a quarter'],
];

/** `about half`; `at most about half` for a share that twice its error does not tell from nothing. The picture has the figures. */
function aboutShare(share: number, error: number): string {
  const least = share <= 2 * error;
  const reach = least ? share + 2 * error : share;
  const words = ABOUT.find(([from]) => reach >= from)?.[1] ?? 'less than a fifth';
  return least && reach >= 0.18 ? `at most ${words}` : words;
}

/** Which input makes most of the uncertainty. */
function shareVerdict(
  study: Study,
  figure: StudyFigure,
  chosen: readonly Uncertain[],
  found: VarianceShares,
): string[] {
  const known = chosen.flatMap(({ path }, k) => {
    const share = found.shares?.[k];
    return share === undefined || Number.isNaN(share.total)
      ? []
      : [{ path, total: share.total, error: share.totalError }];
  });
  const [first, second] = known.toSorted((a, b) => b.total - a.total);
  if (first === undefined) return [];
  const title = capital(figureTitle(figure));
  const told = (one: typeof first): string =>
    `${pathWords(one.path, study)} (${aboutShare(one.total, one.error)} of it)`;
  if (second === undefined) return [`${title}: all of the uncertainty comes from ${told(first)}`];
  // The shares are told with twice their standard errors.
  const apart = first.total - second.total > 2 * elementary.hypot(first.error, second.error);
  if (first.total - 2 * first.error >= HALF) {
    return [`${title}: most of the uncertainty comes from ${told(first)}, then from ${told(second)}`];
  }
  return [
    apart
      ? `${title}: no input surely makes most of the uncertainty; ${told(first)} comes first, then ${told(second)}`
      : `${title}: the cases that were tried do not tell which input makes most of the uncertainty; perhaps ${told(first)} or ${told(second)}`,
  ];
}

function choiceVerdict(study: Study, figure: StudyFigure, elasticities: Bars['elasticities']): string[] {
  const [first] = elasticities.filter(({ elasticity }) => !Number.isNaN(elasticity));
  if (first === undefined) return [];
  const [size, way] = [Math.abs(first.elasticity).toFixed(2), first.elasticity < 0 ? 'lowers' : 'raises'];
  return [
    `Of the choices the ${pathWords(first.path, study)} moves ${figureTitle(figure)} most: 1 % more of it ${way} it by ${size} %`,
  ];
}
