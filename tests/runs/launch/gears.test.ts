import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { span } from '../../../src/plots/kit/series.ts';
import { gearsSeries, SHIFTING } from '../../../src/runs/launch/gears.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { inGear } from '../../../src/runs/variant.ts';
import { testCar, testDay } from '../../cars.ts';

const RATIOS = [3.5, 2, 1.3];
const box = (ratios: readonly number[], shiftTime: number, efficiency = 0.97, inertia = 0.05): Car => ({
  ...testCar,
  drives: testCar.drives.map(drive => ({
    ...drive,
    ratio: 4,
    gearbox: {
      shiftTime,
      gears: ratios.map(ratio => ({ ratio, efficiency, inertia, upshift: 0.9 * drive.unit.maxSpeed })),
    },
  })),
});
const options = { surroundings: testDay };
const column = (car: Car, key: string) => gearsSeries(car, options)['gears']![key]!.values as Float64Array;

describe('gear by gear', () => {
  it('has a row for each gear and one for changing them', () => {
    const gears = launch(box(RATIOS, 0.4), options).series['gears']!;
    expect(gears['gear']!.values).toEqual(['1', '2', '3', SHIFTING]);
    expect(new Set(Object.values(gears).map(({ values }) => values.length))).toEqual(new Set([4]));
  });

  it('is not there without a choice of gears', () => {
    expect(gearsSeries(testCar, options)).toEqual({});
    expect(gearsSeries(box([1.4], 0.4), options)).toEqual({});
  });

  it('leaves the car in a gear just as direct drive of that ratio would, where the gear costs nothing', () => {
    const direct: Car = { ...testCar, drives: testCar.drives.map(drive => ({ ...drive, ratio: 4 * 2 })) };
    const times = column(box(RATIOS, 0.4, 1, 0), 'time_to_100_km_h_s');
    // The table is worked out at 1e-6, the launch at 1e-9.
    expect(times[1]! / (launch(direct, options).summary['time_to_100_km_h'] as number)).toBeCloseTo(1, 5);
  });

  it('tells what is not reached: the lowest gear runs out of motor speed', () => {
    const car = box(RATIOS, 0.4);
    // 1300 rad/s over 3.5 x 4 at 0.3 m is 27.86 m/s: without slip and resistance just above 100 km/h.
    const low = box([4.2, 2, 1.3], 0.4);
    expect(column(low, 'time_to_100_km_h_s')[0]).toBeNaN();
    expect(column(car, 'top_speed_m_s')[0]!).toBeLessThan(27.86);
    expect(column(car, 'top_speed_m_s')[3]!).toBeGreaterThan(column(car, 'top_speed_m_s')[0]!);
  });

  it('starts on no less steep a slope in a lower gear, and loses nothing by a change of gear that takes no time', () => {
    const slopes = column(box(RATIOS, 0.4), 'start_slope_1');
    expect(slopes[0]!).toBeGreaterThanOrEqual(slopes[1]! - 1e-2);
    expect(slopes[1]!).toBeGreaterThan(slopes[2]!);
    const quick = column(box(RATIOS, 0), 'time_to_100_km_h_s');
    const slow = column(box(RATIOS, 1), 'time_to_100_km_h_s');
    expect(slow[3]!).toBeGreaterThan(quick[3]!);
    expect([...slow.subarray(0, 3)]).toEqual([...quick.subarray(0, 3)]);
  });

  it('leaves a car without that gear as it is', () => {
    expect(inGear(testCar, 1)).toEqual(testCar);
  });
});

describe('the trace of a launch', () => {
  const launched = launch(box(RATIOS, 0.4), options);
  const { series, bands } = launched;
  const of = (key: string) => series['time']![key]!.values as Float64Array;
  const times = of('time_s');

  it('shows a change of gear as the step that it is: a row just before it and one after it', () => {
    const changes = bands.filter(({ from, to, limiter }) => limiter === 'driveline' && to - from < 0.5);
    expect(changes.length).toBeGreaterThanOrEqual(2);
    const acceleration = of('acceleration_m_s2');
    for (const { from } of changes) {
      const after = times.indexOf(from);
      expect(times[after]! - times[after - 1]!).toBeLessThan(1e-12);
      expect(acceleration[after - 1]! - acceleration[after]!).toBeGreaterThan(0.5);
    }
  });

  it('has most of its rows where its picture looks', () => {
    const looked = span(launched);
    expect(times.filter(time => time <= looked).length).toBeGreaterThan(300);
    expect(times.at(-1)!).toBeGreaterThan(1.5 * looked);
  });
});
