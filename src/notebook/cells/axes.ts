/** What a study varies: a path of the car over values, or whole cars. */
import type { Fields } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { plainDifference, plainQuantity } from './plain-quantity.ts';
import type { World } from '../context.ts';
import { carChange } from './compare.ts';
import { type Axis, isCount, numberAxis, numberOf } from '../../studies/question/axis.ts';
import { valuesOf } from '../../studies/search/grid.ts';
import type { Study } from '../../studies/question/figures.ts';

/** One thing that is varied. */
export const axisFields = {
  path: {
    kind: 'text',
    doc: 'a path of the car or of the run, such as drive.ratio, pack.parallel, coupe.mass, dash.temperature',
  },
  values: { kind: 'words', doc: 'the values, each with its unit' },
  from: { kind: 'text', doc: 'the first value, with its unit' },
  to: { kind: 'text', doc: 'the last value' },
  steps: { kind: 'text', doc: 'how many values from first to last; left out: 9' },
  step: { kind: 'text', doc: 'from one value to the next, in place of steps' },
  cars: { kind: 'words', to: ['car'], doc: 'whole cars in place of a path' },
} as const satisfies Fields;

const USUAL_STEPS = 9;
const MOST_STEPS = 10_000;

/** @param path of the row in the cell. @throws SpecError */
export function axisOf(path: string, row: SpecOf<typeof axisFields>, study: Study, world: World): Axis {
  if (row.cars !== undefined) return carAxis(path, row.cars, study, world);
  if (row.path === undefined) throw new SpecError(path, 'says neither path nor cars', 'path: drive.ratio');
  const { full, field } = numberOf(`${path}.path`, row.path, study);
  const values =
    row.values !== undefined
      ? row.values.map(text => plainQuantity(`${path}.values`, text, field.unit))
      : spaced(path, row, field.unit, isCount(full));
  return numberAxis(path, full, field, values);
}

function carAxis(path: string, cars: readonly string[], study: Study, world: World): Axis {
  const all = cars.map(car => carChange(car, `${path}.cars`, study, world));
  return {
    path: 'car',
    label: 'car',
    unit: '1',
    display: { metric: '1', imperial: '1' },
    values: cars.map((_, index) => index),
    names: cars,
    whole: true,
    changes: value => all[value] ?? [],
  };
}

function spaced(path: string, row: SpecOf<typeof axisFields>, unit: string, whole: boolean): readonly number[] {
  const number = (key: 'from' | 'to', text: string): number => plainQuantity(`${path}.${key}`, text, unit);
  if (row.from === undefined || row.to === undefined)
    throw new SpecError(path, 'has no values', 'values, or from and to');
  const [low, high] = [number('from', row.from), number('to', row.to)];
  if (!(low < high)) throw new SpecError(`${path}.to`, 'is not above from');
  if (row.step !== undefined || (whole && row.steps === undefined)) {
    const step = row.step === undefined ? 1 : plainDifference(`${path}.step`, row.step, unit);
    return stepped(row.step === undefined ? path : `${path}.step`, row, { from: low, to: high, step, whole });
  }
  const count = row.steps === undefined ? USUAL_STEPS : Number(row.steps);
  if (!Number.isInteger(count) || count < 2 || count > MOST_STEPS)
    throw new SpecError(`${path}.steps`, `"${row.steps}" is no such number`, `2 to ${MOST_STEPS}`);
  const values = valuesOf({ kind: 'range', from: low, to: high, count });
  return whole ? [...new Set(values.map(Math.round))] : values;
}

/** From the first in steps, the last where a step falls on it. @throws SpecError */
function stepped(
  path: string,
  { steps }: SpecOf<typeof axisFields>,
  { whole, ...values }: { readonly from: number; readonly to: number; readonly step: number; readonly whole: boolean },
): readonly number[] {
  const { from, to, step } = values;
  if (steps !== undefined) throw new SpecError(path, 'stands beside steps', 'one of the two');
  if (!(step > 0)) throw new SpecError(path, 'is not above 0');
  if (whole && !Number.isInteger(step)) throw new SpecError(path, 'is no whole number', 'a count in whole steps');
  if (to - from > MOST_STEPS * step)
    throw new SpecError(path, `makes more than ${MOST_STEPS} values`, 'a larger step, or values that lie closer');
  return valuesOf({ kind: 'steps', ...values });
}
