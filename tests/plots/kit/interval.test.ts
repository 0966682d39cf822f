import { describe, expect, it } from 'vitest';
import { durationEnds, endsText, intervalText } from '../../../src/plots/kit/interval.ts';

const km = { unit: 'm', display: { metric: 'km', imperial: 'mi' } };
const s = { unit: 's', display: { metric: 's', imperial: 's' } };
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('an interval', () => {
  it.each([
    // The step is 1, 2 or 5 of a digit, and the error at least; ends are rounded outwards, so that nothing is promised that is not there.
    [0, '183 [157, 201] km'],
    [1500, '183 [156, 202] km'],
    [4400, '183 [155, 205] km'],
    [9800, '183 [150, 210] km'],
    // No step is wider than half of the interval.
    [60_000, '183 [140, 220] km'],
  ])('shows its ends to the step that they are known to: ± %d m', (error, text) => {
    expect(plain(intervalText(183_200, { low: 156_600, high: 201_400, error }, km, 'metric'))).toBe(text);
  });

  it('keeps decimals where its ends are known so well', () => {
    expect(plain(intervalText(6.794, { low: 6.473, high: 7.253, error: 0.02 }, s, 'metric'))).toBe(
      '6.79 [6.46, 7.26] s',
    );
    expect(plain(endsText(6.794, { low: 6.473, high: 7.253, error: 0.1 }, s, 'metric'))).toBe('[6.4, 7.3] s');
  });

  it('leaves the value that it holds inside', () => {
    expect(plain(intervalText(6.48, { low: 6.473, high: 7.253, error: 0.1 }, s, 'metric'))).toBe('6.48 [6.4, 7.3] s');
    expect(plain(intervalText(35_197, { low: 35_196, high: 35_198, error: 0.5 }, km, 'metric'))).toBe('35.2 km');
  });

  it('of hours goes by the steps of a clock', () => {
    expect(plain(durationEnds({ low: 11_593, high: 13_697, error: 400 }))).toBe('[3 h 10 min, 3 h 50 min]');
    expect(plain(durationEnds({ low: 11_593, high: 13_697, error: 20 }))).toBe('[3 h 13 min, 3 h 49 min]');
  });

  it('does not come to nothing at an end that is something', () => {
    expect(plain(durationEnds({ low: 12_000, high: 75_000, error: 35_000 }))).toBe('[2 h, 22 h]');
    const volts = { unit: 'V', display: { metric: 'V', imperial: 'V' } } as const;
    expect(plain(endsText(182, { low: 34, high: 240, error: 90 }, volts, 'metric'))).toBe('[20, 240] V');
    expect(plain(endsText(-182, { low: -240, high: -34, error: 90 }, volts, 'metric'))).toBe('[−240, −20] V');
    // That of a temperature may lie on both sides of nothing.
    const degrees = { unit: 'K', display: { metric: 'degC', imperial: 'degF' } } as const;
    expect(plain(endsText(283.15, { low: 274.15, high: 323.15, error: 15 }, degrees, 'metric'))).toBe('[0, 60] °C');
  });
});
