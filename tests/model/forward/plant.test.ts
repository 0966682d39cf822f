import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airDensity, standardAtmosphere } from '../../../src/model/air.ts';
import type { Car, Drive, Surroundings } from '../../../src/model/car.ts';
import { STANDARD_GRAVITY } from '../../../src/model/gravity.ts';
import {
  atGrip,
  axleMode,
  BREAK,
  CHARGE,
  gearOf,
  GRIP,
  L,
  QUADRATURES,
  RC,
  SPEED,
  withAxleMode,
} from '../../../src/model/forward/state.ts';
import { powerLine, ratedTorque } from '../../../src/model/drive/field-weakening.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { limit } from '../../../src/model/forward/limits.ts';
import { limiterOf } from '../../../src/model/forward/limiter.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { frictionAtLoad, shapeFactor, shareAtSlip, stiffnessFactor } from '../../../src/model/tyre/slip.ts';
import { arbitraryBuild, arbitraryCar, arbitraryDay, testCar, testDay } from '../../cars.ts';

function atState(car: Car, day: Surroundings, v: number, charge: number, rc: number) {
  const plant = plantFor(plantParameters(car, day));
  const y = plant.initial(v);
  y[CHARGE] = charge;
  y[RC] = rc;
  const out = new Float64Array(plant.states + plant.quadratures);
  const mode = plant.modeAt(y);
  plant.rates(mode, y, out);
  const energies = Object.fromEntries(QUADRATURES.map((name, i) => [name, out[plant.states + i]!])) as {
    [name in (typeof QUADRATURES)[number]]: number;
  };
  return { plant, y, out, mode, energies, now: plant.now, pack: plant.moving.packNow, at: plant.driven[0]! };
}

/** At up to three quarters of the greatest motor speed: with any slip below a third, the motor does not overspeed. */
const arbitraryState = fc
  .record({
    car: arbitraryCar,
    day: arbitraryDay,
    part: fc.double({ min: 1e-4, max: 0.75, noNaN: true }),
    rc: fc.double({ min: 0, max: 4, noNaN: true }),
  })
  .map(({ part, ...rest }) => {
    const drive = rest.car.drives[0]!;
    return { ...rest, speed: (part * drive.unit.maxSpeed * rest.car.tyres[drive.axle].radius) / drive.ratio };
  });

