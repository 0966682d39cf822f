/** What no car can be, at its very edge: refused on it or beyond it, accepted next to it. */
import { describe, expect, it } from 'vitest';
import { completeCar } from '../../src/model/described.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import type { CarSpec } from '../../src/model/specs/car.ts';

const RPM = Math.PI / 30;
const unit = { peakTorque: 250, peakPower: 90_000, maxSpeed: 9000 * RPM };
const cell = shippedPart('cell', 'cell_nmc_60ah')!.values;
const base: CarSpec = {
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit, ratio: 8.6 },
  pack: { cell, series: 96, parallel: 2 },
};

type Change = { readonly [path: string]: unknown };

/** The car with values put in at their paths. */
function changed(change: Change): CarSpec {
  const spec = structuredClone(base) as unknown as Record<string, unknown>;
  for (const [path, value] of Object.entries(change)) {
    const keys = path.split('.');
    let here = spec;
    for (const key of keys.slice(0, -1)) here = (here[key] ??= {}) as Record<string, unknown>;
    here[keys.at(-1) ?? ''] = value;
  }
  return spec as unknown as CarSpec;
}

const GEARS = [3.5, 2.1, 1.4];
const TABLE = {
  'drive.unit.peakTorque': undefined,
  'drive.unit.peakPower': undefined,
  'drive.unit.maxSpeed': undefined,
};

