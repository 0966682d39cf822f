import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  axleLoads,
  balance,
  type Item,
  type MassLedger,
  massOf,
  moveToKeep,
  weighed,
  withPeople,
} from '../../../src/model/body/mass-ledger.ts';

const thing = (mass: number, x: number, height = 0.5, count = 1): Item => ({ name: 'thing', count, mass, x, height });

const ledger: MassLedger = {
  wheelbase: 2.5,
  scales: { front: 600, rear: 400 },
  height: 0.5,
  out: [],
  in: [],
  driver: thing(0, 1.25),
  load: [],
};

describe('statics by hand', () => {
  it('puts the centre of gravity where the moments balance', () => {
    // 400 kg at 2.5 m and 600 kg at the front axle: 1000 kg at 1.0 m.
    expect(balance(600, 400, 0.5, 2.5)).toEqual({
      mass: 1000,
      front: 600,
      rear: 400,
      frontShare: 0.6,
      x: 1,
      height: 0.5,
    });
  });

  it.each([
    [0, 100, 0],
    [2.5, 0, 100],
    [1.25, 50, 50],
    // In front of the front axle: lever of 0.25 m over 2.5 m takes a tenth off the rear.
    [-0.25, 110, -10],
    [2.75, -10, 110],
  ])('a mass of 100 kg at %f m rests with %f kg on the front and %f kg on the rear', (x, front, rear) => {
    const loads = axleLoads(100, x, 2.5);
    expect(loads.front).toBeCloseTo(front, 12);
    expect(loads.rear).toBeCloseTo(rear, 12);
  });

  it('takes out and puts in, several pieces at once', () => {
    const { before, kerb } = weighed({ ...ledger, out: [thing(100, 0, 0.7)], in: [thing(25, 2, 0.4, 4)] });
    expect(before.mass).toBe(1000);
    // 600 - 100 + 100 (1 - 2/2.5) and 400 + 100 * 2/2.5.
    expect(kerb.front).toBeCloseTo(520, 12);
    expect(kerb.rear).toBeCloseTo(480, 12);
    // (1000 * 0.5 - 100 * 0.7 + 100 * 0.4) / 1000.
    expect(kerb.height).toBeCloseTo(0.47, 12);
    expect(kerb.x).toBeCloseTo(1.2, 12);
  });

  it('seats the driver and loads the car on top of the kerb mass', () => {
    const { kerb, driven, full } = weighed({
      ...ledger,
      driver: thing(75, 1.25, 0.6),
      load: [thing(75, 1.25), thing(50, 2.75)],
    });
    expect(kerb.mass).toBe(1000);
    expect([driven.front, driven.rear]).toEqual([637.5, 437.5]);
    expect(full.front).toBeCloseTo(637.5 + 37.5 - 5, 12);
    expect(full.rear).toBeCloseTo(437.5 + 37.5 + 55, 12);
    expect(driven.height).toBeCloseTo((1000 * 0.5 + 75 * 0.6) / 1075, 12);
  });

  it('places the people of a car where the ledger has them', () => {
    const peopled = { ...ledger, driver: thing(75, 1), load: [thing(150, 2), thing(50, 3)] };
    expect(withPeople(peopled, 75, 200)).toEqual(weighed(peopled).full);
    expect(withPeople(peopled, 75, 0)).toEqual(weighed(peopled).driven);
    // Half the load at its centre, 2.25 m.
    expect(withPeople(peopled, 0, 100)?.rear).toBeCloseTo(400 + (100 * 2.25) / 2.5, 10);
    expect(withPeople(ledger, 75, 100)).toBeNull();
  });
});

describe('moving a thing', () => {
  const car = balance(500, 500, 0.5, 2.5);
  const room = { min: -0.5, max: 3 };

  it('goes as far as the lever asks', () => {
    // 10 kg more on the front from a mass of 100 kg: 0.1 of the wheelbase forwards.
    const move = moveToKeep(car, 2.5, thing(100, 2), 0.51, room);
    expect(move).toMatchObject({ kind: 'moved' });
    expect(move.kind === 'moved' && move.by).toBeCloseTo(-0.25, 12);
    expect(move.to).toBeCloseTo(1.75, 12);
  });

  it('stays where the share is right already', () => {
    expect(moveToKeep(car, 2.5, thing(100, 2), 0.5, room)).toEqual({ kind: 'moved', by: 0, to: 2 });
  });

  it('says where it would have to stand, and what the nearest place gives', () => {
    const move = moveToKeep(car, 2.5, thing(10, 2), 0.6, room);
    expect(move.kind).toBe('outside');
    if (move.kind !== 'outside') return;
    // 100 kg more on the front from 10 kg: ten wheelbases. At the foremost place 10 kg * 2.5 m / 2.5 m = 10 kg.
    expect(move.to).toBeCloseTo(2 - 25, 10);
    expect(move.limit).toBe(-0.5);
    expect(move.share).toBeCloseTo(0.51, 12);
  });
});

