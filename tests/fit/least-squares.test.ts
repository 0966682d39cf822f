/** The fit of parameters, against figures of SciPy 1.17.1 (scipy.optimize.least_squares, method lm, slopes by complex steps or, where it says so, 3-point differences) and closed forms. */
import { describe, expect, it } from 'vitest';
import { nth } from '../../src/columns.ts';
import { slopesAfter, speedAfter, SpeedSlopes, timeBetween } from '../../src/fit/coast/closed-form.ts';
import { leastSquares, scatterCovariance } from '../../src/fit/least-squares.ts';
import { expanded, standardOf } from '../../src/fit/linear.ts';
import { studentQuantile, widening } from '../../src/fit/student.ts';
import { propagated } from '../../src/studies/sampling/joint.ts';

const near = (found: number | undefined, wanted: number, share = 1e-9): void =>
  expect(Math.abs((found ?? Number.NaN) / wanted - 1)).toBeLessThan(share);

describe('least squares', () => {
  const force: readonly (readonly [number, number])[] = [
    [10, 196],
    [20, 331],
    [30, 555],
    [40, 867],
  ];
  const road = leastSquares({
    residuals: ([a = 0, b = 0, c = 0]) => Float64Array.from(force, ([v, f]) => f - (a + b * v + c * v * v)),
    start: [0, 0, 0],
    scale: [100, 1, 0.1],
  });

  it('finds three terms of four forces, with their covariance (by hand, 30 digits)', () => {
    near(road.parameters[0], 149.25);
    near(road.parameters[1], 0.245, 1e-9);
    near(road.parameters[2], 0.4425);
    near(road.squares / road.freedom, 0.05);
    const covariance = scatterCovariance(road);
    near(propagated([1, 30, 900], covariance), 0.16583123951777);
    near(
      [149.25, 0.245, 0.4425].reduce((all, each, i) => all + each * 30 ** i, 0),
      554.85,
    );
    near(Math.hypot(...covariance.map((row, i) => Math.sqrt(nth(row, i)) * 30 ** i)), 2.074246851269154);
  });

  it.each([
    ['a car', 0.12, 0.002, 3.6e-4, 33, 100],
    ['its first instant', 0.12, 0.002, 3.6e-4, 33, 0.1],
    ['no square', 0.12, 0.002, 0, 33, 60],
    ['terms whose root is nothing', 0.01, 0.02, 0.01, 20, 40],
    ['terms just beside that', 0.010001, 0.02, 0.01, 20, 40],
    ['much that goes with speed', 0.01, 0.05, 3e-4, 30, 50],
  ])('knows the slopes of a speed, as central differences do: %s', (_, a, b, c, start, time) => {
    const slopes = new SpeedSlopes();
    slopesAfter({ a, b, c }, start, time, slopes);
    const beside = (step: number, at: (by: number) => number): number => {
      const half = (at(step / 2) - at(-step / 2)) / step;
      return (4 * half - (at(step) - at(-step)) / (2 * step)) / 3;
    };
    near(1 + slopes.a, 1 + beside(1e-4, by => speedAfter({ a: a + by, b, c }, start, time)), 1e-8);
    near(1 + slopes.b, 1 + beside(1e-5, by => speedAfter({ a, b: b + by, c }, start, time)), 1e-8);
    near(1 + slopes.c, 1 + beside(1e-6, by => speedAfter({ a, b, c: c + by }, start, time)), 1e-8);
    near(1 + slopes.start, 1 + beside(1e-2, by => speedAfter({ a, b, c }, start + by, time)), 1e-8);
  });

  it('fits a coast-down as SciPy does', () => {
    const time = Array.from({ length: 101 }, (_, i) => i);
    const read = time.map(
      t => speedAfter({ a: 0.12, b: 0.002, c: 3.6e-4 }, 33, t) + 0.05 * Math.sin(1.7 * t * t + 0.3),
    );
    const fit = leastSquares({
      residuals: ([a = 0, b = 0, c = 0, v = 0]) =>
        Float64Array.from(time, t => nth(read, t) - speedAfter({ a, b, c }, v, t)),
      start: [0.1, 0.003, 3e-4, 32],
      scale: [0.1, 0.005, 4e-4, 1],
    });
    near(fit.parameters[0], 0.1221762269736139, 1e-8);
    near(fit.parameters[1], 0.0017196486024781534, 1e-7);
    near(fit.parameters[2], 0.0003686690950739064, 1e-8);
    near(fit.parameters[3], 33.02403601211868, 1e-9);
    near(fit.squares, 0.13047218114755987, 1e-12);
    const covariance = scatterCovariance(fit);
    [0.0022967957108308065, 0.000294195145708616, 8.516908563002007e-6, 0.01701394845065076].forEach((u, i) =>
      near(Math.sqrt(covariance[i]?.[i] ?? 0), u, 1e-6),
    );
    [76.94814452, 11.13317542, 2.6023386, 0.54534881].forEach((s, i) => near(fit.singular[i], s, 1e-6));
    expect(fit.settled).toBe(true);
  });

  it('fits a rise with a lag as SciPy does with 3-point differences, from a poor start', () => {
    const time = Array.from({ length: 26 }, (_, i) => i / 5);
    const read = time.map(t => 3.2 * (1 - Math.exp(-t / 0.9)) + 0.4 + 0.02 * Math.cos(9 * t * t));
    const fit = leastSquares({
      residuals: ([p = 0, q = 0, r = 0]) =>
        Float64Array.from(time, (t, i) => nth(read, i) - (p * (1 - Math.exp(-t / q)) + r)),
      start: [1, 2, 0],
      scale: [1, 1, 1],
      within: [
        [-10, 10],
        [0.01, 10],
        [-10, 10],
      ],
    });
    near(fit.parameters[0], 3.182427873845677, 1e-7);
    near(fit.parameters[1], 0.9066102507250312, 1e-7);
    near(fit.parameters[2], 0.41915532365343217, 1e-6);
    near(fit.squares, 0.004175153314845743);
  });

  it('has a singular value of nothing, and no covariance, for two parameters that only come as a quotient', () => {
    const time = [1, 2, 3, 4];
    const fit = leastSquares({
      residuals: ([power = 1, mass = 1]) =>
        Float64Array.from(time, t => Math.sqrt(2 * 3 * t) - Math.sqrt((2 * power * t) / mass)),
      start: [2, 1],
      scale: [2, 1],
    });
    expect(fit.singular[1] ?? 1).toBeLessThan(1e-9 * (fit.singular[0] ?? 0));
    expect(fit.inverse[0]?.[0]).toBe(Number.POSITIVE_INFINITY);
    near((fit.parameters[0] ?? 0) / (fit.parameters[1] ?? 0), 3);
  });

  it('refuses fewer residuals than parameters', () => {
    expect(() => leastSquares({ residuals: () => new Float64Array(1), start: [1, 2], scale: [1, 1] })).toThrow(
      RangeError,
    );
  });
});

