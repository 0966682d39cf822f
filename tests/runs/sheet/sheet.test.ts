import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { STANDARD_GRAVITY as g } from '../../../src/model/gravity.ts';
import { launch } from '../../../src/runs/launch/launch.ts';
import { sheet } from '../../../src/runs/sheet/sheet.ts';
import { SHEET_TESTS, sheetOutputs } from '../../../src/runs/sheet/outputs.ts';
import type { SheetSummary } from '../../../src/runs/summaries/sheet.ts';
import { idealCar, testCar, testDay } from '../../cars.ts';
import { roadWithDensity } from '../../published/ideal.ts';

const heat = { capacity: 30_000, cooling: 60, derateAt: 380, derateRange: 20, continuousShare: 0.4 };
const warm: Car = {
  ...testCar,
  drives: testCar.drives.map(drive => ({ ...drive, unit: { ...drive.unit, heat } })),
  pack: { ...testCar.pack, parallel: 60 },
};
const found = sheet(warm, { surroundings: testDay, grossMass: 1600, grossFrontShare: 0.5 });
const number = (key: keyof SheetSummary): number => found.summary[key] as number;

describe('the sheet', () => {
  it('gives every output that it describes, a reason for every null, and a line for every test', () => {
    expect(Object.keys(found.summary)).toEqual(Object.keys(sheetOutputs));
    for (const [key, value] of Object.entries(found.summary))
      if (value === null) expect(found.reasons[key]).toBeTruthy();
    for (const { key, limiter } of SHEET_TESTS) {
      expect(Object.keys(sheetOutputs)).toContain(key);
      expect(Object.keys(sheetOutputs)).toContain(limiter);
    }
    const columns = Object.values(found.series['tests']!);
    expect(new Set(columns.map(({ values }) => values.length))).toEqual(new Set([SHEET_TESTS.length]));
    expect(found.opinion?.agrees).toBe(true);
  });

  it('has the times and the maximum speed of the launch', () => {
    const run = launch(warm, { surroundings: testDay }).summary;
    expect(number('top_speed')).toBe(run['top_speed']);
    expect(number('time_to_50_km_h') / Number(run.time_to_50_km_h)).toBeCloseTo(1, 8);
    expect(number('time_to_100_km_h') / Number(run.time_to_100_km_h)).toBeCloseTo(1, 8);
    // Held back by torque and power alone, the rested pack makes no difference; but the pedal goes down at 50 km/h, and of the time in
    // which the torque builds up at most half is lost.
    const later = number('time_50_to_80_km_h') - run['time_50_to_80_km_h']!;
    expect(later).toBeGreaterThan(0.01);
    expect(later).toBeLessThan(warm.drives[0]!.unit.torqueRise / 2);
    const atOnce = { ...warm, drives: warm.drives.map(each => ({ ...each, unit: { ...each.unit, torqueRise: 0 } })) };
    const passing = launch(atOnce, { surroundings: testDay }).summary['time_50_to_80_km_h'] as number;
    const pressed = sheet(atOnce, { surroundings: testDay }).summary['time_50_to_80_km_h'] as number;
    expect(pressed / passing).toBeCloseTo(1, 8);
  });

  it('is slower and starts less steeply the steeper and the heavier', () => {
    expect(number('top_speed')).toBeGreaterThan(number('speed_4_percent'));
    expect(number('speed_4_percent')).toBeGreaterThan(number('speed_12_percent'));
    expect(number('speed_12_percent')).toBeGreaterThan(number('speed_12_percent_gross'));
    expect(number('start_slope')).toBeGreaterThan(number('start_slope_gross'));
    expect(number('hold_slope')).toBeGreaterThan(number('start_slope'));
    expect(number('thirty_minute_speed')).toBeLessThanOrEqual(number('top_speed'));
  });

  it('climbs as the power allows: P = v (m g (sin + c cos) + k v^2)', () => {
    const [P, m, c, k] = [60_000, 1200, 0.01, 0.4];
    const car = idealCar({ mass: m, force: 1e5, power: P, rolling: c, drag: 2 * k });
    const { summary } = sheet(car, { surroundings: roadWithDensity(1) });
    for (const [key, slope] of [
      ['top_speed', 0],
      ['speed_4_percent', 0.04],
      ['speed_12_percent', 0.12],
    ] as const) {
      const v = summary[key] as number;
      const angle = Math.atan(slope);
      expect((v * (m * g * (Math.sin(angle) + c * Math.cos(angle)) + k * v * v)) / P).toBeCloseTo(1, 9);
      expect(summary[`${key}_limiter`]).toBe('motor power');
    }
  });

  it('does not look at the slope of the surroundings', () => {
    const { summary } = sheet(warm, {
      surroundings: { ...testDay, slope: 0.1 },
      grossMass: 1600,
      grossFrontShare: 0.5,
    });
    expect(summary).toEqual(found.summary);
  });

  it('says what is not modelled in place of a wrong number', () => {
    const { summary, reasons, warnings } = sheet(testCar, { surroundings: testDay });
    expect(summary['thirty_minute_speed']).toBeNull();
    expect(reasons['thirty_minute_speed']).toContain('continuous_power');
    expect(warnings).toEqual([
      'There is no 30-minute speed: the heat of the drive unit is not modelled: continuous_power is not given',
    ]);
    expect(summary['start_slope_gross']).toBeNull();
    expect(reasons['start_slope_gross']).toBe('no gross mass is given');
  });

  it('mentions the pack without heat, free wheels, and a front share that was not given', () => {
    const spin: Car = {
      ...warm,
      drives: warm.drives.map(drive => ({ ...drive, traction: { policy: 'spin', share: 1 } })),
    };
    const { warnings } = sheet(spin, { surroundings: testDay, grossMass: 1600 });
    expect(warnings.map(text => text.split(' ').slice(0, 4).join(' '))).toEqual([
      'The heat of the',
      'Slopes are worked out',
      'At gross mass the',
    ]);
  });

  it('has reasons for a car that does not move off', () => {
    const weak = idealCar({ mass: 1000, force: 50, power: 1e9, rolling: 0.02 });
    const { summary, reasons } = sheet(weak, { surroundings: testDay });
    for (const key of [
      'top_speed',
      'thirty_minute_speed',
      'time_to_50_km_h',
      'speed_4_percent',
      'start_slope',
    ] as const) {
      expect(summary[key], key).toBeNull();
      expect(reasons[key], key).toBeTruthy();
    }
  });
});
