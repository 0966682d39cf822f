/** What a user says about a trailer. */
import type { Fields } from '../fields/field.ts';
import { assume, COMMON, KG, number, usually } from '../fields/table.ts';

const METRES = ['m', 'in'] as const;

export const trailerFields = {
  mass: number('kg', KG, [10, 10_000], 'of the trailer with what is on it', { required: true, ...usually(100, 3500) }),
  hitchLoad: number('kg', KG, [0, 1000], 'of it that rests on the hitch, on a level road', {
    derived: '6 % of its mass, 4 to 8 % (makers of trailers ask for 4 % and more; common practice, no source)',
    ...usually(0, 150),
  }),
  hitchHeight: number('m', METRES, [0.1, 1.2], 'height of the hitch above the road', {
    ...assume(0.385, 'ISO 1103: centre of the ball 350 to 420 mm, the car loaded (from memory)', [0.35, 0.42]),
  }),
  overhang: number('m', METRES, [0, 3], 'from the rear axle back to the hitch', {
    ...assume(0.85, COMMON, [0.7, 1]),
    ...usually(0.4, 1.5),
  }),
  dragArea: number('m^2', ['m^2', 'ft^2'], [0, 15], 'drag coefficient times frontal area that it adds behind the car', {
    ...assume(0.5, 'a low open trailer; a caravan 1.5 to 2.5; common practice, no source', [0.3, 0.7]),
  }),
  rollingResistance: number(
    '1',
    '1',
    [0, 0.1],
    'rolling resistance coefficient of its wheels at 25 °C, hubs included',
    {
      ...assume(0.015, 'small wheels with greased hubs; common practice, no source', [0.012, 0.018]),
      ...usually(0.006, 0.04),
    },
  ),
} as const satisfies Fields;
