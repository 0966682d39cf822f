import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STANDARD_GRAVITY as g } from '../../../src/model/gravity.ts';
import { steepestHold, steepestStart } from '../../../src/runs/sheet/hill.ts';
import { withFriction } from '../../../src/runs/variant.ts';
import { arbitraryCar, arbitraryDay, idealCar, testCar, testDay } from '../../cars.ts';

const DEGREES = 180 / Math.PI;

describe('the steepest start', () => {
  // Closed form, worked out with 30 digits: tan = mu a / (L -+ mu h), as in tests/published/checks/traction.ts.
  it.each([
    ['rear' as const, 24.8776111945],
    ['front' as const, 19.5506443037],
  ])('by grip alone follows the closed form, %s drive', (axle, degrees) => {
    const car = idealCar({
      mass: 1100,
      force: 1e5,
      power: 1e9,
      axle,
      friction: 0.8,
      frontShare: 1.25 / 2.4,
      wheelbase: 2.4,
      cgHeight: 0.52,
    });
    const { all, grip, drive } = steepestStart(car, testDay);
    expect(Math.atan(all.slope!) * DEGREES).toBeCloseTo(degrees, 9);
    expect(grip.slope! / all.slope!).toBeCloseTo(1, 9);
    expect(all.limiter).toBe('grip');
    // A force of many times the weight: it climbs anything, until front wheels that drive are lifted off the road.
    expect(drive.reason).toBe(axle === 'rear' ? 'it would climb a wall' : '');
  });

  it('by torque alone is where the force is the weight down the hill and the rolling resistance', () => {
    // F = m g (sin + c cos): sin(angle + atan c) = F / (m g sqrt(1 + c^2)).
    const [F, m, c] = [4000, 1100, 0.015];
    const { all, drive } = steepestStart(idealCar({ mass: m, force: F, power: 1e9, rolling: c }), {
      ...testDay,
      temperature: 298.15,
    });
    const angle = Math.asin(F / (m * g * Math.hypot(1, c))) - Math.atan(c);
    expect(all.slope! / Math.tan(angle)).toBeCloseTo(1, 9);
    expect(all.limiter).toBe('motor torque');
    expect(drive.slope).toBeCloseTo(all.slope!, 9);
  });

  it('is the lower of grip alone and drive alone, for random cars', () => {
    fc.assert(
      fc.property(arbitraryCar, arbitraryDay, (car, day) => {
        const { all, grip, drive } = steepestStart(car, day);
        if (all.slope === null) return;
        const lower = Math.min(grip.slope ?? Infinity, drive.slope ?? Infinity);
        expect(all.slope / lower).toBeCloseTo(1, 5);
      }),
      { numRuns: 25 },
    );
  });

  it('does not fall with friction, nor rise with load', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 2, noNaN: true }), factor => {
        const own = steepestStart(testCar, testDay).all.slope!;
        expect(steepestStart(withFriction(testCar, factor), testDay).all.slope!).toBeGreaterThan(own - 1e-9);
        const loaded = { ...testCar, body: { ...testCar.body, load: 600 * (factor - 1) } };
        expect(steepestStart(loaded, testDay).all.slope!).toBeLessThan(own + 1e-9);
      }),
      { numRuns: 20 },
    );
  });

  it('has a reason where the car does not even move on the level', () => {
    const weak = idealCar({ mass: 1000, force: 50, power: 1e9, rolling: 0.02 });
    expect(steepestStart(weak, testDay).all).toEqual({
      slope: null,
      limiter: 'motor torque',
      reason: 'it does not move on the level: motor torque',
    });
  });
});

describe('the steepest hold', () => {
  it('is steeper than the start by what rolling takes, and the same without', () => {
    const F = 4000;
    const held = steepestHold(idealCar({ mass: 1100, force: F, power: 1e9, rolling: 0.015 }), testDay).all.slope!;
    expect(held / Math.tan(Math.asin(F / (1100 * g)))).toBeCloseTo(1, 9);
    const plain = idealCar({ mass: 1100, force: F, power: 1e9 });
    expect(steepestHold(plain, testDay).all.slope! / steepestStart(plain, testDay).all.slope!).toBeCloseTo(1, 9);
  });
});
