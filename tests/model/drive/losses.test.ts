import { describe, expect, it } from 'vitest';
import type { DriveUnit } from '../../../src/model/car.ts';
import { completeCar } from '../../../src/model/complete.ts';
import { withoutContained } from '../../../src/model/drive/contained-losses.ts';
import { efficiencyOf } from '../../../src/model/drive/fit-losses.ts';
import { lossSpreads, scaledLosses } from '../../../src/model/drive/losses.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import type { CarSpec } from '../../../src/model/spec.ts';

describe.each([60e3, 150e3, 400e3])('usual losses of a motor of %d W', peakPower => {
  const corner = 440;
  const [T, w] = [peakPower / corner, 3.6 * corner];
  const { copperLoss, ironLoss, windageLoss, fixedLoss } = scaledLosses(peakPower, T, w);
  const losses = { copper: copperLoss, iron: ironLoss, windage: windageLoss, fixed: fixedLoss };

  // Ranges of published maps of permanent-magnet traction motors, with the inverter at 0.97; from memory.
  it.each([
    ['peak torque at the corner speed', 1, corner, 0.9, 0.93],
    ['peak torque at a fifth of it', 1, corner / 5, 0.7, 0.8],
    ['a tenth of the torque at half the greatest speed', 0.1, w / 2, 0.9, 0.94],
    ['a twentieth of it', 0.05, w / 2, 0.86, 0.92],
    ['a quarter of it', 0.25, w / 2, 0.92, 0.955],
  ])('are those of a published map at %s', (_, share, speed, low, high) => {
    const efficiency = 0.97 * efficiencyOf(losses, share * T, speed);
    expect(efficiency).toBeGreaterThan(low);
    expect(efficiency).toBeLessThan(high);
  });

  it('are within their spreads', () => {
    const spreads = lossSpreads({ copperLoss, ironLoss, windageLoss, fixedLoss });
    for (const [key, value] of Object.entries({ copperLoss, ironLoss, windageLoss, fixedLoss })) {
      const spread = spreads[key as keyof typeof spreads];
      if (spread.kind !== 'rectangular') throw new Error('a rectangle');
      expect(spread.low).toBeLessThan(value);
      expect(spread.high).toBeGreaterThan(value);
    }
  });
});

describe('a unit that is held below the speed that its kind reaches', () => {
  it('loses at any motor speed what it lost before', () => {
    const lossesOf = (more: object): DriveUnit['losses'] | undefined =>
      completeCar({
        mass: 1200,
        tyres: { radius: 0.3 },
        drive: { axle: 'rear', ratio: 9, unit: { peakTorque: 250, peakPower: 100e3, ...more } },
        pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 1 },
      }).car.drives[0]?.unit.losses;
    expect(lossesOf({ maxSpeed: 700 })).toEqual(lossesOf({}));
    expect(lossesOf({ maxSpeed: 700 })?.iron).toBeGreaterThan(0);
  });
});

describe('a measured road load', () => {
  const spec: CarSpec = {
    mass: 1200,
    tyres: { radius: 0.3 },
    drive: { axle: 'rear', ratio: 9, unit: { peakTorque: 250, peakPower: 100e3 } },
    pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 1 },
  };
  const roadLoad = { f0: 120, f1: 1, f2: 0.4 };
  const gears = { gears: [3, 2, 1], shift: 'best' } as const;
  const losses = (more: Partial<CarSpec>): { drag: number; iron: number; windage: number; copper: number } => {
    const [drive] = completeCar({ ...spec, ...more }).car.drives;
    return { ...drive!.unit.losses, drag: drive!.dragTorque };
  };
  const usual = losses({});

  it('contains what turned along, and nothing else', () => {
    expect(losses({ roadLoad })).toEqual({ ...usual, drag: 0, iron: 0, windage: 0 });
    expect(usual.drag * usual.iron * usual.windage).toBeGreaterThan(0);
  });

  it('contains nothing of the drive where that was out of gear', () => {
    expect(losses({ roadLoad: { ...roadLoad, coupled: 'no' } })).toEqual(usual);
    const geared = { ...spec.drive, gearbox: gears };
    expect(losses({ roadLoad, drive: geared })).toEqual(usual);
    expect(losses({ roadLoad: { ...roadLoad, coupled: 'yes' }, drive: geared }).windage).toBe(0);
  });

  it('contains a share of the iron loss where it is said', () => {
    expect(losses({ roadLoad: { ...roadLoad, contained: 0.6 } }).iron).toBeCloseTo(0.4 * usual.iron, 12);
  });

  it('says of the gearbox why it counts all', () => {
    const { inputs } = completeCar({ ...spec, roadLoad, drive: { ...spec.drive, gearbox: gears } });
    const coupled = inputs.find(({ path }) => path === 'road_load.coupled');
    expect(coupled).toMatchObject({ value: 'no', origin: { source: expect.stringContaining('gearbox') } });
    expect(inputs.some(({ path }) => path === 'road_load.contained')).toBe(false);
  });

  it('takes from a map its loss without torque, but for the one at standstill', () => {
    const map = {
      includes: 'motor and inverter',
      speed: [0, 100, 200],
      torque: [0, 50, 100],
      loss: [80, 200, 500, 180, 320, 640, 380, 530, 900],
      reach: [100, 100, 100],
    } as const;
    const all = { copper: 0, iron: 0, windage: 0, fixed: 0, map };
    const { losses: left, notes } = withoutContained(all, 1);
    expect(left.map?.loss).toEqual([80, 200, 500, 80, 220, 540, 80, 230, 600]);
    expect(notes).toEqual([expect.stringContaining('300 W at most')]);
    expect(withoutContained(all, 0.5).losses.map?.loss).toEqual([80, 200, 500, 130, 270, 590, 230, 380, 750]);
  });

  it('says where a map loses less with torque than without', () => {
    const map = {
      includes: 'motor',
      speed: [0, 100],
      torque: [0, 50, 100],
      loss: [10, 60, 90, 300, 250, 400],
      reach: [100, 100],
    } as const;
    const { losses: left, notes } = withoutContained({ copper: 0, iron: 0, windage: 0, fixed: 0, map }, 1);
    expect(left.map?.loss).toEqual([10, 60, 90, 10, 0, 110]);
    expect(notes[1]).toContain('1 points of the map');
  });
});
