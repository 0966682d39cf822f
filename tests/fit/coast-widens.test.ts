/** Worse days, fewer runs and a poorer receiver widen the interval of a coast-down; how often it holds the truth is counted in `held/`. */
import { expect, it } from 'vitest';
import { coastDown } from '../../src/fit/coast/coast-down.ts';
import { propagated } from '../../src/studies/sampling/joint.ts';
import { type Day, measuredOn } from './coast-logs.ts';
import { CALM_ONCE } from './held/coast.ts';

/** Mean standard uncertainty of the force at 72 km/h over eight such days, N. */
function standardOn(day: Day): number {
  const found = [1, 2, 3, 4, 5, 6, 7, 8].flatMap(seed => {
    const each = coastDown(measuredOn(day, seed));
    return 'short' in each ? [] : [propagated([1, 20, 400], each.dayCovariance)];
  });
  return found.reduce((all, each) => all + each, 0) / found.length;
}

it.each([
  ['gusts', { ...CALM_ONCE, gusts: 1.5, windScatter: 1.5 }, 1.5],
  ['fewer pairs', { ...CALM_ONCE, pairs: 3 }, 1.3],
  ['tyres that warm up', { ...CALM_ONCE, warmth: 0.1 }, 1.3],
])('the interval of a coast-down widens with %s', (_, day, times) => {
  expect(standardOn(day)).toBeGreaterThan(times * standardOn(CALM_ONCE));
});
