/** Fields that the cells which drive far have in common. */
import type { Fields } from '../../model/fields/field.ts';
import { assume, number } from '../../model/fields/table.ts';

export const carField = {
  car: { kind: 'reference', to: ['car'], doc: 'the car', required: true },
} as const satisfies Fields;

/** How the car stands at the start. */
export const soakedField = {
  soaked: number('K', ['degC', 'degF'], [223.15, 343.15], 'of pack and drive unit at the start', {
    derived: 'that of the air: the car has stood in it for long',
  }),
} as const satisfies Fields;

/** From how full to how empty. */
export const depletionFields = {
  charge: number('1', '%', [0.001, 1], 'state of charge at the start', {
    derived: 'the high end of the window of the pack',
    computed: true,
  }),
  reserve: number('1', '%', [0, 0.95], 'of the window of the pack, kept for the way home', {
    ...assume(0, 'the car is driven until it stops giving power'),
  }),
} as const satisfies Fields;