const EDGES: readonly (readonly [words: string, refused: Change, accepted: Change])[] = [
  ['has 7 gears', { 'drive.gearbox.gears': [7, 6, 5, 4, 3, 2, 1] }, { 'drive.gearbox.gears': [7, 6, 5, 4, 3, 2] }],
  ['has 0 gears', { 'drive.gearbox.gears': [] }, { 'drive.gearbox.gears': [2] }],
  ['does not fall from gear to gear', { 'drive.gearbox.gears': [3.5, 3.5] }, { 'drive.gearbox.gears': [3.5, 3.49] }],
  [
    'gear: 4 is none of the 3 gears',
    { 'drive.gearbox': { gears: GEARS, shift: 'none', gear: 4 } },
    { 'drive.gearbox': { gears: GEARS, shift: 'none', gear: 3 } },
  ],
  [
    'is above the greatest motor speed',
    { 'drive.gearbox': { gears: GEARS, shift: 'speed', shiftSpeed: 9001 * RPM } },
    { 'drive.gearbox': { gears: GEARS, shift: 'speed', shiftSpeed: 9000 * RPM } },
  ],
  [
    'taperSpeed: is not below the greatest speed',
    { 'drive.unit.taperSpeed': 9000 * RPM },
    { 'drive.unit.taperSpeed': 8999 * RPM },
  ],
  [
    'is below two thirds of the greatest speed',
    { 'drive.unit.taperSpeed': 5999 * RPM },
    { 'drive.unit.taperSpeed': 6001 * RPM },
  ],
  [
    'continuousPower: is not below the peak power',
    { 'drive.unit.continuousPower': 90_000 },
    { 'drive.unit.continuousPower': 45_000 },
  ],
  [
    'continuousTorque: is not below the peak torque',
    { 'drive.unit.continuousPower': 45_000, 'drive.unit.continuousTorque': 250 },
    { 'drive.unit.continuousPower': 45_000, 'drive.unit.continuousTorque': 100 },
  ],
  [
    'continuousTorque: is said twice',
    {
      'drive.unit.continuousPower': 45_000,
      'drive.unit.continuousTorque': 100,
      'drive.unit.continuousSpeed': 5000 * RPM,
    },
    { 'drive.unit.continuousTorque': 85, 'drive.unit.continuousSpeed': 5000 * RPM },
  ],
  [
    'continuousTorque: says nothing of heat without a power or a speed',
    { 'drive.unit.continuousTorque': 100 },
    { 'drive.unit.continuousTorque': 85, 'drive.unit.continuousSpeed': 5000 * RPM },
  ],
  [
    'continuousSpeed: is above the greatest motor speed',
    { 'drive.unit.continuousPower': 45_000, 'drive.unit.continuousSpeed': 9001 * RPM },
    { 'drive.unit.continuousPower': 45_000, 'drive.unit.continuousSpeed': 5000 * RPM },
  ],
  [
    'derateTemperature: is not above the cold temperature',
    {
      'drive.unit.continuousPower': 45_000,
      'drive.unit.coldTemperature': 333.15,
      'drive.unit.derateTemperature': 333.15,
    },
    {
      'drive.unit.continuousPower': 45_000,
      'drive.unit.coldTemperature': 333.15,
      'drive.unit.derateTemperature': 334.15,
    },
  ],
  [
    'fadeTo: is not below fade_from',
    { 'drive.regeneration': { fadeFrom: 3, fadeTo: 3 } },
    { 'drive.regeneration': { fadeFrom: 3, fadeTo: 2.9 } },
  ],
  [
    'leastVoltage: is not below greatest_voltage',
    { 'drive.unit.leastVoltage': 420, 'drive.unit.greatestVoltage': 420 },
    { 'drive.unit.leastVoltage': 200, 'drive.unit.greatestVoltage': 420 },
  ],
  [
    'does not rise from 0 step by step',
    { ...TABLE, 'drive.unit.tableSpeed': [0, 400, 400], 'drive.unit.tableTorque': [200, 200, 100] },
    { ...TABLE, 'drive.unit.tableSpeed': [0, 400, 800], 'drive.unit.tableTorque': [200, 200, 100] },
  ],
  [
    'has a torque that is not above 0 before its end',
    { ...TABLE, 'drive.unit.tableSpeed': [0, 400, 800], 'drive.unit.tableTorque': [200, 0, 100] },
    { ...TABLE, 'drive.unit.tableSpeed': [0, 400, 800], 'drive.unit.tableTorque': [200, 100, 0] },
  ],
  [
    'hitchLoad: is as much as the whole trailer weighs',
    { trailer: { mass: 500, hitchLoad: 500 } },
    { trailer: { mass: 500, hitchLoad: 40 } },
  ],
  [
    'drySlide: is not below the peak',
    { 'tyres.dryPeak': 0.9, 'tyres.drySlide': 0.9 },
    { 'tyres.dryPeak': 0.9, 'tyres.drySlide': 0.89 },
  ],
  [
    'wetSlide: is not below the peak',
    { 'tyres.wetPeak': 0.7, 'tyres.wetSlide': 0.7 },
    { 'tyres.wetPeak': 0.7, 'tyres.wetSlide': 0.69 },
  ],
  ['stands without its peak', { 'tyres.drySlide': 0.7 }, { 'tyres.drySlide': 0.7, 'tyres.dryPeak': 0.9 }],
  [
    'secondDrive: drives the rear axle again',
    { secondDrive: { axle: 'rear', unit, ratio: 8 } },
    { secondDrive: { axle: 'front', unit, ratio: 8 } },
  ],
  [
    'secondDrive: has a gearbox, and so has the other drive',
    { 'drive.gearbox.gears': GEARS, secondDrive: { axle: 'front', unit, ratio: 8, gearbox: { gears: GEARS } } },
    { 'drive.gearbox.gears': GEARS, secondDrive: { axle: 'front', unit, ratio: 8 } },
  ],
  [
    'pack.minVoltage: is not below the full pack',
    { 'pack.minVoltage': 96 * cell.maxVoltage },
    { 'pack.minVoltage': 300 },
  ],
  [
    'chargeNoneBelow: is not below charge_full_above',
    { 'pack.chargeNoneBelow': 283.15, 'pack.chargeFullAbove': 283.15 },
    { 'pack.chargeNoneBelow': 273.15, 'pack.chargeFullAbove': 283.15 },
  ],
  [
    'windowLow: is not below window_high',
    { 'pack.windowLow': 0.5, 'pack.windowHigh': 0.5 },
    { 'pack.windowLow': 0.1, 'pack.windowHigh': 0.9 },
  ],
  [
    'dischargeNoneBelow: is not below discharge_full_above',
    { 'pack.dischargeNoneBelow': 263.15, 'pack.dischargeFullAbove': 263.15 },
    { 'pack.dischargeNoneBelow': 243.15, 'pack.dischargeFullAbove': 263.15 },
  ],
  [
    'heaterUntil: stands there without a heater',
    { 'pack.heaterUntil': 283.15 },
    { 'pack.heaterUntil': 283.15, 'pack.heaterPower': 1000 },
  ],
  [
    'heaterUntil: is not above charge_none_below',
    { 'pack.heaterUntil': 268.15, 'pack.heaterPower': 1000, 'pack.chargeNoneBelow': 268.15 },
    { 'pack.heaterUntil': 278.15, 'pack.heaterPower': 1000, 'pack.chargeNoneBelow': 268.15 },
  ],
  [
    'continuousCurrent: is above max_current',
    { 'pack.maxCurrent': 300, 'pack.continuousCurrent': 301 },
    { 'pack.maxCurrent': 300, 'pack.continuousCurrent': 300 },
  ],
  [
    'moduleHealth: stands beside health',
    { 'pack.health': 0.9, 'pack.moduleHealth': [0.9] },
    { 'pack.moduleHealth': [0.9] },
  ],
  ['moduleHealth: has no module', { 'pack.moduleHealth': [] }, { 'pack.moduleHealth': [0.8, 0.9] }],
  ['moduleHealth: has 1.2 at [1]', { 'pack.moduleHealth': [0.9, 1.2] }, { 'pack.moduleHealth': [0.9, 1.1] }],
  ['series: 96.5 is not a whole number', { 'pack.series': 96.5 }, { 'pack.series': 97 }],
  ['ocvCharge: does not run from 0 to 1', { 'pack.cell.ocvCharge': cell.ocvCharge.map(s => 0.99 * s) }, {}],
  ['ocvVoltage: does not rise with the charge', { 'pack.cell.ocvVoltage': cell.ocvVoltage.map(() => 3.7) }, {}],
  [
    'minVoltage: is not below max_voltage',
    { 'pack.cell.minVoltage': cell.maxVoltage },
    { 'pack.cell.minVoltage': 2.8 },
  ],
  [
    'charger.leastVoltage: is not below greatest_voltage',
    { charger: { leastVoltage: 400, greatestVoltage: 400 } },
    { charger: { leastVoltage: 200, greatestVoltage: 420 } },
  ],
  ['count: 1.5 is not a whole number', { charger: { count: 1.5 } }, { charger: { count: 2 } }],
];

