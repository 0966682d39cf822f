import { describe, expect, it } from 'vitest';
import { completeCar } from '../../../src/model/complete.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import { referenceLoad } from '../../../src/model/tyre/reference-load.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import type { CarSpec } from '../../../src/model/spec.ts';
import { testDay } from '../../cars.ts';

const light: CarSpec = {
  mass: 800,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'front', unit: { peakTorque: 300, peakPower: 150_000 }, ratio: 8 },
  pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 2 },
};

describe('the load at which friction is stated', () => {
  it('is three quarters of what the load index allows (UN Regulation No. 117, Annex 5, from memory)', () => {
    // Load index 91 carries 615 kg (published load index table).
    expect(referenceLoad(91, 0.3)).toBeCloseTo(2 * 0.75 * 615 * 9.80665, 9);
  });

  it.each([
    ['145/80 R 13', 75],
    ['165/80 R 13', 83],
    ['185/65 R 15', 88],
    ['205/55 R 16', 91],
  ])('of a %s without an index is within 12 %% of that with its usual index %i (ETRTO, from memory)', (size, index) => {
    const load = (code: string): number =>
      completeCar({ ...light, tyres: { size: code } }).car.tyres.front.loadReference;
    expect(Math.abs(load(size) / load(`${size} ${index} T`) - 1)).toBeLessThan(0.12);
  });

  it('belongs to the tyre: it is the same under a heavier car, whose tyres hold less of their load', () => {
    const time = (mass: number, loadExponent: number): number => {
      const { car } = completeCar({ ...light, mass, tyres: { size: '165/80 R 13', loadExponent } });
      return launchOnce(car, { surroundings: testDay, stop: '50_km_h' }).marks.get('50_km_h')?.time ?? Number.NaN;
    };
    const { tyres } = completeCar({ ...light, mass: 1400 }).car;
    expect(tyres.front.loadReference).toBe(completeCar(light).car.tyres.rear.loadReference);
    // At the grip limit the time does not depend on the mass but for load sensitivity: mu = mu0 (N/N0)^-q (Pacejka).
    const slower = (q: number): number => time(1400, q) / time(800, q);
    expect(Math.abs(slower(0.1) / slower(0) - ((1400 + 75) / (800 + 75)) ** 0.1)).toBeLessThan(0.01);
    expect(slower(0.1)).toBeGreaterThan(1.02);
  });

  it('is what is stated, and a size that is no radial one does not hinder a measured radius', () => {
    expect(completeCar({ ...light, tyres: { radius: 0.29, loadReference: 6000 } }).car.tyres.front.loadReference).toBe(
      6000,
    );
    const { tyres } = completeCar({ ...light, tyres: { radius: 0.29, size: '5.20-13' } }).car;
    expect(tyres.front.loadReference).toBeCloseTo(referenceLoad(undefined, 0.29), 9);
  });
});
