/** `yaml compare NAME`: the same runs with other cars. */
import { jobOf } from '../../batch/evaluators.ts';
import type { Fields } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { COMMON, KG, number, type SpecOf } from '../../model/fields/table.ts';
import type { OtherCar } from '../../runs/answer/ask.ts';
import type { Change } from '../../runs/answer/change.ts';
import { carChanges, compareResult, summaryKey, withMasses } from '../../studies/answers/compare.ts';
import type { FullLoads } from '../../studies/answers/compare-spec.ts';
import { weighed } from '../../model/body/mass-ledger.ts';
import { entryOf } from '../document/located.ts';
import { figureKey } from '../../studies/question/figures.ts';
import type { Study } from '../../studies/question/figures.ts';
import { item } from '../../columns.ts';
import type { Coverage, Result } from '../../runs/result.ts';
import { comparedWithin, type RowSamples } from '../../studies/answers/row-samples.ts';
import { PROBABILITY } from '../intervals.ts';
import { drawnInputs } from './spread.ts';
import { samplesField, type Varied } from './varied.ts';
import type { World } from '../context.ts';
import { withSpec } from './fields.ts';
import { resultYield } from './result.ts';
import { ofField, outputsField, studyOf } from './study.ts';
import { studyCell } from './study-cell.ts';

const compareFields = {
  of: ofField,
  cars: { kind: 'words', to: ['car'], doc: 'the cars, the one that others are measured by first', required: true },
  outputs: outputsField,
  samples: samplesField,
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
  grossMass: number(
    'kg',
    KG,
    [50, 40_000],
    'permitted mass of the loaded car, against all seats and luggage where the car has `weights`, else against driver and load',
    { derived: 'not checked' },
  ),
  frontLimit: number('kg', KG, [10, 20_000], 'permitted load of the front axle', { derived: 'not checked' }),
  rearLimit: number('kg', KG, [10, 20_000], 'permitted load of the rear axle', { derived: 'not checked' }),
} as const satisfies Fields;

type CellSpec = SpecOf<typeof compareFields>;

export const compare = studyCell(
  {
    kind: 'compare',
    doc: 'the same runs with several cars, side by side: differences, gain per added kilogram and per money, what breaks a limit',
    fields: compareFields,
    notes: ['cars are written with `from:` the first one, so that they say only what differs'],
  },
  ({ name, map, values, inputs, world }) => {
    const spec: CellSpec = values;
    const { study, axis, cars, full } = withSpec(map, name, () => prepared(name, spec, world));
    const columns = study.figures.map(figureKey);
    return {
      job: jobOf('sweep', { subject: study.subject, axes: [axis] }, cars.size, columns),
      finish(table) {
        const told = (found?: RowSamples): Result =>
          compareResult(
            study,
            cars,
            { ...spec, full },
            table,
            world.system,
            found && { ...found, probability: PROBABILITY },
          );
        const result = told();
        const varied = variedBy(study, [...cars.keys()], axis, spec.samples ?? null, told, world);
        return resultYield(result, [...study.inputs, ...inputs], world.system, varied === null ? {} : { varied });
      },
    };
  },
);

/** The samples of each car; null where nothing is uncertain. */
function variedBy(
  study: Study,
  cars: readonly string[],
  rows: Varied['rows'],
  asked: number | null,
  told: (found: RowSamples) => Result,
  world: World,
): Varied | null {
  const inputs = drawnInputs(study);
  if (inputs.length === 0) return null;
  return {
    subject: study.subject,
    keys: study.figures.map(figureKey),
    inputs,
    rows,
    asked,
    read: found =>
      comparedWithin(
        told(found),
        { study, probability: PROBABILITY, inputs: inputs.length },
        cars.map(car => ({ name: car, own: figure => ownInterval(study, car, figure, world) })),
        (car, figure) => summaryKey(car, item(study.figures, figure)),
        found,
      ),
  };
}

/** Of the runs themselves, where a row is one of them. */
function ownInterval(study: Study, car: string, figure: number, world: World): Coverage | undefined {
  const { question, key } = item(study.figures, figure);
  const run = item(study.subject.questions, question);
  const product = world.given(run.name)?.product;
  return run.car === car && product?.kind === 'result' ? product.result.intervals?.of[key] : undefined;
}

function prepared(
  name: string,
  spec: CellSpec,
  world: World,
): {
  readonly study: Study;
  readonly axis: readonly (readonly Change[])[];
  readonly cars: ReadonlyMap<string, OtherCar>;
  readonly full: readonly (FullLoads | null)[];
} {
  const found = studyOf(name, spec, world);
  const cars = spec.cars ?? [];
  if (cars.length < 2) throw new SpecError(`${name}.cars`, 'are fewer than two', 'two cars or more');
  const twice = cars.find((car, k) => cars.indexOf(car) !== k);
  if (twice !== undefined) throw new SpecError(`${name}.cars`, `"${twice}" stands there twice`, 'each car once');
  if (spec.prices !== undefined && spec.prices.length !== cars.length) {
    throw new SpecError(`${name}.prices`, `are ${spec.prices.length} for ${cars.length} cars`, 'one for each');
  }
  const others = new Map(cars.map(each => [each, otherCar(each, `${name}.cars`, world)]));
  const full = cars.map(each => fullLoads(each, world));
  return {
    study: withMasses(found),
    full,
    cars: others,
    axis: [...others.values()].map(each => carChanges(found, each)),
  };
}

/** kg: that a mass is the one of a weighing. */
const SAME = 1e-6;

/** What the axles of a car carry with all seats and luggage; null where its mass is not that of a weighing. */
function fullLoads(name: string, world: World): FullLoads | null {
  const product = world.given(name)?.product;
  if (product?.kind !== 'car') return null;
  const weights = entryOf(product.map, 'weights')?.value;
  const weighing = weights?.kind === 'scalar' ? world.given(weights.text)?.product : undefined;
  const ledger = weighing?.kind === 'result' ? weighing.weighing?.ledger : undefined;
  if (ledger === undefined) return null;
  const { kerb, full } = weighed(ledger);
  return Math.abs(kerb.mass - product.car.body.mass) > SAME ? null : { front: full.front, rear: full.rear };
}

/** The change that puts a car cell in the place of the cars of the runs. @throws SpecError */
export function carChange(name: string, path: string, study: Study, world: World): readonly Change[] {
  return carChanges(study, otherCar(name, path, world));
}

function otherCar(name: string, path: string, world: World): OtherCar {
  const product = world.given(name)?.product;
  if (product?.kind !== 'car') throw new SpecError(path, `"${name}" is no car`, 'the name of a car cell');
  return { spec: product.spec, measured: [...product.measured] };
}
