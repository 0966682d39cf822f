/** Switches, for both integrators. */
import { describe, expect, it } from 'vitest';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import { solveExtrapolation } from '../../src/solvers/extrapolation.ts';
import type { SwitchedSystem } from '../../src/solvers/system.ts';
import { ball, dryFriction, level } from './problems.ts';

const BOTH = [
  ['explicit', solveExplicit],
  ['extrapolation', solveExtrapolation],
] as const;

describe.each(BOTH)('%s: a bouncing ball', (_name, solve) => {
  // Dropped from 1/2 with g = 1: first bounce at 1 with speed 1, then flights of 2 r, 2 r^2, ...
  const r = 0.8;
  const bounces = [1, 1 + 2 * r, 1 + 2 * r + 2 * r ** 2, 1 + 2 * r + 2 * r ** 2 + 2 * r ** 3];
  const run = solve(ball(r), { start: 0, end: 5.3, initial: [0.5, 0], mode: 0 });

  it('bounces at the right times with the right speeds', () => {
    expect(run.status).toBe('end');
    expect(run.statistics.lateSwitches).toBe(0);
    expect(run.events.map(e => e.kind)).toEqual(['switch', 'switch', 'switch', 'switch']);
    run.events.forEach((event, i) => {
      expect(event.time).toBeCloseTo(bounces[i]!, 11);
      expect(event.states[1]).toBeCloseTo(-(r ** i), 11);
      expect(event.states[0]).toBeCloseTo(0, 11);
    });
  });

  it('stores the jump as two nodes, and reads the later one at that time', () => {
    const event = run.events[0]!;
    const k = run.times.indexOf(event.time);
    expect(run.times[k + 1]).toBe(event.time);
    expect(run.states[2 * k + 1]).toBeCloseTo(-1, 11);
    expect(run.states[2 * k + 3]).toBeCloseTo(r, 11);
    expect(run.integrals[k + 1]).toBe(run.integrals[k]);
    const out = new Float64Array(3);
    expect(run.at(event.time, out)).toBe(k + 1);
    expect(out[1]).toBeCloseTo(r, 11);
    run.at(event.time - 1e-9, out);
    expect(out[1]).toBeCloseTo(-1, 8);
  });

  it('integrates across the jumps', () => {
    // The square of the speed: 1/3 to the first bounce, 2 u^3 / 3 for a flight that begins with u.
    const third = run.events[2]!;
    expect(third.integrals[0]).toBeCloseTo((1 + 2 * r ** 3 + 2 * r ** 6) / 3, 10);
  });

  it('sees a flight that begins and ends within one step', () => {
    const short = solve(ball(r), { start: 0, end: 1.1, initial: [1e-4, 0], mode: 0, firstStep: 0.5 });
    // Flights shrink to nothing at sqrt(2 h) (1 + r) / (1 - r) = 0.127: there the model has no answer.
    const first = Math.sqrt(2e-4);
    expect(short.events[0]!.time).toBeCloseTo(first, 9);
    expect(short.events[1]!.time).toBeCloseTo(first * (1 + 2 * r), 9);
    expect(short.events[2]!.time).toBeCloseTo(first * (1 + 2 * r + 2 * r * r), 9);
  });
});

describe.each(BOTH)('%s: dry friction', (_name, solve) => {
  it('loses 2 mu in each half cycle and sticks', () => {
    const mu = 0.15;
    const run = solve(dryFriction(mu), { start: 0, end: 20, initial: [1, 0], mode: 1, tolerance: 1e-8 });
    // 1 -> -0.7 -> 0.4 -> -0.1: sticks at 3 pi.
    expect(run.events.map(e => [e.from, e.to])).toEqual([
      [1, 0],
      [0, 1],
      [1, 2],
    ]);
    run.events.forEach((event, i) => {
      expect(event.time).toBeCloseTo((i + 1) * Math.PI, 6);
      expect(event.states[0]).toBeCloseTo([-0.7, 0.4, -0.1][i]!, 6);
      expect(event.integrals[0]).toBeCloseTo((1 - event.states[0]! ** 2) / 2, 6);
    });
    expect(run.states.at(-2)).toBeCloseTo(-0.1, 6);
    expect(run.states.at(-1)).toBe(0);
    expect(run.statistics).toMatchObject({ switches: 3, lateSwitches: 0 });
  });
});

