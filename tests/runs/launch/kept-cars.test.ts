/** Random cars on which the two methods, or the changes of limiter, once went apart: each stands in `kept/` with what was wrong. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import type { LaunchRun } from '../../../src/runs/launch/run.ts';
import { ledgerOf } from '../../../src/runs/ledger.ts';
import { solveExtrapolation } from '../../../src/solvers/extrapolation.ts';

interface Kept {
  readonly what: string;
  /** Free wheels are stiff: the second method would take minutes. */
  readonly alone?: boolean;
  readonly car: Car;
  readonly surroundings: Surroundings;
}

const folder = new URL('kept/', import.meta.url);

/** JSON has no Infinity. */
const kept = (file: string): Kept =>
  JSON.parse(readFileSync(new URL(file, folder), 'utf8'), (_, value) => (value === 'Infinity' ? Infinity : value));

const switches = (run: LaunchRun): LaunchRun['solution']['events'] =>
  run.solution.events.filter(({ kind }) => kind === 'switch');

describe('a kept car', () => {
  it.each(readdirSync(folder))('%s is driven by both methods alike, and finds no limiter late', file => {
    const { what, alone = false, car, surroundings } = kept(file);
    const settings = { surroundings, stop: 'quarter_mile' } as const;
    const quick = launchOnce(car, settings);
    expect(quick.solution.reason, what).toBe('');
    expect(quick.solution.statistics.lateSwitches, what).toBe(0);
    expect(Math.abs(ledgerOf(quick).gap), what).toBeLessThan(1e-6);
    if (alone) return;
    const mine = launchOnce(car, { ...settings, tolerance: 1e-10 });
    const theirs = launchOnce(car, { ...settings, tolerance: 1e-10 }, solveExtrapolation);
    expect([...theirs.marks.keys()], what).toEqual([...mine.marks.keys()]);
    for (const [mark, { time }] of mine.marks) expect(theirs.marks.get(mark)?.time, what).toBeCloseTo(time, 6);
    const [ours, others] = [switches(mine), switches(theirs)];
    expect(
      others.map(({ to }) => to),
      what,
    ).toEqual(ours.map(({ to }) => to));
    for (const [i, { time }] of ours.entries())
      expect(Math.abs((others[i]?.time ?? Number.NaN) - time), what).toBeLessThan(1e-6 * (1 + time));
  });
});
