/** Two integrators, one answer: the same switched system by both, and by itself at a finer tolerance. */
import { describe, expect, it } from 'vitest';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import { solveExtrapolation } from '../../src/solvers/extrapolation.ts';
import { solveRosenbrock } from '../../src/solvers/rosenbrock.ts';
import type { Solution, Solve, SwitchedSystem } from '../../src/solvers/system.ts';
import { solveUntilStiff } from '../../src/solvers/until-stiff.ts';
import { ball, level, oscillator } from './problems.ts';

const force = (mode: number, v: number, q: number): number =>
  mode === 0 ? 7 : mode === 1 ? 70 / v : (8.4 * (10 - 2 * q)) / v;

/** A body driven by a force that is constant, then falls with speed, then with charge; made-up numbers. */
function driven(): SwitchedSystem {
  return {
    states: 3,
    quadratures: 3,
    guards: 2,
    scales: new Float64Array([1, 1, 1]),
    rates(mode, y, out) {
      const v = y[0]!;
      const f = force(mode, v, y[2]!);
      out[0] = f - 0.002 * v * v - 0.1;
      out[1] = v;
      out[2] = 0.001 * f * v;
      out[3] = f * v;
      out[4] = 0.002 * v ** 3;
      out[5] = 0.1 * v;
    },
    guard(mode, y, out) {
      out[0] = mode === 0 ? 70 - 7 * y[0]! : Infinity;
      out[1] = mode === 1 ? 8.4 * (10 - 2 * y[2]!) - 70 : Infinity;
    },
    switched: mode => mode + 1,
  };
}

const watched = [level('speed', 0, 20), level('way', 1, 500, { action: 'stop' })];
const solve = (by: Solve, tolerance: number): Solution =>
  by(driven(), { start: 0, end: 100, initial: [0, 0, 0], mode: 0, levels: watched, tolerance });

const worst = (a: Solution, b: Solution): number =>
  Math.max(
    ...a.events.flatMap((event, i) => {
      const other = b.events[i]!;
      return [
        Math.abs(event.time / other.time - 1),
        ...Array.from(event.states, (x, s) => Math.abs(x / other.states[s]! - 1)),
        ...Array.from(event.integrals, (x, q) => Math.abs(x / other.integrals[q]! - 1)),
      ];
    }),
  );

