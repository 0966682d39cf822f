/** Two driven axles, solved at once: the balance closes, and does not go by where the iteration began. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Car, Tyre } from '../../../src/model/car.ts';
import { powerDrawn } from '../../../src/model/forward/drive-unit.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { wheelTorque } from '../../../src/model/forward/limits.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { axleMode, follows, GRIP, L } from '../../../src/model/forward/state.ts';
import { arbitraryBuild, arbitraryDay, testCar, testDay, testDrive } from '../../cars.ts';

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
      for (const [axle, at] of [[front, atFront] as const, [rear, atRear] as const]) {
        // Coulomb: no tyre gives more than its grip, whichever way.
        if (axle.driven) expect(Math.abs(at.force)).toBeLessThan((1 + 1e-9) * at.grip + 1e-8 * whole.mass);
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

const held = { policy: 'held' as const, share: 1 };
const tyre = (of: Tyre, peak: number): Tyre => ({ ...of, dry: { peak, slide: 0.8 * peak } });

/** A front drive so low that it would take more than its share to speed up its own rotor, on tyres that grip little. */
const behind: Car = {
  ...testCar,
  tyres: { front: tyre(testCar.tyres.front, 0.12), rear: tyre(testCar.tyres.rear, 1) },
  drives: [
    { ...testDrive, ratio: 22, unit: { ...testDrive.unit, inertia: 0.08 }, traction: held },
    { ...testDrive, axle: 'rear', ratio: 14, traction: held },
  ],
  frontTorqueShare: 0.1,
};

it.each([-3, -1, -1e-16, 0, 0.5, 1, 3])(
  'lets a wheel stay behind that road and drive can not speed up as fast as the car gets faster, from a slip of %d on',
  left => {
    const plant = plantFor(plantParameters(behind, testDay));
    const y = plant.initial(2);
    const mode = plant.modeAt(y);
    const { front, atFront, atRear, now } = plant.moving;
    for (const at of [atFront, atRear]) at.stretch = left;
    plant.rates(mode, y, new Float64Array(plant.states + plant.quadratures));
    expect(now.lost).toBe(false);
    expect(follows(axleMode(mode, 0))).toBe(true);
    expect(atFront.stretch).toBeLessThan(-1);
    // Coulomb: the road pulls it along with all the grip that there is, and no more.
    expect(atFront.force / atFront.grip).toBeCloseTo(-1, 9);
    // Newton's second law for what turns with the wheels.
    const resisted = (atFront.force + atFront.rolling * atFront.load + front.hubDrag) * front.radius;
    const turned = wheelTorque(front, atFront) - resisted;
    expect((atFront.gear.inertia * atFront.wheelSpin) / turned).toBeCloseTo(1, 9);
  },
);

/** A share, and a pack so weak that both draw its voltage below what the rear drive needs for all of its power. */
const sagging: Car = {
  ...testCar,
  drives: [
    { ...testDrive, unit: { ...testDrive.unit, peakPower: 80_000 } },
    { ...testDrive, axle: 'rear', unit: { ...testDrive.unit, peakPower: 40_000 } },
  ],
  frontTorqueShare: 0.6,
  pack: { ...testCar.pack, parallel: 3, minVoltage: 190 },
};

it.each([0, 40_000, 1e5, 1e6])(
  'finds the balance above the lowest voltage where the other axle drew %d W before',
  power => {
    const plant = plantFor(plantParameters(sagging, testDay));
    const y = plant.initial(20);
    const mode = plant.modeAt(y);
    expect(axleMode(mode, 1)).toBe(L.busVoltage);
    const { atFront, atRear, now, packNow } = plant.moving;
    for (const at of [atFront, atRear]) {
      at.stretch = at.otherWheel = 0;
      at.otherPower = power;
    }
    plant.rates(mode, y, new Float64Array(plant.states + plant.quadratures));
    // Ohm and Joule: of the two voltages at which a source gives a power the one that falls with it.
    expect(now.voltage).toBeGreaterThan(packNow.emf / 2);
    expect(now.busPower / (((packNow.emf - now.voltage) * now.voltage) / packNow.resistance)).toBeCloseTo(1, 9);
  },
);
