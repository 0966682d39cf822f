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

describe('the best gears', () => {
  const box = (name: string, ...lines: string[]): string =>
    fence(
      `car ${name}`,
      'mass: 1310 kg',
      'tyres: { from: tyre_touring, size: 175/70 R 13 }',
      `drive: { axle: rear, unit: unit_60kw, ratio: 4.1, gearbox: { gears: [3.6, 2.1, 1.4, 1, 0.82]${lines.join('')} } }`,
      'pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }',
    );
  const hill = (name: string, car: string, slope: string): string =>
    fence(`launch ${name}`, `car: ${car}`, `slope: ${slope}`);
  const cars = box('best') + [1, 2, 3].map(gear => box(`left${gear}`, `, shift: none, gear: ${gear}`)).join('');
  const slopes = ['0 %', '15 %', '30 %'];
  const runs = slopes.flatMap((slope, i) =>
    ['best', 'left1', 'left2', 'left3'].map(car => hill(`${car}_${i}`, car, slope)),
  );
  const called = command({ 'a.md': cars + runs.join('') }, ['run', 'a.md', '--samples', '0']);
  const figure = (cell: string, key: string): number | null => called.values(cell)[key] ?? null;

  it.each(slopes.map((slope, i) => [slope, i] as const))('are no slower than any gear alone: %s', (_, i) => {
    const best = figure(`best_${i}`, 'time_to_100_km_h') ?? Infinity;
    for (const gear of [1, 2, 3]) {
      expect(best).toBeLessThanOrEqual((figure(`left${gear}_${i}`, 'time_to_100_km_h') ?? Infinity) * (1 + 1e-5));
    }
  });

  it('stay in the gear that holds the hill', () => {
    const [best, alone] = ['best_2', 'left2_2'].map(cell => figure(cell, 'time_1000_m') ?? Number.NaN);
    expect(best).toBeLessThan(alone ?? Number.NaN);
  });
});

it('a comparison warns of another pack that brings no mass along, as a sweep would', () => {
  const pair =
    van +
    fence('car bigger', 'from: van', 'pack: { parallel: 3 }') +
    fence('car honest', 'from: bigger', 'mass: 1301 kg') +
    fence('launch hop', 'car: van') +
    fence('compare sides', 'of: hop', 'cars: van, bigger, honest', 'outputs: hop.time') +
    fence(
      'sweep packs',
      'of: hop',
      'over: [{ path: van.pack.parallel, values: [2, 3] }]',
      'outputs: hop.time, van.mass',
    );
  const called = command({ 'a.md': pair }, ['run', 'a.md', '--samples', '0']);
  const more = (called.values('packs')['van_mass_highest'] ?? Number.NaN) - 1180;
  expect(more).toBeGreaterThan(50);
  const html = called.read('out/a.html').replaceAll('\u00a0', ' ');
  const [, told] = /bigger has another pack than van and the same mass: about (\d+) kg more/.exec(html) ?? [];
  expect(Math.abs(Number(told) - more)).toBeLessThan(1);
  expect(html).not.toContain('honest has another pack');
});
