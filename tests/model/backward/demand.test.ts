import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car, Drive, Regeneration, Surroundings } from '../../../src/model/car.ts';
import { axleMode, CHARGE, GRIP, QUADRATURES, RC, SPEED } from '../../../src/model/forward/state.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { arbitraryBuild, arbitraryCar, arbitraryDay, idealCar, testCar, testDay, testDrive } from '../../cars.ts';
import { demanded } from '../demanded.ts';

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** m/s of the car at which the slower of its motors turns as fast as it may, in first gear. */
function topSpeed(car: Car): number {
  return Math.min(
    ...car.drives.map(({ axle, unit, ratio, gearbox }) => {
      const turns = ratio * (gearbox?.gears[0]?.ratio ?? 1);
      return (unit.maxSpeed * car.tyres[axle].radius) / turns;
    }),
  );
}

const held = (drive: Drive): Drive =>
  drive.traction.policy === 'spin' ? { ...drive, traction: { policy: 'held', share: 1 } } : drive;

describe('what a speed and an acceleration ask of a car', () => {
  it('accounts for every watt, driving, coasting and braking, with what the pack holds back', () => {
    const state = fc.record({
      car: fc.oneof(arbitraryCar, arbitraryBuild),
      day: arbitraryDay,
      part: between(0.01, 0.75),
      a: between(-7, 4),
      limit: fc.oneof(fc.constant(Infinity), between(0, 40_000)),
    });
    fc.assert(
      fc.property(state, ({ car, day, part, a, limit }) => {
        const v = part * topSpeed(car);
        const { power: p, inertialMass, axles, force } = demanded(car, day, v, a, limit);
        // At a force that the tyres do not have there is no slip; the car can not do it, and is not asked to.
        fc.pre(axles.every(axle => Math.abs(axle.force) <= axle.grip));
        const auxiliaries = car.auxiliaries.power / car.auxiliaries.converterEfficiency;
        const spent = p.unitHeat + p.gearHeat + p.spinUp + p.slip + p.rolling + p.drag + p.grade + p.brakes;
        const motion = inertialMass * v * a;
        const scale = Math.abs(p.power) + Math.abs(motion) + p.brakes + 1;
        expect(Math.abs(p.power - auxiliaries - spent - motion) / scale).toBeLessThan(1e-12);
        // Force and slip of a limited axle are brought together in a few passes.
        if (force < 0) expect(p.power).toBeGreaterThan(-limit - 1e-4 * scale);
        expect(p.brakes).toBeGreaterThan(-1e-9 * scale);
        if (force > 0) expect(Math.abs(p.brakes)).toBeLessThan(1e-9 * scale);
      }),
      { numRuns: 1500 },
    );
  });
});

describe('two drives with a fixed share of the torque', () => {
  const { front, rear } = testCar.tyres;
  const tyres = { front: { ...front, radius: 0.3692990526482027 }, rear: { ...rear, radius: 0.22635845365999077 } };
  const drives = [
    testDrive,
    { ...testDrive, axle: testDrive.axle === 'front' ? ('rear' as const) : ('front' as const) },
  ];

  it.each([0.2, 0.41, 0.7])('keep %s at front at steady speeds, where the first guess is right to round-off', share => {
    const car: Car = { ...testCar, tyres, drives, frontTorqueShare: share };
    for (let v = 1; v < 25; v += 0.01) {
      const { axles, force, power } = demanded(car, testDay, v, 0);
      expect(Math.abs(power.power), `at ${v} m/s`).toBeLessThan(Infinity);
      expect(axles.reduce((sum, axle) => sum + axle.force + axle.roll, 0) / force, `at ${v} m/s`).toBeCloseTo(1, 9);
      const [ofFront, ofRear] = axles.map(({ moment }) => moment);
      expect(ofFront! / (ofFront! + ofRear!), `at ${v} m/s`).toBeCloseTo(share, 9);
    }
  });
});

describe('two axles with a fixed share, one of which drives while the car is braked', () => {
  it('are never helped by the brakes', () => {
    const braking = (share: number): Regeneration => ({ ...testDrive.regeneration, share });
    const car: Car = {
      ...testCar,
      drives: [
        { ...testDrive, axle: 'front', ratio: 4, regeneration: braking(0.2) },
        { ...testDrive, axle: 'rear', regeneration: braking(0.95) },
      ],
      frontTorqueShare: 0.23,
    };
    let braked = 0;
    for (let a = -0.6; a < 0.2; a += 0.002) {
      const { power, force, axles } = demanded(car, testDay, 8, a);
      if (force < 0 && axles.some(axle => axle.force + axle.roll > 0)) braked++;
      expect(power.brakes, `at ${a} m/s2`).toBeGreaterThan(-1e-9);
    }
    expect(braked).toBeGreaterThan(0);
  });
});

