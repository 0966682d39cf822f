import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { confidence, promise } from '../../../src/studies/statistics/confidence.ts';
import { coverageInterval } from '../../../src/studies/statistics/coverage.ts';
import { drawOf } from '../../../src/studies/sampling/draw.ts';
import { estimate } from '../../../src/studies/statistics/estimate.ts';
import { evaluateRange } from '../../../src/studies/question/evaluate.ts';
import type { Evaluate } from '../../../src/studies/question/evaluate.ts';
import { inputsOf, monteCarlo, monteCarloSteps } from '../../../src/studies/statistics/monte-carlo.ts';
import type { MonteCarloPlan } from '../../../src/studies/statistics/monte-carlo.ts';
import { toleranceFor } from '../../../src/studies/statistics/stability.ts';

const rectangle = drawOf(0.5, { kind: 'rectangular', low: 0, high: 1 });
const bell = drawOf(0, { kind: 'normal', standard: 1 });
const sum: Evaluate = (x, out) => {
  out[0] = x.reduce((total, value) => total + value, 0);
};

function plan(changes: Partial<MonteCarloPlan> = {}): MonteCarloPlan {
  return { draws: [rectangle, rectangle], outputs: 1, seed: 1, samples: { fixed: 2 ** 14 }, ...changes };
}

describe('a coverage interval', () => {
  it('follows JCGM 101, 7.7: r and r + q of the sorted values, counted from 1', () => {
    const values = Float64Array.from({ length: 1000 }, (_, k) => k + 1);
    // q = 950, r = (1000 - 950) / 2 = 25.
    expect(coverageInterval(values, 0.95, 'symmetric')).toEqual({ low: 25, high: 975 });
    // 101 values: q = the integer part of 95.95 + 1/2 = 96, r = the integer part of (5 + 1) / 2 = 3.
    expect(coverageInterval(values.subarray(0, 101), 0.95, 'symmetric')).toEqual({ low: 3, high: 99 });
  });

  it('is the shortest there is, and never longer than the symmetric one', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 10, maxLength: 60 }), values => {
        const sorted = Float64Array.from(values.toSorted((a, b) => a - b));
        const q = Math.round(0.8 * sorted.length);
        const widths = Array.from({ length: sorted.length - q }, (_, r) => sorted[r + q]! - sorted[r]!);
        const { low, high } = coverageInterval(sorted, 0.8, 'shortest')!;
        expect(high - low).toBe(Math.min(...widths));
        const symmetric = coverageInterval(sorted, 0.8, 'symmetric')!;
        expect(widths).toContain(symmetric.high - symmetric.low);
      }),
    );
  });

  it('says when there are too few values', () => {
    expect(coverageInterval(new Float64Array(5), 0.95, 'symmetric')).toBeNull();
    expect(() => coverageInterval(new Float64Array(5), 1, 'symmetric')).toThrow(/coverage probability/);
  });
});

describe('an estimate', () => {
  it('counts what has no answer and leaves it out', () => {
    const { answers, missing, mean, standard, median } = estimate(
      Float64Array.of(3, Number.NaN, 1, 2, Number.NaN),
      0.5,
    );
    expect({ answers, missing, mean, standard, median }).toEqual({
      answers: 3,
      missing: 2,
      mean: 2,
      standard: 1,
      median: 2,
    });
  });

  it('has nulls, not NaN, where nothing can be said', () => {
    const nothing = estimate(Float64Array.of(Number.NaN), 0.9);
    expect(nothing).toEqual({
      answers: 0,
      missing: 1,
      mean: null,
      standard: null,
      median: null,
      symmetric: null,
      shortest: null,
    });
    expect(estimate(Float64Array.of(4), 0.9)).toMatchObject({ mean: 4, standard: null, median: 4 });
  });
});

describe('the tolerance for significant digits', () => {
  // The first three are examples 1 to 3 of JCGM 101:2008, 7.9.2 (from memory).
  it.each([
    [0.00035, 2, 0.000005],
    [0.00035, 1, 0.00005],
    [2, 1, 0.5],
    [0.0996, 2, 0.005],
    [0, 2, 0],
  ])('of %d to %d digits is half a unit of the last', (standard, digits, tolerance) => {
    expect(toleranceFor(standard, digits)).toBeCloseTo(tolerance, 12);
  });
});

