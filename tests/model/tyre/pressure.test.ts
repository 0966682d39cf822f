/** Rolling resistance over pressure, and roads of snow and ice. */
import { expect, it } from 'vitest';
import { completeTyre } from '../../../src/model/tyre/complete.ts';

it('falls with the pressure to the power of 0.4: SAE J2452 (from memory)', () => {
  const rolling = (pressure: number): number => completeTyre('', { radius: 0.3, pressure }, []).rolling.c0;
  expect(rolling(180e3) / rolling(210e3)).toBeCloseTo((180 / 210) ** -0.4, 12);
  expect(rolling(180e3) / rolling(210e3)).toBeCloseTo(1.0636, 4);
  expect(rolling(210e3)).toBe(completeTyre('', { radius: 0.3 }, []).rolling.c0);
});

it('has the friction of packed snow and of ice: 0.2 and 0.15, 0.1 and 0.07, Wong, Theory of Ground Vehicles (from memory)', () => {
  const { snow, ice } = completeTyre('', { radius: 0.3 }, []);
  expect([snow?.peak, snow?.slide, ice?.peak, ice?.slide].map(each => Number(each?.toFixed(12)))).toEqual([
    0.2, 0.15, 0.1, 0.07,
  ]);
});
