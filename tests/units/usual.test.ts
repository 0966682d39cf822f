/** The sizes beside the parser of units say what the parser says. */
import { describe, expect, it } from 'vitest';
import { formatQuantity, sameDimension, toDisplay } from '../../src/units.ts';
import { toUsual, usualQuantity } from '../../src/units/usual.ts';
import { usualUnits } from '../docs/usual-sizes.ts';

const units = usualUnits();
const pairs = units.flatMap(unit =>
  units.filter(other => sameDimension(unit, other)).map(other => [unit, other] as const),
);

describe('units of fields and results', () => {
  it('have the size that the parser of units gives them, to the last bit', () => {
    expect(pairs.length).toBeGreaterThan(units.length);
    for (const [unit, display] of pairs) {
      for (const value of [0, 1, -40, 273.15, 12345.678])
        expect(toUsual(value, unit, display), `${unit} as ${display}`).toBe(toDisplay(value, unit, display));
    }
  });

  it('are written as they are elsewhere', () => {
    const spread = { kind: 'normal', standard: 1.5 } as const;
    expect(usualQuantity(293.15, 'K', 'degC', { spread })).toBe(formatQuantity(293.15, 'K', 'degC', { spread }));
    expect(usualQuantity(1010, 'kg', 'lb')).toBe('2227 lb');
  });

  it('are no others', () => {
    expect(() => toUsual(1, 'm', 'furlong')).toThrow('"furlong" is no unit of a field');
  });
});
