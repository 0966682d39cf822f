/** `yaml compare NAME`: the same runs with other cars. */
import { jobOf } from '../../batch/evaluators.ts';
import type { Table } from '../../batch/table.ts';
import type { Fields } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { COMMON, KG, number, type SpecOf } from '../../model/fields/table.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { Column, Output, Result, Series } from '../../runs/result.ts';
import { differences } from '../../studies/search/gain.ts';
import type { Figure } from '../../studies/search/gain.ts';
import type { System } from '../../units.ts';
import type { World } from '../context.ts';
import { bestName, brokenLimits, type CompareColumn, compareVerdicts } from './compare-verdicts.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';
import { CAR_OUTPUTS, figureKey, figureTitle, ofField, outputsField, studyOf } from './study.ts';
import type { Study, StudyFigure } from './study.ts';

export const compareFields = {
  of: ofField,
  cars: { kind: 'words', to: ['car'], doc: 'the cars, the one that others are measured by first', required: true },
  outputs: outputsField,
  prices: {
    kind: 'numbers',
    unit: '1',
    min: 0,
    max: 1e9,
    money: true,
    doc: 'of each car in turn, in money of any kind',
  },
  pays: number(
    '1',
    '%',
    [0, 1],
    'a step stops paying when it gains less than this share of what the first one gained',
    {
      default: { value: 0.5, source: COMMON },
    },
  ),
  grossMass: number('kg', KG, [50, 40_000], 'permitted mass of the loaded car', { derived: 'not checked' }),
  frontLimit: number('kg', KG, [10, 20_000], 'permitted load of the front axle', { derived: 'not checked' }),
  rearLimit: number('kg', KG, [10, 20_000], 'permitted load of the rear axle', { derived: 'not checked' }),
} as const satisfies Fields;

export type CompareSpec = SpecOf<typeof compareFields>;

export const compare: CellKind = {
  kind: 'compare',
  language: 'yaml',
  named: true,
  doc: 'the same runs with several cars, side by side: differences, gain per added kilogram and per money, what breaks a limit',
  fields: compareFields,
  notes: ['cars are written with `from:` the first one, so that they say only what differs'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, compareFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, compareFields, world, name);
        const spec: CompareSpec = values;
        const { study, axis, cars } = withSpec(map, name, () => prepared(name, spec, world));
        const columns = study.figures.map(figureKey);
        return {
          job: jobOf('sweep', { subject: study.subject, axes: [axis] }, cars.length, columns),
          finish: table =>
            resultYield(resultOf(study, cars, spec, table, world.system), [...study.inputs, ...inputs], world.system),
        };
      },
    };
  },
};

function prepared(
  name: string,
  spec: CompareSpec,
  world: World,
): { readonly study: Study; readonly axis: readonly (readonly Change[])[]; readonly cars: readonly string[] } {
  const found = studyOf(name, spec, world);
  const cars = spec.cars ?? [];
  if (cars.length < 2) throw new SpecError(`${name}.cars`, 'are fewer than two', 'two cars or more');
  const twice = cars.find((car, k) => cars.indexOf(car) !== k);
  if (twice !== undefined) throw new SpecError(`${name}.cars`, `"${twice}" stands there twice`, 'each car once');
  if (spec.prices !== undefined && spec.prices.length !== cars.length) {
    throw new SpecError(`${name}.prices`, `are ${spec.prices.length} for ${cars.length} cars`, 'one for each');
  }
  const car = found.subject.questions[0]?.car ?? '';
  const extra = CAR_KEYS.map(key => carFigure(key, car)).filter(
    each => !found.figures.some(({ name: known }) => known === each.name),
  );
  const study: Study = {
    ...found,
    subject: {
      ...found.subject,
      outputs: [...found.subject.outputs, ...extra.map(({ question, key }) => ({ question, key }))],
    },
    figures: [...found.figures, ...extra],
  };
  return { study, cars, axis: cars.map(each => carChange(each, `${name}.cars`, found, world)) };
}

const CAR_KEYS = ['mass', 'front_axle', 'rear_axle'] as const;

function carFigure(key: (typeof CAR_KEYS)[number], car: string): StudyFigure {
  return { question: 0, key, name: `${car}.${key}`, output: CAR_OUTPUTS[key], value: null, better: null };
}

/** The change that puts a car cell in the place of the cars of the runs. @throws SpecError */
export function carChange(name: string, path: string, { subject }: Study, world: World): readonly Change[] {
  const product = world.given(name)?.product;
  if (product?.kind !== 'car') throw new SpecError(path, `"${name}" is no car`, 'the name of a car cell');
  const value = { spec: product.spec, measured: [...product.measured] };
  return [...new Set(subject.questions.map(({ car }) => car))].map(car => ({ path: car, value }));
}

function resultOf(study: Study, cars: readonly string[], spec: CompareSpec, table: Table, system: System): Result {
  const all = study.figures.map(
    (figure): CompareColumn => ({
      figure,
      own: figure.key in CAR_OUTPUTS,
      values: Array.from(table.column(figureKey(figure)), value => (Number.isNaN(value) ? null : value)),
    }),
  );
  const { summary, outputs, reasons } = summaryOf(all, cars, table);
  return {
    kind: 'compare',
    summary,
    reasons,
    outputs,
    series: { table: tableOf(all, cars, spec.prices), figures: figuresOf(all, cars) },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: cars.flatMap((car, k) => [
      ...brokenLimits(car, k, all, spec),
      ...(table.code(k) === '' ? [] : [`${car} has no answer: ${table.code(k)}`]),
    ]),
    opinion: null,
    verdicts: compareVerdicts(all, cars, spec, system),
  };
}

/** Every figure of every car under the name of the car: `big_dash_time`. */
function summaryOf(
  all: readonly CompareColumn[],
  cars: readonly string[],
  table: Table,
): Pick<Result, 'summary' | 'outputs' | 'reasons'> {
  const summary: { [key: string]: number | null } = { cars: cars.length };
  const outputs: { [key: string]: Output } = { cars: { label: 'cars', unit: '1', display: PLAIN, doc: 'compared' } };
  const reasons: { [key: string]: string } = {};
  for (const [k, car] of cars.entries()) {
    for (const { figure, own, values } of all) {
      const key = own ? `${car}_${figure.key}` : `${car}_${figureKey(figure)}`;
      summary[key] = values[k] ?? null;
      outputs[key] = { ...figure.output, label: `${car}: ${own ? figure.output.label : figureTitle(figure)}` };
      if (summary[key] === null) reasons[key] = table.code(k) || 'the run does not give it with this car';
    }
  }
  return { summary, outputs, reasons };
}

const PLAIN = { metric: '1', imperial: '1' };
const TEXT = { unit: '', display: { metric: '', imperial: '' } };

/** A row for each car: its figures, what they differ from those of the first car by, its price. */
function tableOf(
  all: readonly CompareColumn[],
  cars: readonly string[],
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
  return table;
}

/** A row for each figure: which way it is better, and which car is best. */
function figuresOf(all: readonly CompareColumn[], cars: readonly string[]): Series {
  const text = (label: string, values: readonly string[]): Column => ({ label, ...TEXT, values });
  return {
    figure: text(
      'figure',
      all.map(({ figure }) => figureKey(figure)),
    ),
    better: text(
      'better when',
      all.map(({ figure }) => figure.better ?? ''),
    ),
    best: text(
      'best car',
      all.map(column => bestName(column, cars) ?? ''),
    ),
  };
}

const toColumn = (values: readonly Figure[]): Float64Array => Float64Array.from(values, value => value ?? Number.NaN);
