/** Packs that are heated at the plug, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (name: string, more: string): string =>
  [
    `\`\`\`yaml car ${name}`,
    'mass: 1100 kg',
    'tyres: { size: 165/80 R 13 }',
    'drive: { axle: rear, ratio: 8, unit: unit_100kw }',
    `pack: { cell: cell_nmc_60ah, series: 96, parallel: 2${more} }`,
    '```',
    '',
    `\`\`\`yaml charge night_${name}`,
    `car: ${name}`,
    'temperature: -12 degC',
    'supply: { current: 16 A }',
    '```',
    '',
  ].join('\n');

it('charges in the frost only with a heater, and tells what is wrong with one', () => {
  const text =
    car('bare', '') +
    car('warm', ', heater_power: 1500 W') +
    car('lone', ', heater_until: 15 degC') +
    car('late', ', heater_power: 1500 W, heater_until: -10 degC, charge_none_below: -5 degC') +
    '```yaml drive far\ncar: warm\ntemperature: -12 degC\ntrip:\n  - { schedule: udds }\n  - { plug: { hours: 6 h, current: 16 A } }\n  - { schedule: udds }\n```\n' +
    '```yaml check\n- night_warm.energy_wall > night_warm.energy_pack\n```\n';
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  expect(called.values('night_bare')['time']).toBeNull();
  expect(called.values('night_warm')['time']).toBeGreaterThan(3600);
  expect(called.values('far')['energy_plugged']).toBeGreaterThan(3.6e6);
  const told = (called.out + called.err).replaceAll(/\s+/gu, ' ');
  expect(told).toContain('lone.pack.heater_until: stands there without a heater; expected heater_power: beside it');
  expect(told).toContain('late.pack.heater_until: is not above charge_none_below');
  expect(called.code).toBe(1);
});
