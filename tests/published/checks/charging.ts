import type { Result } from '../../../src/runs/result.ts';
import type { Car } from '../../../src/model/car.ts';
import { pilotCurrent } from '../../../src/model/pack/supply.ts';
import { charge } from '../../../src/runs/charge/charge.ts';
import { CLOSED_FORM, EXACT } from '../check.ts';
import type { Check, Topic } from '../check.ts';
import { idealCar } from '../ideal.ts';

/** Neither the wall nor the charger limits. */
const strong = { voltage: 1000, current: 1000, phases: 1 };
const lossless = { power: 1e6, count: 1, efficiency: 1, idleShare: 0, usualPower: 1e6, overhead: 0 };

function summary(car: Car, from: number, to: number): (key: string) => number {
  const result: Result = charge(car, { from, to, supply: strong, temperature: 293.15 });
  return key => {
    const value = result.summary[key];
    if (typeof value !== 'number') throw new Error(`${key}: ${result.reasons[key]}`);
    return value;
  };
}

/** One cell of 100 Ah with 3.4 V + 0.75 V of its charge behind 1.5 mohm, at 50 A up to 4.15 V; C/20 is 5 A. */
function linear(): (key: string) => number {
  const { pack, ...car } = idealCar({ mass: 1000 });
  const cell = {
    ...pack.cell,
    capacity: 360_000,
    ocv: { charge: [0, 1], voltage: [3.4, 4.15] },
    resistance: { charge: [0, 1], ohm: [1.5e-3, 1.5e-3] },
  };
  const limits = { maxVoltage: 4.15, maxChargeCurrent: 50 };
  return summary({ ...car, pack: { ...pack, ...limits, cell, health: 1 }, charger: lossless }, 0.1, 1);
}

/** 40 kW into 350 V behind 0.12 ohm. */
function constantPower(): (key: string) => number {
  const car = idealCar({ mass: 1000, emf: 350, resistance: 0.12 });
  const pack = { ...car.pack, maxVoltage: 1000, maxChargeCurrent: 1e9 };
  return summary({ ...car, pack, charger: { ...lossless, power: 40_000 } }, 0.2, 0.21);
}

const closed = (id: string, what: string, expected: number, unit: string, computed: () => number): Check => ({
  id: `charging.${id}`,
  what,
  source: CLOSED_FORM,
  expected,
  computed,
  unit,
  tolerance: EXACT,
});

const pilot = (percent: number, expected: number): Check => ({
  id: `charging.pilot.${percent}`,
  what: `current that a control pilot of ${percent} % allows`,
  source: 'IEC 61851-1 Annex A, SAE J1772 (from memory)',
  expected,
  computed: () => pilotCurrent(percent / 100) ?? Number.NaN,
  unit: 'A',
  tolerance: EXACT,
});

export const charging: Topic = {
  title: 'Charging',
  checks: [
    closed('linear.taper', 'constant current up to the highest voltage, linear open-circuit voltage', 5760, 's', () =>
      linear()('taper_time'),
    ),
    closed(
      'linear.constant-voltage',
      'from there to a tenth of the current: R Q / (dOCV/ds) ln 10',
      1657.86126696,
      's',
      () => linear()('end_time') - linear()('taper_time'),
    ),
    closed('linear.whole', 'both together', 7417.86126696, 's', () => linear()('end_time')),
    closed('linear.end', 'state of charge then', 0.99, '1', () => linear()('charge_end')),
    closed('power.current', 'charging with 40 kW', 110.127518727, 'A', () => constantPower()('peak_charge_current')),
    closed('power.voltage', 'terminal voltage there', 363.215302247, 'V', () => constantPower()('peak_pack_voltage')),
    pilot(9, 6),
    pilot(10, 6),
    pilot(50, 30),
    pilot(85, 51),
    pilot(90, 65),
    pilot(96, 80),
  ],
};
