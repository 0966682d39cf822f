/** The forward and the backward model are one physics: what a car does under its pedal, asked for backwards, takes the same. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Car, Drive } from '../../src/model/car.ts';
import { plantParameters } from '../../src/model/forward/load.ts';
import { plantFor } from '../../src/model/forward/plant.ts';
import type { Plant } from '../../src/model/forward/plant.ts';
import {
  axleMode,
  CHARGE,
  gearOf,
  GRIP,
  L,
  LIMIT_BITS,
  QUADRATURES,
  RC,
  SPEED,
} from '../../src/model/forward/state.ts';
import { arbitraryBuild, arbitraryCar, arbitraryDay } from '../cars.ts';
import { demanded } from './demanded.ts';

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

const held = (drive: Drive): Drive =>
  drive.traction.policy === 'spin' ? { ...drive, traction: { policy: 'held', share: 1 } } : drive;

/** Two drives that are free to share the force do so otherwise under a pedal than along a schedule: here their torques are shared. */
const shared = (car: Car): Car =>
  car.drives.length === 2 ? { ...car, frontTorqueShare: car.frontTorqueShare ?? 0.4 } : car;

/** Half of them with everything that can get warm. */
const cars = fc.tuple(fc.oneof(arbitraryCar, arbitraryBuild), fc.boolean()).map(([car, heats]): Car => {
  const drives = car.drives.map(held);
  if (!heats) return shared({ ...car, drives });
  const lump = { capacity: 9000, cooling: 40, derateAt: 330, derateRange: 20 };
  return shared({
    ...car,
    drives: drives.map(each => ({ ...each, unit: { ...each.unit, heat: { ...lump, continuousShare: 0.3 } } })),
    pack: { ...car.pack, heat: { ...lump, resistanceActivation: 2400 } },
  });
});

/** Drive units and pack so far, 0 to 1, into the range over which they are derated. */
function warmUp(plant: Plant, car: Car, y: Float64Array, warm: number): void {
  if (warm === 0) return;
  for (const { axle, unit } of car.drives) {
    const state = plant.unitTemperatureState(axle === 'front' ? 0 : 1);
    if (unit.heat !== undefined) y[state] = unit.heat.derateAt + warm * unit.heat.derateRange;
  }
  const { heat } = car.pack;
  if (heat !== undefined) y[plant.packTemperatureState] = heat.derateAt + warm * heat.derateRange;
}

/**
 * N m against which torques are compared: where two drives share theirs, limits that differ by less than a thousand-millionth of the
 * peak torque are taken as equal (`modes.ts`), and either drive may be the one that leads.
 */
function tied({ drives }: Car): number {
  return drives.length === 2 ? Math.max(...drives.map(({ unit }) => unit.peakTorque)) : 1;
}

const LOSSES = ['unitHeat', 'gearHeat', 'spinUp', 'slip', 'rolling', 'drag', 'grade'] as const;

it('agree on power, torque, speeds, slip and every loss at random states of random cars, in every mode', () => {
  const seen = new Set<number>();
  const state = fc.record({
    car: cars,
    day: arbitraryDay,
    pedal: fc.oneof(fc.constant(1), between(0.05, 1)),
    part: between(0.01, 0.95),
    rc: between(0, 4),
    charge: between(0.02, 1),
    warm: fc.oneof(fc.constant(0), between(0, 1)),
    // In the first instant of all torques are equal to what a mode is told by, and any may be the one in force.
    pressed: fc.oneof(fc.constant(null), between(1e-6, 0.3)),
    spent: fc.constantFrom(0, 0.5, 1),
  });
  fc.assert(
    fc.property(state, ({ car, day, pedal, part, rc, charge, warm, pressed, spent }) => {
      const plant = plantFor(plantParameters(car, day, pedal, pressed !== null));
      const top = Math.min(
        ...car.drives.map(({ axle, unit, ratio, gearbox }) => {
          const turns = ratio * (gearbox?.gears.at(-1)?.ratio ?? 1);
          return (unit.maxSpeed * car.tyres[axle].radius) / turns;
        }),
      );
      const y = plant.initial(part * top);
      y[CHARGE] = charge;
      y[plant.states] = pressed ?? 0;
      warmUp(plant, car, y, warm);
      if (plant.shape.pairs > 0) y[RC] = rc;
      if (plant.budgetState >= 0) y[plant.budgetState] = spent;
      const out = new Float64Array(plant.states + plant.quadratures);
      const mode = plant.modeAt(y);
      plant.rates(mode, y, out);
      const { now, driven } = plant;
      const back = demanded(car, day, y[SPEED]!, now.acceleration, Infinity, gearOf(mode));
      // The gears of the forward model are driven by the motor.
      // Nor does either know wheels in the air; a car that gets slower by itself along a schedule is braked.
      fc.pre(driven.every(({ load }) => load > 0) && back.force > 0);
      fc.pre(Number.isFinite(now.acceleration) && back.axles.every(({ moment }) => moment > 0));
      const grips = [0, 1].some(axle => (axleMode(mode, axle) & GRIP) !== 0);
      // A car that gets slower with a tyre at its peak, its torques shared, has two slips that fit.
      fc.pre(!(grips && driven.length === 2 && now.acceleration < 0));
      for (const axle of [0, 1]) seen.add(axleMode(mode, axle) & (GRIP | LIMIT_BITS));
      const whole = Math.abs(now.busPower) + 1000;
      const differences = [
        Math.abs(back.power.power - now.busPower) / whole,
        ...LOSSES.map(name => Math.abs(back.power[name] - out[plant.states + QUADRATURES.indexOf(name)]!) / whole),
        ...driven.flatMap((at, i) => {
          const other = back.axles[i]!;
          return [
            Math.abs(other.torque - at.torque) / (Math.abs(at.torque) + tied(car)),
            Math.abs(other.motorSpeed / at.motorSpeed - 1),
            Math.abs(other.load / at.load - 1),
          ];
        }),
      ];
      // A tyre that can not give more is at the top of its curve, where the slip is the root of a force; of two axles the other
      // one's torque hangs on it.
      expect(Math.max(...differences)).toBeLessThan(grips ? 1e-4 : 1e-9);
    }),
    { numRuns: 1500 },
  );
  // Which of the rare limits of warm drive units come up goes with the seed.
  const rare: readonly number[] = [L.heatTorque, L.heatPower];
  for (const l of Object.values(L)) if (!rare.includes(l)) expect(seen, `limit ${l}`).toContain(l);
  if (process.env['AXLEWATT_SEED'] === undefined) expect(rare.some(l => seen.has(l))).toBe(true);
  expect([...seen].some(bits => (bits & GRIP) !== 0)).toBe(true);
});
