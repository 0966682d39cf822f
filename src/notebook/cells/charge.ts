/** `yaml charge NAME`: a car on the charger. */
import { filler } from '../../model/fields/filler.ts';
import { completeSupply } from '../../model/pack/complete-supply.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/spec.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { supplyFields } from '../../model/pack/supply-fields.ts';
import { charge as chargeOf } from '../../runs/charge/charge.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { questionOf, writtenNumbers } from './question.ts';
import { resultYield } from './result.ts';
import type { Run } from '../../runs/answer/question.ts';
import { carOf } from './the-car.ts';

export const chargeFields = {
  car: { kind: 'reference', to: ['car'], doc: 'the car', required: true },
  from: number('1', '%', [0, 0.999], 'state of charge when it is plugged in', {
    derived: 'the low end of the window of the pack',
    computed: true,
  }),
  to: number('1', '%', [0.001, 1], 'state of charge that is wished for', {
    derived: 'the high end of the window of the pack',
    computed: true,
  }),
  supply: { kind: 'group', part: '', fields: supplyFields, doc: 'what the wall gives' },
  temperature: surroundingsFields.temperature,
  packTemperature: number('K', ['degC', 'degF'], [223.15, 343.15], 'of the pack when it is plugged in', {
    derived: 'that of the air',
  }),
  consumption: number('J/m', ['Wh/km', 'Wh/mi'], [36, 36_000], 'what the car uses, such as = week.consumption', {
    derived: 'no range is told',
  }),
  consumptionAt: {
    kind: 'choice',
    choices: ['wall', 'pack'],
    doc: 'where that is counted: drawn from the wall, or out of the cells of the pack',
    default: { value: 'wall', source: 'as on a window sticker' },
  },
  price: number('1/J', '1/kWh', [0, 1e-4], 'of energy from the wall, in any money, such as 0.32 1/kWh', {
    derived: 'no cost is told',
  }),
} as const satisfies Fields;

export const charge: CellKind = {
  kind: 'charge',
  language: 'yaml',
  named: true,
  doc: 'charging from the wall: time from one state of charge to another, energy, range per hour, cost',
  fields: chargeFields,
  notes: [
    'each of the chargers of the car is on one phase, and they share what a phase gives; a three-phase charger is written as three with a third of its power',
    'at the highest voltage of the pack the current falls, and charging ends when it is C/20 at the latest',
  ],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, chargeFields),
      run(world) {
        const { name } = cell.piece;
        const conditions: Input[] = [];
        const { values, inputs } = readFieldsOf(map, chargeFields, world, name);
        const spec: SpecOf<typeof chargeFields> = values;
        const { car, inputs: behind } = carOf(spec.car, cell, map, world);
        let run: Run | undefined;
        const result = withSpec(map, name, () => {
          const fill = filler(name, chargeFields, values, conditions);
          const { window } = car.pack;
          const from = fill.derived('from', () => window.low);
          const to = fill.derived('to', () => window.high);
          if (from >= to) throw fill.error('to', 'is not above from');
          const supply = completeSupply(`${name}.supply`, spec.supply ?? {}, conditions);
          const temperature = fill.number('temperature');
          const packTemperature = fill.derived('packTemperature', () => temperature);
          run = { kind: 'charge', temperature, supply, ...writtenNumbers(values, ['from', 'to', 'packTemperature']) };
          return chargeOf(car, {
            from,
            to,
            supply,
            temperature,
            packTemperature,
            ...(spec.consumption !== undefined && {
              consumption: {
                energy: fill.number('consumption'),
                at: fill.choice('consumptionAt') === 'pack' ? 'pack' : 'wall',
              },
            }),
            ...(spec.price !== undefined && { price: fill.number('price') }),
          });
        });
        const question = run && questionOf(spec.car, name, run, world);
        return resultYield(result, [...behind, ...inputs, ...conditions], world.system, question);
      },
    };
  },
};
