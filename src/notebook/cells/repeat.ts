/** `yaml repeat NAME`: one launch after the other, until the car slows down. */
import { filler } from '../../model/fields/filler.ts';
import { completeSurroundings } from '../../model/complete.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { assume, KMH, number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/spec.ts';
import { repeat as repeatOf } from '../../runs/launch/repeat.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';
import { atFullPedal, carOf } from './the-car.ts';
import { soakedField } from './travel-fields.ts';

export const repeatFields = {
  car: { kind: 'reference', to: ['car'], doc: 'the car', required: true },
  times: number('1', '1', [1, 200], 'launches at most; it ends early when the car has become 20 % slower', {
    ...assume(10, 'an afternoon on a closed course'),
  }),
  pause: number('s', 's', [0, 36_000], 'from the target speed to the next start, the car at rest', {
    ...assume(60, 'the way back to the start'),
  }),
  to: number('m/s', KMH, [0.1, 150], 'the speed that each launch goes to', assume(100 / 3.6, 'the usual question')),
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

export const repeat: CellKind = {
  kind: 'repeat',
  language: 'yaml',
  named: true,
  doc: 'launches one after the other: how warm the car gets, and when it slows down',
  fields: repeatFields,
  notes: ['between two launches the brakes stop the car at once, no energy comes back, and the drive is off'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, repeatFields),
      run(world) {
        const { name } = cell.piece;
        const conditions: Input[] = [];
        const { values, inputs } = readFieldsOf(map, repeatFields, world, name);
        const { car: carName, times: _times, pause: _pause, to: _to, soaked: _soaked, ...where } = values;
        const { car, inputs: behind } = carOf(carName, cell, map, world);
        const { surroundings, inputs: assumed } = withSpec(map, name, () => completeSurroundings(where, name));
        const result = withSpec(map, name, () => {
          const fill = filler(name, repeatFields, values, conditions);
          const times = fill.number('times');
          if (!Number.isInteger(times)) throw fill.error('times', `${times} is not a whole number`);
          const soaked = fill.derived('soaked', () => surroundings.temperature);
          return repeatOf(car, {
            surroundings: { ...surroundings, soaked },
            times,
            pause: fill.number('pause'),
            to: fill.number('to'),
          });
        });
        return resultYield(result, [...atFullPedal(behind), ...inputs, ...conditions, ...assumed], world.system);
      },
    };
  },
};
