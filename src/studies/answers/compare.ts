/** The same runs with several cars, side by side. */
import { item } from '../../columns.ts';
import type { OtherCar } from '../../runs/answer/ask.ts';
import type { Change } from '../../runs/answer/change.ts';
import { ABOVE_0, each, group, NOT_BELOW_0, optional, orNull, refused, type Rule } from '../../runs/rules.ts';
import type { Column, Output, Result, Series } from '../../runs/result.ts';
import { uncarried } from '../../runs/answer/carried-mass.ts';
import { formatQuantity, type System } from '../../units.ts';
import { checkStudy } from '../question/checked.ts';
import { CAR_OUTPUTS, figureKey, figureTitle } from '../question/figures.ts';
import type { Study, StudyFigure } from '../question/figures.ts';
import { rowsHere } from '../question/rows.ts';
import type { Rows } from '../question/rows.ts';
import { differences } from '../search/gain.ts';
import type { Figure } from '../search/gain.ts';
import { bestName, bestShare, type Broken, type CompareColumn } from './best-car.ts';
import { brokenLimits, compareVerdicts } from './compare-verdicts.ts';
import type { RowSamples } from './row-samples.ts';
import type { CompareSpec, FullLoads } from './compare-spec.ts';

/**
 * Compares here and now.
 * @param cars by their names, the one that others are measured by first: questions about them, or `{ spec, measured: [] }`.
 * @throws SpecError for what is no study, no car by its name, and for what else is known where that can not be.
 */
export function compare(
  study: Study,
  cars: ReadonlyMap<string, OtherCar>,
  spec: CompareSpec = {},
  system: System = 'metric',
): Result {
  checkStudy(study);
  if (!(cars instanceof Map)) throw refused('cars', cars, 'a Map of cars by their names');
  for (const [name, other] of cars) CAR(other, `cars.${name}`);
  SPEC(spec, 'spec');
  const whole = withMasses(study);
  const rows = rowsHere(
    whole,
    [...cars.values()].map(other => carChanges(study, other)),
  );
  return compareResult(whole, cars, spec, rows, system);
}

const CAR: Rule = (value, path) => {
  const given: Partial<OtherCar> = typeof value === 'object' && value !== null ? value : {};
  if (typeof given.spec !== 'object' || !Array.isArray(given.measured))
    throw refused(path, value, 'a question about it, or { spec, measured: [] }');
};

const SPEC = group<CompareSpec>({
  prices: optional(each(NOT_BELOW_0)),
  pays: optional(NOT_BELOW_0),
  grossMass: optional(ABOVE_0),
  frontLimit: optional(ABOVE_0),
  rearLimit: optional(ABOVE_0),
  full: optional(each(orNull(group<FullLoads>({ front: NOT_BELOW_0, rear: NOT_BELOW_0 })))),
});

/** What makes the masses doubtful: a car with another pack and the mass of the first one. */
function massDoubts(cars: ReadonlyMap<string, OtherCar>): string[] {
  const [[name, first] = []] = cars;
  if (first === undefined) return [];
  return [...cars].flatMap(([car, other]) => {
    const missing = uncarried(first.spec, other.spec);
    if (missing === 0) return [];
    const much = formatQuantity(Math.abs(missing), 'kg', 'kg');
    return [
      `${car} has another pack than ${name} and the same mass: about ${much} ${missing > 0 ? 'more' : 'less'} by its cells and their box stand in none of its figures, its axle loads among them; say its own mass, or weigh it`,
    ];
  });
}

/** The changes that put another car in the place of the cars of the runs. */
export function carChanges({ subject }: Study, value: OtherCar): readonly Change[] {
  return [...new Set(subject.questions.map(({ car }) => car))].map(car => ({ path: car, value }));
}

/** The study with what a comparison tells of every car: its masses. */
export function withMasses(study: Study): Study {
  const car = study.subject.questions[0]?.car ?? '';
  const extra = CAR_KEYS.map(key => carFigure(key, car)).filter(
    each => !study.figures.some(({ name }) => name === each.name),
  );
  const outputs = [...study.subject.outputs, ...extra.map(({ question, key }) => ({ question, key }))];
  return { ...study, subject: { ...study.subject, outputs }, figures: [...study.figures, ...extra] };
}

const CAR_KEYS = ['mass', 'front_axle', 'rear_axle'] as const;

function carFigure(key: (typeof CAR_KEYS)[number], car: string): StudyFigure {
  return { question: 0, key, name: `${car}.${key}`, output: CAR_OUTPUTS[key], value: null, better: null };
}

/**
 * What a row for each car says. @param system of units of its sentences. @param sampled what samples of each car found, and from which share of them on
 * something is sure; left out where none were taken.
 */
