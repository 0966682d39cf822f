import { describe, expect, it } from 'vitest';
import { airDensity, densityAt, standardAtmosphere } from '../../src/model/air.ts';

describe('standardAtmosphere', () => {
  // ISO 2533:1975, tables 1 and 2, geopotential altitude, six digits (the same as the U.S. Standard Atmosphere 1976 below 32 km).
  it.each([
    [0, 288.15, 101_325, 1.225],
    [1000, 281.65, 89_874.6, 1.11164],
    [2000, 275.15, 79_495.2, 1.00649],
    [3000, 268.65, 70_108.5, 0.909122],
    // From memory: the tropopause and the highest level taken here.
    [11_000, 216.65, 22_632.1, 0.363918],
    [20_000, 216.65, 5_474.88, 0.0880349],
  ])('gives the tabulated values at %i m', (altitude, temperature, pressure, density) => {
    const air = standardAtmosphere(altitude);
    expect(air.temperature).toBeCloseTo(temperature, 10);
    expect(Math.abs(air.pressure / pressure - 1)).toBeLessThan(5e-6);
    expect(Math.abs(air.density / density - 1)).toBeLessThan(5e-6);
  });

  it('is continuous at the tropopause', () => {
    const below = standardAtmosphere(11_000 - 1e-6);
    const above = standardAtmosphere(11_000 + 1e-6);
    expect(above.pressure / below.pressure).toBeCloseTo(1, 8);
  });

  it('has an answer at its lowest and highest level', () => {
    expect(standardAtmosphere(-2000).temperature).toBeCloseTo(288.15 + 13, 10);
    expect(standardAtmosphere(20_000).temperature).toBeCloseTo(216.65, 10);
  });

  it.each([-2001, 20_001, Number.NaN, Infinity])('has no answer at %d m', altitude => {
    expect(() => standardAtmosphere(altitude)).toThrow(RangeError);
  });
});

describe('airDensity', () => {
  it('agrees with the worked example of a mass-metrology handbook: 10 degC, 730 mmHg, 40 %', () => {
    expect(airDensity(283.15, (730 * 101_325) / 760, 0.4)).toBeCloseTo(1.19569, 5);
  });

  it('is lighter when moist and when warm, heavier under pressure', () => {
    const air = airDensity(293.15, 100_000, 0.5);
    expect(airDensity(293.15, 100_000, 0.6)).toBeLessThan(air);
    expect(airDensity(294.15, 100_000, 0.5)).toBeLessThan(air);
    expect(airDensity(293.15, 100_100, 0.5)).toBeGreaterThan(air);
  });

  it('comes within 0.1 % of a mixture of ideal gases', () => {
    // Partial pressures with the vapour pressure of water at 20 degC, 2339 Pa (IAPWS table value).
    const vapour = 0.5 * 2339;
    const ideal = ((101_325 - vapour) * 0.0289655 + vapour * 0.0180153) / (8.314463 * 293.15);
    expect(Math.abs(airDensity(293.15, 101_325, 0.5) / ideal - 1)).toBeLessThan(1e-3);
  });

  it.each([
    [200, 1e5, 0],
    [350, 1e5, 0],
    [293, 200_000, 0],
    [293, 1e5, 1],
    [293, 1e5, 0],
  ])('answers at the ends of what it takes: %d K, %d Pa, humidity %d', (temperature, pressure, humidity) => {
    // Dry or moist, it is within some percent of an ideal gas of its own molar mass (0.0289655 kg/mol, CIPM-2007).
    const ideal = (pressure * 0.0289655) / (8.314472 * temperature);
    expect(Math.abs(airDensity(temperature, pressure, humidity) / ideal - 1)).toBeLessThan(0.02);
  });

  it.each([
    [150, 1e5, 0],
    [199.99, 1e5, 0],
    [350.01, 1e5, 0],
    [293, 200_001, 0],
    [293, 0, 0],
    [293, 1e5, 1.01],
    [293, 1e5, -0.1],
    [Number.NaN, 1e5, 0],
    [293, Number.NaN, 0],
    [293, 1e5, Number.NaN],
  ])('refuses %d K, %d Pa, humidity %d', (temperature, pressure, humidity) => {
    expect(() => airDensity(temperature, pressure, humidity)).toThrow(RangeError);
  });
});

describe('densityAt', () => {
  it('takes the pressure of the altitude and the temperature of the day', () => {
    const air = densityAt({ temperature: 298.15, altitude: 1000, humidity: 0.3 });
    expect(air).toBe(airDensity(298.15, standardAtmosphere(1000).pressure, 0.3));
  });

  it('is the standard density in dry standard air up to the non-ideal gas', () => {
    const air = densityAt({ temperature: 288.15, altitude: 0, humidity: 0 });
    expect(Math.abs(air / 1.225 - 1)).toBeLessThan(5e-4);
  });
});
