/** Stations of direct current in a notebook, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const car = [
  '```yaml car one',
  'mass: 1100 kg',
  'tyres: { size: 165/80 R 13 }',
  'drive: { axle: rear, ratio: 8, unit: unit_100kw }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
  'charger: { power: 3.3 kW }',
  '```',
  '',
].join('\n');
const cell = (kind: string, name: string, ...lines: string[]): string =>
  [`\`\`\`yaml ${kind} ${name}`, 'car: one', ...lines, '```', ''].join('\n');

it('charges at a station faster than at a socket, in a cell and at a stop on the way, and tells what is wrong with it', () => {
  const text =
    car +
    cell('charge', 'fast', 'from: 20 %', 'to: 80 %', 'supply: { dc_power: 50 kW, dc_current: 125 A }') +
    cell('charge', 'slow', 'from: 20 %', 'to: 80 %', 'supply: { current: 16 A }') +
    cell(
      'drive',
      'far',
      'trip:',
      '  - { schedule: hwfet, times: 4 }',
      '  - { plug: { dc_power: 50 kW, to: 90 % } }',
      '  - { schedule: hwfet }',
    ) +
    '```yaml duty parts\nof: [fast]\ncharger: { current: 10 A }\n```\n\n' +
    cell('charge', 'both', 'supply: { dc_power: 50 kW, phases: 3 }') +
    cell('charge', 'lone', 'supply: { dc_current: 50 A }');
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  const [fast, slow] = [called.values('fast'), called.values('slow')];
  expect(fast['time']).toBeLessThan(0.2 * (slow['time'] ?? 0));
  expect(fast['peak_charge_current']).toBeGreaterThan(60);
  expect(called.values('far')['energy_plugged']).toBeGreaterThan(3.6e6);
  // What goes past the chargers on board is no line of theirs.
  expect(called.values('parts')['charger_current']).toBeUndefined();
  expect(called.read('out/a.html')).toContain('of direct current at most');
  const told = (called.out + called.err).replaceAll(/\s+/gu, ' ');
  expect(told).toContain(
    'both.supply.phases: stands beside dc_power, which is a station of direct current; expected no phases',
  );
  expect(told).toContain('lone.supply.dc_current: stands there without a station; expected dc_power: beside it');
  expect(called.code).toBe(1);
});
