/** Two integrators, one answer: the same switched system by both, and by itself at a finer tolerance. */
import { describe, expect, it } from 'vitest';
import { solveByMode } from '../../src/solvers/by-mode.ts';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import { solveExtrapolation } from '../../src/solvers/extrapolation.ts';
import { solveRosenbrock } from '../../src/solvers/rosenbrock.ts';
import type { Solution, Solve, SwitchedSystem } from '../../src/solvers/system.ts';
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

  it('is reached by the method that goes by the mode, with the implicit step in the middle', () => {
    const tried: string[] = [];
    const plain = driven();
    const system: SwitchedSystem = {
      ...plain,
      unfelt: [1],
      timed: () => false,
      stiff: mode => mode === 1,
      rates(mode, y, out) {
        tried.push(`${mode}`);
        plain.rates(mode, y, out);
      },
    };
    const run = solveByMode(system, {
      start: 0,
      end: 100,
      initial: [0, 0, 0],
      mode: 0,
      levels: watched,
      tolerance: 1e-8,
    });
    expect(run.events.map(e => [e.kind, e.index])).toEqual(reference.events.map(e => [e.kind, e.index]));
    expect(worst(run, reference)).toBeLessThan(2e-8);
    expect(run.statistics).toMatchObject({ evaluations: tried.length, lateSwitches: 0 });
    // The method of order five alone needs fewer than both, the implicit one alone more.
    const all = { ...system, stiff: () => true };
    const options = { start: 0, end: 100, initial: [0, 0, 0], mode: 0, levels: watched, tolerance: 1e-8 };
    expect(solveByMode(all, options).statistics.evaluations).toBe(solveRosenbrock(all, options).statistics.evaluations);
    expect(run.statistics.evaluations).toBeLessThan(solveRosenbrock(all, options).statistics.evaluations);
    expect(run.statistics.evaluations).toBeGreaterThan(solveExplicit(plain, options).statistics.evaluations);
  });

  it.each([
    ['explicit', solveExplicit],
    ['implicit', solveRosenbrock],
    ['by mode', solveByMode],
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