const items = (most: number) =>
  fc.array(
    fc.record({
      name: fc.constant('thing'),
      count: fc.integer({ min: 1, max: 4 }),
      mass: fc.double({ min: 0.5, max: 40, noNaN: true }),
      x: fc.double({ min: -0.8, max: 3.4, noNaN: true }),
      height: fc.double({ min: 0.1, max: 1.2, noNaN: true }),
    }),
    { maxLength: most },
  );
const ledgers = fc.record({
  wheelbase: fc.double({ min: 1.9, max: 3.2, noNaN: true }),
  scales: fc.record({
    front: fc.double({ min: 700, max: 1500, noNaN: true }),
    rear: fc.double({ min: 700, max: 1500, noNaN: true }),
  }),
  height: fc.double({ min: 0.4, max: 0.9, noNaN: true }),
  out: items(3),
  in: items(3),
  driver: fc.constant(thing(75, 1.3, 0.6)),
  load: items(2),
});

describe('any ledger', () => {
  it('comes back from its axle loads: masses to axle loads to masses', () => {
    fc.assert(
      fc.property(ledgers, one => {
        const { kerb } = weighed(one);
        const loads = axleLoads(kerb.mass, kerb.x, one.wheelbase);
        const again = balance(loads.front, loads.rear, kerb.height, one.wheelbase);
        for (const key of ['mass', 'front', 'rear', 'frontShare', 'x', 'height'] as const) {
          expect(Math.abs(again[key] / kerb[key] - 1), key).toBeLessThan(1e-13);
        }
      }),
    );
  });

  it('undone gives the scales back: what went in taken out again, what came out put back', () => {
    fc.assert(
      fc.property(ledgers, one => {
        const { before, kerb } = weighed(one);
        const undone = weighed({ ...one, scales: kerb, height: kerb.height, out: one.in, in: one.out }).kerb;
        for (const key of ['mass', 'front', 'rear', 'frontShare', 'x', 'height'] as const) {
          expect(Math.abs(undone[key] / before[key] - 1), key).toBeLessThan(1e-13);
        }
      }),
    );
  });

  it('undone is exact to the last bit where scales and tape have binary fractions', () => {
    const eighths = fc.integer({ min: 1, max: 400 }).map(n => n / 8);
    const part = fc.record({
      name: fc.constant('thing'),
      count: fc.integer({ min: 1, max: 4 }),
      mass: eighths,
      x: fc.integer({ min: -32, max: 208 }).map(n => n / 64),
      height: fc.constant(0.5),
    });
    const parts = fc.array(part, { maxLength: 4 });
    fc.assert(
      fc.property(eighths, eighths, parts, parts, (front, rear, out, put) => {
        const one: MassLedger = {
          ...ledger,
          wheelbase: 2,
          scales: { front: 1000 + front, rear: 1000 + rear },
          out,
          in: put,
        };
        const { kerb } = weighed(one);
        const undone = weighed({ ...one, scales: kerb, out: put, in: out }).kerb;
        expect([undone.front, undone.rear]).toEqual([one.scales.front, one.scales.rear]);
      }),
    );
  });

  it('gains in mass exactly what goes in less what comes out, and weighs on both axles together what it weighs', () => {
    fc.assert(
      fc.property(ledgers, one => {
        const { before, kerb, driven, full } = weighed(one);
        const sum = (list: readonly Item[]): number => list.reduce((total, item) => total + massOf(item), 0);
        expect(kerb.mass - before.mass).toBeCloseTo(sum(one.in) - sum(one.out), 9);
        expect(full.mass - driven.mass).toBeCloseTo(sum(one.load), 9);
        for (const state of [before, kerb, driven, full]) expect(state.front + state.rear).toBe(state.mass);
      }),
    );
  });

  it('keeps the front share to 1e-9 when a thing is moved by the advised distance', () => {
    let moved = 0;
    fc.assert(
      fc.property(ledgers, fc.double({ min: 0.3, max: 0.7, noNaN: true }), fc.boolean(), (one, wanted, keep) => {
        const [first, ...others] = one.in;
        if (first === undefined) return;
        const { before, kerb } = weighed(one);
        const share = keep ? before.frontShare : wanted;
        const move = moveToKeep(kerb, one.wheelbase, first, share, { min: -1e4, max: 1e4 });
        expect(move.kind).toBe('moved');
        const after = weighed({ ...one, in: [{ ...first, x: move.to }, ...others] }).kerb;
        expect(Math.abs(after.frontShare - share)).toBeLessThan(1e-9);
        moved += 1;
      }),
    );
    expect(moved).toBeGreaterThan(30);
  });

  it('reaches the share told for the nearest place when a thing can not go far enough', () => {
    fc.assert(
      fc.property(ledgers, one => {
        const [first, ...others] = one.in;
        if (first === undefined) return;
        const move = moveToKeep(weighed(one).kerb, one.wheelbase, first, 0.3, { min: -0.6, max: 3 });
        if (move.kind !== 'outside') return;
        const after = weighed({ ...one, in: [{ ...first, x: move.limit }, ...others] }).kerb;
        expect(after.frontShare).toBeCloseTo(move.share, 12);
      }),
    );
  });
});
