/**
 * The numbers of the pair obey the order conditions (Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I,
 * section II.2): one for each rooted tree.
 */
import { describe, expect, it } from 'vitest';
import { PAIR as pair } from '../../src/solvers/dormand-prince.ts';

const A = [
  [],
  [pair.A21],
  [pair.A31, pair.A32],
  [pair.A41, pair.A42, pair.A43],
  [pair.A51, pair.A52, pair.A53, pair.A54],
  [pair.A61, pair.A62, pair.A63, pair.A64, pair.A65],
  [pair.B1, 0, pair.B3, pair.B4, pair.B5, pair.B6],
];
const C = [0, pair.C2, pair.C3, pair.C4, pair.C5, 1, 1];
const B = [pair.B1, 0, pair.B3, pair.B4, pair.B5, pair.B6, 0];
const E = [pair.E1, 0, pair.E3, pair.E4, pair.E5, pair.E6, pair.E7];
const D = [pair.D1, 0, pair.D3, pair.D4, pair.D5, pair.D6, pair.D7];

const times = (u: readonly number[], v: readonly number[]): number[] => u.map((x, i) => x * v[i]!);
const applyA = (u: readonly number[]): number[] => A.map(row => row.reduce((sum, a, j) => sum + a * u[j]!, 0));
const dot = (u: readonly number[], v: readonly number[]): number => u.reduce((sum, x, i) => sum + x * v[i]!, 0);
const power = (p: number): number[] => C.map(c => c ** p);

/** The elementary weights of all trees to order 5 with 1/density. */
const TREES: readonly (readonly [order: number, weight: number[], inverseDensity: number])[] = [
  [1, power(0), 1],
  [2, power(1), 1 / 2],
  [3, power(2), 1 / 3],
  [3, applyA(power(1)), 1 / 6],
  [4, power(3), 1 / 4],
  [4, times(power(1), applyA(power(1))), 1 / 8],
  [4, applyA(power(2)), 1 / 12],
  [4, applyA(applyA(power(1))), 1 / 24],
  [5, power(4), 1 / 5],
  [5, times(power(2), applyA(power(1))), 1 / 10],
  [5, times(applyA(power(1)), applyA(power(1))), 1 / 20],
  [5, times(power(1), applyA(power(2))), 1 / 15],
  [5, times(power(1), applyA(applyA(power(1)))), 1 / 30],
  [5, applyA(power(3)), 1 / 20],
  [5, applyA(times(power(1), applyA(power(1)))), 1 / 40],
  [5, applyA(applyA(power(2))), 1 / 60],
  [5, applyA(applyA(applyA(power(1)))), 1 / 120],
];

describe('the Dormand-Prince pair', () => {
  it('has rows that sum to the nodes', () => {
    A.forEach((row, i) => expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(C[i]!, 14));
  });

  it('meets every condition of order 5', () => {
    for (const [, weight, value] of TREES) expect(dot(B, weight)).toBeCloseTo(value, 14);
  });

  it('has a companion of order 4, not 5', () => {
    const companion = B.map((b, i) => b - E[i]!);
    for (const [order, weight, value] of TREES) {
      if (order <= 4) expect(dot(companion, weight)).toBeCloseTo(value, 14);
    }
    const gaps = TREES.filter(([order]) => order === 5).map(([, weight, value]) => dot(companion, weight) - value);
    expect(Math.max(...gaps.map(Math.abs))).toBeGreaterThan(1e-4);
  });

  it('has dense output of order 4 at every point of the step', () => {
    // y0 + x (k-rise + (1 - x) (a2 + x (a3 + (1 - x) a4))) as weights of the stages.
    for (const x of [0.1, 0.35, 0.5, 0.8, 1]) {
      const weights = B.map((b, i) => {
        const a2 = (i === 0 ? 1 : 0) - b;
        const a3 = b - (i === 6 ? 1 : 0) - a2;
        return x * (b + (1 - x) * (a2 + x * (a3 + (1 - x) * D[i]!)));
      });
      for (const [order, weight, value] of TREES) {
        if (order <= 4) expect(dot(weights, weight)).toBeCloseTo(value * x ** order, 13);
      }
    }
  });
});
