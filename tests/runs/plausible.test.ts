import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carFields } from '../../src/model/spec.ts';
import { surroundingsFields } from '../../src/model/surroundings-fields.ts';
import { isPlausible, whyImplausible } from '../../src/runs/plausible.ts';
import { chargeOutputs } from '../../src/runs/charge/outputs.ts';
import { launchOutputs } from '../../src/runs/launch/outputs.ts';
import { repeatOutputs } from '../../src/runs/launch/repeat-outputs.ts';
import type { Output, Result } from '../../src/runs/result.ts';
import { sheetOutputs } from '../../src/runs/sheet/outputs.ts';
import { sound } from '../../src/runs/sound.ts';
import { standardOutputs } from '../../src/runs/standard/outputs.ts';
import { driveOutputs } from '../../src/runs/trip/drive-outputs.ts';
import { rangeOutputs } from '../../src/runs/trip/range-outputs.ts';
import { steadyOutputs } from '../../src/runs/trip/steady-outputs.ts';
import { weighOutputs } from '../../src/runs/weigh/outputs.ts';

const ALL: { readonly [kind: string]: { readonly [key: string]: Output } } = {
  launch: launchOutputs,
  repeat: repeatOutputs,
  sheet: sheetOutputs,
  drive: driveOutputs,
  range: rangeOutputs,
  steady: steadyOutputs,
  standard: standardOutputs,
  charge: chargeOutputs,
  weigh: weighOutputs,
};

const numbers = Object.entries(ALL).flatMap(([kind, outputs]) =>
  Object.entries(outputs).flatMap(([key, output]) => (output.unit === '' ? [] : [[kind, key, output] as const])),
);

function result(kind: string, key: string, value: number, more: Partial<Result> = {}): Result {
  return {
    kind,
    summary: { [key]: value },
    reasons: {},
    outputs: { [key]: ALL[kind]![key]! },
    series: {},
    bands: [],
    events: [],
    ledger: { in: { cells: 10 }, out: { drag: 10 }, stored: {}, gap: 0 },
    warnings: [],
    opinion: null,
    ...more,
  };
}

describe('the bounds of figures', () => {
  it.each(numbers)('of %s.%s let no number pass that nobody can have', (kind, key, output) => {
    for (const value of [1e65, -1e65, 1e308, -1e308, Infinity, -Infinity, NaN, 5e20]) {
      expect(whyImplausible(kind, key, output, value)).toMatch(/no answer here|gives no number here/);
    }
  });

  it.each([
    ['launch', 'time', -1],
    ['launch', 'top_speed', 151],
    ['launch', 'pack_temperature', 149],
    ['launch', 'peak_acceleration', 99],
    ['charge', 'efficiency', 1.001],
    ['drive', 'charge_end', -0.01],
    ['drive', 'consumption', -8e64],
    ['range', 'range', 1.1e9],
  ])('refuse %s.%s of %d', (kind, key, value) => {
    expect(whyImplausible(kind, key, ALL[kind]![key]!, value)).not.toBeNull();
  });

  it.each([
    ['launch', 'control_worth', -0.02],
    ['drive', 'consumption', -700],
    ['drive', 'energy', -3e6],
    ['drive', 'charge_end', 1 + 1e-12],
    ['weigh', 'front_margin', -120],
    ['charge', 'range_per_hour', 900],
    ['sheet', 'start_slope', 1.2],
    ['launch', 'time', 0],
  ])('let %s.%s of %d pass', (kind, key, value) => {
    expect(whyImplausible(kind, key, ALL[kind]![key]!, value)).toBeNull();
  });

  it('hold all that the field tables let anybody write', () => {
    const { temperature } = surroundingsFields;
    for (const value of [temperature.min, temperature.max]) expect(isPlausible('K', value)).toBe(true);
    for (const { unit, max } of [carFields.mass, carFields.load, carFields.wheelbase]) {
      expect(isPlausible(unit, max)).toBe(true);
    }
    const { peakTorque, peakPower, maxSpeed, referenceVoltage } = carFields.drive.fields.unit.fields;
    for (const { unit, max } of [peakTorque, peakPower, maxSpeed, referenceVoltage]) {
      expect(isPlausible(unit, max)).toBe(true);
    }
  });
});

describe('a result that leaves', () => {
  it('has null and a reason for a number that nobody can have, and says so', () => {
    const { summary, reasons, warnings } = sound(result('drive', 'consumption', -8e64));
    expect(summary['consumption']).toBeNull();
    expect(reasons['consumption']).toMatch(/280 kWh\/km, which no car can have/);
    expect(warnings).toEqual([expect.stringMatching(/consumption at the pack/)]);
  });

  it('keeps the reason that the run has for what is no number', () => {
    const of = result('steady', 'consumption_wall', NaN, { reasons: { consumption_wall: 'there is no charger' } });
    expect(sound(of).reasons).toEqual({ consumption_wall: 'there is no charger' });
  });

  it('has reasons for what is missing, and only for that', () => {
    const of = result('steady', 'range', 5e4, { summary: { range: 5e4, farthest: null }, reasons: { range: 'none' } });
    expect(Object.keys(sound(of).reasons)).toEqual(['farthest']);
  });

  it('has holes in its series for infinities and for what nobody can have', () => {
    const column = (unit: string, values: readonly number[]) => ({
      label: '',
      unit,
      display: { metric: unit, imperial: unit },
      values: Float64Array.from(values),
    });
    const speed = { speed_m_s: column('m/s', [1, 2]), consumption_J_m: column('J/m', [600, 1e65]) };
    const gears = { force_N: column('N', [Infinity, NaN, -5]) };
    const whole = sound(result('drive', 'distance', 1, { series: { speed, gears } }));
    expect([...whole.series['speed']!['consumption_J_m']!.values]).toEqual([600, NaN]);
    expect([...whole.series['gears']!['force_N']!.values]).toEqual([NaN, NaN, -5]);
    expect(whole.series['speed']!['speed_m_s']).toBe(speed.speed_m_s);
  });

  it('does not show a ledger of numbers that are none as one that closes', () => {
    const ledger = { in: { cells: NaN }, out: {}, stored: {}, gap: NaN };
    const whole = sound(result('drive', 'distance', 1, { ledger }));
    expect(whole.warnings).toEqual([expect.stringMatching(/ledger does not close/)]);
    expect(whole.ledger.in).toEqual({});
  });

  it('is the same when it leaves a second time', () => {
    fc.assert(
      fc.property(fc.constantFrom(...numbers), fc.double(), ([kind, key], value) => {
        const once = sound(result(kind, key, value));
        expect(sound(once)).toEqual(once);
        expect(Object.values(once.summary).every(x => x === null || Number.isFinite(x))).toBe(true);
      }),
    );
  });
});
