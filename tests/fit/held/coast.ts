/** Coast-downs of a car that is known, in calm and in wind. */
import { nth } from '../../../src/columns.ts';
import { coastDown } from '../../../src/fit/coast/coast-down.ts';
import { CALM, type Day, measuredOn } from '../coast-logs.ts';
import { type Counting, holdsAll } from './counting.ts';

const AT = [10, 20, 30];
const WEIGHTS = [[1, 0, 0], [0, 1, 0], [0, 0, 1], ...AT.map(v => [1, v, v * v])];

function coasting(name: string, day: Day): Counting {
  return {
    name,
    figures: ['F0', 'F1', 'F2', ...AT.map(v => `force at ${3.6 * v} km/h`)],
    repeats: 1000,
    hits: seed => {
      const found = coastDown(measuredOn(day, seed));
      if ('short' in found) return null;
      const off = found.day.map((term, k) => term - nth(day.terms, k));
      return holdsAll(off, found.daySpread, WEIGHTS);
    },
  };
}

export const CALM_ONCE: Day = { ...CALM, rate: 1, noise: 0.1 };

export const coastCountings: readonly Counting[] = [
  coasting('coast, 10 rows a second', CALM),
  coasting('coast, 1 row a second', CALM_ONCE),
  coasting('coast, a windy day', { ...CALM_ONCE, wind: 3, windScatter: 1, gusts: 0.8, pairs: 4 }),
];
