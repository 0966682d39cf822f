import { describe, expect, it } from 'vitest';
import { drawOf } from '../../src/studies/sampling/draw.ts';
import type { Evaluate } from '../../src/studies/question/evaluate.ts';
import { evaluateRange } from '../../src/studies/question/evaluate.ts';
import { varianceShareRows, varianceShares, varianceSharesOf } from '../../src/studies/statistics/variance-shares.ts';

const angle = drawOf(0, { kind: 'rectangular', low: -Math.PI, high: Math.PI });
const bell = drawOf(0, { kind: 'normal', standard: 1 });

/** T. Ishigami, T. Homma, Proc. ISUMA '90 (1990) 398-403, with a = 7 and b = 0.1. */
const [A, B] = [7, 0.1];
const ishigami: Evaluate = (x, out) => {
  out[0] = Math.sin(x[0]!) + A * Math.sin(x[1]!) ** 2 + B * x[2]! ** 4 * Math.sin(x[0]!);
};
const V1 = (1 + (B * Math.PI ** 4) / 5) ** 2 / 2;
const V2 = A ** 2 / 8;
const V13 = (B ** 2 * Math.PI ** 8 * 8) / 225;
const V = V1 + V2 + V13;

describe('variance shares', () => {
  const plan = { draws: [angle, angle, angle], outputs: 1, seed: 1, block: 8192, blocks: 8 };

  it('are those of the Ishigami function to 1 %', () => {
    const [result] = varianceShares(ishigami, plan);
    const [first, second, third] = result!.shares!;
    expect(Math.abs(result!.variance! / V - 1)).toBeLessThan(0.01);
    expect(Math.abs(first!.first / (V1 / V) - 1)).toBeLessThan(0.01);
    expect(Math.abs(second!.first / (V2 / V) - 1)).toBeLessThan(0.01);
    expect(Math.abs(third!.first)).toBeLessThan(0.003);
    expect(Math.abs(first!.total / ((V1 + V13) / V) - 1)).toBeLessThan(0.01);
    expect(Math.abs(second!.total / (V2 / V) - 1)).toBeLessThan(0.01);
    expect(Math.abs(third!.total / (V13 / V) - 1)).toBeLessThan(0.01);
  });

  it('lie within a few of their standard errors of the truth, for even and for random points', () => {
    for (const source of ['sobol', 'random'] as const) {
      for (let seed = 0; seed < 10; seed++) {
        const [{ shares }] = varianceShares(ishigami, { ...plan, block: 256, source, seed }) as [
          ReturnType<typeof varianceSharesOf>,
        ];
        const truth = [
          [V1 / V, (V1 + V13) / V],
          [V2 / V, V2 / V],
          [0, V13 / V],
        ] as const;
        shares!.forEach((share, k) => {
          // Eight blocks: Student's t with 7 degrees of freedom is beyond 6.5 once in 3000.
          expect(Math.abs(share.first - truth[k]![0])).toBeLessThan(6.5 * share.firstError + 1e-3);
          expect(Math.abs(share.total - truth[k]![1])).toBeLessThan(6.5 * share.totalError + 1e-3);
        });
      }
    }
  });

  it('are the squares of the slopes for a straight model, first and total alike', () => {
    const straight: Evaluate = (x, out) => {
      out[0] = 1000 + 3 * x[0]! - 4 * x[1]!;
    };
    const [result] = varianceShares(straight, { ...plan, draws: [bell, bell, bell] });
    const expected = [0.36, 0.64, 0];
    result!.shares!.forEach((share, k) => {
      expect(Math.abs(share.first - expected[k]!)).toBeLessThan(0.003);
      expect(Math.abs(share.total - expected[k]!)).toBeLessThan(0.003);
    });
  });

  it('leave out base points without an answer and count them', () => {
    const partly: Evaluate = (x, out) => {
      out[0] = x[0]! > 3 ? Number.NaN : x[0]! + x[1]!;
      out[1] = Number.NaN;
      out[2] = 4;
    };
    const [some, none, constant] = varianceShares(partly, { ...plan, outputs: 3 });
    expect(some!.missing).toBeGreaterThan(0);
    expect(some!.used + some!.missing).toBe(65_536);
    expect(some!.shares).toHaveLength(3);
    expect(none).toEqual({ variance: null, shares: null, used: 0, missing: 65_536 });
    expect(constant).toMatchObject({ variance: 0, shares: null });
  });

  it('are the same from rows made in pieces', () => {
    const small = { ...plan, block: 16, blocks: 2 };
    const { rows } = varianceShareRows(small);
    const piece = (from: number, to: number) =>
      Array.from(
        evaluateRange(ishigami, varianceShareRows(small).inputsAt, { inputs: 3, outputs: 1 }, { from, to })[0]!,
      );
    const tail = piece(33, rows);
    expect(varianceSharesOf(Float64Array.from([...piece(0, 33), ...tail]), small)).toEqual(
      varianceShares(ishigami, small)[0],
    );
    expect(() => varianceSharesOf(new Float64Array(3), small)).toThrow(/160 rows/);
    expect(() => varianceShares(ishigami, { ...plan, blocks: 1 })).toThrow(/two blocks/);
  });
});
