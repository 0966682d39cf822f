import { readdirSync, readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Schedule } from '../../../src/cycles/schedule.ts';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { cabinLoad } from '../../../src/model/cabin/cabin.ts';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { followParameters } from '../../../src/model/backward/load.ts';
import { addPowers, Powers } from '../../../src/model/backward/state.ts';
import { createFollower } from '../../../src/runs/schedule/follower.ts';
import type { Follower } from '../../../src/runs/schedule/follower.ts';
import type { CarState, FollowEnd } from '../../../src/runs/schedule/journey.ts';
import { arbitraryBuild, arbitraryDay, testCar, testDay, withPackHeat } from '../../cars.ts';
import { beginning, hilly, pointsDriven } from '../../trips.ts';

interface Turn {
  readonly end: FollowEnd;
  readonly state: CarState;
  readonly sums: Powers;
}

/** A schedule so many times: by a car that remembers it, and by one that meets it for the first time each time in the same state. */
function turns(of: Car, day: Surroundings, schedule: Schedule, count: number, charge: number): [Turn[], Turn[]] {
  const parameters = followParameters(of, day);
  const options = {
    auxiliaries: of.auxiliaries.power / of.auxiliaries.converterEfficiency,
    empty: of.pack.window.low,
    keen: true,
  };
  const [knowing, fresh] = [createFollower(), createFollower()];
  knowing.load(parameters);
  const { temperature } = day;
  knowing.setState({ charge, polarisation: [0, 0], pack: temperature, units: [temperature, temperature] });
  const [known, driven]: [Turn[], Turn[]] = [[], []];
  for (let turn = 0; turn < count; turn++) {
    const cabin = cabinLoad(of.cabin, temperature, turn === 0 ? temperature : of.cabin.temperature);
    const before = Object.assign(new Powers(), knowing.sums);
    fresh.load(parameters);
    fresh.setState(knowing.state());
    const follow = (who: Follower): Turn => {
      who.reload(parameters);
      const end = who.follow(schedule, { ...options, cabin, since: 0 });
      return { end, state: who.state(), sums: Object.assign(new Powers(), who.sums) };
    };
    driven.push(follow(fresh));
    const mine = follow(knowing);
    addPowers(mine.sums, before, -1);
    known.push(mine);
    if (mine.end.status !== 'done') break;
  }
  return [known, driven];
}

/** Largest difference of two turns: of the energy that the road takes, and of the state. */
function apart(a: Turn, b: Turn): number {
  expect(a.end.status).toBe(b.end.status);
  // A car that can not begin takes nothing.
  const whole = b.sums.drag + b.sums.rolling + Math.abs(b.sums.power) + 1;
  const energies = Object.keys(b.sums).map(name => {
    const key = name as keyof Powers;
    return Math.abs(a.sums[key] - b.sums[key]) / whole;
  });
  return Math.max(
    ...energies,
    Math.abs(a.end.distance - b.end.distance) / (b.end.distance + 1),
    Math.abs(a.state.charge - b.state.charge),
    Math.abs(a.state.pack - b.state.pack) / b.state.pack,
    ...[0, 1].map(i => Math.abs(a.state.units[i]! - b.state.units[i]!) / b.state.units[i]!),
    ...[0, 1].map(i => Math.abs((a.state.spent?.[i] ?? 0) - (b.state.spent?.[i] ?? 0))),
  );
}

const SAME = 1e-12;
/** A car that is late drives by the forward model, whose steps end elsewhere when it is another by the last bit. */
const AS_GOOD = 1e-7;

const withPower =
  (peakPower: number) =>
  (drive: Car['drives'][number]): Car['drives'][number] => ({ ...drive, unit: { ...drive.unit, peakPower } });

