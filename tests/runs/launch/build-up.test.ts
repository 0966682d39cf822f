/** The torque that builds up when the pedal goes down. */
import { describe, expect, it } from 'vitest';
import type { Car, Drive } from '../../../src/model/car.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { withTraction } from '../../../src/runs/variant.ts';
import { idealCar, testCar, testDay } from '../../cars.ts';

const withRise = (car: Car, torqueRise: number): Car => ({
  ...car,
  drives: car.drives.map(each => ({ ...each, unit: { ...each.unit, torqueRise } })),
});

/** At which no tyre rolls easier or harder than it says. */
const mildDay = { ...testDay, temperature: 298.15 };

const time = (car: Car, slope = 0, from = 0): number =>
  launchOnce(car, { surroundings: { ...mildDay, slope }, from, stop: '100_km_h', tolerance: 1e-9 }).marks.get(
    '100_km_h',
  )?.time ?? Number.NaN;

describe('the build-up of the torque', () => {
  const rise = 0.24;
  const ideal = (more: { rolling?: number; friction?: number } = {}): Car =>
    idealCar({ mass: 1000, force: 4000, power: 1e9, torqueRise: rise, ...more });

  it('moves a car under constant force as v = a (t - T/2), x = a (t^2/2 - T t/2 + T^2/6)', () => {
    const run = launchOnce(ideal(), { surroundings: testDay, stop: '100_km_h', tolerance: 1e-11 });
    const passed = run.marks.get('100_km_h')!;
    const t = 100 / 3.6 / 4 + rise / 2;
    expect(passed.time).toBeCloseTo(t, 9);
    expect(passed.states[1]).toBeCloseTo(4 * (t ** 2 / 2 - (rise * t) / 2 + rise ** 2 / 6), 7);
    expect(run.solution.events.some(({ kind, time: at }) => kind === 'switch' && Math.abs(at - rise) < 1e-9)).toBe(
      true,
    );
  });

  it('lets the car stand until the torque is more than what resists', () => {
    const car = ideal({ rolling: 0.1 });
    const run = launchOnce(car, { surroundings: mildDay, stop: '100_km_h', tolerance: 1e-11 });
    // F t/T - R from t0 = T R/F on; R = c m g.
    const R = 0.1 * 1000 * 9.80665;
    const begin = (rise * R) / 4000;
    expect(run.solution.times[0]).toBeCloseTo(begin, 12);
    const speed = ((4000 / rise) * (rise - begin) ** 2) / 2 / 1000;
    const t = rise + (100 / 3.6 - speed) / ((4000 - R) / 1000);
    expect(run.marks.get('100_km_h')!.time).toBeCloseTo(t, 9);
  });

  it('lets a car stand on a hill until the axle that is later is there too, where the torque of the other is there at once', () => {
    const [drive] = testCar.drives as [Drive];
    const two = (front: number, rear: number, frontTorqueShare?: number): Car => ({
      ...testCar,
      drives: ([front, rear] as const).map((torqueRise, i) => ({
        ...drive,
        axle: i === 0 ? 'front' : 'rear',
        unit: { ...drive.unit, torqueRise },
      })),
      ...(frontTorqueShare !== undefined && { frontTorqueShare }),
    });
    for (const slope of [0, 0.3, 0.6]) {
      const timed = (car: Car): number =>
        launchOnce(car, { surroundings: { ...testDay, slope }, stop: '50_km_h', tolerance: 1e-9 }).marks.get('50_km_h')
          ?.time ?? Number.NaN;
      // With a fixed share the later one has the say.
      const shared = timed(two(0.2, 0.2, 0.5));
      expect(Math.abs(timed(two(0, 0.2, 0.5)) / shared - 1)).toBeLessThan(1e-8);
      expect(Math.abs(timed(two(0.2, 0, 0.5)) / shared - 1)).toBeLessThan(1e-8);
      const [at, later, both] = [timed(two(0, 0)), timed(two(0, 0.2)), timed(two(0.2, 0.2))];
      expect(later).toBeGreaterThan(at);
      expect(later).toBeLessThan(both);
    }
  });

  it('begins with the torque that holds the speed where the car rolls', () => {
    const car = ideal({ rolling: 0.1 });
    const R = 0.1 * 1000 * 9.80665;
    const left = rise - (rise * R) / 4000;
    const speed = 20 + ((4000 / rise) * left ** 2) / 2 / 1000;
    const t = left + (100 / 3.6 - speed) / ((4000 - R) / 1000);
    expect(time(car, 0, 20)).toBeCloseTo(t, 8);
  });

  it('costs half of its time where grip does not limit, and what grip leaves of that where it does', () => {
    const free = { ...ideal(), drives: withRise(ideal(), 0).drives };
    expect(time(ideal()) - time(free)).toBeCloseTo(rise / 2, 8);
    // At a friction that takes half of the force the torque is there in half of the time.
    const half = { ...ideal({ friction: 2000 / (0.5 * 1000 * 9.80665) }) };
    const flat = { ...half, body: { ...half.body, cgHeight: 0 } };
    expect(time(flat) - time(withRise(flat, 0))).toBeCloseTo(rise / 4, 7);
  });

  it.each([
    ['held', testCar],
    ['spin', withTraction(testCar, 'spin')],
    ['two drives', { ...testCar, drives: [testCar.drives[0]!, { ...testCar.drives[0]!, axle: 'rear' as const }] }],
    [
      'two drives that share',
      {
        ...testCar,
        frontTorqueShare: 0.4,
        drives: [testCar.drives[0]!, { ...testCar.drives[0]!, axle: 'rear' as const, ratio: 7 }],
      },
    ],
  ])('never moves a car backwards, closes the ledger and is agreed with: %s', (_, car) => {
    for (const slope of [0, 0.1, -0.05]) {
      const result = launch(withRise(car, 0.3), { surroundings: { ...testDay, slope } });
      const speeds = result.series['time']!['speed_m_s']!.values as Float64Array;
      expect(Math.min(...speeds)).toBeGreaterThan(-1e-6);
      expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-6);
      expect(result.opinion!.agrees).toBe(true);
      const later = time(withRise(car, 0.3), slope) - time(withRise(car, 0), slope);
      expect(later).toBeGreaterThan(0);
      expect(later).toBeLessThan(0.3);
    }
  });
});
