import { describe, expect, it } from 'vitest';
import { cabinLoad } from '../../../src/model/cabin/cabin.ts';
import type { Cabin } from '../../../src/model/car.ts';

const cabin: Cabin = {
  heater: 'resistive',
  cooled: true,
  temperature: 293.15,
  loss: 60,
  heatCapacity: 120_000,
  heaterPower: 5000,
  heatPumpFactor: 2.5,
  heatPumpSlope: 0.05,
  coolerFactor: 2,
  sun: 300,
};

const FROST = 263.15;
const HEAT = 308.15;

describe('the load of the cabin', () => {
  it('is in the end what walls and fresh air lose, less what sun and people give', () => {
    const { steady } = cabinLoad(cabin, FROST, FROST);
    expect(steady).toBeCloseTo(60 * 30 - 300, 9);
  });

  it('begins with all of the heater and brings just the heat that warms the lump to the temperature wished for', () => {
    const { steady, extra, time } = cabinLoad(cabin, FROST, FROST);
    expect(steady + extra).toBeCloseTo(cabin.heaterPower, 9);
    // The integral of extra exp(-t / time) over all times.
    expect(extra * time).toBeCloseTo(cabin.heatCapacity * 30, 6);
  });

  it('has nothing to warm up in a cabin that is warm already, nor in one without a capacity', () => {
    expect(cabinLoad(cabin, FROST, cabin.temperature)).toMatchObject({ steady: 1500, extra: 0 });
    expect(cabinLoad({ ...cabin, heatCapacity: 0 }, FROST, FROST)).toMatchObject({ steady: 1500, extra: 0 });
  });

  it('takes the power over the factor of a heat pump, which falls with the cold and never below one', () => {
    const pump: Cabin = { ...cabin, heater: 'heat pump' };
    expect(cabinLoad(pump, 280.15, 280.15).steady).toBeCloseTo((60 * 13 - 300) / 2.5, 9);
    expect(cabinLoad(pump, 270.15, 270.15).steady).toBeCloseTo((60 * 23 - 300) / 2, 9);
    expect(cabinLoad(pump, 233.15, 233.15).steady).toBeCloseTo(60 * 60 - 300, 9);
  });

  it('never takes more than the heater has', () => {
    expect(cabinLoad({ ...cabin, heaterPower: 1000 }, FROST, FROST)).toMatchObject({ steady: 1000, extra: 0 });
  });

  it('cools in the heat, where there is a cooler', () => {
    const { steady, extra, time } = cabinLoad(cabin, HEAT, HEAT);
    expect(steady).toBeCloseTo((60 * 15 + 300) / 2, 9);
    expect(steady + extra).toBeCloseTo(5000 / 2, 9);
    expect(extra * time * 2).toBeCloseTo(cabin.heatCapacity * 15, 6);
    expect(cabinLoad({ ...cabin, cooled: false }, HEAT, HEAT)).toMatchObject({ steady: 0, extra: 0 });
  });

  it('takes nothing without a heater, nor where sun and people warm enough', () => {
    expect(cabinLoad({ ...cabin, heater: 'none' }, FROST, FROST)).toMatchObject({ steady: 0, extra: 0 });
    expect(cabinLoad({ ...cabin, cooled: false }, 289.15, 289.15)).toMatchObject({ steady: 0, extra: 0 });
  });
});