describe('a car that can not be', () => {
  it.each(EDGES)('is refused: %s', (words, refused, accepted) => {
    expect(() => completeCar(changed(refused))).toThrow(words);
    expect(completeCar(changed(accepted)).car.drives.length).toBeGreaterThan(0);
  });
});

describe('what a car is said to be', () => {
  const gearbox = (more: object) =>
    completeCar(changed({ 'drive.gearbox': { gears: GEARS, ...more } })).car.drives[0]!.gearbox!;

  it('changes gears at the speed that is said, and holds the last to the greatest speed', () => {
    const { gears, best } = gearbox({ shift: 'speed', shiftSpeed: 8000 * RPM });
    expect(best).toBeUndefined();
    expect(gears.map(({ ratio }) => ratio)).toEqual(GEARS);
    expect(gears.map(({ upshift }) => upshift)).toEqual([8000 * RPM, 8000 * RPM, 9000 * RPM]);
    // 0.95 of the greatest speed where none is said.
    expect(gearbox({ shift: 'speed' }).gears[0]!.upshift).toBeCloseTo(0.95 * 9000 * RPM, 9);
  });

  it('stays in its gear', () => {
    const { gears, best } = gearbox({ shift: 'none', gear: 2 });
    expect(gears.map(({ ratio, upshift }) => [ratio, upshift])).toEqual([[2.1, Infinity]]);
    expect(best).toBeUndefined();
    expect(gearbox({}).best).toBe(true);
  });

  it('has the pack that its cells make', () => {
    const { pack } = completeCar(changed({ 'pack.health': 0.8 })).car;
    expect(pack.minVoltage).toBeCloseTo(96 * cell.minVoltage, 9);
    expect(pack.maxVoltage).toBeCloseTo(96 * cell.maxVoltage, 9);
    expect(pack.maxCurrent).toBeCloseTo(2 * cell.maxCurrent, 9);
    // 1 and twice what health lacks.
    expect(pack.resistanceGrowth).toBeCloseTo(1.4, 12);
    expect(pack.wiringResistance).toBeCloseTo(6 / pack.maxCurrent, 12);
    expect(completeCar(changed({ 'pack.moduleHealth': [0.9, 0.7, 0.8] })).car.pack.health).toBe(0.7);
  });

  it('carries the spreads of what is derived', () => {
    const { inputs } = completeCar(changed({ 'pack.health': 0.8, 'drive.unit.continuousPower': 45_000 }));
    const spread = (path: string): unknown => inputs.find(input => input.path.endsWith(path))?.spread;
    const close = (value: number): unknown => expect.closeTo(value, 9);
    expect(spread('pack.resistance_growth')).toEqual({ kind: 'rectangular', low: close(1), high: close(1.8) });
    const most = completeCar(base).car.pack.maxCurrent;
    expect(spread('pack.wiring_resistance')).toEqual({
      kind: 'rectangular',
      low: close(3 / most),
      high: close(12 / most),
    });
    const speed = spread('unit.continuous_speed') as { readonly low: number; readonly high: number };
    // From where peak torque and peak power meet.
    expect(speed.low).toBeCloseTo(90_000 / 250, 6);
    expect(speed.high).toBeGreaterThan(speed.low);
    expect(speed.high).toBeLessThanOrEqual(9000 * RPM);
    // Where all of the span is one speed there is none.
    const slow = completeCar(changed({ 'drive.unit.continuousPower': 45_000, 'drive.unit.maxSpeed': 340 }));
    expect(slow.inputs.find(input => input.path.endsWith('unit.continuous_speed'))?.spread).toBeUndefined();
  });

  it('has no spread of the resistance where it is new', () => {
    const { inputs } = completeCar(base);
    expect(inputs.find(input => input.path.endsWith('pack.resistance_growth'))?.spread).toBeUndefined();
  });
});