describe('two axles that share a torque', () => {
  it('bring no more braking than is asked for, where one of them pushes and both have a share of their own in the braking', () => {
    const drives = [
      { ...testDrive, axle: 'front' as const, regeneration: { ...testDrive.regeneration, share: 0.6 } },
      { ...testDrive, axle: 'rear' as const, regeneration: { ...testDrive.regeneration, share: 0.9 } },
    ];
    const { front, rear } = testCar.tyres;
    const car: Car = {
      ...testCar,
      drives,
      frontTorqueShare: 0.25,
      tyres: { front: { ...front, inertia: 3 * front.inertia }, rear },
    };
    let pushing = 0;
    for (let a = -0.4; a < 0; a += 0.0005) {
      const { power, force, axles } = demanded(car, testDay, 12, a);
      if (force >= 0) continue;
      expect(power.brakes, `at ${a} m/s2`).toBeGreaterThanOrEqual(-1e-9);
      if (axles.some(axle => axle.force + axle.roll > 0)) pushing++;
    }
    expect(pushing).toBeGreaterThan(0);
  });

  const shared: Car = {
    ...testCar,
    drives: (['front', 'rear'] as const).map(axle => ({
      ...testDrive,
      axle,
      traction: { policy: 'held', share: 1 },
    })),
    frontTorqueShare: 0.5,
  };

  it('keep their share up to the peak of friction of the one that grips less, where slip goes with a root', () => {
    const { front, rear } = testCar.tyres;
    const tyres = { front: { ...front, dry: { peak: 0.3, slide: 0.25 } }, rear };
    const drives = shared.drives.map(each => ({ ...each, unit: { ...each.unit, inertia: 0.1 } }));
    const car: Car = { ...shared, tyres, drives, frontTorqueShare: 0.8 };
    let [low, high] = [0, 3];
    for (let pass = 0; pass < 60; pass++) {
      const a = 0.5 * (low + high);
      const [axle] = demanded(car, testDay, 20, a).axles;
      if (axle!.force < axle!.grip) low = a;
      else high = a;
    }
    for (let digits = 4; digits < 9; digits += 0.05) {
      const { axles } = demanded(car, testDay, 20, low * (1 - 10 ** -digits));
      const [one, two] = axles.map(({ torque }) => torque - testDrive.dragTorque);
      expect(one! / (one! + two!), `${digits} digits below`).toBeCloseTo(0.8, 8);
    }
  });

  it('share one that is next to nothing, as where a car down a hill ceases to coast', () => {
    // The slope on which it coasts at this speed and acceleration, to the last bit that can be had.
    let [low, high] = [-0.5, 0.5];
    for (let pass = 0; pass < 80; pass++) {
      const slope = 0.5 * (low + high);
      const { power, force } = demanded(shared, { ...testDay, slope }, 8, 0.22);
      for (const value of Object.values(power)) expect(value).toSatisfy(Number.isFinite);
      if (force > 0) high = slope;
      else low = slope;
    }
  });
});

