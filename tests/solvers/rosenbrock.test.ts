import { describe, expect, it } from 'vitest';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import { decompose, substitute } from '../../src/solvers/linear.ts';
import { RODAS } from '../../src/solvers/rodas.ts';
import { solveRosenbrock } from '../../src/solvers/rosenbrock.ts';
import { interpolate } from '../../src/solvers/step.ts';
import { ball, dryFriction, level, observedOrder, smooth, swing } from './problems.ts';

const dot = (u: readonly number[], v: readonly number[]): number => u.reduce((sum, x, i) => sum + x * v[i]!, 0);
const apply = (m: readonly number[][], u: readonly number[]): number[] => m.map(row => dot(row, u));

/** A rooted tree: the trees that hang on its root. */
interface Tree {
  readonly branches: readonly Tree[];
}

/** All rooted trees of so many nodes. */
function trees(nodes: number): readonly Tree[] {
  return forests(nodes - 1, nodes - 1).map(branches => ({ branches }));
}

/** All ways to share so many nodes among trees, none of them larger than `most`. */
function forests(nodes: number, most: number): readonly (readonly Tree[])[] {
  if (nodes === 0) return [[]];
  const found = new Map<string, readonly Tree[]>();
  for (let first = Math.min(nodes, most); first > 0; first--) {
    for (const tree of trees(first)) {
      for (const rest of forests(nodes - first, first)) {
        const branches = [tree, ...rest];
        found.set(branches.map(written).toSorted().join(''), branches);
      }
    }
  }
  return [...found.values()];
}

const written = ({ branches }: Tree): string => `(${branches.map(written).toSorted().join('')})`;
const nodesOf = ({ branches }: Tree): number => branches.reduce((sum, branch) => sum + nodesOf(branch), 1);
const density = (tree: Tree): number => tree.branches.reduce((all, branch) => all * density(branch), nodesOf(tree));

describe('the numbers of Rodas5P', () => {
  // Back from the form without Jacobian products (Hairer, Wanner II, section IV.7): u = Gamma k, so that
  // Gamma^-1 = 1/gamma - C, alpha = A Gamma, b = m Gamma. The order conditions are theorem 7.4 there: one for each rooted tree, a
  // node with one branch stands for alpha + Gamma, one with several for alpha.
  const stages = RODAS.ALPHA.map((_, i) => i);
  const gamma: number[][] = stages.map(() => stages.map(() => 0));
  for (const j of stages) {
    for (const i of stages) {
      let value = i === j ? 1 : 0;
      for (let k = 0; k < i; k++) value += RODAS.C[i]![k]! * gamma[k]![j]!;
      gamma[i]![j] = RODAS.GAMMA * value;
    }
  }
  const product = (row: readonly number[]): number[] =>
    stages.map(j => row.reduce((sum, value, k) => sum + value * gamma[k]![j]!, 0));
  const alpha = RODAS.A.map(row => product(row));
  const beta = stages.map(i => stages.map(j => alpha[i]![j]! + gamma[i]![j]!));
  const last = RODAS.A.at(-1)!;
  const weights = product([...last, 1]);
  const embedded = product(last);
  const one = stages.map(() => 1);
  const elementary = ({ branches }: Tree): number[] =>
    branches
      .map(branch => apply(branches.length === 1 ? beta : alpha, elementary(branch)))
      .reduce((all, factor) => all.map((x, i) => x * factor[i]!), one);
  const gaps = (by: readonly number[], order: number, x = 1): number[] =>
    trees(order).map(tree => Math.abs(dot(by, elementary(tree)) - x ** order / density(tree)));

  it('have rows that sum to the nodes and to the weights of time', () => {
    stages.forEach(i => {
      expect(dot(alpha[i]!, one)).toBeCloseTo(RODAS.ALPHA[i]!, 12);
      expect(dot(gamma[i]!, one)).toBeCloseTo(RODAS.TIME[i]!, 12);
    });
  });

  it('meet the conditions of order 5, and the companion those of order 4 only', () => {
    // 1, 1, 2, 4 and 9 rooted trees: Hairer, Norsett, Wanner I, table II.2.2.
    expect([1, 2, 3, 4, 5].map(order => trees(order).length)).toEqual([1, 1, 2, 4, 9]);
    for (const order of [1, 2, 3, 4, 5]) expect(Math.max(...gaps(weights, order))).toBeLessThan(1e-13);
    for (const order of [1, 2, 3, 4]) expect(Math.max(...gaps(embedded, order))).toBeLessThan(1e-13);
    expect(Math.max(...gaps(embedded, 5))).toBeGreaterThan(1e-3);
  });

  it('are stiffly accurate: the last rows of alpha + Gamma are the weights', () => {
    weights.forEach((weight, j) => expect(beta.at(-1)![j]).toBeCloseTo(weight, 13));
    embedded.forEach((weight, j) => expect(beta.at(-2)![j]).toBeCloseTo(weight, 13));
  });

  it('are of order 4 between nodes', () => {
    for (const x of [0.2, 0.5, 0.9]) {
      const by = product(
        stages.map(i => {
          const [a2, a3, a4] = [RODAS.D2[i]!, RODAS.D3[i]!, RODAS.D4[i]!];
          return interpolate(0, [...last, 1][i]!, a2, a3, a4, x);
        }),
      );
      for (const order of [1, 2, 3, 4]) expect(Math.max(...gaps(by, order, x))).toBeLessThan(1e-13);
      expect(Math.max(...gaps(by, 5, x))).toBeGreaterThan(1e-5);
    }
  });
});

