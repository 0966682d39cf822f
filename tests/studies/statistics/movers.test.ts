import { describe, expect, it } from 'vitest';
import { moversOf as moversOfEach } from '../../../src/studies/statistics/movers.ts';
import type { Mover } from '../../../src/runs/result.ts';
import { sobolStream } from '../../../src/studies/sampling/sobol-stream.ts';

const SAMPLES = 1024;

/** Even numbers of five independent inputs. */
function inputs(samples = SAMPLES): { readonly path: string; readonly values: number[] }[] {
  const stream = sobolStream(7, 5, SAMPLES, '');
  const u = new Float64Array(5);
  const drawn = Array.from({ length: samples }, (_, k) => (stream.fill(k, u), Array.from(u)));
  return Array.from({ length: 5 }, (_, k) => ({ path: `car.x${k}`, values: drawn.map(each => each[k] ?? Number.NaN) }));
}

/** Of one figure. */
function moversOf(...[from, figure]: [Parameters<typeof moversOfEach>[0], readonly number[]]): readonly Mover[] {
  return moversOfEach(from, [figure])[0] ?? [];
}

describe('what moves a figure', () => {
  const all = inputs();
  const figure = (of: (x: readonly number[]) => number, from = all): number[] =>
    (from[0]?.values ?? []).map((_, sample) => of(from.map(({ values }) => values[sample] ?? Number.NaN)));

  it('is the share of the variance of a sum of even inputs, b^2 / sum of b^2', () => {
    // Rank correlation of such a sum differs from the linear one by some hundredths: the sum of even numbers is no even number.
    const found = moversOf(
      all,
      figure(([a = 0, b = 0, c = 0]) => 3 * a + 2 * b - c),
    );
    expect(found.map(({ path }) => path)).toEqual(['car.x0', 'car.x1', 'car.x2']);
    for (const [k, share] of [9 / 14, 4 / 14, 1 / 14].entries())
      expect(Math.abs((found[k]?.share ?? 0) - share)).toBeLessThan(0.03);
  });

  it('is not changed by a bend that keeps the order', () => {
    const plain = moversOf(
      all,
      figure(([a = 0, b = 0]) => a + b),
    );
    expect(
      moversOf(
        all,
        figure(([a = 0, b = 0]) => Math.exp(8 * (a + b))),
      ),
    ).toEqual(plain);
  });

  it('is all of it for one input, exactly, and also one that falls', () => {
    expect(
      moversOf(
        all,
        figure(([, , , d = 0]) => -(d ** 3)),
      ),
    ).toEqual([{ path: 'car.x3', share: 1 }]);
  });

  it('is nothing for a figure that stands still, and for one that hangs on none of them', () => {
    expect(
      moversOf(
        all,
        figure(() => 5),
      ),
    ).toEqual([]);
    const noise = inputs(64);
    // The last bits of a linear congruential generator: as good as chance, the same in every run.
    let seed = 12345;
    const chance = (): number => (seed = (1103515245 * seed + 12345) % 2 ** 31) / 2 ** 31;
    expect(Array.from({ length: 200 }, () => moversOf(noise, figure(chance, noise))).flat().length).toBeLessThan(4);
  });

  it('leaves samples without an answer out, and shares the ranks of equal ones', () => {
    const holed = figure(([a = 0]) => (a < 0.3 ? Number.NaN : a));
    expect(moversOf(all, holed)[0]).toEqual({ path: 'car.x0', share: 1 });
    const [first] = moversOf(
      all,
      figure(([a = 0]) => (a < 0.5 ? 0 : 1)),
    );
    expect(moversOfEach(all, [holed, figure(([, b = 0]) => b)]).map(([found]) => found?.path)).toEqual([
      'car.x0',
      'car.x1',
    ]);
    // Two halves against even ranks: correlation sqrt(3)/2.
    expect(first?.path).toBe('car.x0');
    expect(first?.share).toBeCloseTo(0.75, 4);
  });

  it('names no input that only goes along with another, as few points in many dimensions do', () => {
    // 64 points in 40 dimensions: idle inputs go along with one that counts.
    for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const stream = sobolStream(seed, 40, 1024, '');
      const u = new Float64Array(40);
      const drawn = Array.from({ length: 64 }, (_, k) => (stream.fill(k, u), Array.from(u)));
      const many = Array.from({ length: 40 }, (_, k) => ({
        path: `x${k}`,
        values: drawn.map(x => x[k] ?? Number.NaN),
      }));
      const found = moversOf(
        many,
        drawn.map(x => (x[11] ?? 0) + 0.8 * (x[29] ?? 0) + 0.05 * Math.sin(9 * (x[3] ?? 0))),
      );
      expect(found.map(({ path }) => path)).toEqual(['x11', 'x29']);
      expect(found.reduce((sum, { share }) => sum + share, 0)).toBeLessThanOrEqual(1);
    }
  });
});
