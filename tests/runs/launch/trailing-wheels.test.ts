/** Two drives that keep a share of the torque, of which one gets less of it than its own rotor takes: its wheels trail. */
import { describe, expect, it } from 'vitest';
import type { Car, Drive, Tyre } from '../../../src/model/car.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { ledgerOf } from '../../../src/runs/ledger.ts';
import { sheetFigures } from '../../../src/runs/sheet/sheet.ts';
import { testCar, testDay, testDrive } from '../../cars.ts';

const gripping = (tyre: Tyre, peak: number): Tyre => ({ ...tyre, dry: { peak, slide: 0.8 * peak } });

/** Rotors of up to 0.5 kg m2 through 9 to 14: up to 1100 kg, of which the share of the torque speeds up a tenth at most. */
function trailing(peak: number, ratio: number, inertia: number, share: number, rear: Partial<Drive> = {}): Car {
  const { front } = testCar.tyres;
  return {
    ...testCar,
    tyres: { front: gripping(front, peak), rear: gripping(testCar.tyres.rear, 1) },
    drives: [
      { ...testDrive, axle: 'front', ratio, unit: { ...testDrive.unit, inertia } },
      { ...testDrive, axle: 'rear', ratio: 7, ...rear },
    ],
    frontTorqueShare: share,
  };
}

const options = { surroundings: testDay } as const;

describe('a motor that gets less torque than its own rotor takes', () => {
  it.each([
    [0.12, 9, 0.08, 0.02],
    [0.12, 14, 0.08, 0.1],
    [0.9, 9, 0.5, 0.1],
    [0.9, 14, 0.2, 0.1],
  ])('holds the car at its own top speed: friction %d, ratio %d, %d kg m2, share %d', (...of) => {
    const car = trailing(...of);
    const run = launchOnce(car, { ...options, stop: '1000_m' });
    const { solution, plant } = run;
    expect(solution.reason).toBe('');
    // It took hundreds of thousands of calls, to 400 km/h and with a ledger open by its own size, or was given up.
    expect(solution.statistics.switches).toBeLessThan(20);
    expect(Math.abs(ledgerOf(run).gap)).toBeLessThan(1e-6);
    // Of its rotor: 1300 rad/s through its ratio at 0.3 m; slip and what trails at most a few per cent beside it.
    const speed = (1300 / of[1]) * testCar.tyres.front.radius;
    const fastest = Math.max(...Array.from({ length: solution.nodes }, (_, k) => solution.states[k * plant.states]!));
    expect(fastest / speed).toBeGreaterThan(0.97);
    expect(fastest / speed).toBeLessThan(1.05);
  });

  it('is told the same top speed by a launch that gets there, by its own figure and by the sheet', () => {
    const car = trailing(0.12, 14, 0.08, 0.1);
    const { summary, opinion } = launch(car, options);
    expect(opinion?.agrees).toBe(true);
    // It has been there for 20 s.
    expect((summary['speed_1000_m'] as number) / (summary['top_speed'] as number)).toBeCloseTo(1, 6);
    expect(summary['top_speed_limiter']).toBe('motor speed');
    expect(sheetFigures(car, options, ['top_speed']).summary['top_speed']).toBe(summary['top_speed']);
  });

  it('ends a run at its top speed where the other drive changes gear, and says what leads out', () => {
    const gear = { efficiency: 0.97, inertia: 0.05 };
    const gears = [
      { ...gear, ratio: 1.5, upshift: 500 },
      { ...gear, ratio: 1, upshift: Infinity },
    ];
    const { reasons, warnings, events } = launch(
      trailing(0.9, 14, 0.08, 0.03, { gearbox: { gears, shiftTime: 0.4 } }),
      options,
    );
    expect(warnings.join()).toMatch(/ends early: at \d+ km\/h a motor comes to its top speed/u);
    expect(reasons['time_1000_m']).toMatch(/less of the torque than its own rotor takes.*a greater share/u);
    expect(events.at(-1)?.what).toMatch(/comes to its top speed/u);
  });

  it('is told of, with what leads out, where no method finds how the car goes on', () => {
    const { reasons } = launch(trailing(0.3, 22, 0.08, 0.02), options);
    expect(reasons['time_1000_m']).toMatch(/neither method .* than its own rotor takes.*a greater share/u);
  });

  it('is left as it is where it gets what its rotor takes', () => {
    const { plant } = launchOnce(trailing(0.9, 9, 0.04, 0.3), { ...options, stop: '50_km_h' });
    expect(plant.shape.front).toBe('driven');
  });
});