describe('plant', () => {
  it('accounts for every watt at random states of random cars', () => {
    fc.assert(
      fc.property(arbitraryState, ({ car, day, speed, rc }) => {
        const { out, energies: e, plant, y } = atState(car, day, speed, car.pack.charge, rc);
        const pair = car.pack.cell.pairs[0]!;
        const R1 = (pair.resistance * car.pack.series * car.pack.resistanceGrowth) / car.pack.parallel;
        const stored = (pair.timeConstant / R1) * y[RC]! * out[RC]!;
        const kinetic = plant.inertialMass() * speed * out[SPEED]!;
        const spent =
          e.packHeat + e.unitHeat + e.gearHeat + e.spinUp + e.slip + e.rolling + e.drag + e.grade + e.auxiliaries;
        const scale = Math.abs(e.chemical) + Math.abs(kinetic) + 1;
        expect(Math.abs(e.chemical - spent - stored - kinetic) / scale).toBeLessThan(1e-12);
      }),
      { numRuns: 1000 },
    );
  });

  it('feels neither the way it has gone nor, once its torque has built up, the time', () => {
    fc.assert(
      fc.property(arbitraryBuild, arbitraryDay, fc.double({ min: 0.5, max: 40, noNaN: true }), (car, day, speed) => {
        const plant = plantFor(plantParameters(car, day, 1, true));
        const y = plant.initial(speed);
        y[plant.states] = 100;
        const mode = plant.modeAt(y);
        const [here, there] = [0, 1].map(() => new Float64Array(plant.states + plant.quadratures));
        plant.rates(mode, y, here!);
        for (const place of plant.unfelt ?? []) y[place] = 1234;
        if (plant.timed?.(mode) === false) y[plant.states] = 200;
        plant.rates(mode, y, there!);
        for (const [i, rate] of here!.entries()) {
          expect(Math.abs(there![i]! - rate)).toBeLessThan(1e-9 * Math.max(1, Math.abs(rate)));
        }
      }),
    );
  });

  it('gives back through its inverter less than its shaft takes up, above the greatest speed of the motor', () => {
    const [drive] = testCar.drives as [Drive];
    const { unit, ratio, axle } = drive;
    const { at } = atState(testCar, testDay, (1.02 * unit.maxSpeed * testCar.tyres[axle].radius) / ratio, 0.5, 0);
    const { copper, iron, windage, fixed } = unit.losses;
    const { torque: T, motorSpeed: w } = at;
    const both = T * w + copper * T * T + iron * w + windage * w ** 3 + fixed;
    expect(both).toBeLessThan(0);
    // Larminie & Lowry, Electric Vehicle Technology Explained, eq. 7.23, for the motor; the inverter loses its share of what passes.
    expect(at.power / (unit.inverterEfficiency * both)).toBeCloseTo(1, 12);
    expect(at.heat / (at.power - T * w)).toBeCloseTo(1, 12);
  });

  it('puts the tyre on its slip curve, its load on the balance of moments, and the lowest limit in force', () => {
    fc.assert(
      fc.property(arbitraryState, ({ car, day, speed, rc }) => {
        const { at, mode, plant, y, out } = atState(car, day, speed, car.pack.charge, rc);
        const drive = car.drives[0]!;
        const tyre = car.tyres[drive.axle];
        const { peak, slide } = tyre[day.surface]!;
        const C = shapeFactor(slide / peak);
        const stiffness = stiffnessFactor(tyre.slipAtPeak, C);
        const { body } = car;
        const m = body.mass + body.driver + body.load;
        const angle = Math.atan(day.slope);
        const air = speed + day.wind;
        const rho = airDensity(day.temperature, standardAtmosphere(day.altitude).pressure, day.humidity);
        const drag = 0.5 * rho * body.dragArea * air * Math.abs(air);
        const front = drive.axle === 'front';
        const share = front ? body.frontShare : 1 - body.frontShare;
        const lift = 0.5 * rho * (front ? body.liftAreaFront : body.liftAreaRear) * air * air;
        const push = out[SPEED]! + STANDARD_GRAVITY * Math.sin(angle);
        const level = STANDARD_GRAVITY * Math.cos(angle);
        const behind = { mass: 0, hitchLoad: 0, hitchHeight: 0, overhang: 0, dragArea: 0, rolling: 0, ...car.trailer };
        const trailing =
          0.5 * rho * behind.dragArea * air * Math.abs(air) +
          (behind.rolling / (1 + 0.008 * (day.temperature - 298.15))) * (behind.mass - behind.hitchLoad) * level;
        const pull = behind.mass * push + trailing;
        const moment = (body.cgHeight * m * push + body.dragHeight * drag + behind.hitchHeight * pull) / body.wheelbase;
        const lifted = (behind.hitchLoad * behind.overhang) / body.wheelbase;
        const hitch = front ? -lifted : behind.hitchLoad + lifted;
        const N = level * (m * share + hitch) + (front ? -moment : moment) - lift;
        // Far above any top speed lift and drag take a car off its wheels: what a tyre does there is no matter of friction.
        fc.pre(N > 0.02 * level * m);
        expect(at.load / N).toBeCloseTo(1, 9);
        const mu = frictionAtLoad(peak, N, tyre.loadReference, tyre.loadExponent);
        const rolls = front ? 1 - (body.frontRollShare ?? 0) : (body.frontRollShare ?? 0);
        const shaft = (drive.liveAxle?.ratio ?? Infinity) * (body.track ?? 1);
        const onCurve = (mu / (1 + (2 * mu * tyre.radius * rolls) / shaft)) * N * shareAtSlip(at.slip, stiffness, C);
        expect(at.force / onCurve).toBeCloseTo(1, 7);
        // No limit may lie below the torque in use.
        const guards = new Float64Array(plant.guards);
        plant.guard!(mode, y, guards);
        for (const guard of guards) expect(guard).toBeGreaterThan(-1e-9);
      }),
      { numRuns: 500 },
    );
  });

  it('gives the pack current that makes terminal power of voltage and current', () => {
    const { now, pack } = atState(testCar, testDay, 15, 0.8, 1);
    expect(now.voltage * now.current).toBeCloseTo(now.busPower, 6);
    expect(pack.emf - pack.resistance * now.current).toBeCloseTo(now.voltage, 9);
  });

  it('tells the room before a limit by power as a line straight in speed, through zero and past it', () => {
    const { plant, y, out } = atState(testCar, testDay, 10, 0.8, 0);
    const guards = new Float64Array(plant.guards);
    const first = testCar.drives[0]!.axle === 'rear' ? plant.moving.places.guardsRear : 0;
    const room = (speed: number): number => {
      y[SPEED] = speed;
      const mode = withAxleMode(0, first === 0 ? 0 : 1, L.torque);
      plant.rates(mode, y, out);
      plant.guard!(mode, y, guards);
      return guards[first + L.power]!;
    };
    let [low, high] = [1, 60];
    while (high - low > 1e-9) {
      const middle = 0.5 * (low + high);
      if (room(middle) > 0) low = middle;
      else high = middle;
    }
    const [before, after] = [room(0.9 * low), room(1.1 * low)];
    expect(before).toBeGreaterThan(0.05);
    expect(Math.abs(before + after) / (before - after)).toBeLessThan(0.02);
  });

  it('goes on evenly at its grip, far from it and where a gear is let go, but not close to its grip', () => {
    const { plant, y, mode, out } = atState(testCar, testDay, 5, 0.8, 0);
    const axle = testCar.drives[0]!.axle === 'rear' ? 1 : 0;
    const evenly = (bits: number, stretch: number): boolean => {
      plant.rates(mode, y, out);
      plant.driven[0]!.stretch = stretch;
      return plant.smooth!(withAxleMode(mode, axle, bits));
    };
    expect(evenly(L.torque | GRIP, 1)).toBe(true);
    expect(evenly(L.power, 0.2)).toBe(true);
    expect(evenly(L.power, 0.95)).toBe(false);
    const gear = { ratio: 1, efficiency: 1, inertia: 0, upshift: 500 };
    const gearbox = { gears: [gear, { ...gear, ratio: 0.7 }], shiftTime: 0.4 };
    const geared = { ...testCar, drives: testCar.drives.map(drive => ({ ...drive, gearbox })) };
    const other = atState(geared, testDay, 5, 0.8, 0);
    other.plant.driven[0]!.stretch = 0.95;
    expect(other.plant.smooth!(withAxleMode(0, axle, L.power))).toBe(false);
    expect(other.plant.smooth!(withAxleMode(0, axle, L.power) | BREAK)).toBe(true);
  });

  it('lets the power fall with the bus voltage below the reference voltage', () => {
    const drive = testCar.drives[0]!;
    const thirsty = {
      ...testCar,
      drives: [{ ...drive, unit: { ...drive.unit, referenceVoltage: 420 } }],
      pack: { ...testCar.pack, parallel: 30, maxCurrent: 5000 },
    };
    const { at, now, mode } = atState(thirsty, testDay, 30, 0.9, 0);
    expect(axleMode(mode, 0)).toBe(L.busVoltage);
    expect(limiterOf(mode)).toBe('pack voltage');
    // The speed axis shrinks with the voltage: T = A/w V/V0 - B.
    const { power, fall } = powerLine(drive.unit);
    expect(at.torque * at.motorSpeed).toBeCloseTo((power * now.voltage) / 420 - fall * at.motorSpeed, 5);
  });

  it('answers alike for a torque table that follows the ratings', () => {
    const drive = testCar.drives[0]!;
    const { peakTorque, peakPower } = drive.unit;
    const base = peakPower / peakTorque;
    const speed = [0, base];
    for (let w = base * 1.02; w < 1300; w *= 1.02) speed.push(w);
    const torque = speed.map(w => ratedTorque(drive.unit, Math.max(w, 1)));
    const tabled = { ...testCar, drives: [{ ...drive, unit: { ...drive.unit, table: { speed, torque } } }] };
    for (const v of [5, 12, 20, 30]) {
      const rated = atState(testCar, testDay, v, 0.5, 2);
      const other = atState(tabled, testDay, v, 0.5, 2);
      expect(other.out[SPEED]! / rated.out[SPEED]!).toBeCloseTo(1, 3);
    }
  });

  it('knows how each limit of its ratings goes with motor speed, at a voltage that sags and one that does not', () => {
    const drive = testCar.drives[0]!;
    for (const referenceVoltage of [300, 420]) {
      const car = { ...testCar, drives: [{ ...drive, unit: { ...drive.unit, referenceVoltage } }] };
      const { plant } = atState(car, testDay, 28, 0.9, 0);
      const { moving: m, atFront: at } = plant;
      for (const l of [L.power, L.busVoltage]) {
        const omega = at.motorSpeed;
        const [low, high] = [omega - 1e-3, omega + 1e-3].map(speed => {
          limit(m, m.front, Object.assign(at, { motorSpeed: speed }), l);
          return at.limit;
        });
        limit(m, m.front, Object.assign(at, { motorSpeed: omega }), l);
        expect(at.limitSlope / ((high! - low!) / 2e-3)).toBeCloseTo(1, 6);
      }
    }
  });

  it('is smooth in its states inside a mode', () => {
    const { plant, y, mode } = atState(testCar, testDay, 20, 0.9, 0.5);
    const out = new Float64Array(plant.states + plant.quadratures);
    const accelerationAt = (v: number): number => {
      y[SPEED] = v;
      plant.rates(mode, y, out);
      return out[SPEED]!;
    };
    const slope = (h: number): number => (accelerationAt(20 + h) - accelerationAt(20 - h)) / (2 * h);
    // Second-order differences: halving the step quarters the error, down to round-off.
    expect(Math.abs(slope(0.5) - slope(0.001)) / Math.abs(slope(0.25) - slope(0.001))).toBeCloseTo(4, 0);
  });

  it('has no grip limit on a road of limitless friction', () => {
    const tyre = { ...testCar.tyres.front, dry: { peak: 1000, slide: 900 } };
    const { mode } = atState({ ...testCar, tyres: { front: tyre, rear: tyre } }, testDay, 1, 0.9, 0);
    expect(atGrip(mode)).toBe(false);
  });

  it('forgets the former car when it is loaded with another', () => {
    const plant = plantFor(plantParameters(testCar, testDay));
    const out = new Float64Array(plant.states + plant.quadratures);
    const y = Float64Array.from([12, 0, 0.9, 0.3, 0]);
    plant.rates(plant.modeAt(y), y, out);
    const first = [...out];
    plant.load(plantParameters({ ...testCar, body: { ...testCar.body, mass: 2000 } }, testDay));
    plant.rates(plant.modeAt(y), y, out);
    expect(out[SPEED]).not.toBeCloseTo(first[SPEED]!, 2);
    plant.load(plantParameters(testCar, testDay));
    plant.rates(plant.modeAt(y), y, out);
    expect([...out]).toEqual(first);
  });

  it('keeps the fixed ratio of an axle engaged beside a gearbox that starts in a higher gear', () => {
    const [drive] = testCar.drives as [Car['drives'][number]];
    const gear = { ratio: 1, efficiency: 1, inertia: 0, upshift: 300 };
    const geared = { ...drive, gearbox: { gears: [{ ...gear, ratio: 2 }, gear], shiftTime: 0.3 } };
    const car: Car = { ...testCar, drives: [geared, { ...drive, axle: 'rear' }] };
    const { mode, plant, out } = atState(car, testDay, 20, 0.8, 0);
    expect(gearOf(mode)).toBe(1);
    expect(plant.atRear.gear.ratio).toBe(drive.ratio);
    expect(Number.isFinite(out[SPEED])).toBe(true);
  });

  it('refuses what it cannot carry', () => {
    expect(() => plantParameters({ ...testCar, drives: [] }, testDay)).toThrow('driven axle');
    const rear = { ...testCar, drives: [{ ...testCar.drives[0]!, axle: 'rear' as const }] };
    expect(() => plantFor(plantParameters(rear, testDay)).load(plantParameters(testCar, testDay))).toThrow(
      'another shape',
    );
  });
});