describe('the backward and the forward model', () => {
  const state = fc.record({
    car: arbitraryCar,
    day: arbitraryDay,
    pedal: between(0.05, 1),
    part: between(0.01, 0.75),
    rc: between(0, 4),
  });

  /** What the forward model does under a pedal, and what the backward model says to that. */
  function compared(car: Car, day: Surroundings, v: number, pedal: number, rc: number) {
    const plant = plantFor(plantParameters(car, day, pedal));
    const y = plant.initial(v);
    y[CHARGE] = car.pack.charge;
    if (plant.shape.pairs > 0) y[RC] = rc;
    const out = new Float64Array(plant.states + plant.quadratures);
    const mode = plant.modeAt(y);
    plant.rates(mode, y, out);
    const grips = [0, 1].some(axle => (axleMode(mode, axle) & GRIP) !== 0);
    const forwards = Object.fromEntries(QUADRATURES.map((name, i) => [name, out[plant.states + i]!]));
    const back = demanded(car, day, v, out[SPEED]!);
    return { now: plant.now, driven: plant.driven, forwards, back, grips };
  }

  it('agree on torque, speeds, slip and every loss at what the forward model does under any pedal', () => {
    let seen = 0;
    fc.assert(
      fc.property(state, ({ car, day, pedal, part, rc }) => {
        const { now, driven, forwards, back, grips } = compared(car, day, part * topSpeed(car), pedal, rc);
        const [axle] = back.axles;
        // At the very peak of friction the slip is found to the root of the last digit, by either.
        fc.pre(!grips && axle!.moment > 0);
        seen++;
        const at = driven[0]!;
        const whole = Math.abs(now.busPower) + 1000;
        expect(Math.abs(back.power.power - now.busPower) / whole).toBeLessThan(1e-9);
        // A pack that leaves nothing to drive with leaves no torque at all: what the backward model finds of that is round-off.
        if (at.torque === 0) expect(Math.abs(axle!.torque)).toBeLessThan(1e-12);
        else expect(Math.abs(axle!.torque / at.torque - 1)).toBeLessThan(1e-9);
        expect(Math.abs(axle!.motorSpeed / at.motorSpeed - 1)).toBeLessThan(1e-9);
        expect(Math.abs(axle!.load / at.load - 1)).toBeLessThan(1e-12);
        for (const name of ['unitHeat', 'gearHeat', 'spinUp', 'slip', 'rolling', 'drag', 'grade'] as const) {
          expect(Math.abs(back.power[name] - forwards[name]!) / whole, name).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 1000 },
    );
    expect(seen).toBeGreaterThan(500);
  });

  it('agree on two drives whose wheel torques are shared', () => {
    const driven = arbitraryBuild.filter(
      ({ drives }) => drives.length === 2 && drives.every(({ gearbox }) => gearbox === undefined),
    );
    const both = fc.record({ car: driven, day: arbitraryDay, pedal: between(0.05, 1), part: between(0.01, 0.75) });
    let seen = 0;
    fc.assert(
      fc.property(both, fc.boolean(), ({ car: built, day, pedal, part }, turning) => {
        const still = { inertia: 0 };
        const drives = built.drives
          .map(held)
          .map(each => (turning ? each : { ...each, inertia: 0, unit: { ...each.unit, inertia: 0 } }));
        const { front, rear } = built.tyres;
        const tyres = turning ? built.tyres : { front: { ...front, ...still }, rear: { ...rear, ...still } };
        const car: Car = { ...built, drives, tyres, frontTorqueShare: built.frontTorqueShare ?? 0.4 };
        const { now, driven: places, back, grips } = compared(car, day, part * topSpeed(car), pedal, 1);
        fc.pre(!grips && back.axles.every(({ moment }) => moment > 0));
        seen++;
        const whole = Math.abs(now.busPower) + 1000;
        const tolerance = 1e-7;
        expect(Math.abs(back.power.power - now.busPower) / whole).toBeLessThan(tolerance);
        for (const [i, at] of places.entries()) {
          expect(Math.abs(back.axles[i]!.torque - at.torque) / (Math.abs(at.torque) + 1)).toBeLessThan(10 * tolerance);
        }
      }),
      { numRuns: 600 },
    );
    expect(seen).toBeGreaterThan(200);
  });
});

describe('closed forms', () => {
  const tyreless = { force: 1e5, power: 1e8 };

  it('have inertia of what turns in the force at the wheels: 1326.125 kg of a car of 1250', () => {
    const plain = idealCar({ mass: 1250, ...tyreless });
    const { front, rear } = plain.tyres;
    const wheel = { radius: 0.3, inertia: 0.9 };
    const [drive] = plain.drives as [Drive];
    const car = {
      ...plain,
      tyres: { front: { ...front, ...wheel }, rear: { ...rear, ...wheel } },
      drives: [{ ...drive, ratio: 8.5, unit: { ...drive.unit, inertia: 0.045 } }],
    };
    for (const a of [1.3, -2]) {
      // Everything that moves or turns, from the power at the motor.
      expect(demanded(car, testDay, 10, a).power.power / (10 * a)).toBeCloseTo(1326.125, 9);
    }
  });

  it('count the relative speed of the air, and its direction', () => {
    const car = idealCar({ mass: 1250, drag: 0.441, ...tyreless });
    // 2 kg/m3, so that the drag area is the coefficient.
    const thick = { ...testDay, altitude: 0 };
    const still = demanded(car, thick, 25, 0).force;
    const wind = 20 / 3.6;
    expect(demanded(car, { ...thick, wind }, 25, 0).force / still).toBeCloseTo(((25 + wind) / 25) ** 2, 12);
    expect(demanded(car, { ...thick, wind: -wind }, 25, 0).force / still).toBeCloseTo(((25 - wind) / 25) ** 2, 12);
    expect(demanded(car, { ...thick, wind: -35 }, 25, 0).force / still).toBeCloseTo(-((10 / 25) ** 2), 12);
  });
});

describe('braking by the drive', () => {
  const car = (change: Partial<Regeneration>): Car => ({
    ...testCar,
    drives: [{ ...testDrive, regeneration: { ...testDrive.regeneration, share: 1, gripShare: 1, ...change } }],
  });
  const { torque, power, fadeFrom, fadeTo } = testDrive.regeneration;

  it('gives all that is asked where nothing limits it, and the brakes stay cold', () => {
    const { axles, power: found } = demanded(car({}), testDay, 15, -1);
    expect(axles[0]).toMatchObject({ kind: 'none' });
    expect(found.brakes).toBeCloseTo(0, 8);
    expect(found.power).toBeLessThan(0);
  });

  it('has no help from the brakes while it pushes what turns down a hill, and lets them come in without a jump', () => {
    const part = car({ share: 0.6 });
    let [pushed, braked, last] = [0, 0, 0];
    for (let slope = -0.04; slope > -0.07; slope -= 1e-5) {
      const { force, axles, power: found } = demanded(part, { ...testDay, slope }, 8, 0.4);
      if (force >= 0) continue;
      // Newton: without torque at the motor the road would make the car faster than that.
      if (axles[0]!.torque > 1e-3) {
        pushed++;
        expect(found.brakes, `down ${slope}`).toBeCloseTo(0, 9);
      } else if (found.brakes > 0) braked++;
      expect(Math.abs(found.brakes - last), `down ${slope}`).toBeLessThan(1);
      last = found.brakes;
    }
    expect(Math.min(pushed, braked)).toBeGreaterThan(100);
  });

  it('gives its share of what is asked and leaves the rest to the brakes', () => {
    const [whole, part] = [1, 0.6].map(share => demanded(car({ share }), testDay, 15, -1));
    const { force, axles, power: found } = part!;
    expect(axles[0]!.force + axles[0]!.roll).toBeCloseTo(0.6 * force, 8);
    expect(found.brakes).toBeCloseTo(-0.4 * force * 15, 6);
    expect(found.power).toBeGreaterThan(whole!.power.power);
  });

  it.each([
    ['torque', 10, -6, () => -torque],
    ['power', 30, -4, (omega: number) => -power / omega],
    ['fadingTorque', 3, -4, () => (-torque * (3 - fadeTo)) / (fadeFrom - fadeTo)],
    ['off', 1.2, -4, () => 0],
  ] as const)('is held back by its %s', (kind, v, a, expected) => {
    const { axles, power: found } = demanded(car({}), testDay, v, a);
    const [axle] = axles;
    expect(axle!.kind).toBe(kind);
    expect(axle!.torque).toBeCloseTo(expected(axle!.motorSpeed), 4);
    expect(found.brakes).toBeGreaterThan(0);
  });

  it('fades by its power where that is the less', () => {
    const weak = car({ power: 5000, fadeFrom: 10, fadeTo: 2 });
    const [axle] = demanded(weak, testDay, 8, -4).axles;
    expect(axle!.kind).toBe('fadingPower');
    expect(axle!.torque * axle!.motorSpeed).toBeCloseTo(-5000 * (6 / 8), 3);
  });

  it('uses no more than its share of the grip of its axle', () => {
    const slippery = { ...testDay, surface: 'wet' as const };
    const [axle] = demanded(car({ gripShare: 0.2, torque: 1000, power: 1e6 }), slippery, 15, -3).axles;
    expect(axle!.kind).toBe('grip');
    expect(axle!.force).toBeCloseTo(-0.2 * axle!.grip, 8);
  });

  it('gives the pack no more than it takes, to the watt', () => {
    const free = demanded(car({}), testDay, 20, -2).power.power;
    for (const limit of [0.7 * -free, 5000, 0]) {
      const { axles, power: found } = demanded(car({}), testDay, 20, -2, limit);
      expect(axles[0]!.kind).toBe('pack');
      expect(found.power).toBeCloseTo(-limit, 2);
    }
    expect(demanded(car({}), testDay, 20, -2, -1.001 * free).axles[0]!.kind).toBe('none');
  });

  it('gives nothing where there is none: the brakes do it all but drag and what the drive drags', () => {
    const { axles, power: found } = demanded(car({ kind: 'none', torque: 0, power: 0 }), testDay, 15, -2);
    expect(axles[0]!.torque).toBeCloseTo(0, 9);
    expect(found.power).toBeGreaterThan(0);
  });

  it('shares what the pack takes between two drives', () => {
    const second: Drive = { ...testDrive, axle: 'rear', regeneration: { ...testDrive.regeneration, torque: 60 } };
    const both: Car = { ...testCar, drives: [car({}).drives[0]!, second] };
    const free = demanded(both, testDay, 20, -4);
    const bound = demanded(both, testDay, 20, -4, 12_000);
    expect(free.power.power).toBeLessThan(-12_000);
    expect(bound.power.power).toBeCloseTo(-12_000, 2);
    const [front, rear] = bound.axles;
    expect(front!.power / rear!.power).toBeCloseTo(free.axles[0]!.power / free.axles[1]!.power, 6);
  });
});