/** x' = 1, with a guard for each threshold. The mode is the set of the guards that have fired, bit by bit. */
function thresholds(values: readonly number[]): SwitchedSystem {
  return {
    states: 1,
    quadratures: 1,
    guards: values.length,
    scales: new Float64Array([1]),
    rates(mode, _y, out) {
      out[0] = 1;
      out[1] = mode;
    },
    guard(mode, y, out) {
      values.forEach((value, i) => {
        out[i] = (mode & (1 << i)) === 0 ? value - y[0]! : Infinity;
      });
    },
    switched: (mode, fired) => mode | (1 << fired),
  };
}

describe.each(BOTH)('%s: guards', (_name, solve) => {
  it('fire in order of time within one step, whatever their index', () => {
    const run = solve(thresholds([0.7, 0.3, 0.5]), {
      start: 0,
      end: 1,
      initial: [0],
      mode: 0,
      firstStep: 1,
    });
    expect(run.events.map(e => e.index)).toEqual([1, 2, 0]);
    run.events.forEach((e, i) => expect(e.time).toBeCloseTo([0.3, 0.5, 0.7][i]!, 11));
    expect(run.integrals.at(-1)).toBeCloseTo(2 * 0.2 + 6 * 0.2 + 7 * 0.3, 10);
    expect(run.statistics.lateSwitches).toBe(0);
  });

  it('that cross at the same instant fire one after the other there', () => {
    const run = solve(thresholds([0.4, 0.4]), {
      start: 0,
      end: 1,
      initial: [0],
      mode: 0,
    });
    expect(run.events.map(e => e.index)).toEqual([0, 1]);
    run.events.forEach(e => expect(e.time).toBeCloseTo(0.4, 11));
    expect(run.statistics).toMatchObject({ switches: 2, lateSwitches: 0 });
    expect(run.modes.at(-1)).toBe(3);
  });

  it('end the run when `switched` asks for it', () => {
    const run = solve({ ...thresholds([0.4]), switched: () => -1 }, { start: 0, end: 1, initial: [0], mode: 2 });
    expect(run.status).toBe('switched');
    expect(run.times.at(-1)).toBeCloseTo(0.4, 11);
    expect(run.events[0]).toMatchObject({ from: 2, to: -1 });
    expect(run.modes.at(-1)).toBe(2);
  });

  it('lead out of a mode and back into it', () => {
    // A thermostat: heats with 1 to 1, cools with 1 to 0: a triangle of period 2.
    const thermostat: SwitchedSystem = {
      states: 1,
      quadratures: 0,
      guards: 2,
      scales: new Float64Array([1]),
      rates(mode, _y, out) {
        out[0] = mode === 0 ? 1 : -1;
      },
      guard(mode, y, out) {
        out[0] = mode === 0 ? 1 - y[0]! : Infinity;
        out[1] = mode === 1 ? y[0]! : Infinity;
      },
      switched: mode => 1 - mode,
    };
    const run = solve(thermostat, { start: 0, end: 9.5, initial: [0], mode: 0 });
    expect(run.events.map(e => Math.round(e.time))).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    run.events.forEach((e, i) => expect(e.time).toBeCloseTo(i + 1, 10));
    expect(run.states.at(-1)).toBeCloseTo(0.5, 10);
    expect(run.statistics).toMatchObject({ switches: 9, lateSwitches: 0 });
  });

  it('that dip below zero between two nodes are seen', () => {
    // cos t + 0.99 is negative only for 0.28 around pi.
    const dip: SwitchedSystem = {
      states: 2,
      quadratures: 0,
      guards: 1,
      scales: new Float64Array([1, 1]),
      rates(_mode, y, out) {
        out[0] = y[1]!;
        out[1] = -y[0]!;
      },
      guard(mode, y, out) {
        out[0] = mode === 0 ? y[0]! + 0.99 : Infinity;
      },
      switched: () => 1,
    };
    for (const firstStep of [0.3, 0.4, 0.5, 0.6]) {
      const run = solve(dip, { start: 0, end: 6, initial: [1, 0], mode: 0, tolerance: 1e-4, firstStep });
      expect(run.statistics).toMatchObject({ switches: 1, lateSwitches: 0 });
      expect(run.events[0]!.time).toBeCloseTo(Math.acos(-0.99), 2);
    }
  });

  it('that only touch zero do not fail the run', () => {
    const graze: SwitchedSystem = {
      states: 1,
      quadratures: 0,
      guards: 1,
      scales: new Float64Array([1]),
      rates(_mode, _y, out) {
        out[0] = 1;
      },
      guard(_mode, y, out) {
        out[0] = (y[0]! - 0.5) ** 2;
      },
      switched: mode => mode + 1,
    };
    const run = solve(graze, { start: 0, end: 1, initial: [0], mode: 0 });
    expect(run.status).toBe('end');
    expect(run.statistics.switches).toBeLessThanOrEqual(1);
  });

  it('that are not positive at the start fire if they fall, and wait if they rise', () => {
    const falls = solve(thresholds([0]), { start: 0, end: 1, initial: [0], mode: 0 });
    expect(falls.events.map(e => e.time)).toEqual([0]);
    expect(falls.modes[0]).toBe(1);
    const rising: SwitchedSystem = {
      states: 1,
      quadratures: 0,
      guards: 1,
      scales: new Float64Array([1]),
      rates(_mode, y, out) {
        out[0] = Math.cos(y[1]!);
      },
      guard(mode, y, out) {
        out[0] = mode === 0 ? y[0]! : Infinity;
      },
      switched: () => 1,
    };
    // sin t from 0: armed on the way up, fires at pi.
    const rises = solve(rising, { start: 0, end: 5, initial: [0], mode: 0 });
    expect(rises.events).toHaveLength(1);
    expect(rises.events[0]!.time).toBeCloseTo(Math.PI, 6);
    expect(rises.statistics.lateSwitches).toBe(0);
  });

  it('that are found late are counted', () => {
    // Begins in a mode that does not hold: negative, rising, then falling again.
    const wrong: SwitchedSystem = {
      states: 1,
      quadratures: 0,
      guards: 1,
      scales: new Float64Array([1]),
      rates(_mode, y, out) {
        out[0] = Math.cos(y[1]!);
      },
      guard(mode, y, out) {
        out[0] = mode === 0 ? y[0]! - 2 : Infinity;
      },
      switched: () => 1,
    };
    const run = solve(wrong, { start: 0, end: 5, initial: [0], mode: 0, maxStep: 0.5 });
    expect(run.status).toBe('end');
    expect(run.statistics).toMatchObject({ switches: 1, lateSwitches: 1 });
  });

  it('that a breakpoint pushes below zero fire there', () => {
    const pushed: SwitchedSystem = {
      states: 1,
      quadratures: 0,
      guards: 1,
      scales: new Float64Array([1]),
      rates(mode, _y, out) {
        out[0] = mode;
      },
      guard(mode, y, out) {
        out[0] = mode === 0 ? (y[1]! < 1 ? 1 : -1) : Infinity;
      },
      switched: () => 1,
    };
    const run = solve(pushed, { start: 0, end: 3, initial: [0], mode: 0, breakpoints: [1] });
    expect(run.events.map(e => [e.kind, e.time])).toEqual([
      ['break', 1],
      ['switch', 1],
    ]);
    expect(run.states.at(-1)).toBeCloseTo(2, 12);
    expect(run.statistics.lateSwitches).toBe(0);
  });

  it('that chatter end the run with their number and the time', () => {
    // A saw with ten million teeth.
    const run = solve(
      {
        ...thresholds([0]),
        rates(_mode, _y, out) {
          out[0] = 1;
          out[1] = 0;
        },
        guard(_mode, y, out) {
          out[0] = 1e-7 - y[0]!;
        },
        switched(_mode, _fired, y) {
          y[0] = 0;
          return 0;
        },
      },
      { start: 0, end: 1, initial: [0], mode: 0 },
    );
    expect(run.status).toBe('failed');
    expect(run.reason).toMatch(/1000 switches within .* t = .* guard 0/);
  });

  it('that are not a number end the run with their number and the time', () => {
    const run = solve(
      {
        ...thresholds([0.5, 2]),
        guard(_mode, y, out) {
          out[0] = 1;
          out[1] = y[1]! > 0.5 ? Number.NaN : 1;
        },
      },
      { start: 0, end: 1, initial: [0], mode: 0, maxStep: 0.1 },
    );
    expect(run.status).toBe('failed');
    expect(run.reason).toMatch(/guard 1 is not a number at t = 0\.[56]/);
  });

  it('may mean nothing behind the instant at which the mode ends', () => {
    const run = solveExplicit(
      {
        ...thresholds([0.5]),
        guard(mode, y, out) {
          const own = y[1]! > 0.52 ? Number.NaN : 0.5 - y[1]!;
          out[0] = mode === 0 ? own : Infinity;
        },
      },
      { start: 0, end: 1, initial: [0], mode: 0, firstStep: 0.3 },
    );
    expect(run.reason).toBe('');
    expect(run.events.map(({ kind }) => kind)).toContain('switch');
    expect(run.events[0]?.time).toBeCloseTo(0.5, 9);
  });

  it('are called only right after the rates at the same state', () => {
    let last = '';
    let bad = 0;
    const base = dryFriction(0.1);
    const strict: SwitchedSystem = {
      ...base,
      rates(mode, y, out) {
        last = `${mode} ${y.join(' ')}`;
        base.rates(mode, y, out);
      },
      guard(mode, y, out) {
        if (last !== `${mode} ${y.join(' ')}`) bad++;
        base.guard!(mode, y, out);
      },
    };
    solve(strict, { start: 0, end: 15, initial: [1, 0], mode: 1, breakpoints: [2, 4], levels: [level('l', 0, 0.2)] });
    expect(bad).toBe(0);
  });
});

