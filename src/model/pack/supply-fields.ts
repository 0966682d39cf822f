/** What is said about a supply on the wall. */
import type { Fields } from '../fields/field.ts';
import { assume, number } from '../fields/table.ts';

/** An outlet, a wall box, a charging post with alternating current. */
export const supplyFields = {
  voltage: number('V', 'V', [90, 480], 'at one charger: phase to neutral, or line to line of a split-phase supply', {
    ...assume(230, 'IEC 60038: 230 V phase to neutral'),
  }),
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
} as const satisfies Fields;
