/** What may be said of a launch. */
import type { Fields } from '../../model/fields/field.ts';
import { assume, KMH, number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';
import { soakedField } from '../soaked.ts';

export const launchFields = {
  to: number('m/s', KMH, [0.1, 150], 'the speed that the value `time` is for', assume(100 / 3.6, 'the usual question')),
  from: number('m/s', KMH, [0, 150], 'speed at the start', assume(0, 'from rest')),
  pedal: number('1', '%', [0.01, 1], 'share of the peak torque that the driver asks for', assume(1, 'full pedal')),
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;
