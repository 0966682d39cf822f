import { describe, expect, it } from 'vitest';
import { completeSupply } from '../../../src/model/pack/complete-supply.ts';
import type { Input } from '../../../src/model/fields/input.ts';
import { pilotCurrent, wallLimit } from '../../../src/model/pack/supply.ts';

const charger = { power: 3680, count: 1, efficiency: 0.9, idleShare: 0, usualPower: 3680, overhead: 0 };
const box = { voltage: 230, current: 32, phases: 3 };

describe('the control pilot', () => {
  // IEC 61851-1 Annex A, from memory; the whole list of what it allows is in tests/published.
  it.each([
    [0.08, 6],
    [0.2667, 16.002],
    [0.16, 9.6],
    [0.97, 80],
  ])('of %d allows %d A', (duty, current) => expect(pilotCurrent(duty)).toBeCloseTo(current, 9));

  it.each([0, 0.02, 0.03, 0.05, 0.07, 0.0799, 0.971, 1, Number.NaN])('of %d allows none by itself', duty =>
    expect(pilotCurrent(duty)).toBeNull(),
  );

  it('has a step of 1.5 A at 85 %, as the standard has it: 0.6 x 85 = 51 A, 2.5 x (85 - 64) = 52.5 A', () => {
    expect(pilotCurrent(0.85)).toBe(51);
    expect(pilotCurrent(0.850001)).toBeCloseTo(52.5, 3);
  });
});

describe('chargers on a supply', () => {
  it.each([
    // 3.68 kW at 230 V is 16 A.
    [1, [16, 0, 0], 'charger'],
    [2, [16, 16, 0], 'charger'],
    [3, [16, 16, 16], 'charger'],
    [4, [32, 16, 16], 'charger'],
    [7, [32, 32, 32], 'supply'],
  ] as const)('%i of them spread over three phases', (count, currents, by) => {
    const limit = wallLimit(box, { ...charger, count });
    expect(limit.currents).toEqual(currents);
    expect(limit.by).toBe(by);
    expect(limit.power).toBe(230 * currents.reduce<number>((a, b) => a + b, 0));
  });

  it('share the phase that they are on', () => {
    expect(wallLimit({ ...box, phases: 1 }, { ...charger, count: 3 })).toEqual({
      power: 230 * 32,
      currents: [32],
      by: 'supply',
    });
  });

  it('are whole, and so are phases', () => {
    expect(() => wallLimit({ ...box, phases: 1.5 }, charger)).toThrow('`phases` must be 1, 2 or 3, found 1.5');
    expect(() => wallLimit(box, { ...charger, count: 0 })).toThrow('`count` must be 1 or more, found 0');
  });
});

describe('what is said about a supply', () => {
  it('may be nothing: a household socket', () => {
    const inputs: Input[] = [];
    expect(completeSupply('night.supply', {}, inputs)).toEqual({ voltage: 230, current: 10, phases: 1 });
    expect(inputs.map(({ path }) => path).toSorted()).toEqual([
      'night.supply.current',
      'night.supply.phases',
      'night.supply.voltage',
    ]);
  });

  it('may be a pilot, alone or below a current', () => {
    expect(completeSupply('s', { pilot: 0.5 }, []).current).toBe(30);
    expect(completeSupply('s', { pilot: 0.5, current: 16 }, []).current).toBe(16);
    expect(completeSupply('s', { pilot: 0.1, current: 16 }, []).current).toBe(6);
  });

  it('is refused where the pilot allows nothing', () => {
    expect(() => completeSupply('s', { pilot: 0.05 }, [])).toThrow('allows no charging by itself');
    expect(() => completeSupply('s', { phases: 2.5 }, [])).toThrow('2.5 is not a whole number');
  });

  it('is asked for between phase and neutral: 400 V on three phases is 231 V to neutral (IEC 60038: 230/400 V)', () => {
    const wrong = (): unknown => completeSupply('s', { phases: 3, current: 32, voltage: 400 }, []);
    expect(wrong).toThrow('400 V with 3 phases is between two of them');
    expect(wrong).toThrow(
      expect.objectContaining({ path: 's.voltage', expected: expect.stringContaining('here 231 V') as string }),
    );
    expect(completeSupply('s', { phases: 3, current: 32, voltage: 277 }, []).voltage).toBe(277);
    // Split phase: 240 V and more is between lines there.
    expect(completeSupply('s', { voltage: 400 }, []).voltage).toBe(400);
  });
});
