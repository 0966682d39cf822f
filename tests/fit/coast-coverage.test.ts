/**
 * Logs of a car that is known: how often its terms lie in the interval of the fit. `AXLEWATT_REPEATS=1000 npx vitest run tests/fit/coast-coverage`
 * takes some minutes and wants 93 to 97 %; as a test it is a few repeats with the slack of a binomial count. The rows ten times a second
 * alone: `-t "ten times"` beside it, in pieces by `AXLEWATT_FROM=251 AXLEWATT_REPEATS=250`, whose hits it prints.
 */
import { describe, expect, it } from 'vitest';
import { item, nth } from '../../src/columns.ts';
import { type CoastDown, coastDown, forceAt } from '../../src/fit/coast/coast-down.ts';
import { propagated } from '../../src/studies/sampling/joint.ts';
import { CALM, type Day, measuredOn } from './coast-logs.ts';

const REPEATS = Number(process.env['AXLEWATT_REPEATS'] ?? 25);
const FROM = Number(process.env['AXLEWATT_FROM'] ?? 1);
/** Whether somebody counts, and not a test. */
const LONG = REPEATS > 25;

interface Counted {
  readonly share: readonly number[];
  /** Mean standard uncertainty of the force at 72 km/h, N. */
  readonly standard: number;
}

/** Of F0, F1, F2 and the forces at 36, 72 and 108 km/h. */
function covered(day: Day, repeats: number): Counted {
  const hits = [0, 0, 0, 0, 0, 0];
  let [answers, standard] = [0, 0];
  for (let seed = FROM; seed < FROM + repeats; seed++) {
    const found = coastDown(measuredOn(day, seed));
    if ('short' in found) continue;
    answers++;
    const inside = [...[0, 1, 2].map(k => termHit(found, day, k)), ...[10, 20, 30].map(v => forceHit(found, day, v))];
    for (const [k, hit] of inside.entries()) hits[k] = (hits[k] ?? 0) + (hit ? 1 : 0);
    standard += propagated([1, 20, 400], found.dayCovariance);
  }
  return { share: hits.map(each => each / answers), standard: standard / answers };
}

const hit = (off: number, standard: number): boolean => Math.abs(off) <= 1.959963984540054 * standard;

function termHit({ day, dayCovariance }: CoastDown, { terms }: Day, k: number): boolean {
  return hit(nth(day, k) - nth(terms, k), Math.sqrt(nth(item(dayCovariance, k), k)));
}

function forceHit({ day, dayCovariance }: CoastDown, { terms }: Day, v: number): boolean {
  return hit(forceAt(day, v) - forceAt(terms, v), propagated([1, v, v * v], dayCovariance));
}

/** Least share of hits: 93 %, or what 95 % leave over in 9,999 of 10,000 such counts. */
const least = REPEATS >= 1000 ? 0.93 : 0.95 - 3.7 * Math.sqrt((0.95 * 0.05) / REPEATS);
const most = REPEATS >= 1000 ? 0.97 : 1;

describe('the interval of a coast-down', () => {
  const days: readonly (readonly [string, Day])[] = [
    ['rows ten times a second', { ...CALM, rate: LONG ? 10 : 2 }],
    ['rows once a second', { ...CALM, rate: 1, noise: 0.1 }],
    ['four pairs on a windy day', { ...CALM, rate: 1, noise: 0.1, wind: 3, windScatter: 1, gusts: 0.8, pairs: 4 }],
  ];
  it.each(days)(
    'holds the truth as often as it says: %s',
    (name, day) => {
      const { share } = covered(day, REPEATS);
      if (LONG) console.log(name, REPEATS, share.map(each => (REPEATS * each).toFixed(0)).join(' '));
      for (const each of share) {
        expect(each).toBeGreaterThanOrEqual(least);
        expect(each).toBeLessThanOrEqual(most);
      }
    },
    3_600_000,
  );

  it('widens with noise, gusts and fewer runs', () => {
    const count = 8;
    const calm = { ...CALM, rate: 1, noise: 0.1 };
    const { standard } = covered(calm, count);
    expect(covered({ ...calm, gusts: 1.5, windScatter: 1.5 }, count).standard).toBeGreaterThan(1.5 * standard);
    expect(covered({ ...calm, pairs: 3 }, count).standard).toBeGreaterThan(1.3 * standard);
    expect(covered({ ...calm, warmth: 0.1 }, count).standard).toBeGreaterThan(1.3 * standard);
  });
});
