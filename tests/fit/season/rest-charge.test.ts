/** The state of charge at rest: closed forms for a curve that is a straight line, and what a flat one does not tell. */
import { describe, expect, it } from 'vitest';
import { chargeAtRest } from '../../../src/fit/season/rest-charge.ts';
import { packCar } from '../pack-logs.ts';

describe('the state of charge of a cell at rest', () => {
  const { cell } = packCar().pack;
  const straight = { ...cell, ocv: { charge: [0, 1], voltage: [3, 4.25] } };
  const told = (value: number, standard: number) => {
    const found = chargeAtRest(straight, { value, standard }, 0.005);
    if ('short' in found) throw new Error(found.short.what);
    return found;
  };

  it('is that of a straight line, with what voltmeter and curve may be off over its slope (by hand)', () => {
    const { value, standard } = told(3.5, 0.012);
    expect(value).toBeCloseTo(0.4, 12);
    // hypot(12 mV, 5 mV) = 13 mV over 1.25 V.
    expect(standard).toBeCloseTo(0.0104, 12);
  });

  it('goes by the side that says something at either end', () => {
    expect(told(4.25, 0.012).standard).toBeCloseTo(0.0104, 12);
    expect(told(3.002, 0.012).standard).toBeCloseTo(0.0104, 12);
  });

  it.each([
    ['above that of a full cell', 4.4, /4\.400 V a cell at rest is above the 4\.250 V of a full one/u],
    ['below that of an empty cell', 2.8, /below the 3\.000 V of an empty one/u],
  ])('is none for a voltage %s', (_, value, wanted) => {
    const found = chargeAtRest(straight, { value, standard: 0.012 }, 0.005);
    expect('short' in found ? found.short.what : '').toMatch(wanted);
  });

  it('is not told where the curve is flat, and is near its ends', () => {
    const flat = packCar('cell_lfp_100ah').pack.cell;
    const at = (charge: number): number => {
      const k = flat.ocv.charge.findIndex(each => each >= charge);
      return flat.ocv.voltage[k] ?? 0;
    };
    const middle = chargeAtRest(flat, { value: at(0.2), standard: 0.002 * at(0.2) }, 0.015);
    expect('short' in middle ? middle.short.what : '').toContain('hardly changes with it');
    expect('short' in chargeAtRest(flat, { value: at(0), standard: 0.006 }, 0.015)).toBe(false);
  });
});
