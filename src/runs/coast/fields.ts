/** What may be said of a coast-down. */
import type { Fields } from '../../model/fields/field.ts';
import { assume, KMH, number, ordered } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';
import { soakedField } from '../soaked.ts';

const TEST = 'the span of the reference speeds of UN GTR 15 (from memory)';

export const coastFields = {
  from: number('m/s', KMH, [0.5, 150], 'speed at which the foot comes off the pedal', assume(120 / 3.6, TEST)),
  to: number('m/s', KMH, [0, 149], 'speed at which the clock is stopped', {
    ...assume(20 / 3.6, TEST),
    ...ordered('from'),
  }),
  in: {
    kind: 'choice',
    choices: ['neutral', 'gear'],
    doc:
      'neutral: the drive gives no torque and takes none; a kept gearbox is out of gear, a drive of one ratio turns along. ' +
      'gear: the drive brakes with its regeneration',
    default: { value: 'neutral', source: 'as a coast-down is measured' },
  },
  lift: number(
    '1',
    '%',
    [0, 1],
    'for in: gear, share of the torque and power of the regeneration that lifting the foot asks for',
    {
      ...assume(1, 'all of it, the most that can come back; common practice, no source'),
    },
  ),
  gear: number('1', '1', [1, 6], 'for in: gear and a kept gearbox, the gear that is left in', {
    derived: 'the highest one',
    whole: true,
  }),
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;
