import { describe, expect, it } from 'vitest';
import { drive } from '../../../src/runs/trip/drive.ts';
import { testCar, testDay } from '../../cars.ts';
import { profile, trip } from '../../trips.ts';

describe('a car that its motor holds at a speed', () => {
  const [first] = testCar.drives;
  const { maxSpeed } = first!.unit;
  // Its motor turns fastest at 30 m/s; 36 m/s are asked for.
  const ratio = (maxSpeed * testCar.tyres[first!.axle].radius) / 30;
  const slow = { ...testCar, drives: [{ ...first!, ratio }] };
  const way = trip(
    profile([
      [0, 0],
      [20, 20],
      [60, 36],
      [300, 36],
      [330, 0],
    ]),
  );
  const result = drive(slow, way, { surroundings: testDay });
  const column = (key: string): readonly (number | string)[] => [
    ...(result.series['time']![key]!.values as Iterable<number | string>),
  ];

  it('says so all the time that it is held', () => {
    const [time, limiter, speed] = [column('time_s'), column('limiter'), column('speed_m_s')];
    const late = time.flatMap((t, i) => (Number(t) > 100 && Number(t) < 290 ? [i] : []));
    expect(late.length).toBeGreaterThan(10);
    for (const i of late) {
      expect(limiter[i]).toBe('motor speed');
      expect(Number(speed[i])).toBeLessThan(30);
      expect(Number(speed[i])).toBeGreaterThan(27);
    }
    expect(result.summary['limiter']).toBe('motor speed');
    expect(Number(result.summary['max_speed'])).toBeLessThan(30);
  });

  it('follows again when its schedule slows down', () => {
    const limiter = column('limiter');
    expect(limiter.at(-1)).toBe('driver');
    expect(limiter[1]).toBe('driver');
  });
});
