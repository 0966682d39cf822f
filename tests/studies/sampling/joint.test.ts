import { describe, expect, it } from 'vitest';
import type { Joint } from '../../../src/runs/answer/question.ts';
import { cholesky, joined, propagated } from '../../../src/studies/sampling/joint.ts';
import { sampler } from '../../../src/studies/sampling/sample.ts';
import { changesFrom, changesOfOne, drawsOf } from '../../../src/studies/sampling/uncertain.ts';
import type { Uncertain } from '../../../src/studies/sampling/uncertain.ts';
import { moments } from '../../../src/studies/statistics/estimate.ts';

/**
 * Least squares of F0 + F1 v + F2 v^2 through four forces of a coast-down at v = 10, 20, 30, 40 m/s: 196, 331, 555, 867 N. The normal
 * equations by the adjugate of X'X, in whole numbers.
 */
const speeds = [10, 20, 30, 40];
const forces = [196, 331, 555, 867];
const powers = speeds.map(v => [1, v, v * v]);
const product = (i: number, j: number): number => powers.reduce((sum, row) => sum + row[i]! * row[j]!, 0);
const normal = [0, 1, 2].map(i => [0, 1, 2].map(j => product(i, j)));
const minor = (i: number, j: number): number => {
  const [a, b] = [0, 1, 2].filter(k => k !== i) as [number, number];
  const [c, d] = [0, 1, 2].filter(k => k !== j) as [number, number];
  return (-1) ** (i + j) * (normal[a]![c]! * normal[b]![d]! - normal[a]![d]! * normal[b]![c]!);
};
const determinant = [0, 1, 2].reduce((sum, j) => sum + normal[0]![j]! * minor(0, j), 0);
const inverse = [0, 1, 2].map(i => [0, 1, 2].map(j => minor(j, i) / determinant));
const right = [0, 1, 2].map(i => forces.reduce((sum, force, k) => sum + force * powers[k]![i]!, 0));
const fitted = inverse.map(row => row.reduce((sum, x, j) => sum + x * right[j]!, 0));
const rest = forces.reduce(
  (sum, force, k) => sum + (force - fitted.reduce((f, c, i) => f + c * powers[k]![i]!, 0)) ** 2,
  0,
);
const covariance = inverse.map(row => row.map(x => rest * x));

const paths = ['coupe.road_load.f0', 'coupe.road_load.f1', 'coupe.road_load.f2'];
const alone = paths.map(
  (path, k): Uncertain => ({
    path,
    value: fitted[k]!,
    spread: { kind: 'normal', standard: Math.sqrt(covariance[k]![k]!) },
  }),
);
const joint: Joint = { paths, covariance };
const at30 = [1, 30, 900];

/** F(30 m/s) of so many samples. */
function drawnForces(inputs: readonly Uncertain[], samples: number): number[] {
  const at = sampler(drawsOf(inputs), { source: 'random', seed: 1, block: 1 });
  const x = new Float64Array(inputs.length);
  return Array.from({ length: samples }, (_, k) => {
    at(k, x);
    const values = new Map(changesFrom(inputs)(x).map(({ path, value }) => [path, Number(value)]));
    return paths.reduce((sum, path, i) => sum + values.get(path)! * at30[i]!, 0);
  });
}

describe('a road load with its covariance', () => {
  it('is the one of the fit', () => {
    expect(fitted[0]).toBeCloseTo(149.25, 9);
    expect(fitted[1]).toBeCloseTo(0.245, 10);
    expect(fitted[2]).toBeCloseTo(0.4425, 11);
    expect(rest).toBeCloseTo(0.05, 9);
  });

  it('has at 30 m/s the uncertainty of the fit, and without it 12.5 times as much', () => {
    expect(fitted.reduce((sum, c, i) => sum + c * at30[i]!, 0)).toBeCloseTo(554.85, 9);
    // sqrt(g' C g), JCGM 100:2008, equation 13; worked out apart, with fractions.
    expect(Math.abs(propagated(at30, covariance) - 0.16583123951777)).toBeLessThan(1e-9);
    const diagonal = covariance.map((row, i) => row.map((value, j) => (i === j ? value : 0)));
    expect(Math.abs(propagated(at30, diagonal) - 2.074246851269154)).toBeLessThan(1e-9);
  });

  it('is drawn with that uncertainty', () => {
    const samples = 20_000;
    // The standard deviation of a normal sample is known to 1/sqrt(2n): four of them.
    const reach = 4 / Math.sqrt(2 * samples);
    const together = moments(drawnForces(joined(alone, [joint]), samples));
    expect(Math.abs(together.standard / 0.16583123951777 - 1)).toBeLessThan(reach);
    expect(Math.abs(together.mean - 554.85)).toBeLessThan((4 * 0.166) / Math.sqrt(samples));
    const apart = moments(drawnForces(alone, samples));
    expect(Math.abs(apart.standard / 2.074246851269154 - 1)).toBeLessThan(reach);
  });

  it('moves one input with what is then to be expected of the others', () => {
    const inputs = joined(alone, [joint]);
    const changes = changesOfOne(inputs[0]!, 1.5, inputs);
    const variance = covariance[0]![0]!;
    for (const [k, path] of paths.entries()) {
      const value = changes.find(change => change.path === path)?.value as number;
      // mu_k + C_k0 / C_00 (x_0 - mu_0): the regression of one on the other.
      const expected = fitted[k]! + (covariance[k]![0]! / variance) * 1.5 * Math.sqrt(variance);
      expect(value).toBeCloseTo(expected, 9);
    }
  });

  it('keeps the rest of the covariance where one of them is not asked for', () => {
    const two = joined([alone[0]!, alone[2]!], [joint]);
    const [first, last] = two.map(({ mix }) => mix!.factors);
    expect(last!.reduce((sum, factor, k) => sum + factor * first![k]!, 0)).toBeCloseTo(covariance[2]![0]!, 12);
    expect(Math.hypot(...last!)).toBeCloseTo(Math.sqrt(covariance[2]![2]!), 12);
  });
});

describe('a triangle of Cholesky', () => {
  it('is there for what is positive semidefinite, and for nothing else', () => {
    expect(
      cholesky([
        [4, 2],
        [2, 5],
      ]),
    ).toEqual([
      [2, 0],
      [1, 2],
    ]);
    // Two inputs that are one.
    expect(
      cholesky([
        [1, 1],
        [1, 1],
      ]),
    ).toEqual([
      [1, 0],
      [1, 0],
    ]);
    expect(
      cholesky([
        [1, 2],
        [2, 1],
      ]),
    ).toBeNull();
    expect(
      cholesky([
        [1, 0.5],
        [0.4, 1],
      ]),
    ).toBeNull();
    expect(
      cholesky([
        [1, 1, 0],
        [1, 1, 0.5],
        [0, 0.5, 1],
      ]),
    ).toBeNull();
    expect(cholesky([[-1]])).toBeNull();
  });
});
