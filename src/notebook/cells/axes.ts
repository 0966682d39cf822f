/** What a study varies: a path of the car over values, or whole cars. */
import type { Fields } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { plainQuantity } from './plain-quantity.ts';
import type { World } from '../context.ts';
import { carChange } from './compare.ts';
import { type Axis, isCount, numberAxis, numberOf } from '../../studies/question/axis.ts';
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
  cars: { kind: 'words', to: ['car'], doc: 'whole cars in place of a path' },
} as const satisfies Fields;

const USUAL_STEPS = 9;

/** @param path of the row in the cell. @throws SpecError */
export function axisOf(path: string, row: SpecOf<typeof axisFields>, study: Study, world: World): Axis {
  if (row.cars !== undefined) return carAxis(path, row.cars, study, world);
  if (row.path === undefined) throw new SpecError(path, 'says neither path nor cars', 'path: drive.ratio');
  const { full, field } = numberOf(`${path}.path`, row.path, study);
  const number = (key: 'from' | 'to', text: string): number => plainQuantity(`${path}.${key}`, text, field.unit);
  const values =
    row.values !== undefined
      ? row.values.map(text => plainQuantity(`${path}.values`, text, field.unit))
      : spaced(path, row, number, isCount(full));
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

function spaced(
  path: string,
  row: SpecOf<typeof axisFields>,
  number: (key: 'from' | 'to', text: string) => number,
  whole: boolean,
): number[] {
  if (row.from === undefined || row.to === undefined)
    throw new SpecError(path, 'has no values', 'values, or from and to');
  const [low, high] = [number('from', row.from), number('to', row.to)];
  if (!(low < high)) throw new SpecError(`${path}.to`, 'is not above from');
  if (whole && row.steps === undefined) return Array.from({ length: high - low + 1 }, (_, k) => low + k);
  const count = row.steps === undefined ? USUAL_STEPS : Number(row.steps);
  if (!Number.isInteger(count) || count < 2 || count > 10_000)
    throw new SpecError(`${path}.steps`, `"${row.steps}" is no such number`, '2 to 10000');
  const values = Array.from({ length: count }, (_, k) => low + ((high - low) * k) / (count - 1));
  return whole ? [...new Set(values.map(Math.round))] : values;
}