describe('Monte Carlo against closed forms', () => {
  it('gives the triangle for the sum of two rectangles', () => {
    const [output] = monteCarlo(sum, plan()).outputs;
    expect(output!.mean).toBeCloseTo(1, 6);
    expect(output!.standard).toBeCloseTo(1 / Math.sqrt(6), 4);
    // Below y < 1 lies y^2 / 2.
    expect(Math.abs(output!.symmetric!.low - Math.sqrt(0.05))).toBeLessThan(1e-3);
    expect(Math.abs(output!.symmetric!.high - (2 - Math.sqrt(0.05)))).toBeLessThan(1e-3);
  });

  it('gives the trapezoid for rectangles of two widths', () => {
    const wide = drawOf(0, { kind: 'rectangular', low: 0, high: 3 });
    const [output] = monteCarlo(sum, plan({ draws: [rectangle, wide] })).outputs;
    // Below y < 1 lies y^2 / 6.
    expect(Math.abs(output!.symmetric!.low - Math.sqrt(0.15))).toBeLessThan(2e-3);
    expect(Math.abs(output!.symmetric!.high - (4 - Math.sqrt(0.15)))).toBeLessThan(2e-3);
  });

  it('gives the distribution of Irwin and Hall for the sum of three', () => {
    const [output] = monteCarlo(sum, plan({ draws: [rectangle, rectangle, rectangle] })).outputs;
    // Below y < 1 lies y^3 / 6.
    expect(Math.abs(output!.symmetric!.low - Math.cbrt(0.15))).toBeLessThan(2e-3);
    expect(output!.standard).toBeCloseTo(0.5, 4);
  });

  it('is far more exact with even points than with random ones, and its error says so', () => {
    const smooth: Evaluate = (x, out) => {
      out[0] = Math.exp(x[0]! / 4) + x[1]!;
    };
    const exact = Math.exp(1 / 32);
    const run = (source: 'sobol' | 'random') =>
      monteCarlo(smooth, plan({ draws: [bell, bell], source, samples: { fixed: 8192 } })).outputs[0]!;
    const [even, random] = [run('sobol'), run('random')];
    expect(Math.abs(even.mean! - exact)).toBeLessThan(2 * even.error.mean!);
    expect(Math.abs(random.mean! - exact)).toBeLessThan(2 * random.error.mean!);
    expect(even.error.mean!).toBeLessThan(random.error.mean! / 10);
  });

  it('has an error that covers the truth for about 95 of 100 seeds', () => {
    for (const source of ['sobol', 'random'] as const) {
      const covered = Array.from({ length: 200 }, (_, seed) => {
        const samples = { fixed: 1024 };
        const { mean, error } = monteCarlo(sum, plan({ draws: [bell, bell], seed, source, samples })).outputs[0]!;
        return Math.abs(mean!) <= error.mean! ? 1 : 0;
      });
      const share = covered.reduce<number>((total, one) => total + one, 0) / 200;
      // Student's t for 8 blocks: 2 standard deviations cover 0.914; five standard deviations of the count of 200 either way.
      expect(share).toBeGreaterThan(0.81);
      expect(share).toBeLessThan(0.995);
    }
  });
});

describe('the adaptive procedure', () => {
  it('ends when the digits asked for are reached, and has them', () => {
    const result = monteCarlo(sum, plan({ source: 'random', samples: { most: 1e6 }, accuracy: { digits: 1 } }));
    expect(result.stabilised).toBe(true);
    expect(result.block).toBe(10_000);
    expect(result.samples).toBeLessThan(1e6);
    // u = 0.408: one digit is 0.4, half a unit of it 0.05.
    expect(result.outputs[0]!.tolerance).toBeCloseTo(0.05, 12);
    expect(Math.abs(result.outputs[0]!.mean! - 1)).toBeLessThan(0.05);
  });

  it('takes a sharper tolerance with more samples, and says when the limit came first', () => {
    const run = (tolerance: number, most: number) =>
      monteCarlo(sum, plan({ source: 'random', samples: { most }, accuracy: { tolerance }, block: 1000 }));
    const [coarse, fine, cut] = [run(0.02, 1e6), run(0.004, 1e6), run(0.0001, 5000)];
    expect(fine.samples).toBeGreaterThan(coarse.samples);
    for (const figure of ['mean', 'standard', 'low', 'high'] as const) {
      expect(fine.outputs[0]!.error[figure]!).toBeLessThanOrEqual(0.004);
    }
    expect(cut).toMatchObject({ samples: 5000, stabilised: false });
  });

  it('ends at once for a result without a spread', () => {
    const constant: Evaluate = (_, out) => {
      out[0] = 7;
    };
    const result = monteCarlo(constant, plan({ samples: { most: 1e6 }, block: 100 }));
    expect(result).toMatchObject({ samples: 256, stabilised: true });
    expect(result.outputs[0]).toMatchObject({ mean: 7, standard: 0, symmetric: { low: 7, high: 7 } });
  });

  it('never stabilises without answers', () => {
    const silent: Evaluate = () => undefined;
    const result = monteCarlo(silent, plan({ samples: { most: 400 }, block: 100, source: 'random' }));
    expect(result).toMatchObject({ samples: 400, stabilised: false });
    expect(result.outputs[0]).toMatchObject({ answers: 0, missing: 400, mean: null, tolerance: null });
  });

  it('waits for the output that needs most', () => {
    const two: Evaluate = (x, out) => {
      out[0] = 1;
      out[1] = x[0]!;
    };
    const accuracy = [{ digits: 1 }, { tolerance: 0.005 }] as const;
    const result = monteCarlo(
      two,
      plan({ outputs: 2, samples: { most: 1e6 }, block: 500, source: 'random', accuracy }),
    );
    expect(result.samples).toBeGreaterThan(1000);
    expect(result.outputs.map(output => output.stabilised)).toEqual([true, true]);
  });
});

