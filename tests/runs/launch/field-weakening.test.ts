/** What a launch and a schedule make of a power that falls beyond the corner speed. */
import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { powerLine } from '../../../src/model/drive/field-weakening.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { balanceOf } from '../../../src/runs/sheet/balance.ts';
import { topSpeed } from '../../../src/runs/sheet/top-speed.ts';
import { withTraction } from '../../../src/runs/variant.ts';
import { idealCar, testCar, testDay } from '../../cars.ts';

const drive = testCar.drives[0]!;

const withTop = (car: Car, powerAtTop: number, torqueRise = 0.15): Car => ({
  ...car,
  drives: car.drives.map(each => ({ ...each, unit: { ...each.unit, powerAtTop, torqueRise } })),
});

const quarter = (car: Car, tolerance = 1e-6): number =>
  launchOnce(car, { surroundings: testDay, stop: 'quarter_mile', tolerance }).marks.get('quarter_mile')?.time ??
  Number.NaN;

describe('field weakening in a launch', () => {
  // As the quarter mile was before the power could fall and the torque was there at once, at this tolerance: no steps show through.
  it.each([
    ['one driven axle', testCar, 15.537600141078618],
    ['wheels that spin', withTraction(testCar, 'spin'), 16.05139007062841],
    [
      'a voltage that sags',
      { ...testCar, drives: [{ ...drive, unit: { ...drive.unit, referenceVoltage: 420 } }] },
      15.97771823091493,
    ],
    ['two driven axles', { ...testCar, drives: [drive, { ...drive, axle: 'rear' as const }] }, 13.618359626993001],
  ])('changes nothing with all of the power left: %s', (_, car, before) => {
    expect(quarter(withTop(car, 1, 0), 1e-9) / before).toBeCloseTo(1, 9);
  });

  it('takes the time of T = A/w - B from one speed to another', () => {
    const car = idealCar({ mass: 1300, force: 5000, power: 100e3, powerAtTop: 0.6 });
    const unit = { ...car.drives[0]!.unit, maxSpeed: 60, taperSpeed: 59 };
    const fast = { ...car, drives: car.drives.map(each => ({ ...each, unit })) };
    const [from, to] = [25, 45];
    const run = launchOnce(fast, { surroundings: testDay, from, to, stop: 'to', tolerance: 1e-10 });
    // m dv/dt = A/v - B, integrated by parts.
    const { power: A, fall: B } = powerLine(unit);
    const time = 1300 * ((from - to) / B + (A / B ** 2) * Math.log((A - B * from) / (A - B * to)));
    expect(run.marks.get('to')!.time / time).toBeCloseTo(1, 9);
    expect(B).toBeGreaterThan(0);
  });

  it('costs time, and top speed where that is not set by the motor speed', () => {
    expect(quarter(withTop(testCar, 0.7))).toBeGreaterThan(quarter(withTop(testCar, 1)));
    const draggy = { ...testCar, body: { ...testCar.body, dragArea: 2 } };
    const top = (share: number): number => topSpeed(balanceOf(withTop(draggy, share), testDay))!.speed;
    expect(top(0.7)).toBeLessThan(0.98 * top(1));
  });
});
