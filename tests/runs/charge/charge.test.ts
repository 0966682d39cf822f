import type { ChargeSummary } from '../../../src/runs/summaries/charge.ts';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car, Pack } from '../../../src/model/car.ts';
import { charge } from '../../../src/runs/charge/charge.ts';
import { wallEnergy } from '../../../src/runs/schedule/wall-energy.ts';
import { chargeOutputs } from '../../../src/runs/charge/outputs.ts';
import type { ChargeOptions } from '../../../src/runs/charge/run.ts';
import { arbitraryBuild, idealCar, testCar } from '../../cars.ts';

const box = { voltage: 230, current: 16, phases: 1 };
const options: ChargeOptions = { from: 0.2, to: 0.9, supply: box, temperature: 293.15 };
const found = charge(testCar, options);
const number = (key: keyof ChargeSummary, result = found): number => result.summary[key] as number;
const trace = (key: string, result = found): Float64Array => result.series['time']![key]!.values as Float64Array;
const steps = (key: string, result = found): Float64Array => result.series['steps']![key]!.values as Float64Array;
const withPack = (pack: Partial<Pack>, car = testCar): Car => ({ ...car, pack: { ...car.pack, ...pack } });
const withCharger = (charger: Partial<Car['charger']>, car = testCar): Car => ({
  ...car,
  charger: { ...car.charger, ...charger },
});
const heat = { capacity: 80_000, cooling: 30, derateAt: 318, derateRange: 10, resistanceActivation: 2400 };

