import { describe, expect, it } from 'vitest';
import { columnHeading, decimalsFor, digits, figure, scaleOf, unitText, written } from '../../src/units/rounding.ts';

const SPEED = { unit: 'm/s', display: { metric: 'km/h', imperial: 'mph' } };
const WARMTH = { unit: 'K', display: { metric: 'degC', imperial: 'degF' } };

describe('figures', () => {
  it('are shown in the unit of the system (1 mile = 1609.344 m, NIST SP 811)', () => {
    expect(figure(100 / 3.6, SPEED, 'metric')).toBe('100\u00a0km/h');
    expect(figure((60 * 1609.344) / 3600, SPEED, 'imperial')).toBe('60.0\u00a0mph');
  });

  it('know units with an offset', () => {
    const { factor, offset } = scaleOf(WARMTH, 'metric');
    expect(293.15 * factor + offset).toBeCloseTo(20, 9);
    const imperial = scaleOf(WARMTH, 'imperial');
    expect(373.15 * imperial.factor + imperial.offset).toBeCloseTo(212, 9);
  });

  it.each([
    [8.4321, 's', '8.43\u00a0s'],
    [16.4, 's', '16.40\u00a0s'],
    [123.45, 's', '123.5\u00a0s'],
    [33.7, '%', '34\u00a0%'],
    [3.37, '%', '3.4\u00a0%'],
    [0, '%', '0\u00a0%'],
    [0.954, '1', '0.954'],
    [12345.6, 'V', '12\u202f346\u00a0V'],
    [-2.5, 'm', '−2.50\u00a0m'],
  ])('%s %s is written %s', (value, unit, text) => {
    expect(written(value, unit)).toBe(text);
  });

  it('never show a minus sign before nothing', () => {
    expect(digits(-0.0001, 2)).toBe('0.00');
  });

  it('keep three figures of small numbers', () => {
    expect(decimalsFor(0.01234, 'm')).toBe(4);
  });

  it('have headings with a unit only where there is one', () => {
    expect(columnHeading('slip', '1')).toBe('slip');
    expect(columnHeading('speed', 'km/h')).toBe('speed, km/h');
    expect(unitText('1')).toBe('');
  });
});