describe('a car that drives a schedule over and over', () => {
  const car = withPackHeat(testCar);
  for (const [what, of, day, schedule] of [
    ['in traffic', car, testDay, scheduleNamed('wltc')],
    ['over hills', car, testDay, hilly(scheduleNamed('udds'), 0.04)],
    ['in frost, heated', car, { ...testDay, temperature: 260 }, scheduleNamed('nycc')],
    [
      'close to what its drive gives',
      { ...car, drives: car.drives.map(withPower(48_000)) },
      testDay,
      scheduleNamed('wltc'),
    ],
  ] as const) {
    it(`asks of its pack what it asked the first time, ${what}`, () => {
      const [known, driven] = turns(of, day, schedule, 6, of.pack.window.high);
      known.forEach((turn, i) => expect(apart(turn, driven[i]!), `turn ${i + 1}`).toBeLessThan(SAME));
    });
  }

  it.each([
    ['of a car far from its limits', car, testDay, 1.15],
    ['close to what its drive gives', { ...car, drives: car.drives.map(withPower(48_000)) }, testDay, 1.15],
    ['of a pack that is too cold to be charged', car, { ...testDay, temperature: car.pack.chargeCold.none - 15 }, 1.05],
  ])('remembers nearly every step that is not at rest, %s', (_, of, day, least) => {
    const schedule = scheduleNamed('wltc');
    const follower = createFollower();
    follower.load(followParameters(of, day));
    follower.follow(schedule, {
      auxiliaries: 300,
      cabin: { steady: 0, extra: 0, time: 1 },
      since: 0,
      empty: 0.05,
      keen: true,
    });
    const moving = [...schedule.speed].filter((v, i) => i > 0 && (v > 0 || (schedule.speed[i - 1] ?? 0) > 0)).length;
    const [memory] = follower.inner.memories;
    // An interval that is cut has several, and at rest several have one.
    const atRest = schedule.time.length - pointsDriven(schedule);
    expect((memory?.rows ?? 0) + atRest).toBeGreaterThan(least * moving);
  });

  /** Its motor turns as fast as it may at 39 km/h: it is late for most of the way, and its pack has no say in that. */
  const short = {
    ...car,
    drives: car.drives.map(drive => ({ ...drive, ratio: 14, unit: { ...drive.unit, maxSpeed: 500, taperSpeed: 475 } })),
  };

  it('remembers what it does at full pedal where only its drive limits it', () => {
    const schedule = scheduleNamed('wltc');
    const [known, driven] = turns(short, testDay, schedule, 3, short.pack.window.high);
    known.forEach((turn, i) => expect(apart(turn, driven[i]!), `turn ${i + 1}`).toBeLessThan(AS_GOOD));
    const follower = createFollower();
    follower.load(followParameters(short, testDay));
    const options = { auxiliaries: 300, cabin: { steady: 0, extra: 0, time: 1 }, since: 0, empty: 0.05, keen: true };
    const { totals } = follower.inner;
    follower.follow(schedule, options);
    const [first, late] = [totals.evaluations, totals.late];
    follower.follow(schedule, options);
    expect(first).toBeGreaterThan(1000);
    expect(totals.evaluations - first).toBeLessThan(0.05 * first);
    expect(totals.late - late).toBeCloseTo(late, 6);
  });

  const folder = new URL('remembered/', import.meta.url);
  /** JSON has no Infinity. */
  const kept = (file: string): { what: string; car: Car; surroundings: Surroundings; charge: number } =>
    JSON.parse(readFileSync(new URL(file, folder), 'utf8'), (_, value) => (value === 'Infinity' ? Infinity : value));

  it.each(readdirSync(folder))('does so where it once did not: %s', file => {
    const { what, car: of, surroundings, charge } = kept(file);
    const [known, driven] = turns(of, surroundings, beginning('udds', 200), 4, charge);
    known.forEach((turn, i) => expect(apart(turn, driven[i]!), `${what}, turn ${i + 1}`).toBeLessThan(AS_GOOD));
  });

  it('does so whatever car it is', { timeout: 120_000 }, () => {
    const schedule = beginning('udds', 200);
    fc.assert(
      fc.property(arbitraryBuild, arbitraryDay, fc.double({ min: 0.3, max: 1, noNaN: true }), (of, day, charge) => {
        const [known, driven] = turns(of, day, schedule, 4, charge);
        known.forEach((turn, i) => expect(apart(turn, driven[i]!), `turn ${i + 1}`).toBeLessThan(AS_GOOD));
      }),
      { numRuns: 20, endOnFailure: true },
    );
  });
});
