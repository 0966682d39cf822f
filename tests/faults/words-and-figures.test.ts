/** What the words of an answer claim, held against runs of the same page. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const van = fence(
  'car van',
  'mass: 1180 kg',
  'front_share: 47 %',
  'wheelbase: 2.4 m',
  'cg_height: 0.62 m',
  'drag_area: 1.2 m^2',
  'tyres: { from: tyre_narrow, size: 165/80 R 14 }',
  'drive: { axle: both, unit: unit_150kw, ratio: 9 }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
);

const wet = (name: string, car: string): string => fence(`launch ${name}`, `car: ${car}`, 'surface: wet');

describe('the power from which on nothing is gained', () => {
  const unit = (power: string): string => `unit: { from: unit_60kw, peak_power: ${power} }, ratio: 9`;
  const two = (name: string, first: string, second: string): string =>
    fence(
      `car ${name}`,
      'from: van',
      `drive: { axle: rear, ${unit(first)} }`,
      `second_drive: { axle: front, ${unit(second)} }`,
    );
  const notebook =
    van +
    wet('both', 'van') +
    fence('car enough', 'from: van', 'drive: { unit: { from: unit_150kw, peak_power: = both.power_enough } }') +
    fence('car plenty', 'from: van', 'drive: { unit: { from: unit_150kw, peak_power: 800 kW } }') +
    wet('both_enough', 'enough') +
    wet('both_plenty', 'plenty') +
    two('pair', '60 kW', '90 kW') +
    wet('paired', 'pair') +
    two('pair_enough', '= 0.4 * paired.power_enough', '= 0.6 * paired.power_enough') +
    two('pair_plenty', '400 kW', '600 kW') +
    wet('paired_enough', 'pair_enough') +
    wet('paired_plenty', 'pair_plenty') +
    fence('car free', 'from: van', 'drive: { axle: rear, traction: spin }') +
    wet('spinning', 'free');
  const called = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '0']);
  const time = (cell: string): number => called.values(cell)['time_to_100_km_h'] ?? Number.NaN;

  it.each(['both', 'paired'])('is that of all drive units together: %s', cell => {
    const gain = time(`${cell}_enough`) - time(`${cell}_plenty`);
    expect(gain).toBeGreaterThan(0.005);
    expect(gain).toBeLessThan(0.011);
  });

  it('is not told where wheels may spin: there a best power lies between too little and too much', () => {
    expect(called.values('spinning')['time_to_100_km_h']).toBeTypeOf('number');
    expect(called.values('spinning')['power_enough']).toBeNull();
  });
});
