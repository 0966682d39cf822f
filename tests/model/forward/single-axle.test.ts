/** The rates of one driven axle are a quicker way to what the general ones answer. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { road } from '../../../src/model/forward/balance.ts';
import { axleMode, GRIP, L, withAxleMode } from '../../../src/model/forward/state.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { ratesOfOne } from '../../../src/model/forward/one-axle.ts';
import { ratesOfAny } from '../../../src/model/forward/rates.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import type { Car, Drive, Surroundings } from '../../../src/model/car.ts';
import { withTraction } from '../../../src/runs/variant.ts';
import { arbitraryCar, arbitraryDay, testCar, testDay } from '../../cars.ts';

/** Both ways to all rates at a speed, in the mode that is in force there. */
function compare(car: Car, day: Surroundings, speed: number): void {
  const parameters = plantParameters(car, day);
  const axle = car.drives[0]!.axle === 'front' ? 0 : 1;
  let mode = 0;
  const found = ['general', 'single'].map(which => {
    const plant = plantFor(parameters);
    const y = plant.initial(speed);
    mode = plant.modeAt(y);
    plant.load(parameters);
    // Gear, pack and temperatures as the rates have them.
    plant.rates(mode, y, new Float64Array(plant.states + plant.quadratures));
    const m = plant.moving;
    const [one, at, other, beside] =
      axle === 0 ? [m.front, m.atFront, m.rear, m.atRear] : [m.rear, m.atRear, m.front, m.atFront];
    at.stretch = 0;
    at.stretchSpeed = 0;
    at.stretchSlope = 0;
    at.anchor.perLoad = Number.NaN;
    at.load = one.staticLoad;
    m.now.speed = speed;
    road(m);
    const out = new Float64Array(plant.states + plant.quadratures);
    if (which === 'general') ratesOfAny(m, mode, out);
    else ratesOfOne(m, one, at, other, beside, axleMode(mode, axle), out);
    const { slip, slipSpeed, wheelSpeed, wheelSpin, motorSpeed, power, heat } = at;
    const { busPower, current, voltage } = m.now;
    const electric = [power, heat, busPower, current, voltage, m.packNow.warming];
    const turning = [slip, slipSpeed, wheelSpeed, wheelSpin, motorSpeed, beside.wheelSpeed, beside.wheelSpin];
    const balanced = [m.now.acceleration, at.force, at.torque, at.available, at.grip, at.load, at.stretch];
    return [...balanced, beside.load, beside.force, ...turning, ...electric, ...out];
  });
  const [general, single] = found as [number[], number[]];
  general.forEach((value, i) => expect(Math.abs(single[i]! - value)).toBeLessThan(1e-8 * Math.abs(value) + 1e-9));
  expect(axleMode(mode, axle) & ~GRIP).toBeGreaterThan(0);
}

it('agrees with the general rates at random states of random cars, in every mode in force', () => {
  fc.assert(
    fc.property(arbitraryCar, arbitraryDay, fc.double({ min: 1e-4, max: 0.7, noNaN: true }), (car, day, part) => {
      const drive = car.drives[0]!;
      compare(car, day, (part * drive.unit.maxSpeed * car.tyres[drive.axle].radius) / drive.ratio);
    }),
    { numRuns: 1000, endOnFailure: true },
  );
});

it('agrees with the general rates where the wheels spin', () => {
  fc.assert(
    fc.property(
      arbitraryCar.filter(car => car.tyres[car.drives[0]!.axle].slipAtPeak > 0),
      fc.double({ min: 0.1, max: 40, noNaN: true }),
      fc.double({ min: -0.05, max: 0.5, noNaN: true }),
      (any, speed, slip) => {
        const car = withTraction(any, 'spin');
        const { axle } = car.drives[0]!;
        const parameters = plantParameters(car, testDay);
        const [quick, general] = [false, true].map(any => {
          const plant = plantFor(parameters);
          const y = plant.initial(speed);
          const { places } = plant.moving;
          y[axle === 'front' ? places.spinFront : places.spinRear] = ((1 + slip) * speed) / car.tyres[axle].radius;
          const mode = plant.modeAt(y);
          const out = new Float64Array(plant.states + plant.quadratures);
          plant.rates(mode, y, out);
          if (any) ratesOfAny(plant.moving, mode, out);
          return [...out];
        });
        general!.forEach((value, i) =>
          expect(Math.abs(quick![i]! - value), `${i}`).toBeLessThan(1e-11 * Math.abs(value) + 1e-9),
        );
      },
    ),
    { numRuns: 300, endOnFailure: true },
  );
});

it.each([0.9, 1.2, 1.5])('agrees where drag %d m above the road all but lifts the driven axle', dragHeight => {
  const [drive] = testCar.drives as [Drive];
  const tyre = { ...testCar.tyres.front, slipAtPeak: 0.15, dry: { peak: 0.3, slide: 0.29 } };
  const body = { ...testCar.body, mass: 600, frontShare: 0.51, dragHeight };
  const car = { ...testCar, body, tyres: { front: tyre, rear: tyre }, drives: [{ ...drive, ratio: 3 }] };
  for (let v = 60; v < 120; v += 2.5) compare(car, testDay, v);
});

it('goes evenly with a torque that builds up in a car that its tyres can not hold on a hill', () => {
  // Past the peak its wheels, which roll back, would only bring more force the less they turn along.
  const [drive] = testCar.drives as [Drive];
  const unit = { ...drive.unit, torqueRise: 0.005 };
  const peaks = [0.2, 0.22, 0.24, 0.26, 0.28];
  let rolling = 0;
  for (const peak of peaks) {
    const tyre = { ...testCar.tyres.rear, dry: { peak, slide: 0.9 * peak } };
    const car = { ...testCar, tyres: { front: tyre, rear: tyre }, drives: [{ ...drive, axle: 'rear' as const, unit }] };
    const plant = plantFor(plantParameters(car, { ...testDay, slope: 0.1 }, 1, true));
    const out = new Float64Array(plant.states + plant.quadratures);
    const y = plant.initial(0);
    const mode = withAxleMode(0, 1, L.buildUp);
    const found = Array.from({ length: 400 }, (_, i) => {
      y[plant.states] = i * 2e-6;
      plant.rates(mode, y, out);
      expect(Math.abs(plant.atRear.stretch), `${peak} ${i}`).toBeLessThan(1 + 1e-9);
      if (plant.atRear.stretch >= 1 && plant.now.acceleration < 0) rolling++;
      return plant.now.acceleration;
    });
    // Next to the peak slip, and what turns with it, goes with a root.
    for (let i = 2; i < found.length; i++)
      expect(Math.abs(found[i]! - 2 * found[i - 1]! + found[i - 2]!), `${peak} ${i}`).toBeLessThan(5e-4);
  }
  expect(rolling).toBeGreaterThan(0);
});
