/** Levels, for both integrators. */
import { describe, expect, it } from 'vitest';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import { solveExtrapolation } from '../../src/solvers/extrapolation.ts';
import { ball, level, oscillator, smooth } from './problems.ts';

const BOTH = [
  ['explicit', solveExplicit],
  ['extrapolation', solveExtrapolation],
] as const;

/** x' = 2 - 2 t: x = 2 t - t^2, which any method integrates exactly, in one step if it is let. */
const hill = smooth(1, 1, (_mode, y, out) => {
  out[0] = 2 - 2 * y[1]!;
  out[1] = y[0]!;
});
const overHill = { start: 0, end: 2, initial: [0], mode: 0, firstStep: 2 };

describe.each(BOTH)('%s: levels', (_name, solve) => {
  it('are found with the states and integrals there', () => {
    const watched = [level('down', 0, 0.5, { direction: 'falling' }), level('up', 1, 0.25, { direction: 'either' })];
    const run = solve(oscillator, { start: 0, end: 6, initial: [1, 0], mode: 0, levels: watched, tolerance: 1e-9 });
    const [first, second] = run.events;
    expect(run.events).toHaveLength(2);
    expect([first!.index, second!.index]).toEqual([0, 1]);
    expect(first!.time).toBeCloseTo(Math.PI / 3, 8);
    expect(first!.states[1]).toBeCloseTo(-Math.sin(Math.PI / 3), 8);
    expect(first!.integrals[0]).toBeCloseTo(Math.sin(Math.PI / 3), 8);
    // v = -sin t rises through 1/4 at pi + asin(1/4).
    expect(second!.time).toBeCloseTo(Math.PI + Math.asin(0.25), 8);
  });

  it('are found twice in one step, in order, with the direction asked for', () => {
    const watched = [
      level('falls', 0, 0.84, { direction: 'falling' }),
      level('rises', 0, 0.84),
      level('either', 0, 0.96, { direction: 'either' }),
      level('never', 0, 1.01),
    ];
    const run = solve(hill, { ...overHill, levels: watched });
    expect(run.events.map(e => watched[e.index]!.name)).toEqual(['rises', 'either', 'falls']);
    run.events.forEach((e, i) => expect(e.time).toBeCloseTo([0.6, 0.8, 1.4][i]!, 11));
  });

  it('below what begins above them and rises are never passed, below nothing either', () => {
    const watched = [level('below', 0, -0.5), level('far', 0, -3), level('above', 0, 0.5)];
    const run = solve(hill, { ...overHill, end: 0.9, firstStep: 0.9, levels: watched });
    expect(run.events.map(e => watched[e.index]!.name)).toEqual(['above']);
    // From below nothing up: x = -1 + 2 t - t^2 passes -0.5 at 1 - sqrt(0.5).
    const up = solve(hill, { ...overHill, initial: [-1], end: 0.9, firstStep: 0.9, levels: [level('half', 0, -0.5)] });
    expect(up.events[0]!.time).toBeCloseTo(1 - Math.sqrt(0.5), 10);
  });

  it('are found close to a top', () => {
    const run = solve(hill, { ...overHill, levels: [level('near', 0, 1 - 1e-5)] });
    expect(run.events).toHaveLength(1);
    expect(run.events[0]!.time).toBeCloseTo(1 - Math.sqrt(1e-5), 8);
  });

  it('count as passed at the start only when then passed in their direction', () => {
    const watched = [level('up', 0, 0), level('down', 0, 0, { direction: 'falling' })];
    const run = solve(hill, { ...overHill, end: 3, levels: watched });
    expect(run.events.map(e => [e.index, Math.round(e.time * 1e9) / 1e9])).toEqual([
      [0, 0],
      [1, 2],
    ]);
  });

  it('stop the run, and nothing after that is reported', () => {
    const watched = [level('later', 0, 0.9), level('stop', 0, 0.75, { action: 'stop' }), level('before', 0, 0.36)];
    const run = solve(hill, { ...overHill, levels: watched });
    expect(run.status).toBe('level');
    expect(run.events.map(e => watched[e.index]!.name)).toEqual(['before', 'stop']);
    expect(run.times.at(-1)).toBeCloseTo(0.5, 12);
    expect(run.states.at(-1)).toBeCloseTo(0.75, 12);
    expect(run.integrals.at(-1)).toBeCloseTo(0.25 - 0.125 / 3, 12);
    const out = new Float64Array(2);
    for (const t of [0.1, 0.25, 0.4, 0.5]) {
      run.at(t, out);
      expect(out[0]).toBeCloseTo(2 * t - t * t, 11);
      expect(out[1]).toBeCloseTo(t * t - t ** 3 / 3, 11);
    }
  });

  it('keep the dense output of a step that was cut', () => {
    const stop = level('stop', 0, 0.1, { direction: 'falling', action: 'stop' });
    const options = { start: 0, end: 6, initial: [1, 0], mode: 0 };
    const cut = solve(oscillator, { ...options, levels: [stop] });
    const out = new Float64Array(4);
    for (let t = 0; t < cut.times.at(-1)!; t += 0.01) {
      cut.at(t, out);
      expect(Math.abs(out[0]! - Math.cos(t))).toBeLessThan(1e-5);
      expect(Math.abs(out[2]! - Math.sin(t))).toBeLessThan(1e-5);
    }
  });

  it('are passed by a jump', () => {
    const watched = [level('v', 1, 0.1), level('stop', 1, 0.2, { action: 'stop' })];
    const run = solve(ball(0.5), { start: 0, end: 3, initial: [0.5, 0], mode: 0, levels: watched });
    expect(run.events.map(e => e.kind)).toEqual(['switch', 'level', 'level']);
    run.events.forEach(e => expect(e.time).toBeCloseTo(1, 11));
    expect(run.status).toBe('level');
    expect(run.states.at(-1)).toBeCloseTo(0.5, 11);
  });
});

