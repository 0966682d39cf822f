/** What may be said of the runs that go far, besides what is driven. */
import type { Fields } from '../../model/fields/field.ts';
import { assume, KMH, number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';
import { soakedField } from '../soaked.ts';

/** From how full to how empty. */
const depletionFields = {
  charge: number('1', '%', [0.001, 1], 'state of charge at the start', {
    derived: 'the high end of the window of the pack',
    computed: true,
  }),
  reserve: number('1', '%', [0, 0.95], 'of the window of the pack, kept for the way home', {
    ...assume(0, 'the car is driven until it stops giving power'),
  }),
} as const satisfies Fields;

export const driveFields = {
  charge: number('1', '%', [0.001, 1], 'state of charge at the start', { derived: 'that of the car', computed: true }),
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

export const rangeFields = {
  ...depletionFields,
  temperatures: {
    kind: 'numbers',
    unit: 'K',
    display: { metric: 'degC', imperial: 'degF' },
    min: 223.15,
    max: 333.15,
    doc: 'of the air, ascending, for the curve of range over temperature; -20 to 40 degC every 10 K if left out',
  },
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

export const steadyFields = {
  speed: number('m/s', KMH, [0.1, 90], 'the speed that is asked about', assume(100 / 3.6, 'the usual question')),
  speeds: {
    kind: 'numbers',
    unit: 'm/s',
    display: { metric: 'km/h', imperial: 'mph' },
    min: 0.1,
    max: 90,
    doc: 'of the curve, ascending; 10 to 150 km/h every 10 km/h if left out',
  },
  ...depletionFields,
  ...surroundingsFields,
} as const satisfies Fields;
