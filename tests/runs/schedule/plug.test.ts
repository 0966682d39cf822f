import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Stop } from '../../../src/cycles/trip.ts';
import type { Car } from '../../../src/model/car.ts';
import { charge } from '../../../src/runs/charge/charge.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { drive } from '../../../src/runs/trip/drive.ts';
import { range } from '../../../src/runs/trip/range.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';
import { stop, trip } from '../../trips.ts';

const car = withPackHeat(testCar);
const supply = { voltage: 230, current: 16, phases: 1 };
const hung = (seconds: number, to: number | null = 0.9): Stop => ({
  kind: 'stop',
  seconds,
  plug: { supply, to, waits: seconds === 0 },
});
const short = scheduleNamed('wltc_medium');
const surroundings = testDay;

describe('a stop with a plug', () => {
  it('charges as a charge by itself does, from a rested pack', () => {
    const run = travelOnce(car, trip(short, stop(12 * 3600), hung(0), short), { surroundings, charge: 0.6 });
    const [plugged] = run.plugs;
    const before = run.legs[0]!.charge;
    const alone = charge(car, { from: before, to: 0.9, supply, temperature: surroundings.temperature });
    expect(plugged!.from).toBe(before);
    expect(plugged!.to).toBeCloseTo(0.9, 9);
    // The night has not quite cooled it down.
    expect(plugged!.wall / Number(alone.summary['energy_wall'])).toBeCloseTo(1, 3);
    expect(plugged!.charging / Number(alone.summary['time'])).toBeCloseTo(1, 3);
    expect(run.legs[1]!.charge).toBeLessThan(0.9);
    expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-9);
  });

  it('takes what its hours give, and no more than is wished', () => {
    const by = (seconds: number): number => {
      const run = travelOnce(car, trip(short, hung(seconds, 0.8), short), { surroundings, charge: 0.5 });
      expect(run.plugs[0]!.seconds).toBeCloseTo(seconds, 6);
      expect(Math.abs(travelLedger(run).gap)).toBeLessThan(1e-6);
      return run.plugs[0]!.to;
    };
    const [one, two] = [by(3600), by(7200)];
    expect(one).toBeGreaterThan(0.55);
    // 16 A of 230 V, less what the charger and the pumps take, for an hour.
    const most = (230 * 16 * 0.9 - 150) / (360 * 60);
    expect((two - one) / most).toBeLessThan(1);
    expect((two - one) / most).toBeGreaterThan(0.95);
    expect(by(24 * 3600)).toBeCloseTo(0.8, 9);
  });

  it('is told with its energy at the wall, and the consumption counts what was drawn', () => {
    const result = drive(car, trip(short, hung(0), short, hung(0)), { surroundings, charge: 0.9 });
    const told = result.events.filter(({ what }) => what.startsWith('plugged in'));
    expect(told).toHaveLength(2);
    expect(told[0]!.what).toMatch(/kWh from the wall, from \d\d.* % to 90 % in .* h, paced by supply/u);
    const { energy_plugged: wall, distance, consumption_wall: per } = result.summary;
    expect(Number(per)).toBeCloseTo(Number(wall) / Number(distance), 6);
    expect(result.opinion?.agrees).toBe(true);
    expect(result.ledger.in['from the charger']).toBeGreaterThan(0);
    expect(drive(car, trip(short), { surroundings }).reasons['energy_plugged']).toMatch(/no stop/u);
  });

  it('carries a range as far as the same trips in a row go', () => {
    const day = trip(short, hung(300));
    const long = range(car, day, { surroundings, charge: 0.5 });
    const run = travelOnce(car, day, { surroundings, charge: 0.5, untilEmpty: true, empty: car.pack.window.low });
    expect(long.summary['range']).toBeGreaterThan(
      Number(range(car, trip(short), { surroundings, charge: 0.5 }).summary['range']),
    );
    expect(Math.abs(long.ledger.gap)).toBeLessThan(1e-6);
    expect(long.opinion?.agrees).toBe(true);
    const times = run.plugs.length;
    expect(times).toBeGreaterThan(2);
    const parts = Array.from({ length: times }, () => [short, hung(300)]).flat();
    const row = travelOnce(car, trip(...parts), { surroundings, charge: 0.5 });
    expect(run.plugs.map(({ wall }) => wall)).toEqual(row.plugs.map(({ wall }) => wall));
    expect(long.summary['energy_plugged']).toBeCloseTo(
      row.plugs.reduce((sum, { wall }) => sum + wall, 0),
      3,
    );
  });

  it('may give back more than the way takes: then there is no range, and the plugs are named', () => {
    const { summary, reasons } = range(car, trip(short, hung(0)), { surroundings });
    expect(summary['range']).toBeNull();
    expect(reasons['range']).toMatch(/its plugs give back as much as it takes/u);
  });

  it('says so where the pack is too cold to be charged', () => {
    const frost = { ...surroundings, temperature: 258.15 };
    const result = drive(car, trip(short, stop(48 * 3600), hung(8 * 3600), short), {
      surroundings: frost,
      charge: 0.8,
    });
    expect(result.warnings.join(' ')).toMatch(/At 1 of 1 plugs nothing is charged: the pack is too cold/u);
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-6);
    const warm: Car = { ...car, pack: { ...car.pack, chargeCold: { none: 250, full: 255 } } };
    expect(
      Number(drive(warm, trip(short, hung(3600)), { surroundings: frost }).summary['energy_plugged']),
    ).toBeGreaterThan(0);
  });
});
