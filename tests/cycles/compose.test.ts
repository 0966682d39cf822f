import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LooseLeg, meet, TooShort } from '../../src/cycles/join-legs.ts';
import { legsOfMix, mix } from '../../src/cycles/mix.ts';
import type { Schedule } from '../../src/cycles/schedule.ts';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { withProfile } from '../../src/cycles/slope.ts';
import { distanceOf, statistics } from '../../src/cycles/statistics.ts';
import { rampTo, steadyOver, steadySchedule, withRamps } from '../../src/cycles/steady.ts';
import type { Stop } from '../../src/cycles/trip.ts';

describe('a steady speed', () => {
  it('is held for a time or over a distance', () => {
    expect(distanceOf(steadySchedule(20, 60))).toBe(1200);
    expect(steadyOver(25, 1000).time[1]).toBe(40);
    expect(steadyOver(100 / 3.6, 1000).title).toBe('steady 100 km/h');
    expect(() => steadySchedule(-1, 5)).toThrow(RangeError);
    expect(() => steadySchedule(10, 0)).toThrow(RangeError);
    expect(() => steadyOver(0, 100)).toThrow('leads nowhere');
  });

  it('keeps its distance or its time when ramps are taken into it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.constantFrom('distance' as const, 'time' as const),
        (speed, from, to, keep) => {
          const steady = steadySchedule(speed, 3000);
          const ramped = withRamps(steady, keep, { from, to });
          expect([ramped.speed[0], ramped.speed.at(-1)]).toEqual([from, to]);
          if (keep === 'distance') expect(distanceOf(ramped) / distanceOf(steady)).toBeCloseTo(1, 10);
          else expect(ramped.time.at(-1)).toBeCloseTo(3000, 8);
        },
      ),
    );
    expect(() => withRamps(steadySchedule(30, 10), 'time', { from: 0, to: 0 })).toThrow('is too short');
  });
});

describe('a road', () => {
  const profile = { distance: [0, 500, 2000, 9000], altitude: [100, 100, 160, 20] };

  it('bends where its profile does, and leaves time and way as they are', () => {
    const nycc = scheduleNamed('nycc');
    const hilly = withProfile(nycc, profile);
    expect(hilly.time.length).toBe(nycc.time.length + 1);
    expect(distanceOf(hilly)).toBeCloseTo(distanceOf(nycc), 9);
    const { climb, descent } = statistics(hilly);
    expect(climb).toBeCloseTo(((distanceOf(nycc) - 500) * 60) / 1500, 9);
    expect(descent).toBe(0);
  });

  it('gives back the climb of the profile over any schedule', () => {
    const { climb, descent } = statistics(withProfile(steadyOver(17, 9000), profile));
    expect(climb).toBeCloseTo(60, 9);
    expect(descent).toBeCloseTo(140, 9);
    // Within one interval that speeds up from rest, at the three bends: v^2 = 2 a s.
    const ramp = rampTo(0, 2 * Math.sqrt(2000), 0.5);
    const { time, speed } = withProfile(ramp, { distance: [0, 1000, 2000, 3000, 8000], altitude: [0, 1, 0, 1, 0] });
    [1000, 2000, 3000].forEach((s, k) => expect(speed[k + 1]).toBeCloseTo(Math.sqrt(s), 10));
    expect(time.every((t, i) => i === 0 || t > time[i - 1]!)).toBe(true);
  });

  it('must be a road and long enough', () => {
    expect(() => withProfile(scheduleNamed('wltc'), profile)).toThrow('the road is 9000 m long');
    expect(() => withProfile(steadyOver(10, 5), { distance: [0, 10], altitude: [0, 10] })).toThrow(
      'rises by 10 m over 10 m',
    );
    expect(() => withProfile(steadyOver(10, 5), { distance: [0, 0], altitude: [0, 1] })).toThrow('goes back');
    expect(() => withProfile(steadyOver(10, 5), { distance: [1, 10], altitude: [0, 1] })).toThrow('starts at 0 m');
  });
});