describe('who does the work', () => {
  it('has no say in the result', () => {
    const wanted = plan({ draws: [bell, rectangle, bell], samples: { fixed: 1000 } });
    const here = monteCarlo(sum, wanted);
    expect(here.samples).toBe(1000);
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 999 }), { maxLength: 6 }), cuts => {
        const steps = monteCarloSteps(wanted);
        const request = steps.next().value as { from: number; to: number };
        const ends = [...cuts.toSorted((a, b) => a - b), request.to];
        // The parts in reverse order, each with a sampler of its own.
        const parts = ends
          .map((to, k) => ({ from: k === 0 ? 0 : ends[k - 1]!, to }))
          .toReversed()
          .map(range => evaluateRange(sum, inputsOf(wanted), { inputs: 3, outputs: 1 }, range)[0]!)
          .toReversed();
        const column = Float64Array.from(parts.flatMap(part => Array.from(part)));
        const end = steps.next([column]);
        expect(end.done).toBe(true);
        expect(end.value).toEqual(here);
      }),
      { numRuns: 20 },
    );
  });

  it('must hand over as many answers as were asked for', () => {
    const steps = monteCarloSteps(plan());
    steps.next();
    expect(() => steps.next([new Float64Array(3)])).toThrow(/need 1 columns of 16384 numbers/);
  });

  it('refuses plans that are none', () => {
    expect(() => monteCarlo(sum, plan({ probability: 1 }))).toThrow(/coverage probability/);
    expect(() => monteCarlo(sum, plan({ samples: { fixed: 0 } }))).toThrow(/samples must be a whole number/);
    expect(() => monteCarlo(sum, plan({ samples: { most: 10_000 } }))).toThrow(/two blocks/);
    expect(() => monteCarlo(sum, plan({ accuracy: [] }))).toThrow(/as many accuracies/);
    expect(() => monteCarlo(sum, plan({ accuracy: { digits: 0 } }))).toThrow(/significant digits/);
  });
});

describe('a confidence', () => {
  const column = Float64Array.of(1, 2, 3, 4, Number.NaN);

  it('counts a sample without an answer against every bound', () => {
    expect(confidence([column], [{ sense: 'at_least', bound: 2 }])).toBe(0.6);
    expect(confidence([column], [{ sense: 'at_most', bound: 9 }])).toBe(0.8);
    expect(
      confidence(
        [column, column],
        [
          { sense: 'at_least', bound: 2 },
          { sense: 'at_most', bound: 3 },
        ],
      ),
    ).toBe(0.4);
    expect(() => confidence([new Float64Array(0)], [{ sense: 'at_most', bound: 9 }])).toThrow(/needs samples/);
  });

  it('turns round into the best value that can be promised', () => {
    expect(promise(column, 'at_least', 0.6)).toBe(2);
    expect(promise(column, 'at_most', 0.6)).toBe(3);
    expect(promise(column, 'at_most', 0.9)).toBeNull();
    expect(() => promise(column, 'at_most', 0)).toThrow(/confidence/);
    const value = fc.oneof(fc.double({ noNaN: true }), fc.constant(Number.NaN));
    fc.assert(
      fc.property(fc.array(value, { minLength: 1 }), fc.double({ min: 0.01, max: 1, noNaN: true }), (values, share) => {
        const all = Float64Array.from(values);
        for (const sense of ['at_least', 'at_most'] as const) {
          const bound = promise(all, sense, share);
          if (bound === null) continue;
          expect(confidence([all], [{ sense, bound }])).toBeGreaterThanOrEqual(share - 1e-9);
        }
      }),
    );
  });
});