describe('the Rosenbrock integrator', () => {
  it('has order 5, and 4 between nodes', () => {
    const steps = [0.2, 0.1, 0.05, 0.025];
    const errors = steps.map(h => {
      const run = solveRosenbrock(swing, {
        start: 0,
        end: 1,
        initial: [1],
        mode: 0,
        tolerance: 0.5,
        maxStep: h,
        firstStep: h,
      });
      const out = new Float64Array(2);
      let between = 0;
      for (let t = 0; t < 1; t += 0.0137) {
        run.at(t, out);
        between = Math.max(
          between,
          Math.abs(out[0]! - Math.exp(Math.sin(t))),
          Math.abs(out[1]! - Math.exp(Math.sin(t)) + 1),
        );
      }
      const exact = Math.exp(Math.sin(1));
      return [Math.abs(run.states[run.nodes - 1]! - exact), Math.abs(run.integrals.at(-1)! - exact + 1), between];
    });
    expect(
      observedOrder(
        steps,
        errors.map(e => e[0]!),
      ),
    ).toBeGreaterThan(4.8);
    expect(
      observedOrder(
        steps,
        errors.map(e => e[1]!),
      ),
    ).toBeGreaterThan(4.8);
    expect(
      observedOrder(
        steps,
        errors.map(e => e[2]!),
      ),
    ).toBeGreaterThan(3.9);
  });

  it("solves Robertson's problem", () => {
    const robertson = smooth(3, 1, (_mode, y, out) => {
      const [a, b, c] = [y[0]!, y[1]!, y[2]!];
      out[0] = -0.04 * a + 1e4 * b * c;
      out[2] = 3e7 * b * b;
      out[1] = -out[0] - out[2];
      out[3] = out[2];
    });
    robertson.scales.set([1, 1e-5, 1]);
    const run = solveRosenbrock(robertson, { start: 0, end: 40, initial: [1, 0, 0], mode: 0, tolerance: 1e-7 });
    // SciPy 1.10.1, solve_ivp, Radau, rtol 1e-12, atol 1e-16.
    const reference = [0.7158270687194148, 9.185534764558208e-6, 0.28416374574582026];
    reference.forEach((value, i) => expect(run.states.at(i - 3)! / value).toBeCloseTo(1, 6));
    expect(run.integrals.at(-1)! / reference[2]!).toBeCloseTo(1, 6);
    expect(run.statistics.steps).toBeLessThan(400);
  });

  it("solves van der Pol's equation at mu = 1000 where the explicit method would need a million steps", () => {
    const vanDerPol = smooth(2, 0, (_mode, y, out) => {
      out[0] = y[1]!;
      out[1] = 1000 * (1 - y[0]! ** 2) * y[1]! - y[0]!;
    });
    vanDerPol.scales.set([1, 1e-3]);
    const options = { start: 0, end: 500, initial: [2, 0], mode: 0, tolerance: 1e-6, maxSteps: 2000 };
    const run = solveRosenbrock(vanDerPol, options);
    // SciPy 1.10.1, solve_ivp, Radau, rtol 1e-12, atol 1e-14.
    expect(run.states.at(-2)! / 1.596768951052668).toBeCloseTo(1, 5);
    expect(run.states.at(-1)! / -0.0010303911878393483).toBeCloseTo(1, 5);
    expect(run.statistics.steps).toBeLessThan(200);
    expect(solveExplicit(vanDerPol, options).status).toBe('failed');
  });

  it('switches, jumps and finds levels like the explicit one', () => {
    const bounce = { start: 0, end: 3, initial: [0.5, 0], mode: 0, levels: [level('up', 0, 0.1)], tolerance: 1e-8 };
    const [stiff, plain] = [solveRosenbrock(ball(0.8), bounce), solveExplicit(ball(0.8), bounce)];
    expect(stiff.events.map(e => [e.kind, e.index])).toEqual(plain.events.map(e => [e.kind, e.index]));
    stiff.events.forEach((event, i) => {
      expect(event.time).toBeCloseTo(plain.events[i]!.time, 8);
      expect(event.integrals[0]).toBeCloseTo(plain.events[i]!.integrals[0]!, 8);
    });
    const rub = { start: 0, end: 20, initial: [1, 0], mode: 1, tolerance: 1e-8 };
    const stuck = solveRosenbrock(dryFriction(0.15), rub);
    stuck.events.forEach((event, i) => expect(event.time).toBeCloseTo((i + 1) * Math.PI, 6));
    expect(stuck.statistics).toMatchObject({ switches: 3, lateSwitches: 0 });
  });

  it('counts its evaluations', () => {
    let calls = 0;
    const counted = smooth(1, 1, (mode, y, out) => {
      calls++;
      swing.rates(mode, y, out);
    });
    const run = solveRosenbrock(counted, { start: 0, end: 2, initial: [1], mode: 0 });
    expect(run.statistics.evaluations).toBe(calls);
  });
});

describe('small linear systems', () => {
  it('are solved with row exchanges, and singular ones refused', () => {
    const matrix = new Float64Array([0, 2, 1, 1, 1, 0, 3, -1, 2]);
    const pivots = new Int32Array(3);
    expect(decompose(matrix, 3, pivots)).toBe(true);
    // x = (1, 2, 3), one place into the array.
    const b = new Float64Array([9, 7, 3, 7]);
    substitute(matrix, 3, pivots, b, 1);
    [9, 1, 2, 3].forEach((value, i) => expect(b[i]).toBeCloseTo(value, 13));
    expect(decompose(new Float64Array([1, 2, 2, 4]), 2, pivots)).toBe(false);
    expect(decompose(new Float64Array([Number.NaN]), 1, pivots)).toBe(false);
  });
});
