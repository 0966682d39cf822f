import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { steady } from '../../../src/runs/trip/steady.ts';
import { idealCar, testCar, testDay, withPackHeat } from '../../cars.ts';

const KMH = 1 / 3.6;
const speeds = [10, 30, 50, 70, 90, 110, 130, 150].map(kmh => kmh * KMH);
const surroundings = testDay;

describe('steady speeds', () => {
  const warm = withPackHeat(testCar);
  // Cooled so well that it holds every speed to the end, which comes while its voltage is up.
  const car: Car = {
    ...warm,
    pack: { ...warm.pack, heat: { ...warm.pack.heat!, cooling: 1000 }, window: { low: 0.2, high: 0.95 } },
  };
  const result = steady(car, { surroundings, speed: 90 * KMH, speeds });
  const column = (key: string): Float64Array => result.series['speed']![key]!.values as Float64Array;

  it('have the range of a pack over what it costs to hold the speed', () => {
    const { consumption, range, time, power, speed } = result.summary as { [key: string]: number };
    expect(power).toBeCloseTo(consumption! * speed!, 6);
    expect(time).toBeCloseTo(range! / speed!, 6);
    expect(column('range_m')[4]).toBe(range);
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-6);
    expect(result.warnings).toEqual([]);
  });

  it('cost more the faster, above the speed where lights and losses count no more', () => {
    const consumption = column('consumption_J_m');
    for (let i = 3; i < speeds.length; i++) expect(consumption[i]).toBeGreaterThan(consumption[i - 1]!);
    expect(consumption[0]).toBeGreaterThan(consumption[1]!);
    const best = [...column('range_m')].indexOf(Math.max(...column('range_m')));
    expect(result.summary['farthest_speed']).toBe(speeds[best]);
  });

  it('have no range where the car does not hold them', () => {
    const slow: Car = {
      ...car,
      drives: car.drives.map(drive => ({ ...drive, unit: { ...drive.unit, peakPower: 12_000 } })),
    };
    const weak = steady(slow, { surroundings, speed: 50 * KMH, speeds });
    const found = weak.series['speed']!['range_m']!.values as Float64Array;
    expect(found[2]).toBeGreaterThan(50_000);
    expect(Number.isNaN(found[7]!)).toBe(true);
    const { summary, reasons } = steady(slow, { surroundings, speed: 150 * KMH, speeds });
    expect(summary['range']).toBeNull();
    expect(Object.values(reasons)[0]).toMatch(/does not hold 150 km\/h$/);
  });

  it('say so where a motor would turn faster than it may', () => {
    const [drive] = car.drives;
    const short: Car = { ...car, drives: [{ ...drive!, ratio: 14 }] };
    const { reasons } = steady(short, { surroundings, speed: 130 * KMH, speeds: [] });
    const most = ((drive!.unit.maxSpeed / 14) * car.tyres[drive!.axle].radius) / KMH;
    expect(reasons['range']).toBe(
      `the car does not hold 130 km/h: above ${most.toFixed(0)} km/h its motor turns faster than it may`,
    );
  });
});

describe('a car of which everything is known', () => {
  it('has its closed form: force over efficiency, and lights over speed', () => {
    const plain = idealCar({ mass: 1250, force: 1e4, power: 1e6, drag: 0.4, rolling: 0.012, friction: 1e6 });
    const [drive] = plain.drives;
    const car: Car = {
      ...plain,
      drives: [{ ...drive!, efficiency: 0.85 }],
      auxiliaries: { power: 300, converterEfficiency: 1 },
      pack: { ...plain.pack, cell: { ...plain.pack.cell, capacity: 270_000 }, window: { low: 0.1, high: 0.9 } },
    };
    const speed = 25;
    const { summary } = steady(car, { surroundings, speed, speeds });
    // From what the run itself says of drag and rolling resistance: their digits are checked elsewhere.
    const { ledger } = steady(car, { surroundings, speed, speeds: [speed] });
    const range = summary['range'] as number;
    const force = (ledger.out['drag']! + ledger.out['rolling resistance']!) / range;
    expect(summary['consumption']).toBeCloseTo(force / 0.85 + 300 / speed, 6);
    // Open-circuit voltage from 399 to 401 V, on average 400 V over 0.8 of the charge.
    const energy = 0.8 * 270_000 * 400;
    expect(range).toBeCloseTo(energy / (force / 0.85 + 300 / speed), 3);
  });

  it('says that it would be for ever where that is why there is no range, and not that the speed is not held', () => {
    const frugal = { ...testCar, pack: { ...testCar.pack, parallel: 20_000 } };
    const { reasons, summary } = steady(frugal, { surroundings, speed: 10 * KMH, speeds });
    expect(summary['range']).toBeNull();
    expect(reasons['range']).toMatch(/driven for some \d+ hours until its pack is empty, and more than 600/u);
    // Down a hill nothing gets empty.
    const falling = steady(frugal, { surroundings: { ...surroundings, slope: -0.05 }, speed: 30 * KMH, speeds });
    expect(falling.reasons['range']).toMatch(/does not get empty/u);
  });
});
