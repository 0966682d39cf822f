/** Where the owner of a workshop stumbled: what he is told names what to write. Through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const car = (name: string, unit = 'unit_150kw', tyres = 'size: 185/70 HR 14'): string =>
  fence(
    `yaml car ${name}`,
    'mass: 1180 kg',
    'drag_area: 0.7 m^2',
    `tyres: { ${tyres} }`,
    `drive: { axle: rear, unit: ${unit}, ratio: 8.5 }`,
    'pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }',
    'charger: { power: 7.4 kW }',
  );
const run = (name: string, ...lines: string[]): string => fence(`yaml launch ${name}`, ...lines, 'to: 50 km/h');
const said = (files: Record<string, string>): string => {
  const { out, err } = command(files, ['run', 'a.md', '--samples', '0']);
  return `${out}${err}`.replaceAll(/\s+/gu, ' ');
};

describe('a slip', () => {
  const told = said({
    'a.md':
      car('coupe') +
      car('other', 'unit_160kw') +
      fence('yaml car big', 'from: coupe', 'mass: 1300 kg') +
      fence('yaml car van', 'from: coupe', 'mass: 1400 kg') +
      run('dash', 'car: coupe') +
      fence('yaml charge outlet', 'car: coupe', 'supply: { power: 7 kW }') +
      fence('yaml charge wall', 'car: coupe', 'supply: { power: 11 kW }') +
      fence('yaml charge night', 'car: coupe', 'price: 0.32 EUR/kWh') +
      fence('yaml duty parts', 'of: dash', 'fuse: { rating: 300 A }', 'cable: { current: 250 A, time: 5 min }') +
      fence('yaml duty warm', 'of: dash', 'cable: { current: 250 A, rise: 50 degC, time: 5 min }') +
      fence('yaml duty bare', 'of: dash', 'cable: { current: 250 A, rise: 50, time: 5 min }') +
      fence('yaml compare offers', 'of: dash', 'cars: [coupe, big, van]', 'outputs: [dash.time]') +
      fence('yaml check promise', '- offers.dash.time < 9 s') +
      fence('yaml knobs', 'over:', '  - { path: coupe.tyres, choices: [tyre_touring, tyre_sport] }'),
  });

  it.each([
    [
      'of the power of a wall',
      'unknown key "power"; expected what the wall gives: current: 30.4 A for this power at 230 V',
    ],
    [
      'of the power of three phases',
      'current: 15.9 A, phases: 3 for this power at 230 V, or dc_power: 11 kW of a station',
    ],
    ['of money', 'night.price: money is written without its currency; did you mean "0.32 1/kWh"?'],
    ['of a fuse', 'unknown key "rating"; expected one of rated, ambient_factor, share'],
    ['of a fuse, with its cure', 'least_breaking; did you mean "rated"?'],
    ['of a rise left out', 'parts.cable.rise: is missing; expected a rise such as "50 K"'],
    [
      'of a rise that is a temperature',
      'warm.cable.rise: 50 degC is too large; expected 1 K to 250 K; did you mean "50 K"?',
    ],
    [
      'of a rise without a unit',
      'bare.cable.rise: 50 has no unit; expected a rise such as "50 K"; did you mean "50 K"?',
    ],
    ['of a number in a name', 'did you mean "unit_150kw"?'],
    [
      'of a figure of one car of several',
      'has no "dash.time"; expected one of offers.coupe_dash_time, offers.big_dash_time, offers.van_dash_time',
    ],
    ['of a part without a name', 'its cell names: tyres: { from: tyre_touring, size: ... } in coupe'],
  ])('%s is told with what to write', (_, words) => {
    expect(told).toContain(words);
  });
});

describe('a log in German', () => {
  const log = (head: string): string =>
    [head, ...Array.from({ length: 60 }, (_, i) => `${i},0;${Math.min(50, 2 * i)},0`), ''].join('\n');
  const files = (head: string, more = ''): Record<string, string> => ({
    'a.md': car('coupe') + fence('yaml drive way', 'car: coupe', 'log: way.csv', ...(more === '' ? [] : [more])),
    'way.csv': log(head),
  });

  it.each([
    ['with both units', 'Zeit [s];Tempo [km/h]', ''],
    ['without a unit of speed', 'Zeit [s];Tempo', 'speed_unit: km/h'],
  ])('has its speed in a column "Tempo", %s', (_, head, more) => {
    const called = command(files(head, more), ['run', 'a.md', '--samples', '0']);
    // 0 to 50 km/h at 2 km/h each second, then 34 s at 50 km/h: the area below it.
    expect(called.values('way')['distance']).toBeCloseTo((25 * 25 + 34 * 50) / 3.6, 0);
  });

  it('is told the unit that its speed lacks, and never that the speed is a time', () => {
    const told = said(files('Zeit;Tempo'));
    expect(told).not.toContain('second column of time');
    expect(told).not.toContain('columns: { time: Tempo }');
    expect(told).toContain('the column speed has no unit');
  });

  it('keeps the time in a column "Tempo" beside a speed', () => {
    const called = command(files('Tempo [s];Velocità [km/h]'), ['run', 'a.md', '--samples', '0']);
    expect(called.values('way')['distance']).toBeCloseTo((25 * 25 + 34 * 50) / 3.6, 0);
  });
});

describe('what is named beside what was meant', () => {
  const van = fence(
    'yaml car van',
    'mass: 1000 kg',
    'tyres: { size: 155/80 R 13 }',
    'drive: { axle: rear, unit: unit_60kw, ratio: 9 }',
    'pack: pack_pouch_96s2p_27ah',
  );

  it('is the base of a group that takes the place of a named part', () => {
    const told = said({ 'a.md': van + fence('yaml car more', 'from: van', 'pack: { parallel: 3 }') });
    expect(told).toContain('more.pack.cell: is missing');
    expect(told).toContain('did you mean "from: pack_pouch_96s2p_27ah"?');
  });

  it('is whole cars for a part in a sweep, the cell that begins with the word, and the line where a key belongs', () => {
    const told = said({
      'a.md':
        van +
        run('dash', 'car: van') +
        fence(
          'yaml sweep units',
          'of: dash',
          'over:',
          '  - { path: van.drive.unit, values: [unit_60kw, unit_100kw] }',
        ) +
        fence('yaml car other', 'from: van', 'pack: { cell: cell_nmc_60, series: 96, parallel: 2 }') +
        fence(
          'yaml duty parts',
          'of: dash',
          'cable: { current: 160 A, rise: 50 K, time: 300 s, cross_section: 35 mm^2 }',
        ) +
        fence('yaml calibrate road', 'car: van', 'coast:', '  - { log: a.csv, heading: there, time_unit: s }'),
    });
    expect(told).toContain('or whole cars: - cars: [ONE, OTHER]');
    expect(told).toContain('did you mean "cell_nmc_60ah"?');
    expect(told).toMatch(/unknown key "cross_section"; [^"]*; did you mean "section"\?/u);
    expect(told).toMatch(/unknown key "heading"; [^"]*; did you mean "direction"\?/u);
    expect(told).toContain('unknown key "time_unit"; expected it as a line of the cell: time_unit: s');
  });

  it('is a header for a log that begins with its numbers', () => {
    const way = fence('yaml drive way', 'car: van', 'log: way.csv');
    const told = said({ 'a.md': van + way, 'way.csv': '0,0\n1,3.5\n2,7\n' });
    expect(told).toContain('way.csv:1:1: the first line holds numbers alone, no header');
    expect(told).toContain('expected a line above it such as time [s], speed [km/h]');
    expect(told).not.toContain('there is no column');
  });
});
