/** A question has one answer: what a cell says of a car and what a study says of it are the same number. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { steadyOver } from '../../src/cycles/steady.ts';
import { RUN_KINDS, runKindOf } from '../../src/runs/kinds.ts';
import type { Asked, RunKind, RunValues } from '../../src/runs/kind.ts';
import { sound } from '../../src/runs/sound.ts';
import { arbitraryBuild, arbitraryCar } from '../cars.ts';
import { beginning, trip } from '../trips.ts';

/** A town, and a stretch of motorway that is said by its ends only. */
const way = trip(beginning('udds', 200), steadyOver(25, 20_000));

/** What is asked of a car, kind by kind. */
const VALUES: { readonly [kind: string]: fc.Arbitrary<RunValues> } = {
  launch: fc.record({ to: fc.double({ min: 8, max: 40, noNaN: true }), slope: fc.constantFrom(-0.05, 0, 0.1) }),
  repeat: fc.record({ times: fc.constant(3), to: fc.constant(15) }),
  drive: fc.record({ temperature: fc.double({ min: 258, max: 308, noNaN: true }) }),
  range: fc.record({ temperature: fc.constantFrom(263.15, 293.15), reserve: fc.constantFrom(0, 0.1) }),
  steady: fc.record({ speed: fc.double({ min: 10, max: 35, noNaN: true }), temperature: fc.constant(283.15) }),
  charge: fc.record({ temperature: fc.double({ min: 258, max: 313, noNaN: true }), packTemperature: fc.constant(285) }),
  coast: fc.record({
    in: fc.constantFrom('neutral', 'gear'),
    from: fc.double({ min: 12, max: 25, noNaN: true }),
    slope: fc.constantFrom(-0.01, 0, 0.03),
  }),
};

/** Whole answers take a second opinion: a few cars of each kind. */
const CARS: { readonly [kind: string]: number } = { launch: 4, charge: 8, coast: 8, drive: 3, sheet: 2, repeat: 2 };

const asked = (kind: RunKind, car: Asked['car'], values: RunValues): Asked => ({
  name: 'run',
  carName: 'car',
  car,
  values,
  trip: kind.drivesTrip ? way : null,
  inputs: [],
});

describe.each(RUN_KINDS.map(({ kind }) => kind))('a %s', name => {
  const kind = runKindOf(name);
  const values: fc.Arbitrary<RunValues> = VALUES[name] ?? fc.constant(name === 'standard' ? { standard: 'hwfet' } : {});
  const numbers = Object.keys(kind.outputs).filter(key => kind.outputs[key]?.unit !== '');

  it('answers a study as it answers a cell, figure by figure and all at once, to the last bit', {
    timeout: 120_000,
  }, () => {
    // One asker for all cars: what it keeps of one must not reach the next.
    const headlines = kind.createAnswer(kind.headlines);
    const all = kind.createAnswer();
    const same = fc.property(arbitraryCar, values, fc.constantFrom(...numbers), (car, said, key) => {
      const question = asked(kind, car, said);
      const { summary, reasons } = sound(kind.run(question));
      const { summary: figures } = all(question);
      for (const each of Object.keys(kind.outputs)) expect(figures[each], each).toBe(summary[each]);
      for (const wanted of [kind.headlines, [key]]) {
        const answer = wanted === kind.headlines ? headlines(question) : kind.createAnswer(wanted)(question);
        for (const each of wanted) {
          expect(answer.summary[each], each).toBe(summary[each]);
          if (summary[each] === null) expect(answer.reasons[each], each).toBe(reasons[each]);
        }
      }
    });
    fc.assert(same, { numRuns: CARS[name] ?? 1 });
    // A pack that comes to its low end in the middle of an interval that a recorded run drove step by step, and another one in one loop.
    if (name === 'standard') fc.assert(same, { seed: 913, numRuns: 1 });
  });

  it('gives the same whatever else is wanted, and whatever was asked before', { timeout: 120_000 }, () => {
    const headlines = kind.createAnswer(kind.headlines);
    fc.assert(
      fc.property(arbitraryBuild, values, fc.constantFrom(...kind.intervals), (car, said, key) => {
        const question = asked(kind, car, said);
        const [first = key] = kind.headlines;
        const { summary } = headlines(question);
        expect(kind.createAnswer([key, first])(question).summary[first]).toBe(summary[first]);
      }),
      { numRuns: name === 'launch' || name === 'charge' ? 10 : 1 },
    );
  });

  it('knows every figure that it shows', () => {
    for (const key of [...kind.headlines, ...kind.intervals, ...Object.keys(kind.better)]) {
      expect(numbers, key).toContain(key);
    }
  });
});

it('a launch at the tolerance of samples is within that tolerance', () => {
  const kind = runKindOf('launch');
  const [rough, fine] = [
    kind.createAnswer(['time_to_50_km_h'], { tolerance: 1e-6 }),
    kind.createAnswer(['time_to_50_km_h']),
  ];
  fc.assert(
    fc.property(arbitraryBuild, car => {
      const [a, b] = [rough, fine].map(answer => answer(asked(kind, car, {})).summary['time_to_50_km_h']);
      if (typeof a === 'number' && typeof b === 'number') expect(Math.abs(a / b - 1)).toBeLessThan(1e-5);
      else expect(a).toBe(b);
    }),
    { numRuns: 20 },
  );
});

it.each(['range', 'drive'])(
  'a %s at the tolerance of samples is any other, to the last bit',
  { timeout: 120_000 },
  name => {
    const kind = runKindOf(name);
    const key = name === 'range' ? 'range' : 'consumption';
    const [rough, fine] = [kind.createAnswer([key], { tolerance: 1e-6 }), kind.createAnswer([key])];
    fc.assert(
      fc.property(arbitraryBuild, fc.constantFrom(258.15, 293.15), (car, temperature) => {
        const put: Asked = {
          ...asked(kind, car, { temperature, ...(name === 'range' && { reserve: 0.8 }) }),
          trip: trip(beginning('udds', 400), beginning('hwfet', 100)),
        };
        const [a, b] = [rough, fine].map(answer => answer(put).summary[key]);
        expect(a).toBe(b);
      }),
      { numRuns: 8 },
    );
  },
);