describe('a mode whose end is known', () => {
  const END = 1 / 3;
  /** Up to the end y' = y, from there on y' = -y; the quadrature is y. */
  const turning: SwitchedSystem = {
    states: 1,
    quadratures: 1,
    guards: 1,
    scales: new Float64Array([1]),
    rates(mode, y, out) {
      out[0] = mode === 0 ? y[0]! : -y[0]!;
      out[1] = y[0]!;
    },
    guard(mode, y, out) {
      out[0] = mode === 0 ? END - y[1]! : Infinity;
    },
    switched: () => 1,
  };
  const options = { start: 0, end: 1, initial: [1], mode: 0, tolerance: 1e-9 };
  const found = solveExplicit(turning, options);
  const told = solveExplicit({ ...turning, until: mode => (mode === 0 ? END : Infinity) }, options);

  it('is stepped to once, and not looked for', () => {
    expect(told.events.map(({ kind, time }) => [kind, time])).toEqual([['switch', END]]);
    // Without the search for the root; a step up to it takes nobody any more where the polynomial of the longer one will do.
    expect(told.statistics.evaluations).toBeLessThan(found.statistics.evaluations);
    expect(told.statistics.lateSwitches).toBe(0);
  });

  it('leads to the same answer', () => {
    // exp(1/3) at the switch, and as much is lost again as was gained by 2/3.
    for (const run of [found, told]) {
      expect(run.events[0]!.states[0]).toBeCloseTo(Math.exp(END), 9);
      expect(run.states.at(-1)).toBeCloseTo(Math.exp(2 * END - 1), 9);
      expect(run.integrals.at(-1)).toBeCloseTo(2 * Math.exp(END) - 1 - Math.exp(2 * END - 1), 9);
    }
  });

  it('changes nothing where the mode goes on', () => {
    const goes: SwitchedSystem = { ...turning, guard: (_mode, _y, out) => void (out[0] = 1), until: () => END };
    const run = solveExplicit(goes, options);
    expect(run.status).toBe('end');
    expect(Array.from(run.times)).toContain(END);
    expect(run.states.at(-1)).toBeCloseTo(Math.E, 8);
  });
});

