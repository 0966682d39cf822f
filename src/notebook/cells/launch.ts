/** `yaml launch NAME`: a car from rest at full pedal. */
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { completeSurroundings } from '../../model/complete.ts';
import { surroundingsFields } from '../../model/spec.ts';
import { launch as launchCar } from '../../runs/launch/launch.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { questionOf, whereOf, writtenNumbers } from './question.ts';
import { resultYield } from './result.ts';
import { atFullPedal, carOf } from './the-car.ts';
import { soakedField } from './travel-fields.ts';

const KMH = { metric: 'km/h', imperial: 'mph' };

export const launchFields = {
  car: { kind: 'reference', to: ['car'], doc: 'the car', required: true },
  to: {
    kind: 'number',
    unit: 'm/s',
    display: KMH,
    min: 0.1,
    max: 150,
    doc: 'the speed that the value `time` is for',
    default: { value: 100 / 3.6, source: 'the usual question' },
  },
  from: {
    kind: 'number',
    unit: 'm/s',
    display: KMH,
    min: 0,
    max: 150,
    doc: 'speed at the start',
    default: { value: 0, source: 'from rest' },
  },
  pedal: {
    kind: 'number',
    unit: '1',
    display: { metric: '%', imperial: '%' },
    min: 0.01,
    max: 1,
    doc: 'share of the peak torque that the driver asks for',
    default: { value: 1, source: 'full pedal' },
  },
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

export const launch: CellKind = {
  kind: 'launch',
  language: 'yaml',
  named: true,
  doc: 'a car at full pedal: times, speeds, what holds it back, the grip bill',
  fields: launchFields,
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, launchFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, launchFields, world, name);
        const { car: carName, from, to, pedal, soaked: _soaked, ...where } = values;
        const { car, inputs: behind, notes } = carOf(carName, cell, map, world);
        const conditions: Input[] = [];
        const { surroundings, inputs: assumed } = withSpec(map, name, () => completeSurroundings(where, name));
        const result = withSpec(map, name, () => {
          const fill = filler(name, launchFields, values, conditions);
          const soaked = fill.derived('soaked', () => surroundings.temperature);
          return launchCar(car, { surroundings: { ...surroundings, soaked }, ...numbers({ from, to, pedal }) });
        });
        const told = { ...result, warnings: [...notes, ...result.warnings] };
        const written = writtenNumbers(values, ['from', 'to', 'pedal', 'soaked']);
        const run = { kind: 'launch', where: whereOf(values), ...written } as const;
        const question = questionOf(carName, name, run, world);
        return resultYield(
          told,
          [...atFullPedal(behind), ...inputs, ...conditions, ...assumed],
          world.system,
          question,
        );
      },
    };
  },
};

/** The values that are there. */
function numbers<K extends string>(values: { readonly [key in K]: unknown }): { [key in K]?: number } {
  const found: { [key in K]?: number } = {};
  for (const [key, value] of Object.entries(values)) if (typeof value === 'number') found[key as K] = value;
  return found;
}
