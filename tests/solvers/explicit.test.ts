import { describe, expect, it } from 'vitest';
import { createExplicit, solveExplicit } from '../../src/solvers/explicit.ts';
import { solveExtrapolation } from '../../src/solvers/extrapolation.ts';
import { solveRosenbrock } from '../../src/solvers/rosenbrock.ts';
import type { SwitchedSystem } from '../../src/solvers/system.ts';
import { level, observedOrder, oscillator, smooth, swing } from './problems.ts';

const STEPS = [0.2, 0.1, 0.05, 0.025];
/** Options that make every step the same: a tolerance that never bites and a longest step that always does. */
const fixed = (h: number) => ({ tolerance: 0.5, maxStep: h, firstStep: h });

describe('order of convergence', () => {
  it('is 5 for states and integrals at the nodes', () => {
    const errors = STEPS.map(h => {
      const run = solveExplicit(swing, { start: 0, end: 2, initial: [1], mode: 0, ...fixed(h) });
      expect(run.statistics.steps).toBe(Math.round(2 / h));
      const exact = Math.exp(Math.sin(2));
      return [Math.abs(run.states.at(-1)! - exact), Math.abs(run.integrals.at(-1)! - (exact - 1))];
    });
    expect(
      observedOrder(
        STEPS,
        errors.map(e => e[0]!),
      ),
    ).toBeGreaterThan(4.7);
    expect(
      observedOrder(
        STEPS,
        errors.map(e => e[1]!),
      ),
    ).toBeGreaterThan(4.7);
  });

  it('is 4 or better for the dense output between nodes', () => {
    const errors = STEPS.map(h => {
      const run = solveExplicit(swing, { start: 0, end: 2, initial: [1], mode: 0, ...fixed(h) });
      const out = new Float64Array(2);
      let worst = 0;
      for (let t = 0; t < 2; t += 0.0137) {
        run.at(t, out);
        worst = Math.max(
          worst,
          Math.abs(out[0]! - Math.exp(Math.sin(t))),
          Math.abs(out[1]! - Math.exp(Math.sin(t)) + 1),
        );
      }
      return worst;
    });
    expect(observedOrder(STEPS, errors)).toBeGreaterThan(3.8);
    expect(errors.at(-1)).toBeLessThan(1e-8);
  });

  it('is 5 for the time of a level and for what else is known there', () => {
    const errors = STEPS.map(h => {
      const watched = [level('half', 0, 1.5)];
      const run = solveExplicit(swing, { start: 0, end: 2, initial: [1], mode: 0, levels: watched, ...fixed(h) });
      const event = run.events[0]!;
      return [Math.abs(event.time - Math.asin(Math.log(1.5))), Math.abs(event.integrals[0]! - 0.5)];
    });
    expect(
      observedOrder(
        STEPS,
        errors.map(e => e[0]!),
      ),
    ).toBeGreaterThan(4.7);
    expect(errors.at(-1)![0]).toBeLessThan(1e-10);
  });

  it('is 5 through switches that kink the solution', () => {
    // y' = 2 y below 2, -3 y + 10 above: continuous with a corner at ln(2)/2, where y = 2.
    const errors = STEPS.map(h => {
      const run = solveExplicit(corner, { start: 0, end: 1, initial: [1], mode: 0, ...fixed(h) });
      expect(run.statistics.switches).toBe(1);
      return Math.abs(run.states.at(-1)! - cornerAt(1));
    });
    expect(observedOrder(STEPS, errors)).toBeGreaterThan(4.7);
  });
});

/** Two modes with a known solution. */
const corner: SwitchedSystem = {
  states: 1,
  quadratures: 0,
  guards: 1,
  scales: new Float64Array([1]),
  rates(mode, y, out) {
    out[0] = mode === 0 ? 2 * y[0]! : 10 - 3 * y[0]!;
  },
  guard(mode, y, out) {
    out[0] = mode === 0 ? 2 - y[0]! : Infinity;
  },
  switched: () => 1,
};
const cornerAt = (t: number): number => 10 / 3 + (2 - 10 / 3) * Math.exp(-3 * (t - Math.LN2 / 2));

const rough = (scales: number[]): SwitchedSystem => ({
  ...smooth(1, 1, (_mode, y, out) => {
    out[0] = Math.cos(y[1]!);
    // What is left of a sum that should vanish: as good as random.
    out[1] = 1e-12 * Math.sin(1e6 * y[1]!);
  }),
  scales: new Float64Array(scales),
});

