import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  classed,
  equivalentRange,
  equivalentTorque,
  rainflow,
  turningPoints,
} from '../../../src/model/duty/rainflow.ts';

describe('rainflow counting', () => {
  // The example of ASTM E1049 for 5.4.4, from memory.
  it('counts the example of ASTM E1049', () => {
    const cycles = rainflow(turningPoints([-2, 1, -3, 5, -1, 3, -4, 4, -2]));
    const counts = new Map<number, number>();
    for (const { range, count } of cycles) counts.set(range, (counts.get(range) ?? 0) + count);
    expect([...counts].toSorted((a, b) => a[0] - b[0])).toEqual([
      [3, 0.5],
      [4, 1.5],
      [6, 0.5],
      [8, 1],
      [9, 0.5],
    ]);
    expect(cycles.find(({ count }) => count === 1)).toEqual({ range: 4, mean: 1, count: 1 });
  });

  it('keeps peaks and valleys only', () => {
    expect(turningPoints([0, 1, 2, 2, 1, 1, 3])).toEqual([0, 2, 1, 3]);
    expect(turningPoints([])).toEqual([]);
    expect(rainflow(turningPoints([5, 5, 5]))).toEqual([]);
  });

  it('counts every rise and fall once: the ranges add up to the way up and down', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { maxLength: 40 }), values => {
        const way = values.reduce((sum, value, i) => sum + (i === 0 ? 0 : Math.abs(value - (values[i - 1] ?? 0))), 0);
        const counted = rainflow(turningPoints(values)).reduce((sum, { range, count }) => sum + 2 * count * range, 0);
        expect(counted).toBeCloseTo(way, 9);
      }),
    );
  });

  it('puts every cycle into one class', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 3, maxLength: 40 }), values => {
        const cycles = rainflow(turningPoints(values));
        const total = (list: readonly { readonly count: number }[]): number =>
          list.reduce((sum, { count }) => sum + count, 0);
        expect(total(classed(cycles, 10))).toBeCloseTo(total(cycles), 9);
      }),
    );
  });

  it('makes one range of many by the rule of Miner', () => {
    const cycles = [{ range: 100, mean: 0, count: 8 }];
    expect(equivalentRange(cycles, 3, 1)).toBeCloseTo(200, 12);
    expect(equivalentRange(cycles, 3, 8)).toBeCloseTo(400, 12);
    expect(equivalentRange([...cycles, { range: 200, mean: 0, count: 1 }], 3, 1)).toBeCloseTo(200 * 2 ** (1 / 3), 12);
    expect(equivalentRange([], 3, 1)).toBe(0);
  });

  it('weighs the torque of gears by their turns, each flank by itself', () => {
    const torque = {
      length: Float64Array.of(1, 1, 1),
      from: Float64Array.of(100, 200, -50),
      to: Float64Array.of(100, 200, -50),
    };
    const turning = { torque, turns: Float64Array.of(7, 1, 4) };
    const drive = equivalentTorque(turning, 3, 1);
    expect(drive.turns).toBe(8);
    expect(drive.torque).toBeCloseTo(((7 * 100 ** 3 + 200 ** 3) / 8) ** (1 / 3), 9);
    expect(equivalentTorque(turning, 3, -1)).toEqual({ torque: 50, turns: 4 });
  });
});
