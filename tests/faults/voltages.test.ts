/** Packs, inverters and chargers of voltages that do not fit, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (series: number, unit: string, more = ''): string =>
  [
    '```yaml car one',
    'mass: 900 kg',
    'tyres: { size: 165/80 R 13 }',
    `drive: { axle: rear, ratio: 8, unit: ${unit} }`,
    `pack: { cell: cell_nmc_60ah, series: ${series}, parallel: 2 }`,
    more,
    '```',
    '',
  ].join('\n');

const charge = '```yaml charge night\ncar: one\nsupply: { current: 32 A }\n```\n';
const dash = '```yaml launch dash\ncar: one\nto: 50 km/h\n```\n';
const run = (text: string): ReturnType<typeof command> => command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);

describe('a pack whose voltage does not fit', () => {
  it('is an error with the field and the cure: 36 cells on a unit of 330 V', () => {
    const { code, out, err } = run(car(36, 'unit_100kw') + dash);
    const told = (out + err).replaceAll(/\s+/gu, ' ');
    expect(code).not.toBe(0);
    expect(told).toContain('one.drive.unit.least_voltage: is 200 V, and 36 cells in series have 114 V to 151 V');
    expect(told).toContain('it never works; expected 64 cells in series or more');
  });

  it('is charged with the current of its charger, and not with whatever the power gives', () => {
    const unit = '{ peak_torque: 120 N m, peak_power: 40 kW }';
    const called = run(car(36, unit) + charge);
    // 6.6 kW into 150 V would be 40 A and more.
    expect(called.values('night')['peak_charge_current']).toBeLessThan(20);
    expect(called.values('night')['peak_charge_current']).toBeGreaterThan(17);
    const strong = run(car(36, unit, 'charger: { max_current: 60 A }') + charge);
    expect(strong.values('night')['peak_charge_current']).toBeGreaterThan(38);
    expect(strong.values('night')['time']).toBeLessThan(0.6 * called.values('night')['time']!);
  });
});
