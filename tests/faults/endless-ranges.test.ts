/** Ranges that nobody drives, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

it('of a car that would be driven for years are a reason within seconds, and one of days is an answer', () => {
  // Fifteen megawatt hours behind a motor that turns the wheels at walking pace, and seventy kilowatt hours.
  const car = (name: string, unit: string, pack: string): string =>
    [
      `\`\`\`yaml car ${name}`,
      'mass: 1200 kg',
      'tyres: { size: 185/60 R 14 }',
      `drive: { axle: rear, ratio: ${name === 'crawler' ? 40 : 8}, unit: ${unit} }`,
      `pack: { cell: cell_nmc_60ah, series: 100, parallel: ${pack} }`,
      '```',
      `\`\`\`yaml range of_${name}\ncar: ${name}\nspeed: 80 km/h\ndistance: 20 km\n\`\`\``,
      '',
    ].join('\n');
  const crawler = car('crawler', '{ peak_torque: 100 N m, peak_power: 10 kW, max_speed: 1400 rpm }', '700');
  const called = command(
    { 'a.md': crawler + car('usual', 'unit_60kw', '3') },
    ['run', 'a.md', '--samples', '0'],
    // It took minutes.
    30,
  );
  expect(called.code).toBe(0);
  expect((called.out + called.err).replaceAll(/\s+/gu, ' ')).toMatch(/would be driven for some \d+ hours/u);
  expect(called.values('of_crawler')['range']).toBeNull();
  expect(called.values('of_usual')['range']).toBeGreaterThan(3e5);
});