export function compareResult(
  study: Study,
  others: ReadonlyMap<string, OtherCar>,
  spec: CompareSpec,
  table: Rows,
  system: System,
  sampled?: RowSamples & { readonly probability: number },
): Result {
  const cars = [...others.keys()];
  const plain = study.figures.map(
    (figure): CompareColumn => ({
      figure,
      own: figure.key in CAR_OUTPUTS,
      values: Array.from(table.column(figureKey(figure)), value => (Number.isNaN(value) ? null : value)),
      unsure: null,
    }),
  );
  const limits = cars.map((_, k) => brokenLimits(k, plain, spec));
  const broken = limits.map(each => each.map(({ what }) => what));
  const all = plain.map((column, place) => {
    if (sampled === undefined) return column;
    const share = bestShare(
      column,
      cars,
      broken,
      sampled.columns.map(row => item(row, place)),
    );
    return { ...column, unsure: share !== null && share < sampled.probability ? share : null };
  });
  const { summary, outputs, reasons } = summaryOf(all, cars, table);
  const overloads = cars.map((car, k) =>
    (limits[k] ?? []).map(({ what, figures }) => `${car} breaks ${what}: ${figures}`),
  );
  return {
    kind: 'compare',
    summary,
    reasons,
    outputs,
    series: { table: tableOf(all, cars, broken, spec.prices), figures: figuresOf(all, cars, broken) },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [
      ...massDoubts(others),
      ...cars.flatMap((car, k) => [
        ...(overloads[k] ?? []),
        ...(table.code(k) === '' ? [] : [`${car} has no answer: ${table.code(k)}`]),
      ]),
    ],
    broken: overloads.flat(),
    opinion: null,
    verdicts: compareVerdicts(all, cars, spec, system),
  };
}

/** Every figure of every car under the name of the car: `big_dash_time`. */
function summaryOf(
  all: readonly CompareColumn[],
  cars: readonly string[],
  table: Rows,
): Pick<Result, 'summary' | 'outputs' | 'reasons'> {
  const summary: { [key: string]: number | null } = { cars: cars.length };
  const outputs: { [key: string]: Output } = { cars: { label: 'cars', unit: '1', display: PLAIN, doc: 'compared' } };
  const reasons: { [key: string]: string } = {};
  for (const [k, car] of cars.entries()) {
    for (const { figure, own, values } of all) {
      const key = summaryKey(car, figure);
      summary[key] = values[k] ?? null;
      outputs[key] = { ...figure.output, label: `${car}: ${own ? figure.output.label : figureTitle(figure)}` };
      if (summary[key] === null) reasons[key] = table.code(k) || 'the run does not give it with this car';
    }
  }
  return { summary, outputs, reasons };
}

const PLAIN = { metric: '1', imperial: '1' };

const TEXT = { unit: '', display: { metric: '', imperial: '' } };

/** Of a figure of a car: `big_dash_time`; `big_mass`. */
export function summaryKey(car: string, figure: StudyFigure): string {
  return `${car}_${ofCar(figure)}`;
}

function ofCar(figure: StudyFigure): string {
  return figure.key in CAR_OUTPUTS ? figure.key : figureKey(figure);
}

/** A row for each car: its figures, what they differ from those of the first car by, its price. */
function tableOf(
  all: readonly CompareColumn[],
  cars: readonly string[],
  broken: Broken,
  prices: readonly number[] | undefined,
): Series {
  const table: { [key: string]: Column } = { car: { label: 'car', ...TEXT, values: cars } };
  for (const { figure, own, values } of all) {
    const { output } = figure;
    const { unit, display } = output;
    const label = own ? output.label : figureTitle(figure);
    table[figureKey(figure)] = { label, unit, display, values: toColumn(values) };
    const change = toColumn(differences(values));
    table[`${figureKey(figure)}_change`] = { label: `${label}, change`, unit, display, values: change };
  }
  if (prices !== undefined) {
    table['price'] = { label: 'price', unit: '1', display: PLAIN, values: Float64Array.from(prices) };
  }
  if (broken.some(limits => limits.length > 0)) {
    table['breaks'] = { label: 'breaks', ...TEXT, values: broken.map(limits => limits.join(' and ')) };
  }
  return table;
}

/** A row for each figure: which way it is better, and which car is best. */
function figuresOf(all: readonly CompareColumn[], cars: readonly string[], broken: Broken): Series {
  const text = (label: string, values: readonly string[]): Column => ({ label, ...TEXT, values });
  return {
    figure: text(
      'figure',
      all.map(({ figure }) => figureKey(figure)),
    ),
    of_car: text(
      'of a car',
      all.map(({ figure }) => ofCar(figure)),
    ),
    better: text(
      'better when',
      all.map(({ figure }) => figure.better ?? ''),
    ),
    best: text(
      'best car',
      all.map(column => bestName(column, cars, broken) ?? ''),
    ),
    unsure: {
      label: 'share of the samples in which it is the best, where that is not sure',
      unit: '1',
      display: { metric: '%', imperial: '%' },
      values: Float64Array.from(all, ({ unsure }) => unsure ?? Number.NaN),
    },
  };
}

const toColumn = (values: readonly Figure[]): Float64Array => Float64Array.from(values, value => value ?? Number.NaN);
