import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { followParameters } from '../../../src/model/backward/load.ts';
import { createFollower } from '../../../src/runs/schedule/follower.ts';
import { soak } from '../../../src/runs/schedule/soak.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';

const heat = { capacity: 20_000, cooling: 30, derateAt: 400, derateRange: 50, continuousShare: 0.5 };
const hot: Car = {
  ...testCar,
  drives: testCar.drives.map(drive => ({ ...drive, unit: { ...drive.unit, heat } })),
  cabin: { ...testCar.cabin, heatCapacity: 100_000, loss: 50 },
};
const car = withPackHeat(hot);
const packHeat = car.pack.heat!;

function rested(seconds: number, of: Car = car) {
  const follower = createFollower();
  follower.load(followParameters(of, testDay));
  follower.setState({ charge: 0.5, polarisation: [3, 0], pack: 313.15, units: [353.15, 293.15] });
  const cabin = { inside: 313.15 };
  const fromPolarisation = soak(follower, seconds, cabin, of);
  return { ...follower.state(), cabin: cabin.inside, fromPolarisation };
}

describe('a car that stands switched off', () => {
  it('cools by exp(-t cooling / capacity), each lump by its own', () => {
    const seconds = 1800;
    const { pack, units, cabin, fromPolarisation } = rested(seconds);
    const air = testDay.temperature;
    const packShare = Math.exp((-seconds * packHeat.cooling) / packHeat.capacity);
    expect(units[0]).toBeCloseTo(air + 60 * Math.exp((-seconds * 30) / 20_000), 9);
    expect(cabin).toBeCloseTo(air + 20 * Math.exp((-seconds * 50) / 100_000), 9);
    expect(pack).toBeCloseTo(air + (20 + fromPolarisation / packHeat.capacity) * packShare, 9);
  });

  it('loses its polarisation with its time constant, to heat and not from the charge', () => {
    const { charge, polarisation, fromPolarisation } = rested(40);
    const { resistance, timeConstant } = car.pack.cell.pairs[0]!;
    const R = (resistance * 96) / 12;
    expect(charge).toBe(0.5);
    // Warm cells have less resistance, and their capacities are what they were.
    const warmth = Math.exp(packHeat.resistanceActivation * (1 / 313.15 - 1 / 298.15));
    expect(polarisation[0]).toBeCloseTo(3 * Math.exp(-40 / (warmth * timeConstant)), 12);
    const energy = (volts: number): number => (0.5 * timeConstant * volts ** 2) / R;
    expect(fromPolarisation).toBeCloseTo(energy(3) - energy(polarisation[0]), 9);
  });

  it('is where it was after no time, and as cold as the air in the end', () => {
    expect(rested(0)).toMatchObject({ pack: 313.15, polarisation: [3, 0], cabin: 313.15, fromPolarisation: 0 });
    const night = rested(30 * 86_400);
    expect(night.units[0]).toBeCloseTo(testDay.temperature, 9);
    expect(night.polarisation[0]).toBe(0);
    expect(night.pack).toBeCloseTo(testDay.temperature, 9);
  });

  it('rests in two halves as in one whole', () => {
    const follower = createFollower();
    follower.load(followParameters(car, testDay));
    follower.setState({ charge: 0.5, polarisation: [3, 0], pack: 313.15, units: [353.15, 293.15] });
    const cabin = { inside: 313.15 };
    soak(follower, 600, cabin, car);
    soak(follower, 1200, cabin, car);
    const once = rested(1800);
    expect(follower.state().units[0]).toBeCloseTo(once.units[0], 9);
    expect(cabin.inside).toBeCloseTo(once.cabin, 9);
    // The heat of the polarisation counts from the start of each rest.
    expect(follower.state().pack).toBeCloseTo(once.pack, 6);
  });

  it('has a drive unit without a heat of its own stay as it is, whatever the pack does', () => {
    expect(rested(1800, withPackHeat(testCar)).units[0]).toBeCloseTo(353.15, 9);
  });
});