describe('agreement', () => {
  const reference = solve(solveExtrapolation, 1e-12);

  it('is reached on the course of events', () => {
    expect(reference.status).toBe('level');
    expect(reference.events.map(e => e.kind)).toEqual(['switch', 'level', 'switch', 'level']);
  });

  it.each([
    [1e-5, 2e-5],
    [1e-6, 2e-6],
    [1e-8, 2e-8],
    [1e-11, 1e-10],
  ])('of the two holds at tolerance %d', (tolerance, bound) => {
    const fast = solve(solveExplicit, tolerance);
    expect(fast.events.map(e => [e.kind, e.index])).toEqual(reference.events.map(e => [e.kind, e.index]));
    expect(worst(fast, reference)).toBeLessThan(bound);
    expect(fast.statistics.lateSwitches).toBe(0);
  });

  it('is reached by the method that takes explicit steps until they are held back, where they never are', () => {
    const options = { start: 0, end: 100, initial: [0, 0, 0], mode: 0, levels: watched, tolerance: 1e-8 };
    const run = solveUntilStiff(driven(), options);
    expect(run.events.map(e => [e.kind, e.index])).toEqual(reference.events.map(e => [e.kind, e.index]));
    expect(worst(run, reference)).toBeLessThan(2e-8);
    expect(run.statistics).toEqual(solveExplicit(driven(), options).statistics);
  });

  it('is reached by it with what settles in no time beside, in one mode of three', () => {
    let calls = 0;
    const plain = driven();
    const rate = (mode: number): number => (mode === 1 ? 1e4 : 1);
    // A fourth state goes for a tenth of the speed: closely in the second mode, at leisure in the others.
    const system: SwitchedSystem = {
      ...plain,
      states: 4,
      scales: new Float64Array([1, 1, 1, 1]),
      unfelt: [1],
      timed: () => false,
      rates(mode, y, out) {
        calls++;
        plain.rates(mode, y, out);
        for (let i = 6; i > 3; i--) out[i] = out[i - 1]!;
        out[3] = rate(mode) * (0.1 * y[0]! - y[3]!);
      },
    };
    const options = { start: 0, end: 100, initial: [0, 0, 0, 0], mode: 0, levels: watched, tolerance: 1e-8 };
    const run = solveUntilStiff(system, options);
    expect(run.events.map(e => [e.kind, e.index])).toEqual(reference.events.map(e => [e.kind, e.index]));
    run.events.forEach((event, i) => {
      const other = reference.events[i]!;
      expect(event.time / other.time).toBeCloseTo(1, 7);
      for (let k = 0; k < 3; k++) {
        expect(event.states[k]! / other.states[k]!).toBeCloseTo(1, 7);
        expect(event.integrals[k]! / other.integrals[k]!).toBeCloseTo(1, 7);
      }
    });
    expect(run.statistics).toMatchObject({ evaluations: calls, lateSwitches: 0 });
    // On the slow manifold, to the first order in what it lags: v' / 1e4.
    const [, , leaving] = run.events;
    const [v, , q, x] = leaving!.states;
    expect(x! + (0.1 * (force(1, v!, q!) - 0.002 * v! * v! - 0.1)) / 1e4).toBeCloseTo(0.1 * v!, 7);
    expect(run.statistics.evaluations).toBeLessThan(solveRosenbrock(system, options).statistics.evaluations);
    expect(solveExplicit(system, { ...options, maxSteps: 5000 }).status).toBe('failed');
  });

  it.each([
    ['explicit', solveExplicit],
    ['implicit', solveRosenbrock],
    ['until stiff', solveUntilStiff],
    ['extrapolation', solveExtrapolation],
  ])('holds between what is kept of a node and the rates there: %s', (_, by) => {
    const plain = driven();
    let push = Number.NaN;
    const system: SwitchedSystem = {
      ...plain,
      rates(mode, y, out) {
        push = force(mode, y[0]!, y[2]!);
        plain.rates(mode, y, out);
      },
      looks: 2,
      look(out, offset) {
        out[offset] = push;
        out[offset + 1] = 7;
      },
    };
    const { nodes, looks, states, modes } = by(system, {
      start: 0,
      end: 100,
      initial: [0, 0, 0],
      mode: 0,
      levels: watched,
      tolerance: 1e-6,
    });
    expect(looks.length).toBe(2 * nodes);
    for (let k = 0; k < nodes; k++) {
      expect(looks[2 * k]! / force(modes[k]!, states[3 * k]!, states[3 * k + 2]!)).toBeCloseTo(1, 12);
      expect(looks[2 * k + 1]).toBe(7);
    }
  });

  it('of the energies holds: work in = drag + rolling + kinetic', () => {
    for (const by of [solveExplicit, solveExtrapolation]) {
      const run = solve(by, 1e-6);
      const [work, drag, rolling] = run.integrals.subarray(-3);
      expect((work! - drag! - rolling! - run.states.at(-3)! ** 2 / 2) / work!).toBeCloseTo(0, 6);
    }
  });

  it('of the dense outputs holds between nodes', () => {
    const [fast, slow] = [solve(solveExplicit, 1e-9), solve(solveExtrapolation, 1e-9)];
    const [a, b] = [new Float64Array(6), new Float64Array(6)];
    for (let t = 0.01; t < fast.times.at(-1)!; t += 0.0713) {
      fast.at(t, a);
      slow.at(t, b);
      a.forEach((value, i) => expect(Math.abs(value - b[i]!)).toBeLessThan(1e-7 * Math.max(1, Math.abs(value))));
    }
  });
});

describe('the second method, asked for its nodes alone', () => {
  const options = { start: 0, end: 10, initial: [1, 0], mode: 0, tolerance: 1e-11, firstStep: 10 };

  it('comes to the same end, with less work', () => {
    const [alone, whole] = [true, false].map(nodesAlone => solveExtrapolation(oscillator, { ...options, nodesAlone }));
    for (const { states, integrals, nodes } of [alone!, whole!]) {
      // x = cos t, v = -sin t, and their integrals: closed forms.
      expect(states[2 * (nodes - 1)]).toBeCloseTo(Math.cos(10), 8);
      expect(states[2 * (nodes - 1) + 1]).toBeCloseTo(-Math.sin(10), 8);
      expect(integrals[2 * (nodes - 1)]).toBeCloseTo(Math.sin(10), 8);
      expect(integrals[2 * (nodes - 1) + 1]).toBeCloseTo(5 - Math.sin(20) / 4, 8);
    }
    expect(alone!.statistics.evaluations).toBeLessThan(0.8 * whole!.statistics.evaluations);
  });

  it('is refused where something is watched', () => {
    expect(() => solveExtrapolation(ball(0.5), { ...options, nodesAlone: true })).toThrow(/nodesAlone/u);
    const levels = [level('x', 0, 0)];
    expect(() => solveExtrapolation(oscillator, { ...options, levels, nodesAlone: true })).toThrow(/nodesAlone/u);
  });
});