describe('a charge', () => {
  it('gives every output that it describes, and a reason for every null', () => {
    expect(Object.keys(found.summary)).toEqual(Object.keys(chargeOutputs));
    for (const [key, value] of Object.entries(found.summary))
      if (value === null) expect(found.reasons[key]).toBeTruthy();
    expect(found.opinion).toMatchObject({ agrees: true });
    expect(found.opinion!.difference).toBeLessThan(1e-7);
    expect(found.warnings).toEqual(['The heat of the pack is not modelled: no cooling is given']);
  });

  it('takes what the supply gives, less what the charger and the overhead use', () => {
    expect(number('peak_power')).toBeCloseTo(3680, 6);
    expect(number('peak_phase_current')).toBeCloseTo(16, 9);
    expect(number('mean_power')).toBeCloseTo(3680, 6);
    expect(found.summary['paced_by']).toBe('supply');
    const time = number('time');
    expect(number('energy_wall')).toBeCloseTo(3680 * time, 0);
    expect(number('energy_pack') / ((3680 * 0.9 - 150) * time)).toBeCloseTo(1, 9);
    expect(number('energy_stored')).toBeLessThan(number('energy_pack'));
    expect(number('efficiency')).toBeCloseTo(number('energy_stored') / number('energy_wall'), 12);
  });

  it('stores the area under the open-circuit voltage', () => {
    // The trapezoid over the trace; the pack holds 60 Ah in 96 cells.
    const [s, V, I] = [trace('charge_1'), trace('pack_voltage_V'), trace('charge_current_A')];
    let area = 0;
    for (let i = 1; i < s.length; i++) {
      const open = (k: number): number => V[k]! - I[k]! * (0.02 + (0.021 + 0.012) * 8);
      area += 0.5 * (open(i) + open(i - 1)) * (s[i]! - s[i - 1]!) * 60 * 3600;
    }
    expect(number('energy_stored') / area).toBeCloseTo(1, 3);
  });

  it('tells how long each step takes, the last one ending with the time asked for', () => {
    expect([...steps('charge_1')]).toEqual([0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9]);
    expect(steps('time_s').at(-1)).toBe(number('time'));
    const half = charge(testCar, { ...options, from: 0.5, to: 0.8 });
    // The pairs are at rest at the start of that one and not here: seconds, not more.
    expect(Math.abs(number('time', half) - (steps('time_s')[6]! - steps('time_s')[3]!))).toBeLessThan(5);
  });

  it('takes energy over power with no resistance in the way', () => {
    const car = withCharger({ power: 5000, efficiency: 0.9, overhead: 100 }, idealCar({ mass: 1, force: 1, power: 1 }));
    const small = withPack({ cell: { ...car.pack.cell, capacity: 3600 * 60, maxVoltage: 500 }, maxVoltage: 500 }, car);
    const result = charge(small, { ...options, supply: { voltage: 230, current: 100, phases: 1 } });
    // Open-circuit voltage 399 V to 401 V in a straight line: 399 + 2 s.
    const energy = 60 * 3600 * (399 * 0.7 + 0.9 ** 2 - 0.2 ** 2);
    expect(number('energy_stored', result) / energy).toBeCloseTo(1, 9);
    expect(number('time', result) / (energy / (5000 * 0.9 - 100))).toBeCloseTo(1, 9);
    expect(result.summary['paced_by']).toBe('charger');
  });

  it('loses more of little power in the charger, and some charge in the cells: closed form', () => {
    const charger = { power: 5000, efficiency: 0.9, idleShare: 0.15, overhead: 100 };
    const car = withCharger(charger, idealCar({ mass: 1, force: 1, power: 1 }));
    const cell = { ...car.pack.cell, capacity: 3600 * 60, maxVoltage: 500, coulombicEfficiency: 0.99 };
    const small = withPack({ cell, maxVoltage: 500 }, car);
    const result = charge(small, { ...options, supply: { voltage: 230, current: 10, phases: 1 } });
    const energy = 60 * 3600 * (399 * 0.7 + 0.9 ** 2 - 0.2 ** 2);
    expect(number('energy_stored', result) / energy).toBeCloseTo(1, 9);
    // Of 500 W lost at 5000 W 75 W are there at any power, the rest in proportion.
    const fed = 2300 - 75 - 425 * (2300 / 5000);
    expect(number('time', result) / (energy / 0.99 / (fed - 100))).toBeCloseTo(1, 9);
    expect(number('energy_wall', result) / (2300 * number('time', result))).toBeCloseTo(1, 9);
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-9);
  });

  it('takes more from a socket than from a wall box for the same drive', () => {
    const box = wallEnergy(withCharger({ idleShare: 0.15 }), 0.3, 0.8) ?? Number.NaN;
    const socket = wallEnergy(withCharger({ idleShare: 0.15, usualPower: 2300 }), 0.3, 0.8) ?? Number.NaN;
    expect(socket / box).toBeGreaterThan(1.05);
    expect(socket / box).toBeLessThan(1.1);
  });

  it('ends at once at the highest voltage where there is no resistance', () => {
    const result = charge(idealCar({ mass: 1, force: 1, power: 1 }), {
      ...options,
      to: 1,
      supply: { ...box, current: 400 },
    });
    expect(result.reasons['time'] ?? '').toMatch(/ten days/);
    const car = withPack(
      { maxVoltage: 400, cell: { ...idealCar({ mass: 1, force: 1, power: 1 }).pack.cell, capacity: 3.6e5 } },
      idealCar({ mass: 1, force: 1, power: 1 }),
    );
    const stopped = charge(car, options);
    expect(number('charge_end', stopped)).toBeCloseTo(0.5, 9);
    expect(stopped.reasons['time']).toContain('with 50 % the current has fallen to C/20');
  });

  it('tapers at the highest voltage, and ends at C/20', () => {
    const strong = { voltage: 230, current: 63, phases: 3 };
    const car = withCharger({ power: 12_000, count: 3 }, withPack({ maxVoltage: 400, window: { low: 0.05, high: 1 } }));
    const result = charge(car, { ...options, to: 1, supply: strong });
    const [V, I, wall] = [
      trace('pack_voltage_V', result),
      trace('charge_current_A', result),
      trace('wall_power_W', result),
    ];
    expect(result.summary['time']).toBeNull();
    expect(result.reasons['time']).toMatch(/allows no 100 %: with 9\d\.?\d? % the current has fallen to C\/20/);
    expect(Math.max(...V)).toBeCloseTo(400, 9);
    expect(I.at(-1)).toBeCloseTo(3, 6);
    expect(wall.at(-1)!).toBeLessThan(wall[0]! / 10);
    expect(number('taper_time', result)).toBeLessThan(number('end_time', result));
    expect(result.events.map(({ what }) => what)).toEqual([
      'plugged in, paced by charger',
      'taper begins',
      expect.stringContaining('ends: the highest voltage'),
    ]);
    expect(result.opinion).toMatchObject({ agrees: true });
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-8);
  });

  it('keeps to the current limit of the pack, in the cold to a part of it', () => {
    const car = withPack({ maxChargeCurrent: 8 });
    const cold = charge(car, { ...options, temperature: 278.15 });
    expect(number('peak_charge_current', charge(car, options))).toBeCloseTo(8, 9);
    expect(number('peak_charge_current', cold)).toBeCloseTo(4, 9);
    expect(cold.summary['paced_by']).toBe('cold');
    expect(number('time', cold)).toBeCloseTo((0.7 * 60 * 3600) / 4, 3);
  });

  it('warms a cold pack by its own losses until it takes all', () => {
    const car = withPack({ heat: { ...heat, cooling: 1 }, resistanceGrowth: 2 });
    const strong = withCharger({ power: 22_000 }, car);
    const result = charge(strong, {
      ...options,
      supply: { ...box, current: 120 },
      to: 0.6,
      temperature: 283,
      packTemperature: 272,
    });
    expect(result.events.map(({ what }) => what).slice(0, 2)).toEqual([
      'plugged in, paced by cold',
      'paced by charger',
    ]);
    expect(number('pack_temperature', result)).toBeGreaterThan(285);
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-8);
    expect(result.opinion).toMatchObject({ agrees: true });
  });

  it('is held back by a warm pack', () => {
    const car = withPack({ heat: { ...heat, cooling: 2 }, resistanceGrowth: 3 });
    const result = charge(withCharger({ power: 44_000 }, car), {
      ...options,
      supply: { ...box, current: 200 },
      temperature: 312,
    });
    expect(result.events.map(({ what }) => what)).toContain('paced by heat');
    expect(number('pack_temperature', result)).toBeLessThan(328);
  });

  it('gives up when a pack that is hardly warm enough cools out', () => {
    const result = charge(withPack({ heat: { ...heat, cooling: 100 } }), {
      ...options,
      temperature: 255,
      packTemperature: 273,
    });
    expect(result.reasons['time']).toMatch(/the pack has become too cold to go on/);
    expect(result.events[0]!.what).toBe('plugged in, paced by supply');
  });

  it('tells range and cost when it is told consumption and price', () => {
    const wall = charge(testCar, { ...options, consumption: { energy: 720, at: 'wall' }, price: 0.3 / 3.6e6 });
    expect(number('range_gained', wall)).toBeCloseTo(number('energy_wall') / 720, 6);
    expect(number('range_per_hour', wall)).toBeCloseTo(3680 / 720, 9);
    expect(number('cost', wall)).toBeCloseTo((0.3 * number('energy_wall')) / 3.6e6, 9);
    const pack = charge(testCar, { ...options, consumption: { energy: 720, at: 'pack' } });
    expect(number('range_gained', pack)).toBeCloseTo(number('energy_stored') / 720, 6);
  });

  it('takes the window of the pack where nothing is said', () => {
    const result = charge(testCar, { supply: box, temperature: 293.15 });
    expect(result.summary).toMatchObject({ from: 0.05, to: 0.95 });
    const above = charge(testCar, { ...options, to: 0.97 });
    expect(above.warnings[0]).toContain('97 % is above the 95 %');
  });

  it.each([
    [
      testCar,
      { supply: { voltage: 120, current: 1, phases: 1 } },
      'the supply gives no more than charging itself uses',
    ],
    [withCharger({ power: 160 }), {}, 'the charger gives no more than charging itself uses'],
    [testCar, { temperature: 260 }, 'the pack is too cold'],
    [withPack({ heat }), { packTemperature: 330 }, 'the pack is too warm'],
    [withPack({ maxChargeCurrent: 0 }), {}, 'the pack takes no charge'],
    [withPack({ maxVoltage: 380 }), { from: 0.8 }, 'the pack is full with 80 %'],
  ])('answers with a reason where it can not begin', (car, change, reason) => {
    const result = charge(car, { ...options, ...change });
    expect(result.reasons['time']).toContain(reason);
    expect(result.summary['energy_wall']).toBeNull();
  });

  it.each([
    [0.5, 0.5, 'a charge must rise'],
    [-0.1, 0.5, 'from is -0.1; expected 0 to 1'],
    [0.5, 1.1, 'to is 1.1; expected 0 to 1'],
    [Number.NaN, 0.5, 'from is NaN; expected 0 to 1'],
  ])('refuses to charge from %d to %d', (from, to, words) => {
    expect(() => charge(testCar, { ...options, from, to })).toThrow(words);
  });

  it('warns that a single-phase charger leaves phases idle', () => {
    const three = { ...box, phases: 3 };
    expect(charge(withCharger({ power: 11_000 }), { ...options, supply: three }).warnings[0]).toContain(
      '1 of 3 phases',
    );
    const split = charge(withCharger({ power: 3680, count: 3 }), { ...options, supply: three });
    expect(number('peak_power', split)).toBeCloseTo(11_040, 6);
    expect(split.warnings).toHaveLength(1);
  });

  it('is charged overnight however quick the pairs of its cells are, and checked as far as the other method comes', () => {
    const cell = { ...testCar.pack.cell, pairs: [{ resistance: 0.012, timeConstant: 0.1 }] };
    const slow = charge(withPack({ cell, heat }), { ...options, supply: { voltage: 230, current: 3, phases: 1 } });
    expect(slow.ended).toBeUndefined();
    expect(slow.summary.charge_end).toBeCloseTo(0.9, 12);
    expect(Math.abs(slow.ledger.gap)).toBeLessThan(1e-8);
    expect(slow.opinion).toMatchObject({ agrees: true });
    expect(slow.opinion!.until).toBeLessThan(0.5 * number('time', slow));
    expect(found.opinion!.until).toBeUndefined();
  });

  it('closes its ledger and agrees with the other method, for all kinds of packs and supplies', () => {
    const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
    let whole = 0;
    const paces = new Set<unknown>();
    fc.assert(
      fc.property(
        arbitraryBuild,
        fc.record({
          from: between(0, 0.8),
          rise: between(0.02, 0.2),
          current: between(8, 125),
          phases: fc.integer({ min: 1, max: 3 }),
          temperature: between(255, 315),
          warmer: between(0, 15),
          power: between(1500, 25_000),
          count: fc.integer({ min: 1, max: 4 }),
          highest: between(0.94, 1.02),
        }),
        (car, { from, rise, current, phases, temperature, warmer, power, count, highest }) => {
          const pack = { ...car.pack, maxVoltage: highest * car.pack.maxVoltage };
          const result = charge(
            { ...car, pack, charger: { ...car.charger, power, count } },
            {
              from,
              to: from + rise,
              supply: { voltage: 230, current, phases },
              temperature,
              packTemperature: temperature + warmer,
            },
          );
          if (result.opinion === null) return;
          whole++;
          paces.add(result.summary['paced_by']);
          expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-6);
          expect(result.opinion.difference, JSON.stringify(result.opinion)).toBeLessThan(1e-6);
          const limits = [pack.maxChargeCurrent, pack.maxVoltage].map(limit => limit * (1 + 1e-9));
          expect(number('peak_charge_current', result)).toBeLessThanOrEqual(limits[0]!);
          expect(number('peak_pack_voltage', result)).toBeLessThanOrEqual(limits[1]!);
          expect(number('peak_phase_current', result)).toBeLessThanOrEqual(current * (1 + 1e-9));
        },
      ),
      { numRuns: 60 },
    );
    expect(whole).toBeGreaterThan(25);
    expect(paces.size).toBeGreaterThan(2);
  });
});