describe('a mix', () => {
  const [udds, hwfet] = [scheduleNamed('udds'), scheduleNamed('hwfet')];

  it('drives the schedule that lags most, in the same order every time', () => {
    const shares = [
      { schedule: udds, share: 0.55 },
      { schedule: hwfet, share: 0.45 },
    ];
    // By hand, km of 11.99 and 16.51: 0; then hwfet lags; after 28.50 km udds lags 3.68, after 40.49 hwfet lags 1.71 ...
    expect(mix(shares, 5)).toEqual([0, 1, 0, 1, 0]);
    expect(legsOfMix(shares)).toBe(8);
  });

  it('comes nearer to its shares than one leg of the longest schedule', () => {
    const schedules = [udds, hwfet, scheduleNamed('nycc'), scheduleNamed('us06')];
    const longest = Math.max(...schedules.map(distanceOf));
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 2, maxLength: 4 }),
        fc.integer({ min: 1, max: 200 }),
        (weights, legs) => {
          const sum = weights.reduce((total, w) => total + w, 0);
          const shares = weights.map((w, k) => ({ schedule: schedules[k]!, share: w / sum }));
          const order = mix(shares, legs);
          const whole = order.reduce((total, k) => total + distanceOf(schedules[k]!), 0);
          for (const [k, { schedule, share }] of shares.entries()) {
            const driven = order.filter(each => each === k).length * distanceOf(schedule);
            // What lags can wait for each of the others once.
            expect(Math.abs(driven - share * whole)).toBeLessThan(longest * (shares.length - 1));
          }
        },
      ),
    );
  });

  it('refuses shares that are none', () => {
    const half = { schedule: udds, share: 0.5 };
    expect(() => mix([half], 3)).toThrow('add up to 0.5');
    expect(() => mix([half, { ...half, share: 0.6 }, { ...half, share: -0.1 }], 3)).toThrow('not above 0');
    expect(() => mix([{ ...half, share: 1 }], 1.5)).toThrow('no number of legs');
    expect(() => mix([half, { schedule: steadySchedule(0, 5), share: 0.5 }], 2)).toThrow('goes nowhere');
  });
});

describe('the legs of a trip', () => {
  const leg = (schedule: Schedule, steady: LooseLeg['steady'] = null): LooseLeg => ({
    kind: 'leg',
    schedule,
    load: null,
    steady,
    slope: null,
  });
  const stop: Stop = { kind: 'stop', seconds: 3600 };
  const rolling: Schedule = { ...steadySchedule(12, 100), speed: Float64Array.of(12, 8) };

  it('follow each other without a jump of speed, from rest to rest, whatever they are', () => {
    const anyPart = fc.oneof(
      fc.constant(stop),
      fc.double({ min: 1, max: 40, noNaN: true }).map(v => leg(steadyOver(v, 20_000), 'distance')),
      fc.double({ min: 1, max: 40, noNaN: true }).map(v => leg(steadySchedule(v, 900), 'time')),
      fc.constantFrom(leg(scheduleNamed('nycc')), leg(rolling)),
    );
    fc.assert(
      fc.property(fc.array(anyPart, { minLength: 1, maxLength: 8 }), parts => {
        const met = meet(parts);
        let speed = 0;
        for (const part of met.parts) {
          if (part.kind === 'stop') expect(speed).toBe(0);
          else {
            expect(part.schedule.speed[0]).toBe(speed);
            speed = part.schedule.speed.at(-1)!;
          }
        }
        expect(speed).toBe(0);
        const asked = parts.filter(part => part.kind === 'leg' && part.steady === 'distance');
        for (const part of asked) {
          const after = met.parts[parts.indexOf(part)];
          if (after?.kind === 'leg') expect(distanceOf(after.schedule) / 20_000).toBeCloseTo(1, 9);
        }
        const before = parts.reduce(
          (sum, part) => sum + (part.kind === 'leg' && part.steady === null ? distanceOf(part.schedule) : 0),
          0,
        );
        const own = met.parts.reduce((sum, part, k) => {
          const was = parts[k]!;
          return (
            sum + (part.kind === 'leg' && was.kind === 'leg' && was.steady === null ? distanceOf(part.schedule) : 0)
          );
        }, 0);
        expect(own - before).toBeCloseTo(met.added, 6);
      }),
    );
  });

  it('are driven into each other at their speeds, and told apart where they are too short', () => {
    const { parts, ramps } = meet([
      leg(steadySchedule(20, 100), 'time'),
      leg(rolling),
      stop,
      leg(scheduleNamed('nycc')),
    ]);
    expect(ramps).toBe(1);
    const [first, second] = parts;
    if (first?.kind !== 'leg' || second?.kind !== 'leg') throw new Error('two legs');
    expect([...first.schedule.speed]).toEqual([0, 20, 20, 12]);
    expect([...second.schedule.speed]).toEqual([12, 8, 0]);
    const short = [stop, leg(steadyOver(30, 500), 'distance')];
    expect(() => meet(short)).toThrow(TooShort);
    expect(() => meet(short)).toThrow('steady 108 km/h for 17 s is too short');
  });

  it('take a slope with their ramps', () => {
    const { parts } = meet([{ ...leg(steadyOver(20, 5000), 'distance'), slope: 0.03 }]);
    const [only] = parts;
    expect(only?.kind === 'leg' && [...only.schedule.slope!]).toEqual([0.03, 0.03, 0.03]);
  });
});
