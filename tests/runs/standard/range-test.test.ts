import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { distanceOf } from '../../../src/cycles/statistics.ts';
import type { Result } from '../../../src/runs/result.ts';
import { STANDARD_TESTS, standardTest } from '../../../src/runs/standard/range-test.ts';
import { testCar, withPackHeat } from '../../cars.ts';

const car = withPackHeat(testCar);
const results = Object.fromEntries(
  STANDARD_TESTS.map((test): [string, Result] => [test, standardTest(car, test)]),
) as Record<(typeof STANDARD_TESTS)[number], Result>;
const of = (result: Result, key: string): number => {
  const value = result.summary[key];
  if (typeof value !== 'number') throw new Error(`${key} is ${value}: ${result.reasons[key]}`);
  return value;
};
const column = (result: Result, key: string): readonly number[] =>
  Array.from(result.series['cycles']![key]!.values as Float64Array);

describe('a standard range test', () => {
  it('by UN GTR 15 is the usable energy over the weighted consumption of the whole cycles', () => {
    const { wltp } = results;
    const distance = distanceOf(scheduleNamed('wltc'));
    const energies = column(wltp, 'energy_J');
    for (const way of column(wltp, 'distance_m')) expect(way).toBeCloseTo(distance, 3);
    // By hand, from the energies of the cycles alone.
    const first = energies[0]! / of(wltp, 'usable_energy');
    const rest = (1 - first) / (energies.length - 1);
    const consumption = energies.reduce((sum, energy, i) => sum + ((i === 0 ? first : rest) * energy) / distance, 0);
    expect(of(wltp, 'first_share')).toBeCloseTo(first, 12);
    expect(of(wltp, 'range')).toBeCloseTo(of(wltp, 'usable_energy') / consumption, 3);
    expect(of(wltp, 'sticker_range')).toBe(of(wltp, 'range'));
    expect(of(wltp, 'cycles')).toBe(energies.length);
    expect(wltp.reasons['range_city']).toContain('no UDDS');
    // What is driven and what is reckoned part by the unfinished last cycle alone.
    expect(Math.abs(of(wltp, 'range') - of(wltp, 'distance'))).toBeLessThan(0.05 * of(wltp, 'distance'));
  });

  it('of one US cycle is the way that was driven, and 0.7 of it on a sticker', () => {
    for (const test of ['udds', 'hwfet'] as const) {
      const result = results[test];
      expect(of(result, 'range')).toBeCloseTo(of(result, 'distance'), 6);
      expect(of(result, 'sticker_range')).toBeCloseTo(0.7 * of(result, 'range'), 6);
      expect(of(result, 'sticker_consumption')).toBeCloseTo(of(result, 'consumption_wall') / 0.7, 6);
      expect(of(result, 'consumption_wall')).toBeCloseTo(of(result, 'wall_energy') / of(result, 'distance'), 9);
    }
    expect(of(results.udds, 'range_city')).toBe(of(results.udds, 'range'));
    expect(results.udds.summary['range_highway']).toBeNull();
    expect(of(results.hwfet, 'range_highway')).toBe(of(results.hwfet, 'range'));
  });

  it('says what it does not tell, and why', () => {
    const why = (test: keyof typeof results): Result['reasons'] => results[test].reasons;
    for (const key of ['range_city', 'consumption_city'] as const) {
      for (const test of ['wltp', 'hwfet'] as const)
        expect([test, why(test)[key]]).toEqual([test, 'this test has no UDDS']);
      for (const test of ['udds', 'mct'] as const) expect(of(results[test], key)).toBeGreaterThan(0);
    }
    for (const key of ['range_highway', 'consumption_highway'] as const) {
      for (const test of ['wltp', 'udds'] as const)
        expect([test, why(test)[key]]).toEqual([test, 'this test has no HWFET']);
      for (const test of ['hwfet', 'mct'] as const) expect(of(results[test], key)).toBeGreaterThan(0);
    }
    for (const test of ['wltp', 'udds', 'hwfet'] as const) {
      expect([test, why(test)['steady_share']]).toEqual([test, 'nothing in this test is driven at a steady speed']);
    }
    expect(of(results.mct, 'steady_share')).toBeGreaterThan(0);
  });

  it('of many cycles has four UDDS, two HWFET and a short constant speed at the end', () => {
    const { mct } = results;
    const names = mct.series['cycles']!['cycle']!.values;
    expect(names).toEqual(['UDDS 1', 'HWFET 1', 'UDDS 2', 'UDDS 3', 'HWFET 2', 'UDDS 4']);
    const weights = column(mct, 'weight_1');
    expect(weights[1]).toBe(0.5);
    expect(weights[4]).toBe(0.5);
    expect(weights[0]! + weights[2]! + weights[3]! + weights[5]!).toBeCloseTo(1, 12);
    const cycles = column(mct, 'distance_m').reduce((sum, way) => sum + way, 0);
    expect(of(mct, 'steady_share')).toBeCloseTo(1 - cycles / of(mct, 'distance'), 6);
    // By hand: 55 to 45 on the consumptions, and on the ranges (from memory).
    const [city, highway] = [of(mct, 'consumption_city'), of(mct, 'consumption_highway')];
    expect(of(mct, 'consumption_wall')).toBeCloseTo(0.55 * city + 0.45 * highway, 9);
    expect(of(mct, 'range')).toBeCloseTo(0.55 * of(mct, 'range_city') + 0.45 * of(mct, 'range_highway'), 6);
    expect(of(mct, 'range_city')).toBeCloseTo(of(mct, 'wall_energy') / city, 3);
    // 33.705 kWh for a gallon, a mile of 1609.344 m.
    expect(of(mct, 'mpg_equivalent')).toBeCloseTo(121_338_000 / (of(mct, 'consumption_wall') * 1609.344), 9);
  });

  it('agrees with that of one cycle within what the first, cold one is worth', () => {
    expect(of(results.mct, 'range_city') / of(results.udds, 'range')).toBeCloseTo(1, 1);
    expect(of(results.mct, 'range_highway') / of(results.hwfet, 'range')).toBeCloseTo(1, 1);
  });

  it.each(STANDARD_TESTS)('%s closes its ledger and is agreed with', test => {
    expect(Math.abs(results[test].ledger.gap)).toBeLessThan(1e-6);
    expect(results[test].opinion?.agrees).toBe(true);
  });

  it('heats nothing', () => {
    const heated = { ...car, cabin: { ...car.cabin, heater: 'resistive' as const, loss: 100, heaterPower: 5000 } };
    expect(of(standardTest(heated, 'udds'), 'range')).toBe(of(results.udds, 'range'));
  });

  it('of a pack too small for it is none, with the reason', () => {
    const small = { ...car, pack: { ...car.pack, parallel: 2 } };
    const many = standardTest(small, 'mct');
    expect(many.summary['range']).toBeNull();
    expect(many.reasons['range']).toMatch(/^the pack is empty before the 81 km of cycles/);
    const tiny = { ...car, pack: { ...car.pack, parallel: 1, window: { low: 0.05, high: 0.3 } } };
    expect(standardTest(tiny, 'wltp').reasons['range']).toBe('the pack does not last for one cycle');
  });
});
