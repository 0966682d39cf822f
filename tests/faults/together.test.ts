/** Inputs that were measured together, through the built command. */
import { describe, expect, it } from 'vitest';
import type { Coverage } from '../../src/runs/result.ts';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const car = (name: string, ...more: string[]): string =>
  fence(
    `car ${name}`,
    'mass: 1180 kg ± 0 kg',
    'tyres: { from: tyre_touring, size: 175/70 R 13 }',
    'drive: { axle: rear, unit: unit_60kw, ratio: 8 }',
    'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2 }',
    ...more,
  );
const steady = (name: string, of: string): string =>
  fence(`steady ${name}`, `car: ${of}`, 'speed: 108 km/h', 'temperature: 20 degC', 'altitude: 0 m', 'humidity: 0 %');

const GROUP = 'inputs: [road_load.f0, road_load.f1, road_load.f2]';
// The fit of 196, 331, 555, 867 N at 10, 20, 30, 40 m/s: 0.05 (X'X)^-1, up to the diagonal, five hundred times as uncertain.
const TRIANGLE = [193.75, -16.875, 1.6125, 0.3125, -0.03125, 0.000625];
const road = (...spread: string[]): string =>
  `road_load: { f0: 149.25 N${spread[0] ?? ''}, f1: 0.245 N s/m${spread[1] ?? ''}, f2: 0.4425 N s^2/m^2${spread[2] ?? ''}, pressure: 101.325 kPa, coupled: no }`;

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: { readonly intervals?: { readonly of: { readonly [key: string]: Coverage } } };
  }[];
}

describe('a road load with a covariance', () => {
  const apart = [' ± 13.919410907 N', ' ± 1.269842510 N s/m', ' ± 0.025 N s^2/m^2'];
  const called = command(
    {
      'a.md':
        car('fitted', road(), 'together:', `  - ${GROUP}`, `    covariance: [${TRIANGLE.join(', ')}]`) +
        car('loose', road(...apart)) +
        car(
          'correlated',
          road(...apart),
          'together:',
          `  - ${GROUP}`,
          '    correlation: [1, -0.9547295, 1, 0.8980266, -0.9843740, 1]',
        ) +
        steady('one', 'fitted') +
        steady('two', 'loose') +
        steady('three', 'correlated'),
    },
    ['run', 'a.md', '--samples', '128'],
  );
  const { blocks } = JSON.parse(called.read('out/a.json')) as Exported;
  const uncertainty = (name: string): number =>
    blocks.find(each => each.name === name)?.result?.intervals?.of['consumption']?.standard ?? Number.NaN;

  it('makes a consumption far surer than spreads apart', () => {
    expect(called.code).toBe(0);
    expect(uncertainty('one')).toBeLessThan(0.4 * uncertainty('two'));
  });

  it('may be written as a correlation, with a ± behind each input', () => {
    expect(Math.abs(uncertainty('three') / uncertainty('one') - 1)).toBeLessThan(0.02);
  });

  it('gives its inputs the ± of its diagonal on the page', () => {
    expect(called.read('out/a.html').replaceAll('\u00a0', ' ')).toContain('149 N ± 14 N');
  });
});

it('takes a covariance whose last number has an exponent', () => {
  const small = ['covariance: [193.75, -16.875, 1.6125, 1e-1, 1e-3, 6.25e-4]'];
  const called = command(
    { 'a.md': car('odd', road(), 'together:', `  - { ${GROUP}, ${small[0]} }`) + steady('one', 'odd') },
    ['check', 'a.md'],
  );
  expect(called.out + called.err).not.toContain('no unit');
});

describe('a covariance that is none', () => {
  it.each([
    ['covariance: [1, 2, 1, 0, 0, 1]', /is not positive semidefinite.*\n?[\s\S]*fit with all its digits/u],
    ['covariance: [1, 2]', /has 2 numbers for 3 inputs/u],
    ['correlation: [1, 0.5, 1, 0, 0, 1]', /needs the ± of odd\.road_load\.f0/u],
    ['covariance: [1, 0, 1, 0, 0, 1], correlation: [1]', /not one of covariance and correlation/u],
  ])('is an error with file, line, field and cure: %s', (matrix, text) => {
    const lines = [road(), 'together:', `  - { ${GROUP}, ${matrix} }`];
    const called = command({ 'a.md': car('odd', ...lines) }, ['check', 'a.md']);
    const said = called.out + called.err;
    expect(called.code).toBe(1);
    expect(said).toMatch(text);
    expect(said).toMatch(/a\.md:8:\d+/u);
    expect(said).toContain('odd.together[1]');
  });

  it('names a path that is no number of the car, and the nearest one', () => {
    const lines = [road(), 'together:', '  - { inputs: [road_load.f0, road_load.f3], covariance: [1, 0, 1] }'];
    const called = command({ 'a.md': car('odd', ...lines) }, ['check', 'a.md']);
    expect(called.out + called.err).toMatch(/"road_load\.f3" is no number of this car[\s\S]*road_load\.f/u);
  });
});
