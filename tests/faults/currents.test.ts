/** Currents that last for seconds, and a week with plugs, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (more: string): string =>
  [
    '```yaml car one',
    'mass: 1000 kg',
    'tyres: { size: 165/80 R 13 }',
    'drive: { axle: rear, ratio: 8, unit: unit_100kw }',
    `pack: { cell: cell_nmc_21700, series: 96, parallel: 5${more} }`,
    '```',
    '',
  ].join('\n');
const hill = '```yaml drive hill\ncar: one\ntrip:\n  - { speed: 80 km/h, distance: 12 km, slope: 9 % }\n```\n';
const run = (text: string): ReturnType<typeof command> => command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);

describe('a small pack on a long hill', () => {
  it('gives its pulse for as long as it lasts, and then climbs with what it gives for ever', () => {
    const [short, ever] = [', continuous_current: 50 A', ', continuous_current: 125 A'].map(more =>
      run(car(`${more}, cooling: 400 W/K`) + hill).values('hill'),
    );
    // While it speeds up on the slope it asks for more than its pulse.
    expect(ever!['limited_time']).toBeLessThan(20);
    expect(short!['limited_time']).toBeGreaterThan(300);
    expect(short!['mean_speed']).toBeLessThan(0.9 * ever!['mean_speed']!);
    expect(short!['charge_end']).toBeGreaterThan(ever!['charge_end']!);
  });
});

describe('a week in one cell', () => {
  it('is charged at its stops, and each stop tells the energy at the wall', () => {
    const week = [
      '```yaml drive week',
      'car: one',
      'trip:',
      '  - { schedule: wltc, times: 1 }',
      '  - { plug: { hours: 8 h, current: 10 A } }',
      '  - { schedule: wltc, times: 1 }',
      '  - { plug: { to: 90 %, current: 16 A } }',
      '```',
      '',
    ].join('\n');
    const called = run(car('') + week);
    expect(called.values('week')['energy_plugged']).toBeGreaterThan(3.6e6);
    expect(called.read('out/a.html')).toMatch(/kWh from the wall/u);
    // What it takes for granted of the outlets stands among the inputs.
    expect(called.read('out/a.html')).toContain('IEC 60038');
    const wrong = run(car('') + week.replace('current: 10 A }', 'current: 10 A }, load: 10 kg'));
    expect((wrong.out + wrong.err).replaceAll(/\s+/gu, ' ')).toContain('stands beside plug');
  });
});
