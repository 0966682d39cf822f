/** What may be said of a performance sheet. */
import type { Fields } from '../../model/fields/field.ts';
import { number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';
import { soakedField } from '../soaked.ts';

const { slope: _slope, ...level } = surroundingsFields;

export const sheetFields = {
  grossMass: number('kg', ['kg', 'lb'], [50, 30_000], 'of the fully loaded car, for the tests that are done at it', {
    derived: 'nothing is told at gross mass',
  }),
  grossFrontShare: number('1', '%', [0.05, 0.95], 'share of the weight on the front axle then', {
    derived: 'as in the car',
    computed: true,
  }),
  ...soakedField,
  ...level,
} as const satisfies Fields;
