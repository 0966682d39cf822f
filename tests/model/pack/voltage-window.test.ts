import { describe, expect, it } from 'vitest';
import { completeCar } from '../../../src/model/complete.ts';
import { misfitsOf, openVoltage } from '../../../src/model/pack/voltage-window.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import { charge } from '../../../src/runs/charge/charge.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { numbers } from '../../../src/runs/series.ts';
import { testCar, testDay } from '../../cars.ts';
import type { Car } from '../../../src/model/car.ts';

const { pack } = testCar;
const full = pack.maxVoltage;

describe('a pack against a window of voltages', () => {
  it('fits one that takes all of its charge', () => {
    expect(misfitsOf(pack, { least: openVoltage(pack, pack.window.low), greatest: full })).toEqual([]);
  });

  it('is refused by one that it passes, or never comes up to, and told where it works over a part of the charge', () => {
    expect(misfitsOf(pack, { least: 0, greatest: full - 1 })).toMatchObject([{ side: 'greatest', fatal: true }]);
    expect(misfitsOf(pack, { least: full, greatest: 900 })).toMatchObject([{ side: 'least', fatal: true }]);
    const [part] = misfitsOf(pack, { least: openVoltage(pack, 0.42), greatest: 900 });
    expect(part).toMatchObject({ side: 'least', fatal: false });
    expect(part?.words).toContain('from 42 % of charge down');
  });
});

const spec = (series: number, more: object = {}, ofPack: object = {}): Parameters<typeof completeCar>[0] => ({
  mass: 1100,
  tyres: { radius: 0.3 },
  drive: { axle: 'rear', ratio: 8, unit: { ...shippedPart('unit', 'unit_100kw')!.values, ...more } },
  pack: { cell: shippedPart('cell', 'cell_nmc_60ah')!.values, series, parallel: 1, ...ofPack },
});

describe('a car', () => {
  it('is refused with a pack that its inverter does not run on, or does not bear', () => {
    expect(() => completeCar(spec(36))).toThrow(/36 cells in series have .* it never works/u);
    expect(() => completeCar(spec(120))).toThrow(/have 504 V when they are full/u);
    expect(() => completeCar(spec(96, {}, { contactorVoltage: 400 }))).toThrow(/is 400 V.*403 V/u);
    expect(completeCar(spec(96)).notes).toEqual([]);
  });

  it('is questioned and not refused where the window is only assumed', () => {
    const assumed = { leastVoltage: undefined, greatestVoltage: undefined };
    expect(completeCar(spec(36, assumed)).notes).toMatchObject([/never works.*it is assumed: give it/u]);
    expect(completeCar(spec(120, assumed)).notes).toMatchObject([/greatest voltage is 446 V/u]);
  });

  it('gives what holds its sagging pack at the least voltage of the inverter, and nothing below', () => {
    const with_ = (least: number, charge: number): Car => ({
      ...testCar,
      pack: { ...pack, charge },
      drives: testCar.drives.map(drive => ({ ...drive, unit: { ...drive.unit, voltage: { least, greatest: 900 } } })),
    });
    const sags = launch(with_(310, 0.4), { surroundings: testDay });
    const least = Math.min(...numbers(sags.series['time']!, 'pack_voltage_V'));
    expect(least).toBeCloseTo(310, 6);
    expect(sags.bands.map(({ limiter }) => limiter)).toContain('pack voltage');
    const free = launch(with_(0, 0.4), { surroundings: testDay });
    expect(Number(sags.summary['time'])).toBeGreaterThan(Number(free.summary['time']) + 0.2);
    const stands = launch(with_(openVoltage(pack, 0.45), 0.4), { surroundings: testDay });
    expect(stands.reasons['time']).toMatch(/^the pack gives nothing: drive unit and consumers take/u);
  });
});

describe('a charger', () => {
  const supply = { voltage: 230, current: 32, phases: 1 };
  const options = { from: 0.2, to: 0.8, supply, temperature: 298.15 };
  const charging = (charger: Partial<Car['charger']>): ReturnType<typeof charge> =>
    charge({ ...testCar, charger: { ...testCar.charger, ...charger } }, options);

  it('gives its greatest current, less what is drawn beside the pack', () => {
    const { series, summary, ledger, opinion } = charging({ maxCurrent: 10 });
    const [V, I] = ['pack_voltage_V', 'charge_current_A'].map(key => numbers(series['time']!, key));
    I!.forEach((current, i) => expect(current + 150 / V![i]!).toBeCloseTo(10, 9));
    expect(summary['paced_by']).toBe('charger current');
    expect(Math.abs(ledger.gap)).toBeLessThan(1e-9);
    expect(opinion?.agrees).toBe(true);
  });

  it('charges within its voltages: not below them, and no further than they go', () => {
    expect(charging({ voltage: { least: 360, greatest: 450 } }).reasons['time']).toMatch(/charges from 360 V on/u);
    const low = charging({ voltage: { least: 0, greatest: 380 } });
    expect(Number(low.summary['peak_pack_voltage'])).toBeCloseTo(380, 6);
    expect(low.summary['paced_by']).toBe('charger');
  });

  it('of 6.6 kW gives 20 A where nothing else is known, and a low pack gets less than its power', () => {
    const { charger } = completeCar(spec(96)).car;
    expect(charger.maxCurrent).toBeCloseTo((6600 * 0.9) / 300, 9);
  });
});
