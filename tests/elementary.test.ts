import { describe, expect, it } from 'vitest';
import * as elementary from '../src/elementary.ts';

/** Units in the last place between two numbers. */
function apart(a: number, b: number): number {
  if (a === b || (Number.isNaN(a) && Number.isNaN(b))) return 0;
  return Math.abs(a - b) / (Math.max(Math.abs(a), Math.abs(b), Number.MIN_VALUE) * Number.EPSILON);
}

const between = (from: number, to: number, count = 20_000): readonly number[] =>
  Array.from({ length: count }, (_, k) => from + ((to - from) * (k + 0.37)) / count);
const wide = between(-300, 300, 4000).map(power => 1.37 * 10 ** power);
const worst = (xs: readonly number[], f: (x: number) => number, of: (x: number) => number): number =>
  xs.reduce((most, x) => Math.max(most, apart(f(x), of(x))), 0);

/** The functions of this engine are within one unit of the truth, as ours are: between them there may be two. */
const TWO = 2.01;

describe('elementary functions against those of the engine', () => {
  it.each([
    ['exp', elementary.exp, between(-744, 709), Math.exp],
    ['exp', elementary.exp, between(-1, 1), Math.exp],
    ['expm1', elementary.expm1, between(-60, 60), Math.expm1],
    ['expm1', elementary.expm1, between(-1, 1), Math.expm1],
    ['expm1', elementary.expm1, wide.filter(x => x < 1), Math.expm1],
    ['log', elementary.log, wide, Math.log],
    ['log', elementary.log, between(0.3, 3), Math.log],
    ['sin', elementary.sin, between(-3, 3).filter(x => Math.abs(x) > 1e-3), Math.sin],
    ['cos', elementary.cos, between(-1.5, 1.5), Math.cos],
    ['atan', elementary.atan, between(-10, 10), Math.atan],
    ['atan', elementary.atan, wide, Math.atan],
  ] as const)('%s', (_name, own, xs, of) => {
    expect(worst(xs, own, of)).toBeLessThan(TWO);
  });

  it.each([
    ['tan', elementary.tan, between(-1.5, 1.5), Math.tan],
    ['asin', elementary.asin, between(-0.999, 0.999), Math.asin],
    ['tanh', elementary.tanh, between(-20, 20), Math.tanh],
    ['atanh', elementary.atanh, between(-0.999, 0.999), Math.atanh],
    ['atanh', elementary.atanh, wide.filter(x => x < 1e-3), Math.atanh],
  ] as const)('%s, which is made of others', (_name, own, xs, of) => {
    expect(worst(xs, own, of)).toBeLessThan(8);
  });

  it('sin and cos a few turns on', () => {
    for (const x of between(-1e4, 1e4)) {
      expect(Math.abs(elementary.sin(x) - Math.sin(x))).toBeLessThan(1e-15);
      expect(Math.abs(elementary.cos(x) - Math.cos(x))).toBeLessThan(1e-15);
    }
  });

  it('pow is off by no more than its exponent times the logarithm makes of a round-off', () => {
    for (const x of between(0.01, 50, 400))
      for (const y of between(-6, 6, 50))
        expect(apart(elementary.pow(x, y), x ** y)).toBeLessThan(3 + 2 * Math.abs(y * Math.log(x)));
  });

  it('at the ends of what numbers there are', () => {
    const { exp, expm1, log, pow, atan, asin } = elementary;
    expect([exp(0), exp(-Infinity), exp(Infinity), exp(710), exp(-746), exp(Number.NaN)]).toEqual(
      [0, -Infinity, Infinity, 710, -746, Number.NaN].map(Math.exp),
    );
    expect(apart(exp(-740), Math.exp(-740))).toBeLessThan(1e16 * Number.MIN_VALUE + 4);
    expect([expm1(-Infinity), expm1(Infinity), expm1(0)]).toEqual([-1, Infinity, 0]);
    expect([log(0), log(-1), log(1), log(Infinity), log(Number.NaN)]).toEqual(
      [0, -1, 1, Infinity, Number.NaN].map(Math.log),
    );
    expect(apart(log(5e-324), Math.log(5e-324))).toBeLessThan(TWO);
    expect(
      [pow(0, 2.5), pow(0, -1.5), pow(-2, 3), pow(-2, 5), pow(-2, 0.3), pow(7, 0), pow(4, 0.5)].map(x =>
        Number(x.toPrecision(15)),
      ),
    ).toEqual([0, Infinity, -8, -32, Number.NaN, 1, 2]);
    expect([atan(Infinity), atan(-Infinity), asin(1), asin(-1)]).toEqual([
      Math.PI / 2,
      -Math.PI / 2,
      Math.PI / 2,
      -Math.PI / 2,
    ]);
    expect([0, 1, 5, 22].map(k => pow(10, k))).toEqual([1, 10, 1e5, 1e22]);
    expect([-1, -3, -6].map(k => pow(10, k))).toEqual([0.1, 1e-3, 1e-6]);
    expect(elementary.hypot(3, 4)).toBe(5);
    expect(elementary.hypot()).toBe(0);
  });
});
