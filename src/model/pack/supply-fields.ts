/** What is said about a supply on the wall. */
import type { Fields } from '../fields/field.ts';
import { assume, number } from '../fields/table.ts';

/** An outlet, a wall box, a charging post with alternating current; or a station of direct current. */
export const supplyFields = {
  voltage: number(
    'V',
    'V',
    [90, 480],
    'at one charger: phase to neutral, also with three phases (230 V where the sign says 400 V), or line to line of a split-phase supply',
    {
      ...assume(230, 'IEC 60038: 230 V phase to neutral'),
    },
  ),
  current: number('A', 'A', [1, 400], 'that the car may draw from each phase for hours', {
    derived:
      'what the control pilot allows; without a pilot 10 A, what a household socket bears for hours (common practice, no source)',
  }),
  phases: number('1', '1', [1, 3], 'phases; every charger is on one of them', {
    ...assume(1, 'a single-phase outlet'),
    whole: true,
  }),
  pilot: number('1', '%', [0, 1], 'duty cycle of the control pilot (IEC 61851-1, SAE J1772)', {
    derived: 'no pilot: the current counts alone',
  }),
  dcPower: number('W', 'kW', [1000, 1e6], 'of a station that charges with direct current, past the chargers on board', {
    derived: 'alternating current, through the chargers on board',
  }),
  dcCurrent: number('A', 'A', [1, 2000], 'that the station gives at most, and its cable and inlet bear', {
    derived: 'what its power gives',
  }),
  dcLeastVoltage: number('V', 'V', [1, 1500], 'voltage of the pack from which on the station charges', {
    ...assume(150, 'usual stations begin at 150 to 200 V (from memory)'),
  }),
  dcGreatestVoltage: number('V', 'V', [10, 2000], 'voltage of the pack up to which the station charges', {
    derived: 'not checked: the highest of the pack counts',
  }),
} as const satisfies Fields;
