/** What may be said of a charge. */
import type { Fields } from '../../model/fields/field.ts';
import { number } from '../../model/fields/table.ts';
import { supplyFields } from '../../model/pack/supply-fields.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';

export const chargeFields = {
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
  consumption: number('J/m', ['Wh/km', 'Wh/mi'], [36, 36_000], 'what the car uses, such as = week.consumption_wall', {
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