describe('step control', () => {
  it('keeps the error near the tolerance and spends more for less', () => {
    const runs = [1e-4, 1e-6, 1e-8, 1e-10].map(tolerance =>
      solveExplicit(oscillator, { start: 0, end: 20, initial: [1, 0], mode: 0, tolerance }),
    );
    runs.forEach((run, i) => {
      expect(run.status).toBe('end');
      expect(run.times.at(-1)).toBe(20);
      expect(Math.abs(run.states.at(-2)! - Math.cos(20))).toBeLessThan(50 * 10 ** (-4 - 2 * i));
      expect(Math.abs(run.integrals.at(-1)! - (10 - Math.sin(40) / 4))).toBeLessThan(100 * 10 ** (-4 - 2 * i));
      if (i > 0) expect(run.statistics.evaluations).toBeGreaterThan(runs[i - 1]!.statistics.evaluations);
    });
  });

  it('does not lose sight of an integral while the states rest', () => {
    const resting = smooth(1, 1, (_mode, y, out) => {
      out[0] = 0;
      out[1] = Math.sin(y[1]!) ** 2;
    });
    const run = solveExplicit(resting, { start: 0, end: 100, initial: [1], mode: 0 });
    expect(run.integrals.at(-1)).toBeCloseTo(50 - Math.sin(200) / 4, 2);
  });

  it('takes no notice of a rate that is noise against the scale given for it', () => {
    const options = { start: 0, end: 10, initial: [0], mode: 0 };
    for (const solve of [solveExplicit, solveRosenbrock, solveExtrapolation]) {
      const run = solve(rough([1, 1]), options);
      expect(run.status).toBe('end');
      expect(run.statistics.steps).toBeLessThan(200);
    }
    expect(solveExplicit(rough([1]), options).statistics.steps).toBeGreaterThan(1000);
  });

  it('rejects and shrinks where a rate is not a number, and goes on', () => {
    // The square root is real to y = 0 only: a long step from 1 would look beyond it.
    for (const solve of [solveExplicit, solveExtrapolation]) {
      const draining = smooth(1, 0, (_mode, y, out) => {
        out[0] = -2 * Math.sqrt(y[0]!);
      });
      const run = solve(draining, { start: 0, end: 0.99, initial: [1], mode: 0, firstStep: 0.99 });
      expect(run.status).toBe('end');
      expect(run.statistics.rejected).toBeGreaterThan(0);
      expect(run.states.at(-1)).toBeCloseTo(1e-4, 5);
    }
  });

  it('survives an infinite rate the same way', () => {
    for (const solve of [solveExplicit, solveExtrapolation]) {
      const steep = smooth(1, 0, (_mode, y, out) => {
        out[0] = y[0]! < 1.5 ? 1 : Infinity;
      });
      const run = solve(steep, { start: 0, end: 0.4, initial: [1], mode: 0, firstStep: 0.4, maxStep: 0.6 });
      expect(run.status).toBe('end');
      expect(run.states.at(-1)).toBeCloseTo(1.4, 12);
    }
  });
});

describe('failures', () => {
  it.each([
    ['explicit', solveExplicit],
    ['extrapolation', solveExtrapolation],
  ])('%s names the rate and the time when a rate stays bad', (_name, solve) => {
    const broken = smooth(2, 0, (_mode, y, out) => {
      out[0] = 1;
      out[1] = y[2]! > 0.5 ? Number.NaN : 1;
    });
    const run = solve(broken, { start: 0, end: 1, initial: [0, 0], mode: 0 });
    expect(run.status).toBe('failed');
    expect(run.reason).toMatch(/rate 1 is NaN/);
    expect(run.reason).toMatch(/t = 0\.(49999|5)/);
    expect(run.times.at(-1)).toBeCloseTo(0.5, 9);
    expect(run.states.at(-1)).toBeCloseTo(0.5, 9);
  });

  it('fails at a singularity, without throwing', () => {
    const explosive = smooth(1, 0, (_mode, y, out) => {
      out[0] = y[0]! ** 2;
    });
    const run = solveExplicit(explosive, { start: 0, end: 2, initial: [1], mode: 0 });
    expect(run.status).toBe('failed');
    expect(run.times.at(-1)).toBeCloseTo(1, 4);
  });

  it.each([
    ['explicit', solveExplicit],
    ['extrapolation', solveExtrapolation],
  ])('%s fails at once on a bad start', (_name, solve) => {
    const bad = smooth(1, 0, (_mode, _y, out) => {
      out[0] = Number.NaN;
    });
    const run = solve(bad, { start: 3, end: 4, initial: [1], mode: 0 });
    expect([run.status, run.nodes]).toEqual(['failed', 1]);
    expect(run.reason).toContain('3');
  });

  it('stops after the allowed number of steps', () => {
    const run = solveExplicit(oscillator, { start: 0, end: 1000, initial: [1, 0], mode: 0, maxSteps: 20 });
    expect(run.status).toBe('failed');
    expect(run.reason).toMatch(/20 steps were not enough/);
    expect(run.statistics.steps + run.statistics.rejected).toBe(20);
  });

  it('throws for options that make no sense', () => {
    const good = { start: 0, end: 1, initial: [1, 0], mode: 0 };
    expect(() => solveExplicit(oscillator, { ...good, end: -1 })).toThrow(/`end`/);
    expect(() => solveExplicit(oscillator, { ...good, initial: [1] })).toThrow(/`initial` must be 2 numbers, found 1/);
    expect(() => solveExplicit(oscillator, { ...good, tolerance: 0 })).toThrow(/`tolerance`/);
    expect(() => solveExplicit(oscillator, { ...good, breakpoints: [0.5, 0.2] })).toThrow(/`breakpoints`/);
    expect(() => solveExplicit(oscillator, { ...good, levels: [level('x', 7, 0)] })).toThrow(/level x/);
  });
});