describe("Student's t", () => {
  it('has the quantiles of SciPy', () => {
    const of: readonly (readonly [number, number])[] = [
      [1, 12.706204736174694],
      [2, 4.302652729749462],
      [3, 3.1824463052837078],
      [4, 2.7764451051977934],
      [9, 2.262157162798205],
      [30, 2.0422724563012378],
    ];
    for (const [freedom, t] of of) near(studentQuantile(0.975, freedom), t, 1e-12);
    near(widening(2), 4.302652729749462 / 1.959963984540054, 1e-12);
    expect(() => studentQuantile(0.5, 0)).toThrow(RangeError);
  });
});

describe('scatter and what else is uncertain', () => {
  it('have the effective degrees of freedom of Welch and Satterthwaite, for one number', () => {
    // JCGM 100:2008, G.4.1: (s + b)^2 / (s^2 / 4) with s = 1, b = 3 gives 64.
    near(expanded({ scatter: [[1]], beside: [[3]], freedom: 4 })[0]?.[0], 4 * widening(64) ** 2, 1e-5);
  });

  it('stand by a covariance that is symmetric but for round-off', () => {
    const near1 = 1 + 2 ** -52;
    const scatter = [
      [1, 0.5 * near1],
      [0.5, 2],
    ];
    const beside = [
      [1, 0],
      [0, 1],
    ];
    expect(expanded({ scatter, beside, freedom: 4 }).flat().every(Number.isFinite)).toBe(true);
  });

  it('have their own degrees of freedom in every sum (by hand)', () => {
    const spread = {
      scatter: [
        [1, 0.5],
        [0.5, 2],
      ],
      beside: [
        [3, 0],
        [0, 0],
      ],
      freedom: 4,
    };
    // 1 of scatter and 3 beside: 4 (4/1)^2 = 64; 2 and nothing; 4 and 3: 4 (7/4)^2 = 12.25, of which 12 count.
    near(standardOf([1, 0], spread), 2 * widening(64));
    near(standardOf([0, 1], spread), Math.SQRT2 * widening(4));
    near(standardOf([1, 1], spread), Math.sqrt(7) * widening(12));
  });

  it('are t alone where nothing else is uncertain, and normal where nothing scatters beside it', () => {
    const scatter = [
      [2, 0.5],
      [0.5, 1],
    ];
    const nothing = [
      [0, 0],
      [0, 0],
    ];
    near(expanded({ scatter, beside: nothing, freedom: 4 })[0]?.[1], 0.5 * widening(4) ** 2, 1e-5);
    // Of the two halves of a scatter the last bit may differ.
    const [[one = 0, half = 0] = [], ...rest] = scatter;
    const uneven = [[one, half + Number.EPSILON], ...rest];
    near(expanded({ scatter: uneven, beside: nothing, freedom: 4 })[0]?.[1], 0.5 * widening(4) ** 2, 1e-5);
    const great = scatter.map(row => row.map(value => 1e4 * value));
    near((expanded({ scatter, beside: great, freedom: 4 })[0]?.[1] ?? 0) / 5000.5, widening(400) ** 2, 1e-4);
  });
});

describe('a coast-down in closed form', () => {
  const slowing = { a: 150 / 1230, b: 0, c: 0.45 / 1230 };

  it('takes the times worked out by hand', () => {
    near(timeBetween(slowing, 120 / 3.6, 20 / 3.6), 115.92336078944464, 1e-13);
    near(timeBetween(slowing, 105 / 3.6, 95 / 3.6), 6.878681144029392, 1e-13);
  });

  it.each([
    slowing,
    { a: 0.1, b: 0.02, c: 3e-4 },
    { a: 0.1, b: 0.003, c: 0 },
    { a: 0.1, b: 0, c: 0 },
    { a: 0.09, b: 0.006, c: 1e-4 },
  ])('goes there and back: %o', one => {
    const time = timeBetween(one, 30, 12);
    expect(time).toBeGreaterThan(0);
    near(speedAfter(one, 30, time), 12, 1e-12);
  });

  it('has no time to a speed that is not reached', () => {
    expect(timeBetween({ a: -0.1, b: 0, c: 4e-4 }, 30, 10)).toBeNaN();
  });
});