describe('what a system says of its modes', () => {
  /** y' = y until y is 2; from there on the same, and the quadrature, which was y, is y squared. */
  const counted: SwitchedSystem = {
    states: 1,
    quadratures: 1,
    guards: 1,
    scales: new Float64Array([1, 1]),
    rates(mode, y, out) {
      out[0] = y[0]!;
      out[1] = mode === 0 ? y[0]! : y[0]! ** 2;
    },
    guard(mode, y, out) {
      out[0] = mode === 0 ? 1 - y[0]! / 2 : Infinity;
    },
    switched: () => 1,
  };
  const options = { start: 0, end: 1, initial: [1], mode: 0, tolerance: 1e-9 };
  const plain = solveExplicit(counted, options);

  it('saves looks for a guard that is a straight line in a state', () => {
    const straight = solveExplicit({ ...counted, straightIn: () => 0 }, options);
    expect(straight.events[0]!.time).toBeCloseTo(Math.log(2), 9);
    expect(straight.statistics.evaluations).toBeLessThan(plain.statistics.evaluations);
  });

  it('makes the first step past a switch longer where the mode goes on evenly, and spares its estimate up to a known end', () => {
    const smooth = solveExplicit({ ...counted, smooth: () => true }, options);
    expect(smooth.statistics.evaluations).toBeLessThan(plain.statistics.evaluations);
    expect(smooth.states.at(-1)).toBeCloseTo(Math.E, 8);
    const ends = { ...counted, until: (mode: number) => (mode === 0 ? Infinity : 0.7) };
    const estimated = solveExplicit(ends, options).statistics.evaluations;
    expect(solveExplicit({ ...ends, smooth: () => true }, options).statistics.evaluations).toBeLessThan(estimated);
  });

  it('saves the estimate of a step where the states go on alike, and the quadrature is that of each mode', () => {
    const alike = solveExplicit({ ...counted, alike: () => true }, options);
    expect(alike.statistics.evaluations).toBeLessThan(plain.statistics.evaluations);
    expect(alike.states.at(-1)).toBeCloseTo(Math.E, 8);
    // The integral of exp(t) up to ln 2, and of exp(2 t) from there to 1.
    expect(alike.integrals.at(-1)).toBeCloseTo(1 + (Math.E ** 2 - 4) / 2, 8);
  });
});

