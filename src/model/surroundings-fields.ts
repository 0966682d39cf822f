/** What a user says about where and when. */
import type { Fields } from './fields/field.ts';
import { assume, COMMON, KMH, number } from './fields/table.ts';
import type { SpecOf } from './fields/table.ts';

/** Where and when. */
export const surroundingsFields = {
  temperature: number('K', ['degC', 'degF'], [223.15, 333.15], 'of the air', {
    ...assume(293.15, 'the temperature that SAE J2452 and ISO 28580 work around (20 to 28 °C)'),
  }),
  altitude: number('m', ['m', 'ft'], [-450, 6000], 'above sea level', assume(0, 'sea level')),
  humidity: number('1', '%', [0, 1], 'relative humidity', assume(0.5, COMMON)),
  wind: number('m/s', KMH, [-40, 40], 'along the road, positive from the front', assume(0, 'no wind')),
  slope: number('1', '%', [-0.6, 0.6], 'rise over run of the road', assume(0, 'level road')),
  surface: {
    kind: 'choice',
    choices: ['dry', 'wet', 'snow', 'ice'],
    doc: 'of the road; snow is packed hard, ice is smooth',
    default: { value: 'dry', source: 'a dry road' },
  },
} as const satisfies Fields;

export type SurroundingsSpec = SpecOf<typeof surroundingsFields>;
