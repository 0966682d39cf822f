/** Two driven axles, solved at once: the balance closes, and does not go by where the iteration began. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { powerDrawn, wheelTorque } from '../../../src/model/forward/limits.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { axleMode, follows, GRIP } from '../../../src/model/forward/state.ts';
import { arbitraryBuild, arbitraryDay } from '../../cars.ts';

const twoDrives = arbitraryBuild.filter(car => car.drives.length === 2);
const part = fc.double({ min: 1e-3, max: 0.7, noNaN: true });
const leftBehind = fc.record({
  stretch: fc.double({ min: -3, max: 3, noNaN: true }),
  power: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  wheel: fc.double({ min: -1e4, max: 1e4, noNaN: true }),
});

it('balances forces and torques at random states of random cars, wherever the last call left off', () => {
  fc.assert(
    fc.property(twoDrives, arbitraryDay, part, leftBehind, (car, day, share, left) => {
      const top = car.drives.map(({ unit, axle, ratio, gearbox }) => {
        const inGear = ratio * (gearbox?.gears[0]?.ratio ?? 1);
        return (unit.maxSpeed * car.tyres[axle].radius) / inGear;
      });
      const v = share * Math.min(...top);
      const plant = plantFor(plantParameters(car, day));
      const y = plant.initial(v);
      const mode = plant.modeAt(y);
      const out = new Float64Array(plant.states + plant.quadratures);
      plant.rates(mode, y, out);
      const { front, rear, atFront, atRear, now, car: whole } = plant.moving;
      const found = now.acceleration;
      expect(now.lost).toBe(false);
      const forces = atFront.force + atRear.force - now.against;
      expect(Math.abs(whole.inertialMass * found - forces)).toBeLessThan(1e-8 * whole.mass);
      // Gillespie, Fundamentals of Vehicle Dynamics, ch. 1: what one axle loses the other one gains.
      expect(Math.abs(atFront.load + atRear.load - atFront.unloaded - atRear.unloaded)).toBeLessThan(1e-8 * whole.mass);
      const [one, two] = [wheelTorque(front, atFront), wheelTorque(rear, atRear)];
      const split = [0, 1].some(axle => follows(axleMode(mode, axle)) && (axleMode(mode, 1 - axle) & GRIP) === 0);
      if (split && car.frontTorqueShare !== undefined) {
        const unequal = one * (1 - car.frontTorqueShare) - two * car.frontTorqueShare;
        expect(Math.abs(unequal)).toBeLessThan(1e-8 * (Math.abs(one) + Math.abs(two) + 1));
      }
      expect(atFront.otherPower).toBe(powerDrawn(rear, atRear));
      expect(atRear.otherPower).toBe(powerDrawn(front, atFront));
      for (const at of [atFront, atRear]) {
        at.stretch = left.stretch;
        at.motorSpeed = 1e3 * left.stretch;
        at.otherPower = left.power;
        at.otherWheel = left.wheel;
      }
      plant.rates(mode, y, out);
      expect(Math.abs(now.acceleration - found)).toBeLessThan(1e-8 * (1 + Math.abs(found)));
    }),
    { numRuns: 1000, endOnFailure: true },
  );
});