describe('a step that is refused', () => {
  /** y' = y until y is 2, then 1. */
  const system: SwitchedSystem = {
    states: 1,
    quadratures: 0,
    guards: 1,
    scales: new Float64Array([1]),
    rates(mode, y, out) {
      out[0] = mode === 0 ? y[0]! : 1;
    },
    guard(mode, y, out) {
      out[0] = mode === 0 ? 1 - y[0]! / 2 : Infinity;
    },
    switched: () => 1,
  };

  it('is cut at a switch so early in it that up to there it is good enough', () => {
    const run = solveExplicit(system, { start: 0, end: 3, initial: [1], mode: 0, tolerance: 3e-4, firstStep: 1.4 });
    expect(run.statistics.rejected).toBe(0);
    expect(run.events[0]!.time).toBeCloseTo(Math.log(2), 4);
    expect(run.states.at(-1)).toBeCloseTo(5 - Math.log(2), 4);
  });
});

describe.each(BOTH)(
  '%s: a mode that begins next to its end, and goes away from it before it comes back',
  (_name, solve) => {
    const left = (t: number): number => 2.5e-4 * t - 2 * t * t;
    const system: SwitchedSystem = {
      states: 1,
      quadratures: 0,
      scales: Float64Array.of(1),
      guards: 1,
      rates: (_mode, _y, out) => void (out[0] = 1),
      guard: (mode, y, out) => void (out[0] = mode === 1 ? left(y[0]!) : -left(y[0]!)),
      switched: mode => 1 - mode,
    };

    it('is left where it comes back, without going to and fro', () => {
      const run = solve(system, { start: 0, end: 2, initial: [1e-9], mode: 1, firstStep: 0.1 });
      expect(run.status).toBe('end');
      expect(run.statistics.switches).toBeLessThan(4);
      expect(run.events.at(-1)?.states[0]).toBeCloseTo(1.25e-4, 12);
    });
  },
);
