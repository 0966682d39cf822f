/** Slips of the finger in a notebook: each is told with its place, and none changes a number. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (name: string, mass: string): string => `
\`\`\`yaml car ${name}
mass: ${mass}
tyres: { from: tyre_narrow, radius: 0.29 m }
drive: { axle: front, unit: unit_200kw, ratio: 8.4 }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }
\`\`\`
`;

it.each([
  ['1240 .5 kg', 'two numbers'],
  ['1010 kg/2', 'a second number'],
  ['1(5) kg', 'two numbers'],
  ['10 % kg', 'a percent sign ends a number'],
  ['1.240.5 kg', 'two numbers'],
])('a mass of %s is no mass', (mass, said) => {
  const { code, err } = command({ 'a.md': car('a', mass) }, ['check', 'a.md']);
  expect(code).toBe(1);
  expect(err).toContain('a.md:3:');
  expect(err).toContain(said);
});

it('formulas mix no temperatures, compare nothing unlike and hold no number of nobody', () => {
  const notebook = [
    '`= 20 degC * 2`',
    '`= a.cabin.temperature + 20 degC`',
    '`= -(20 degC)`',
    '`= 2 m < 1 m < 3 kg`',
    '`= -1e308 m/s`',
    '`= 1e90 m^10 to ym^10`',
    'right: `= a.cabin.temperature + 20 K`, `= 30 degC - 20 degC`, `= max(20 degC, 68 degF)`',
    '',
    '```calc big',
    'x = 5',
    'a = 1e308 m/s',
    '```',
    '```calc small',
    'y = 5',
    'rise = 30 degC - 20 degC',
    '```',
    '```yaml check',
    '- small.y < 1e3',
    '- small.y < 1 * 6',
    '```',
    car('a', '1010 kg').replace('pack:', 'cabin: { temperature: 22 degC }\npack:'),
  ].join('\n');
  const { code, out, err } = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '0']);
  expect(code, err).toBe(1);
  for (const said of [
    'a.md:1:4: a temperature on a scale cannot be multiplied',
    'a.md:2:4: two temperatures cannot be added',
    'a.md:3:6: a temperature on a scale cannot be multiplied',
    'a.md:4:4: a length cannot be compared with a mass',
    'a.md:5:5: the result is too large',
    'a.md:6:17: the result is too large for ym^10',
    'a.md:11:5: big.a: the result is too large',
    'problems: 7',
    'checks: 2 hold',
    'rise = 10 K',
  ]) {
    expect(out.replaceAll(/\n {2,}/gu, ' ')).toContain(said);
  }
  expect(out + err).not.toMatch(/fault of axlewatt itself|Infinity|NaN/u);
});

it('prices that may be one or two are asked after', () => {
  const notebook = `${car('a', '1010 kg')}${car('b', '1100 kg')}
\`\`\`yaml launch dash
car: a
\`\`\`

\`\`\`yaml compare both
of: dash
cars: a, b
prices: [6,900]
\`\`\`
`;
  const { code, err } = command({ 'a.md': notebook }, ['check', 'a.md']);
  expect(code).toBe(1);
  expect(err).toContain('both.prices: this may be one number or two');
  expect(command({ 'a.md': notebook.replace('6,900', '6, 900') }, ['check', 'a.md']).err).toBe('');
});

it.each(['""', '"  "', 'null', '0x10', '1.5', '-1', '1e999'])('samples: %s are no samples', samples => {
  const { code, err } = command({ 'a.md': `---\nsamples: ${samples}\n---\n` }, ['check', 'a.md']);
  expect(code).toBe(1);
  expect(err).toContain('a whole number from 0 to 1000000');
});

it.each([
  ['map', 'speed [rpm],torque [N m],loss [W]\n0,0,1\n1000,1e999,2\n', 'map.csv:3:6: "1e999" is too large'],
  ['map', 'speed [2 rpm],torque [N m],loss [W]\n0,0,1\n', 'map.csv:1:1: "2 rpm" is no unit'],
  ['map', 'speed [.. 2 rpm],torque [N m],loss [W]\n0,0,1\n', 'map.csv:1:1: ".. 2 rpm" is no unit'],
  ['log', 'time_s,speed_km_h\n0,0\n1,1e999\n2,0\n', 'map.csv:3:3: "1e999" is too large'],
])('a %s with a number beyond all numbers is told with its place', (kind, table, said) => {
  const notebook =
    kind === 'map'
      ? car('a', '1010 kg').replace('unit: unit_200kw', 'unit: { from: unit_200kw, map: map.csv }')
      : `${car('a', '1010 kg')}\n\`\`\`yaml drive way\ncar: a\nlog: map.csv\n\`\`\`\n`;
  const { code, err } = command({ 'a.md': notebook, 'map.csv': table }, ['check', 'a.md']);
  expect(code).toBe(1);
  expect(err).toContain(said);
});
