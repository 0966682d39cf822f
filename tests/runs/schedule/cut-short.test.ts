/** Heating that asks for more than a pack can give gets what there is, instant by instant. */
import { describe, expect, it } from 'vitest';
import type { Schedule } from '../../../src/cycles/schedule.ts';
import type { Car } from '../../../src/model/car.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import type { TravelRun } from '../../../src/runs/schedule/trip.ts';
import { testCar, testDay, testDrive, withPackHeat } from '../../cars.ts';
import { beginning, trip } from '../../trips.ts';

const losses = { copper: 0.05, iron: 0, windage: 0, fixed: 0 };
const weak: Car = withPackHeat({
  ...testCar,
  drives: [{ ...testDrive, unit: { ...testDrive.unit, losses, standstillLoss: 0 } }],
  pack: { ...testCar.pack, resistanceGrowth: 3, parallel: 2 },
  cabin: { ...testCar.cabin, heater: 'resistive', loss: 150, heatCapacity: 80_000, heaterPower: 6000 },
});

/** The same straight lines with so many points for each. */
function split({ time, speed, ...rest }: Schedule, parts: number): Schedule {
  const at = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: (values.length - 1) * parts + 1 }, (_, i) => {
      const k = Math.min(values.length - 2, Math.floor(i / parts));
      return values[k]! + (values[k + 1]! - values[k]!) * (i / parts - k);
    });
  return { ...rest, time: at(time), speed: at(speed), slope: null };
}

describe.each([0.9, 0.3, 0.1])('a weak pack at a charge of %d', charge => {
  const drive = (parts: number, steps: number): TravelRun =>
    travelOnce(weak, trip(split(beginning('udds', 300), parts)), {
      surroundings: { ...testDay, temperature: 263 },
      charge,
      steps,
    });
  const plain = drive(1, 1);

  it('heats with what it gives at each instant, however many steps and points there are', () => {
    expect(plain.follower.inner.totals.unfed).toBeGreaterThan(250);
    // What it gave at the start of each second was 3e-3 off on the way, and 4e-4 in what was heated with.
    for (const fine of [drive(1, 8), drive(4, 1)]) {
      expect(Math.abs(plain.distance / fine.distance - 1)).toBeLessThan(1e-6);
      const heated = plain.follower.sums.auxiliaries / fine.follower.sums.auxiliaries;
      expect(Math.abs(heated - 1)).toBeLessThan(2e-6);
    }
  });

  it('keeps its energy', () => {
    expect(Math.abs(travelLedger(plain).gap)).toBeLessThan(1e-8);
  });
});
