import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car } from '../../src/model/car.ts';
import type { Input } from '../../src/model/fields/input.ts';
import { completeCar } from '../../src/model/complete.ts';
import { SPEED } from '../../src/model/forward/state.ts';
import { plantParameters } from '../../src/model/forward/load.ts';
import { limiterOf } from '../../src/model/forward/limiter.ts';
import { plantFor } from '../../src/model/forward/plant.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { steady } from '../../src/runs/trip/steady.ts';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import type { Solution } from '../../src/solvers/system.ts';
import { testDay } from '../cars.ts';

const COLD = 298.15;
const day = { ...testDay, temperature: COLD };

const plain = {
  mass: 1000,
  tyres: { radius: 0.3 },
  pack: { cell: shippedPart('cell', 'cell_pouch_27ah')?.values ?? {}, series: 96, parallel: 4 },
};

type Rectangular = Extract<Input['spread'], { kind: 'rectangular' }>;

interface Ratings {
  readonly peakTorque: number;
  readonly peakPower: number;
  readonly continuousPower: number;
  readonly overloadTime: number;
  readonly derateTemperature: number;
  /** rad/s of the continuous power; left out, where peak torque and peak power meet. */
  readonly continuousSpeed?: number;
}

/** Rigid tyres that never slip and a pack that hardly sags: the motor turns at the speed it is told, with the torque it is told. */
function rated(unit: Ratings): Car {
  return completeCar({
    mass: 1000,
    tyres: { radius: 0.3, slipAtPeak: 0, dryPeak: 3, loadExponent: 0 },
    drive: {
      axle: 'rear',
      ratio: 8,
      unit: { continuousSpeed: unit.peakPower / unit.peakTorque, ...unit, referenceVoltage: 50, maxSpeed: 4000 },
    },
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

/** Turns the motor for some time, at its corner speed where no other in rad/s is given. */
function turn(
  car: Car,
  pedal: number,
  seconds: number,
  speed = Number.NaN,
): { solution: Solution; temperature: number; words: string[] } {
  const plant = plantFor(plantParameters(car, day, pedal));
  const { unit, ratio } = car.drives[0]!;
  const omega = Number.isNaN(speed) ? unit.peakPower / unit.peakTorque : speed;
  const start = plant.initial((omega / ratio) * car.tyres.rear.radius);
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

  it('does the same at the speed that the continuous power is stated for', () => {
    const unit = {
      peakTorque: 260,
      peakPower: 100e3,
      continuousPower: 30e3,
      overloadTime: 60,
      derateTemperature: 393.15,
    };
    const continuousSpeed = 1500;
    const car = rated({ ...unit, continuousSpeed });
    const { cooling, capacity } = car.drives[0]!.unit.heat!;
    const pedal = unit.continuousPower / continuousSpeed / unit.peakTorque;
    const { temperature } = turn(car, pedal, (25 * capacity) / cooling, continuousSpeed);
    expect(temperature).toBeCloseTo(unit.derateTemperature, 5);
    // At the corner the same power takes more torque: copper there, iron and windage here.
    const { losses, inverterEfficiency } = car.drives[0]!.unit;
    const corner = unit.peakPower / unit.peakTorque;
    const T = unit.continuousPower / corner;
    const motor = losses.copper * T * T + losses.iron * corner + losses.windage * corner ** 3 + losses.fixed;
    const heat = (unit.continuousPower + motor) / inverterEfficiency - unit.continuousPower;
    const there = turn(car, unit.continuousPower / unit.peakPower, (25 * capacity) / cooling).temperature;
    expect(there).toBeCloseTo(COLD + heat / cooling, 4);
    // And the peak power at the corner still lasts for the overload time.
    const { solution } = turn(car, 1, 90);
    const first = solution.events.find(({ kind, to }) => kind === 'switch' && limiterOf(to) === 'heat');
    expect(first!.time).toBeCloseTo(60, 4);
  });

  it('takes the speed of a continuous power from the continuous torque beside it, in place of one that it assumes', () => {
    const unit = { peakTorque: 260, peakPower: 100e3, overloadTime: 60 };
    const heatOf = (more: object): unknown =>
      completeCar({ ...plain, drive: { axle: 'rear', ratio: 8, unit: { ...unit, ...more } } }).car.drives[0]?.unit.heat;
    const both = heatOf({ continuousPower: 48e3, continuousSpeed: 480 });
    // Power is torque times angular speed.
    expect(heatOf({ continuousPower: 48e3, continuousTorque: 100 })).toEqual(both);
    expect(heatOf({ continuousTorque: 100, continuousSpeed: 480 })).toEqual(both);
    expect(heatOf({ continuousPower: 48e3 })).not.toEqual(both);
  });

  it('takes a continuous power to be stated in the middle of the speeds at which 90 % of the peak power is left', () => {
    // UN Regulation No. 85, 5.3.2 (from memory): the 30-minute power at a speed at which the net power is above 90 % of its maximum.
    const speedOf = (unit: object): Input => {
      const drive = { axle: 'rear', ratio: 8, unit: { continuousPower: 20e3, ...unit } } as const;
      const { inputs } = completeCar({ ...plain, drive });
      return inputs.find(({ path }) => path.endsWith('continuous_speed'))!;
    };
    const rated = speedOf({ peakTorque: 200, peakPower: 60e3, maxSpeed: 1200, powerAtTop: 0.85 });
    // Corner 300 rad/s; two thirds of the 15 % are gone after two thirds of the 900 rad/s.
    expect(rated.value).toBeCloseTo(600, 9);
    expect(rated.spread).toEqual({ kind: 'rectangular', low: 300, high: expect.closeTo(900, 9) });
    // Torque in a straight line, 200 - 0.2 w: 50 kW at 500 rad/s, and 45 kW left at 500 + 50 sqrt(10), by samples 2.5 apart.
    const { low, high } = speedOf({ tableSpeed: [0, 500, 1000], tableTorque: [200, 100, 0] }).spread as Rectangular;
    expect(low).toBeCloseTo(250, 9);
    expect(Math.abs(high - 500 - 50 * Math.sqrt(10))).toBeLessThan(2.5);
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

describe('a continuous power of 25 kW', () => {
  const car = (continuousPower: number): Car =>
    completeCar({
      mass: 1300,
      tyres: { size: '185/65 R 15' },
      drive: {
        axle: 'front',
        ratio: 9.3,
        unit: { peakTorque: 260, peakPower: 100e3, maxSpeed: 1309, continuousPower },
      },
      pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 2 },
    }).car;
  const at = { surroundings: day, speed: 110 / 3.6, speeds: [110 / 3.6] };

  it('holds 110 km/h, for which 20 kW are asked', () => {
    const { summary } = steady(car(25e3), at);
    expect(summary['range'] as number).toBeGreaterThan(100e3);
    expect(summary['power'] as number).toBeGreaterThan(16e3);
    expect(summary['power'] as number).toBeLessThan(23e3);
  });

  it('says for how many minutes the speed is held where it is not', () => {
    const { summary, warnings } = steady(car(9e3), at);
    const minutes = ((summary['time'] as number) / 60).toFixed(0);
    expect(warnings).toContain(
      `The car holds 110 km/h for ${minutes} minutes: then it is held back by heat, before its pack is empty`,
    );
    expect(steady(car(25e3), at).warnings.join()).not.toContain('heat,');
  });
});
