/** Extremes of a launch against a close look all along it; and that they do not jump. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { AXLE_LOOK, AXLE_LOOKS, LOOK } from '../../../src/model/forward/by-products.ts';
import { Closely } from '../../../src/runs/launch/extremes.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import type { LaunchRun } from '../../../src/runs/launch/run.ts';
import { summarise } from '../../../src/runs/launch/summary.ts';
import { withTraction } from '../../../src/runs/variant.ts';
import { arbitraryCar, testCar, testDay, testDrive } from '../../cars.ts';

const options = { surroundings: testDay, stop: 'quarter_mile', tolerance: 1e-9 } as const;

const KEYS = [
  'peak_acceleration',
  'peak_pack_current',
  'peak_pack_power',
  'lowest_pack_voltage',
  'peak_wheel_torque',
  'peak_motor_torque',
  'peak_motor_power',
  'peak_motor_speed',
  'peak_slip',
] as const;

type Peaks = { readonly [key in (typeof KEYS)[number]]: number };

const peaksOf = (car: Car): Peaks => summarise(launchOnce(car, options), car, options).values as unknown as Peaks;

/** At a hundred instants of every step. */
function closely(run: LaunchRun): Peaks {
  const close = new Closely(run);
  const { times, nodes } = run.solution;
  const most = Object.fromEntries(KEYS.map(key => [key, -Infinity])) as { [key in (typeof KEYS)[number]]: number };
  for (let step = 0; step + 1 < nodes; step++) {
    if (times[step + 1] === times[step]) continue;
    for (let part = 0; part <= 100; part++) {
      const seen = close.at(step, part / 100);
      const put = (key: keyof Peaks, value: number): void => void (most[key] = Math.max(most[key], value));
      put('peak_acceleration', seen[LOOK.acceleration]!);
      put('peak_pack_current', seen[LOOK.current]!);
      put('peak_pack_power', seen[LOOK.power]!);
      put('lowest_pack_voltage', -seen[LOOK.voltage]!);
      for (let o: number = LOOK.axles; o < seen.length; o += AXLE_LOOKS) {
        put('peak_wheel_torque', seen[o + AXLE_LOOK.wheelTorque]!);
        put('peak_motor_torque', seen[o + AXLE_LOOK.torque]!);
        put('peak_motor_power', seen[o + AXLE_LOOK.torque]! * seen[o + AXLE_LOOK.motorSpeed]!);
        put('peak_motor_speed', seen[o + AXLE_LOOK.motorSpeed]!);
        put('peak_slip', seen[o + AXLE_LOOK.slip]!);
      }
    }
  }
  return { ...most, lowest_pack_voltage: -most.lowest_pack_voltage };
}

it('are those of a close look all along the run', () => {
  fc.assert(
    fc.property(arbitraryCar, any => {
      const car = withTraction(any, 'held');
      const run = launchOnce(car, options);
      fc.pre(run.marks.has('quarter_mile'));
      const found = summarise(run, car, options).values as unknown as Peaks;
      const seen = closely(run);
      for (const key of KEYS) expect(Math.abs(seen[key] / found[key] - 1), key).toBeLessThan(1e-6);
    }),
    { numRuns: 40 },
  );
});

it.each([
  ['one axle', testCar],
  [
    'two axles, one of them geared',
    {
      ...testCar,
      drives: [
        testDrive,
        {
          ...testDrive,
          axle: 'rear',
          gearbox: {
            gears: [1.5, 0.8].map((ratio, i) => ({
              ratio,
              efficiency: 0.97,
              inertia: 0.01,
              upshift: i ? Infinity : 600,
            })),
            shiftTime: 0.4,
          },
        },
      ],
    } satisfies Car,
  ],
])('do not jump with the mass: %s', (_, car) => {
  for (let mass = 900; mass < 1500; mass += 20) {
    const [a, b] = [mass, mass * (1 + 1e-7)].map(each => peaksOf({ ...car, body: { ...car.body, mass: each } })) as [
      Peaks,
      Peaks,
    ];
    for (const key of KEYS) expect(Math.abs(b[key] / a[key] - 1), `${key} at ${mass} kg`).toBeLessThan(1e-6);
  }
});

it('are the same in what the half shafts must stand, wherever the steps end', () => {
  fc.assert(
    fc.property(arbitraryCar, any => {
      const car = withTraction(any, 'held');
      const { summary } = launch(car, { surroundings: testDay });
      if (summary.time_1000_m === null) return;
      expect(summary.half_shaft_torque).toBe(0.5 * (summary.peak_shaft_torque ?? Number.NaN));
    }),
    { numRuns: 12 },
  );
});
