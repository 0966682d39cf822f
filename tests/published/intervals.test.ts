import { describe, expect, it } from 'vitest';
import type { Spread } from '../../src/model/fields/input.ts';
import { coverageFigures, intervalOf } from './intervals.ts';
import type { UncertainCar } from './intervals.ts';
import { publishedTimes } from './predicted-times.ts';
import { specOfRecord } from './records.ts';

const record = publishedTimes.find(({ record: { drive } }) => drive === 'all')!.record;
const flat: Spread = { kind: 'rectangular', low: 0, high: 1 };
const launch = { run: { kind: 'launch', values: {} }, key: 'time_to_100_km_h' } as const;

describe('an interval', () => {
  const certain: UncertainCar = { rules: [], specOf: () => specOfRecord(record) };

  it('is that of what is drawn: 5 to 95 % of a rectangle', () => {
    const { low, median, high } = intervalOf(certain, { ...launch, noise: [flat], printed: (_, [x]) => x! }, 1);
    expect(low).toBeCloseTo(0.05, 1);
    expect(median).toBeCloseTo(0.5, 1);
    expect(high).toBeCloseTo(0.95, 1);
  });

  it('draws the defaults anew, and the rules with them', () => {
    const narrow = intervalOf(certain, launch, 1, 64);
    const rules = [{ value: 1, spread: { kind: 'rectangular', low: 0.7, high: 1.3 } }] as const;
    const specOf = ([p = 1]: readonly number[]) => specOfRecord({ ...record, peakPower: p * record.peakPower });
    const wide = intervalOf({ rules, specOf }, launch, 1, 64);
    expect(narrow.high - narrow.low).toBeGreaterThan(0.02 * narrow.median);
    expect(wide.high - wide.low).toBeGreaterThan(2 * (narrow.high - narrow.low));
  });

  it('counts the published figures outside', () => {
    const car = { low: 8, median: 10, high: 12 };
    const cars = [7.9, 8.1, 11.9, 12.1, 13].map((published, i) => ({ ...car, record: i, published }));
    expect(coverageFigures(cars)).toEqual({ share: 0.4, below: 1, above: 2, halfWidth: 0.2 });
  });
});
