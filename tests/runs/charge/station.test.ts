/** A pack on a station of direct current: closed forms, its limits, and what it is not. */
import { describe, expect, it } from 'vitest';
import { charge } from '../../../src/runs/charge/charge.ts';
import type { Car, Pack } from '../../../src/model/car.ts';
import { idealCar, testCar } from '../../cars.ts';

const station = { power: 50_000, current: 125, least: 150, greatest: 500 };
const at = (change: Partial<typeof station> = {}) => ({
  from: 0.2,
  to: 0.8,
  supply: { voltage: 0, current: 0, phases: 1, station: { ...station, ...change } },
  temperature: 293.15,
});
const withPack = (pack: Partial<Pack>, car: Car): Car => ({ ...car, pack: { ...car.pack, ...pack } });

/** 399 V to 401 V in a straight line and no resistance: 399 + 2 s. */
const ideal = ((): Car => {
  const car = idealCar({ mass: 1, force: 1, power: 1 });
  const cell = { ...car.pack.cell, capacity: 3600 * 60, maxVoltage: 500 };
  return withPack(
    { cell, maxVoltage: 500, maxChargeCurrent: 1000 },
    { ...car, charger: { ...car.charger, overhead: 200 } },
  );
})();

describe('a charge at a station', () => {
  it('takes energy over power, past the charger on board', () => {
    const result = charge(ideal, at({ current: 200 }));
    const energy = 60 * 3600 * (399 * 0.6 + 0.8 ** 2 - 0.2 ** 2);
    expect((result.summary['time'] as number) / (energy / (50_000 - 200))).toBeCloseTo(1, 9);
    expect(result.summary['paced_by']).toBe('station');
    expect(result.summary['phases']).toBe(0);
    expect(result.summary['peak_phase_current']).toBeNull();
    expect(result.reasons['peak_phase_current']).toBe('a station gives direct current');
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-9);
    expect(result.opinion?.agrees).toBe(true);
    // What goes past the chargers on board is no duty of theirs.
    expect(result.trail?.track('wall').to.every(watts => watts === 0)).toBe(true);
  });

  it('takes the charge over the current of the station, what is drawn beside it taken off', () => {
    const result = charge(ideal, at({ current: 60 }));
    expect(result.summary['paced_by']).toBe('station current');
    // dQ/dt = 60 - 200 / (399 + 2 s): with u = 399 + 2 s, dt = Q/2 u / (60 u - 200) du.
    const [a, b] = [399.4, 400.6];
    const whole = ((60 * 3600) / 2) * ((b - a) / 60 + (200 / 3600) * Math.log((60 * b - 200) / (60 * a - 200)));
    expect((result.summary['time'] as number) / whole).toBeCloseTo(1, 9);
  });

  it('is held back by the pack itself, and tapers at its highest voltage', () => {
    const held = charge(withPack({ maxChargeCurrent: 40 }, testCar), at());
    expect(held.summary['paced_by']).toBe('pack current');
    expect(held.summary['peak_charge_current']).toBeCloseTo(40, 6);
    const full = charge(withPack({ maxChargeCurrent: 90 }, testCar), { ...at(), to: 1 });
    expect(full.summary['taper_time']).not.toBeNull();
  });

  it('does not begin where the station works at higher voltages only', () => {
    const result = charge(testCar, at({ least: 450, greatest: 920 }));
    expect(result.reasons['time']).toContain('the station charges from 450 V on');
    expect(result.reasons['time']).toContain('a station for that voltage');
  });
});