describe('a rate that is not finite between two good ends of a step, as next to rest', () => {
  const abrupt = smooth(1, 1, (_mode, y, out) => {
    out[0] = Math.abs(y[0]!) < 0.02 ? -Infinity : -1;
    out[1] = 1;
  });

  it('hides no level', () => {
    // At 2/3 of its one step the state is 0; the stages of the method do not come near it.
    const stop = level('rest', 0, 0, { direction: 'falling', action: 'stop' });
    const run = solveExplicit(abrupt, { start: 0, end: 1.5, initial: [1], mode: 0, levels: [stop], firstStep: 1.5 });
    expect(run.status).toBe('level');
    expect(run.events[0]!.time).toBeCloseTo(1, 12);
    expect(run.events[0]!.integrals[0]).toBeCloseTo(1, 12);
  });
});

it('a quadrature that has all but come to rest costs no calls where levels are passed', () => {
  /** y' = -y, and the integral of its third power: 1/3 in all, of which nearly nothing comes late. */
  const falling = (quadratures: number) =>
    smooth(1, quadratures, (_mode, y, out) => {
      out[0] = -y[0]!;
      if (quadratures > 0) out[1] = 1e3 * y[0]! ** 3;
    });
  const levels = [0.09, 0.07, 0.05, 0.03, 0.02].map(value => level(`${value}`, 0, value, { direction: 'falling' }));
  const options = { start: 0, end: 4, initial: [1], mode: 0, tolerance: 1e-6, maxStep: 0.2, firstStep: 0.1, levels };
  const [alone, beside] = [solveExplicit(falling(0), options), solveExplicit(falling(1), options)];
  expect(beside.statistics.steps).toBe(alone.statistics.steps);
  expect(beside.statistics.evaluations).toBe(alone.statistics.evaluations);
  for (const { time, integrals } of beside.events)
    expect(integrals[0]! / ((1 - Math.exp(-3 * time)) / 3e-3)).toBeCloseTo(1, 5);
});