describe('breakpoints', () => {
  /** y' = 1 before 1, 5 from 1 on, read from the time alone: a jump in a tabulated input. */
  const stepped = smooth(1, 1, (_mode, y, out) => {
    out[0] = y[1]! < 1 ? 1 : 5;
    out[1] = out[0];
  });

  it.each([
    ['explicit', solveExplicit],
    ['extrapolation', solveExtrapolation],
  ])('%s hits them exactly and reads a jump of the rates from the right side', (_name, solve) => {
    const run = solve(stepped, { start: 0, end: 2, initial: [0], mode: 0, breakpoints: [-1, 0, 1, 2, 7] });
    expect(run.events.map(e => [e.kind, e.index, e.time])).toEqual([['break', 2, 1]]);
    expect(Array.from(run.times)).toContain(1);
    expect(run.states.at(-1)).toBeCloseTo(6, 13);
    expect(run.integrals.at(-1)).toBeCloseTo(6, 13);
    expect(run.statistics.rejected).toBe(0);
    const out = new Float64Array(2);
    run.at(0.999, out);
    expect(out[0]).toBeCloseTo(0.999, 12);
    run.at(1.5, out);
    expect(out[0]).toBeCloseTo(3.5, 12);
  });
});

describe('the solution', () => {
  it('reads back its nodes exactly, and clamps', () => {
    const run = solveExplicit(oscillator, { start: 1, end: 5, initial: [1, 0], mode: 3 });
    const out = new Float64Array(4);
    for (let k = 0; k < run.nodes; k++) {
      expect(run.at(run.times[k]!, out)).toBe(k);
      expect(Array.from(out.subarray(0, 2))).toEqual(Array.from(run.states.subarray(2 * k, 2 * k + 2)));
      expect(Array.from(out.subarray(2))).toEqual(Array.from(run.integrals.subarray(2 * k, 2 * k + 2)));
    }
    expect(run.at(-9, out)).toBe(0);
    expect(out[0]).toBe(1);
    expect(run.at(99, out)).toBe(run.nodes - 1);
    expect(out[0]).toBe(run.states.at(-2));
    expect(() => run.at(Number.NaN, out)).toThrow(RangeError);
    expect(Array.from(run.modes)).toEqual(Array.from({ length: run.nodes }, () => 3));
  });

  it('is a single node when there is no time to pass', () => {
    for (const solve of [solveExplicit, solveExtrapolation]) {
      const run = solve(oscillator, { start: 1, end: 1, initial: [1, 0], mode: 0 });
      expect([run.status, run.nodes]).toEqual(['end', 1]);
    }
  });

  it('counts what was spent', () => {
    let calls = 0;
    const counted: SwitchedSystem = {
      ...corner,
      rates(mode, y, out) {
        calls++;
        corner.rates(mode, y, out);
      },
    };
    const run = solveExplicit(counted, { start: 0, end: 1, initial: [1], mode: 0, levels: [level('x', 0, 2.5)] });
    expect(run.statistics.evaluations).toBe(calls);
    expect(run.statistics.steps).toBe(run.nodes - 1);
    calls = 0;
    expect(solveExtrapolation(counted, { start: 0, end: 1, initial: [1], mode: 0 }).statistics.evaluations).toBe(calls);
  });
});

describe('createExplicit', () => {
  it('writes as much between nodes as there is room for', () => {
    for (const solve of [solveExplicit, solveExtrapolation]) {
      const run = solve(oscillator, { start: 0, end: 3, initial: [1, 0], mode: 0 });
      const [whole, states] = [new Float64Array(oscillator.states + oscillator.quadratures), new Float64Array(1)];
      run.at(1.3, whole);
      run.at(1.3, states);
      expect(states[0]).toBe(whole[0]);
    }
  });

  it('gives the same answer every time, whatever ran before', () => {
    const run = createExplicit(oscillator);
    const options = { start: 0, end: 10, initial: [1, 0], mode: 0, levels: [level('zero', 1, 0)] };
    const first = run(options);
    const [times, states] = [Array.from(first.times), Array.from(first.states)];
    run({ start: 0, end: 500, initial: [3, 2], mode: 0, tolerance: 1e-10 });
    const again = run(options);
    expect(Array.from(again.times)).toEqual(times);
    expect(Array.from(again.states)).toEqual(states);
    expect(again.events).toEqual(first.events);
    expect(again.statistics).toEqual(first.statistics);
  });

  it('leaves the solutions of `solveExplicit` alone', () => {
    const options = { start: 0, end: 3, initial: [1, 0], mode: 0 };
    const kept = solveExplicit(oscillator, options);
    const copy = Array.from(kept.states);
    solveExplicit(oscillator, { ...options, initial: [5, 5] });
    expect(Array.from(kept.states)).toEqual(copy);
  });
});
