import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car } from '../../src/model/car.ts';
import { completeCar } from '../../src/model/complete.ts';
import { SPEED } from '../../src/model/forward/state.ts';
import { plantParameters } from '../../src/model/forward/load.ts';
import { limiterOf } from '../../src/model/forward/limiter.ts';
import { plantFor } from '../../src/model/forward/plant.ts';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import type { Solution } from '../../src/solvers/system.ts';
import { testDay } from '../cars.ts';

const COLD = 298.15;
const day = { ...testDay, temperature: COLD };

interface Ratings {
  readonly peakTorque: number;
  readonly peakPower: number;
  readonly continuousPower: number;
  readonly overloadTime: number;
  readonly derateTemperature: number;
}

/** Rigid tyres that never slip and a pack that hardly sags: the motor turns at the speed it is told, with the torque it is told. */
function rated(unit: Ratings): Car {
  return completeCar({
    mass: 1000,
    tyres: { radius: 0.3, slipAtPeak: 0, dryPeak: 3, loadExponent: 0 },
    drive: { axle: 'rear', ratio: 8, unit: { ...unit, referenceVoltage: 50, maxSpeed: 4000 } },
    pack: {
      cell: {
        capacity: 3.6e6,
        ocvCharge: [0, 1],
        ocvVoltage: [3.6, 4.1],
        resistanceCharge: [0, 1],
        resistanceOhm: [1e-6, 1e-6],
        maxCurrent: 10_000,
        minVoltage: 2,
        maxVoltage: 4.2,
        mass: 1,
      },
      series: 100,
      parallel: 20,
      wiringResistance: 0,
    },
  }).car;
}

/** Turns the motor at its corner speed, where peak torque and peak power meet, for some time. */
function turn(car: Car, pedal: number, seconds: number): { solution: Solution; temperature: number; words: string[] } {
  const plant = plantFor(plantParameters(car, day, pedal));
  const { unit, ratio } = car.drives[0]!;
  const start = plant.initial((unit.peakPower / unit.peakTorque / ratio) * car.tyres.rear.radius);
  const solution = solveExplicit(
    {
      ...plant,
      rates(mode, y, out) {
        plant.rates(mode, y, out);
        out[SPEED] = 0;
      },
    },
    {
      start: 0,
      end: seconds,
      initial: start.subarray(0, plant.states),
      mode: plant.modeAt(start),
      tolerance: 1e-10,
      maxStep: seconds / 50,
    },
  );
  const last = (solution.nodes - 1) * plant.states;
  return {
    solution,
    temperature: solution.states[last + plant.unitTemperatureState(1)]!,
    words: [...solution.modes.subarray(0, solution.nodes)].map(mode => limiterOf(mode)),
  };
}

const arbitraryRatings = fc
  .record({
    peakTorque: fc.double({ min: 80, max: 400, noNaN: true }),
    corner: fc.double({ min: 200, max: 700, noNaN: true }),
    share: fc.double({ min: 0.2, max: 0.8, noNaN: true }),
    overloadTime: fc.double({ min: 5, max: 300, noNaN: true }),
    derateTemperature: fc.double({ min: 340, max: 430, noNaN: true }),
  })
  .map(({ corner, share, ...rest }) => ({
    ...rest,
    peakPower: rest.peakTorque * corner,
    continuousPower: share * rest.peakTorque * corner,
  }));

describe('the heat of a drive unit', () => {
  it('derates the constant peak power at the corner speed exactly at the overload time', () => {
    fc.assert(
      fc.property(arbitraryRatings, unit => {
        const { solution } = turn(rated(unit), 1, 1.5 * unit.overloadTime);
        const first = solution.events.find(({ kind, to }) => kind === 'switch' && limiterOf(to) === 'heat');
        expect(first).toBeDefined();
        expect(Math.abs(first!.time / unit.overloadTime - 1)).toBeLessThan(1e-6);
      }),
      { numRuns: 50 },
    );
  });

  it('never derates the continuous power, and comes to the derating temperature with it', () => {
    fc.assert(
      fc.property(arbitraryRatings, unit => {
        const car = rated(unit);
        const tau = car.drives[0]!.unit.heat!.capacity / car.drives[0]!.unit.heat!.cooling;
        const { words, temperature } = turn(car, unit.continuousPower / unit.peakPower, 25 * tau);
        expect(new Set(words)).toEqual(new Set(['driver']));
        expect(temperature).toBeLessThan(unit.derateTemperature + 1e-6);
        // 25 time constants leave 1e-11 of the way.
        expect(unit.derateTemperature - temperature).toBeLessThan(1e-6);
      }),
      { numRuns: 30 },
    );
  });

  it('brings the power down to between the peak and the continuous rating in the long run', () => {
    const unit = {
      peakTorque: 200,
      peakPower: 80_000,
      continuousPower: 30_000,
      overloadTime: 40,
      derateTemperature: 400,
    };
    const car = rated(unit);
    const { temperature, words } = turn(car, 1, 3000);
    expect(words.at(-1)).toBe('heat');
    expect(temperature).toBeGreaterThan(400);
    // One derating range above it the rating would be the continuous one, which cools.
    expect(temperature).toBeLessThan(420);
  });
});
