/** Launches with torque tables that come down to nothing, or nearly so, at their end. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car, DriveUnit } from '../../../src/model/car.ts';
import { completeCar } from '../../../src/model/complete.ts';
import { taperOf } from '../../../src/model/drive/taper.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import { curveThrough } from '../../../src/model/tables/curve.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { idealCar, testDay } from '../../cars.ts';

interface Table {
  readonly speed: readonly number[];
  readonly torque: readonly number[];
}

const carWith = ({ speed, torque }: Table): Car =>
  completeCar({
    mass: 1150,
    tyres: { size: '165/70 R 14' },
    drive: { axle: 'front', ratio: 9.1, unit: { tableSpeed: [...speed], tableTorque: [...torque] } },
    pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 2 },
  }).car;

const unitWith = (table: Table): DriveUnit => {
  const [drive] = carWith(table).drives;
  if (drive === undefined) throw new Error('a drive');
  return drive.unit;
};

/** Flat to a corner, then down by a power of the speed, and at the end nothing, next to nothing, or what is left. */
const tables = fc
  .record({
    points: fc.integer({ min: 2, max: 8 }),
    top: fc.double({ min: 900, max: 1500, noNaN: true }),
    peak: fc.double({ min: 150, max: 350, noNaN: true }),
    corner: fc.double({ min: 0.2, max: 0.6, noNaN: true }),
    fall: fc.double({ min: 0.8, max: 2, noNaN: true }),
    end: fc.constantFrom(0, 0.001, 0.02, 0.1, 1),
  })
  .map(({ points, top, peak, corner, fall, end }): Table => {
    const behind = Array.from({ length: points }, (_, k) => top * (corner + ((1 - corner) * k) / (points - 1)));
    const torque = behind.map(w => peak * Math.min(1, ((corner * top) / w) ** fall));
    return { speed: [0, ...behind], torque: [peak, ...torque.slice(0, -1), end * (torque.at(-1) ?? 0)] };
  });

describe('a torque table that comes down to nothing', () => {
  it('drives a car as the closed form says', () => {
    const car = idealCar({ mass: 1200, force: 4000, power: 1e9 });
    const [drive] = car.drives;
    const [F, top] = [4000, 60];
    const table = { speed: [0, top], torque: [F, 0] };
    const unit = { ...drive!.unit, maxSpeed: top, taperSpeed: 0.96 * top, table };
    const run = launchOnce(
      { ...car, drives: [{ ...drive!, unit }] },
      { surroundings: testDay, from: 1, to: 55, stop: 'to', tolerance: 1e-10 },
    );
    // m dv/dt = F (1 - v/top).
    const time = ((1200 * top) / F) * Math.log((1 - 1 / top) / (1 - 55 / top));
    expect(run.marks.get('to')!.time / time).toBeCloseTo(1, 9);
  });

  it('needs no line that takes it to nothing', () => {
    const unit = unitWith({ speed: [0, 300, 600, 1200], torque: [300, 300, 150, 0] });
    expect(taperOf(unit, curveThrough(unit.table!.speed, unit.table!.torque)).speed).toBe(Infinity);
  });

  it('is left to the line of the taper speed where there is torque to take away', () => {
    const unit = unitWith({ speed: [0, 300, 600, 1200], torque: [300, 300, 150, 75] });
    expect(taperOf(unit, curveThrough(unit.table!.speed, unit.table!.torque)).speed).toBe(unit.taperSpeed);
  });

  it('is driven by both methods alike, whatever its points', () => {
    fc.assert(
      fc.property(tables, table => {
        const { summary, opinion, warnings } = launch(carWith(table), { surroundings: testDay });
        expect(summary['time_to_50_km_h']).toBeGreaterThan(0);
        expect(warnings).toEqual([]);
        expect(opinion?.difference ?? 1).toBeLessThan(1e-6);
      }),
      { numRuns: 25 },
    );
  }, 120_000);
});
