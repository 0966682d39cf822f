import { describe, expect, it } from 'vitest';
import { adiabaticConstant, leastSection, riseAfter, warmedBy } from '../../../src/model/duty/cable.ts';
import { joined, trackOfLevels } from '../../../src/model/duty/track.ts';

const cable = { current: 200, rise: 50, time: 600 };

describe('a cable', () => {
  // 200 K (1 - e^-0.1), by hand with 30 digits.
  it('of 200 A at 50 K and 600 s warms by 19 K in a minute at 400 A', () => {
    expect(riseAfter(cable, 400, 60)).toBeCloseTo(19.032516392808084, 12);
    expect(warmedBy(cable, trackOfLevels([[60, 400]])).once).toBeCloseTo(19.032516392808084, 12);
    const minute = trackOfLevels(Array.from({ length: 240 }, () => [0.25, -400] as const));
    expect(warmedBy(cable, minute).once).toBeCloseTo(19.032516392808084, 9);
  });

  it('is as warm at the end of a ramp as the integral says, in one piece or in many', () => {
    // T theta' = c t^2 - theta from 0: theta = c (t^2 - 2 T t + 2 T^2 (1 - e^(-t/T))).
    const [T, t] = [600, 300];
    const c = 50 * (1 / 200) ** 2;
    const wanted = c * (t * t - 2 * T * t + 2 * T * T * (1 - Math.exp(-t / T)));
    const ramp = (pieces: number) => ({
      length: new Float64Array(pieces).fill(t / pieces),
      from: Float64Array.from({ length: pieces }, (_, i) => (t * i) / pieces),
      to: Float64Array.from({ length: pieces }, (_, i) => (t * (i + 1)) / pieces),
    });
    for (const pieces of [1, 10, 100]) expect(warmedBy(cable, ramp(pieces)).once).toBeCloseTo(wanted, 8);
  });

  it('comes to the same warmth when a run is repeated as when it is written down a hundred times', () => {
    const run = trackOfLevels([
      [60, 400],
      [120, 0],
    ]);
    const many = joined(Array.from({ length: 100 }, () => run));
    expect(warmedBy(cable, run).repeated).toBeCloseTo(warmedBy(cable, many).once, 9);
  });

  // IEC 60364-5-54, Annex A: 143 for copper and 94 for aluminium with XLPE, 90 to 250 degC (from memory), to less than one.
  it('has the constants of the tables for a short circuit', () => {
    expect(Math.abs(adiabaticConstant('copper', 363.15, 523.15) / 1e6 - 143)).toBeLessThan(1);
    expect(Math.abs(adiabaticConstant('aluminium', 363.15, 523.15) / 1e6 - 94)).toBeLessThan(1);
    const k = adiabaticConstant('copper', 363.15, 523.15);
    expect((k * leastSection(1e6, k)) ** 2).toBeCloseTo(1e6, 3);
  });
});
