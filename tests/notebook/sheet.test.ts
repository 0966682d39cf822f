import { describe, expect, it } from 'vitest';
import { csvTables } from '../../src/notebook/document/export.ts';
import { pathReference } from '../../src/notebook/fields/reference.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, fence } from './fake.ts';

const run = (text: string) => runNotebook(text, { file: 'a.md' });
const car = fence(
  'yaml car coupe',
  [
    'mass: 1000 kg',
    'tyres: { radius: 290 mm }',
    'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 250 N m, peak_power: 110 kW, continuous_power: 40 kW } }',
    'pack: { cell: cell_nmc_21700, series: 96, parallel: 24, cooling: 30 W/K }',
  ].join('\n'),
);
const sheet = (...lines: string[]) => car + fence('yaml sheet paper', ['car: coupe', ...lines].join('\n'));
const repeat = (...lines: string[]) => car + fence('yaml repeat show', ['car: coupe', ...lines].join('\n'));

describe('a sheet cell', () => {
  it('gives its values to formulas and a table to CSV', () => {
    const outcome = run(
      sheet('gross_mass: 1500 kg', 'gross_front_share: 45 %') +
        fence('calc s', 'v = paper.top_speed to km/h\nslope = paper.start_slope_gross'),
    );
    expect(complaints(outcome)).toEqual([]);
    expect(cell(outcome, 's').values).toHaveLength(2);
    const [table] = csvTables(outcome);
    expect(table?.name).toBe('paper.tests');
    expect(table?.text.split('\r\n')[0]).toBe('test,mass_kg,value,unit,limiter,standard');
    expect(table?.text).toContain('"steepest start, gross mass",1500,');
  });

  it('lists what it assumes, but no slope', () => {
    const paths = run(sheet()).inputs.map(({ path }) => path);
    expect(paths).toContain('paper.temperature');
    expect(paths).not.toContain('paper.slope');
  });

  it.each([
    ['gross_mass: 900 kg', '9:13: paper.gross_mass: is below the 1075 kg'],
    ['slope: 4 %', '9:1: paper.slope: '],
    ['gross_mass: 1500 km', '9:18: paper.gross_mass: '],
  ])('with %j tells it at its place', (line, expected) => {
    expect(complaints(run(sheet(line)))[0]).toContain(expected);
  });

  it('complains of a car that is none', () => {
    expect(complaints(run(fence('yaml sheet paper', 'car: nobody')))[0]).toMatch(/^2:6: paper\.car: /);
  });
});

describe('a repeat cell', () => {
  it('takes the number of launches, the pause and the speed', () => {
    const outcome = run(repeat('times: 3', 'pause: 20 s', 'to: 60 km/h', 'temperature: 30 degC'));
    expect(complaints(outcome)).toEqual([]);
    const { result } = cell(outcome, 'show');
    expect(result?.summary).toMatchObject({ runs: 3 });
    expect(result?.summary['target']).toBeCloseTo(60 / 3.6, 12);
    expect(csvTables(outcome).map(({ name }) => name)).toEqual(['show.runs', 'show.time']);
  });

  it('lists the conditions that it assumes', () => {
    const inputs = run(repeat('times: 1')).inputs.filter(({ path }) => path.startsWith('show.'));
    expect(inputs.map(({ path }) => path)).toEqual(expect.arrayContaining(['show.pause', 'show.to', 'show.slope']));
  });

  it.each([
    ['times: 2.5', '9:8: show.times: 2.5 is not a whole number'],
    ['times: 1000', '9:8: show.times: '],
    ['pause: 20', '9:8: show.pause: '],
  ])('with %j tells it at its place', (line, expected) => {
    expect(complaints(run(repeat(line)))[0]).toContain(expected);
  });
});

describe('the reference', () => {
  it('has both', () => {
    expect(pathReference('sheet', 80)).toMatch(/gross_mass +kg or lb/);
    expect(pathReference('repeat', 80)).toMatch(/pause +s/);
  });
});
