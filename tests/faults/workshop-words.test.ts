/** What people of the trade write first, each with its cure in one line: through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (name: string, lines: Readonly<Record<string, string>>): string => {
  const said = {
    mass: '1000 kg',
    tyres: '{ size: 165/80 R 13 }',
    drive: '{ axle: rear, ratio: 8, unit: unit_60kw }',
    pack: '{ cell: cell_nmc_60ah, series: 96, parallel: 1 }',
    ...lines,
  };
  return `\`\`\`yaml car ${name}\n${Object.entries(said)
    .map(([key, value]) => `${key}: ${value}`)
    .join('\n')}\n\`\`\`\n\n`;
};
const drive = (unit: string): string => `{ axle: rear, ratio: 8, unit: { peak_torque: ${unit}, peak_power: 60 kW } }`;

const { out, err, code } = command(
  {
    'a.md': [
      car('inches', { wheelbase: '95.7"' }),
      car('feet', { wheelbase: `7'11"` }),
      car('weight', { weight: '1000 kg' }),
      car('money', { mass: '€1000' }),
      car('kgm', { drive: drive('26 kgm') }),
      car('indent', { ' driver': '75 kg' }),
      car('comma', { drive: '{ axle: rear, ratio: 9,1, unit: unit_60kw }' }),
      car('size', { tyres: '165/80 R 13' }),
      car('joint', { together: 'yes' }),
      car('fine', {}),
      car('other', {}),
      '```yaml car blank\nmass:1350 kg\ntyres: { size: 165/80 R 13 }\n```\n\n',
      '```yaml launch dash\ncar: fine\n```\n\n```yaml check c\n- dash.time_to_100_km_h =< 60 s\n```\n',
      '```yaml charge night\ncar: fine\nprice: 0.32 EUR/kWh\nsupply: {16 A}\n```\n\n',
      '```yaml charge day\ncar: fine\nprice: 31.5 ct/kWh\n```\n\n`= dash.time_to_100`\n\n',
      '```yaml compare both\nof: dash\ncars: fine, other\nprices: 6900 EUR, 8000 €\n```\n',
    ].join(''),
  },
  ['check', 'a.md'],
);
const said = (out + err).replaceAll(/\s+/gu, ' ');

describe('a word of the workshop', () => {
  it.each([
    ['inches.wheelbase: inches are written with their unit; did you mean "95.7 in"?'],
    ['feet.wheelbase: feet are written with their unit; did you mean "95 in"?'],
    ['did you mean "mass"?'],
    ['money.mass: money is written without its currency; expected a mass such as "1010 kg"'],
    ['night.price: money is written without its currency; did you mean "0.32 1/kWh"?'],
    ['day.price: money is written without its currency; did you mean "0.315 1/kWh"?'],
    ['both.prices: money is written without its currency; did you mean "6900"?'],
    ['night.supply: "16 A" has no name'],
    ['did you mean "current: 16 A"?'],
    ['dash, a launch cell, has no "time_to_100"; did you mean "dash.time_to_100_km_h"?'],
    ['unknown unit "kgm"; expected a torque such as "250 N m"; did you mean "kgf m"?'],
    [
      'a.md:44:2: this line begins in no column of the lines above; expected the same blanks before each line of a group',
    ],
    ['comma.drive: a comma parts two entries here; expected a decimal point in a number; did you mean "ratio: 9.1"?'],
    ['size.tyres: no part of kind tyre is called "165/80 R 13"'],
    ['did you mean "{ size: 165/80 R 13 }"?'],
    ['expected a list of groups, a line each: - { inputs: ..., covariance: ..., correlation: ... }'],
    ['no blank behind the colon; did you mean "mass: 1350 kg"?'],
    ['"=<" has no meaning here; did you mean "<="?'],
  ])('is told: %s', words => {
    expect(code).toBe(1);
    expect(said).toContain(words);
  });
});

it('folds the cells that only wait for one that failed, and does not count them', () => {
  const launches = ['a', 'b'].map(name => `\`\`\`yaml launch ${name}\ncar: heavy\n\`\`\`\n`).join('');
  const text = car('heavy', { mass: '1000' }) + launches;
  const checked = command({ 'a.md': text }, ['check', 'a.md']);
  expect(checked.err).toContain('a.md: a (line 9), b (line 12) wait for what failed');
  expect(checked.err).not.toContain('needs heavy');
  const run = command({ 'a.md': text }, ['run', 'a.md']);
  expect(run.out).toContain('problems: 1\n');
  expect(run.read('out/a.html')).toContain('1 problem</h2>');
});
