/** `yaml compare NAME`: the same runs with other cars. */
import type { Json } from '../../batch/canonical.ts';
import type { SweepPayload } from '../../batch/evaluators.ts';
import type { Table } from '../../batch/table.ts';
import type { Fields } from '../../model/field.ts';
import { SpecError } from '../../model/spec-error.ts';
import { COMMON, KG, number, type SpecOf } from '../../model/spec.ts';
import type { Change } from '../../runs/change.ts';
import type { Output, Result } from '../../runs/result.ts';
import { differences, diminishing, gainPerAdded } from '../../studies/gain.ts';
import type { Figure } from '../../studies/gain.ts';
import { formatNumber, formatQuantity, type System, toDisplay, unitLabel } from '../../units.ts';
import type { World } from '../context.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';
import { figureColumn, figureKey, ofField, outputsField, studyOf } from './study.ts';
import type { Study, StudyFigure } from './study.ts';

export const compareFields = {
  of: ofField,
  cars: { kind: 'words', to: ['car'], doc: 'the cars, the one that others are measured by first', required: true },
  outputs: outputsField,
  prices: { kind: 'numbers', unit: '1', min: 0, max: 1e9, doc: 'of each car in turn, in money of any kind' },
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

type CompareSpec = SpecOf<typeof compareFields>;

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
        const payload: SweepPayload = { subject: study.subject, axes: [axis] };
        const columns = study.figures.map(figureKey);
        return {
          job: { kind: 'sweep', payload: payload as unknown as Json, rows: cars.length, columns },
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
  if (spec.prices !== undefined && spec.prices.length !== cars.length) {
    throw new SpecError(`${name}.prices`, `are ${spec.prices.length} for ${cars.length} cars`, 'one for each');
  }
  const [question] = found.subject.questions;
  const extra = CAR_KEYS.map(key => ({ question: 0, key }));
  const study: Study = {
    ...found,
    subject: { ...found.subject, outputs: [...found.subject.outputs, ...extra] },
    figures: [...found.figures, ...CAR_KEYS.map((key): StudyFigure => carFigure(key, question?.car ?? ''))],
  };
  return { study, cars, axis: cars.map(each => carChange(each, `${name}.cars`, found, world)) };
}

const CAR_KEYS = ['mass', 'front_axle', 'rear_axle'] as const;

function carFigure(key: (typeof CAR_KEYS)[number], car: string): StudyFigure {
  const label = { mass: 'mass', front_axle: 'front axle', rear_axle: 'rear axle' }[key];
  const output: Output = { label, unit: 'kg', display: { metric: 'kg', imperial: 'lb' }, doc: '' };
  return { question: 0, key, name: `${car}.${key}`, output, value: null };
}

/** The change that puts a car cell in the place of the cars of the runs. @throws SpecError */
export function carChange(name: string, path: string, { subject }: Study, world: World): readonly Change[] {
  const product = world.given(name)?.product;
  if (product?.kind !== 'car') throw new SpecError(path, `"${name}" is no car`, 'the name of a car cell');
  const value = { spec: product.spec, measured: [...product.measured] };
  return [...new Set(subject.questions.map(({ car }) => car))].map(car => ({ path: car, value }));
}

function resultOf(study: Study, cars: readonly string[], spec: CompareSpec, table: Table, system: System): Result {
  const columns = study.figures.map(figure => [figure, Array.from(table.column(figureKey(figure)), answer)] as const);
  const series: { [key: string]: Result['series'][string][string] } = {
    car: { label: 'car', unit: '', display: { metric: '', imperial: '' }, values: cars },
  };
  for (const [figure, values] of columns) series[figureKey(figure)] = figureColumn(figure, toColumn(values));
  for (const [figure, values] of columns) {
    const column = figureColumn(figure, toColumn(differences(values)));
    series[`${figureKey(figure)}_change`] = { ...column, label: `${column.label}, change` };
  }
  if (spec.prices !== undefined) {
    series['price'] = {
      label: 'price',
      unit: '1',
      display: { metric: '1', imperial: '1' },
      values: Float64Array.from(spec.prices),
    };
  }
  const verdicts = [
    ...columns.flatMap(([figure, values]) => gainVerdicts(figure, values, cars, columns, spec, system)),
    ...cars.flatMap((car, k) => limitVerdicts(car, k, columns, spec)),
    ...cars.flatMap((car, k) => (table.code(k) === '' ? [] : [`${car}: ${table.code(k)}`])),
  ];
  return {
    kind: 'compare',
    summary: { cars: cars.length },
    reasons: {},
    outputs: { cars: { label: 'cars', unit: '1', display: { metric: '1', imperial: '1' }, doc: 'compared' } },
    series: { table: series },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [],
    opinion: null,
    verdicts,
  };
}

const answer = (value: number): Figure => (Number.isNaN(value) ? null : value);
const toColumn = (values: readonly Figure[]): Float64Array => Float64Array.from(values, value => value ?? Number.NaN);

type Columns = readonly (readonly [StudyFigure, readonly Figure[]])[];

/** Kilometres per added kilogram and per money; for ranges alone: what else grows is not what is bought. */
function gainVerdicts(
  figure: StudyFigure,
  values: readonly Figure[],
  cars: readonly string[],
  columns: Columns,
  spec: CompareSpec,
  system: System,
): string[] {
  if (figure.key !== 'range') return [];
  const mass = columns.find(([{ key }]) => key === 'mass')![1];
  const display = figure.output.display[system];
  const amount = (metres: number): string =>
    `${formatNumber(toDisplay(metres, 'm', display), 3)} ${unitLabel(display)}`;
  const lines = gainPerAdded(values, mass).flatMap((gain, k) =>
    gain === null ? [] : [`${cars[k]} against ${cars[0]}: ${amount(gain)} of range (${figure.name}) for each added kg`],
  );
  const { prices, pays = 0.5 } = spec;
  if (prices === undefined) return lines;
  const perMoney = gainPerAdded(values, prices).flatMap((gain, k) =>
    gain === null ? [] : [`${cars[k]} against ${cars[0]}: ${amount(1000 * gain)} of range for each 1000 of money`],
  );
  const { steps, stops } = diminishing(values, prices, pays);
  const step = stops === null ? undefined : steps[stops];
  const stop =
    step === undefined
      ? [`every step up in price pays: none gains less than ${formatNumber(100 * pays)} % of what the first one gains`]
      : [
          `the step from ${cars[step.from]} to ${cars[step.to]} no longer pays: ${amount(1000 * step.rate)} for each 1000 of money`,
        ];
  return [...stop, ...lines, ...perMoney];
}

function limitVerdicts(car: string, k: number, columns: Columns, spec: CompareSpec): string[] {
  const value = (key: string): Figure => columns.find(([figure]) => figure.key === key)?.[1][k] ?? null;
  const [front, rear] = [value('front_axle'), value('rear_axle')];
  const gross = front === null || rear === null ? null : front + rear;
  return (
    [
      ['the permitted mass', gross, spec.grossMass],
      ['the permitted load of the front axle', front, spec.frontLimit],
      ['the permitted load of the rear axle', rear, spec.rearLimit],
    ] as const
  ).flatMap(([what, found, most]) =>
    found === null || most === undefined || found <= most
      ? []
      : [`${car} breaks ${what}: ${formatQuantity(found, 'kg', 'kg')} against ${formatQuantity(most, 'kg', 'kg')}`],
  );
}
