import { describe, expect, it } from 'vitest';
import { cityAndHighway, cycleWeights, weightedConsumption } from '../../../src/runs/standard/weights.ts';

const cycle = (energy: number, distance = 10) => ({ energy, distance });

describe('the arithmetic of the standards', () => {
  it('weighs the first cycle by its share of the usable energy, the others evenly', () => {
    // By hand: K1 = 300 / 1500 = 0.2, K2 = K3 = K4 = 0.8 / 3 (SAE J1634 and UN GTR No. 15, Annex 8, from memory).
    const cycles = [cycle(300), cycle(250), cycle(240), cycle(230)];
    const weights = cycleWeights(cycles, 1500);
    expect(weights[0]).toBeCloseTo(0.2, 15);
    for (const weight of weights.slice(1)) expect(weight).toBeCloseTo(0.8 / 3, 15);
    // 0.2 * 30 + (0.8 / 3) * (25 + 24 + 23) = 6 + 19.2 = 25.2 J/m, so 1500 J last for 59.52 m.
    const consumption = weightedConsumption(cycles, weights);
    expect(consumption).toBeCloseTo(25.2, 12);
    expect(1500 / consumption).toBeCloseTo(59.5238095, 6);
  });

  it('gives a single cycle all the weight', () => {
    expect(cycleWeights([cycle(300)], 400)).toEqual([1]);
    expect(weightedConsumption([cycle(300)], [1])).toBe(30);
  });

  it('mixes city and highway 55 to 45', () => {
    // 10 CFR 474.3(a)(2), on the consumptions: 0.55 * 200 + 0.45 * 300.
    expect(cityAndHighway(200, 300)).toBeCloseTo(245, 12);
  });
});
