import { describe, expect, it } from 'vitest';
import { pathReference } from '../../src/notebook/fields/reference.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, fence } from './fake.ts';

const run = (text: string) => runNotebook(text, { file: 'a.md' });
const LINES = [
  'scales: { front: 600 kg ± 2 kg, rear: 400 kg }',
  'wheelbase: 2.5 m',
  'cg_height: 0.5 m',
  'out:',
  '  - { name: engine, mass: 100 kg, x: 0 m, height: 0.7 m }',
  'in:',
  '  - { name: unit, mass: 50 kg, x: 0 m, height: 0.4 m }',
  '  - { name: box, count: 4, mass: 25 kg, x: 2 m, height: 0.4 m }',
  'driver: { mass: 75 kg, x: 1.25 m, height: 0.6 m }',
];
const scales = (...extra: string[]) => fence('yaml weigh scales', [...LINES, ...extra].join('\n'));
const car = (...extra: string[]) =>
  fence(
    'yaml car coupe',
    [
      'weights: scales',
      'tyres: { radius: 290 mm }',
      'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 250 N m, peak_power: 110 kW } }',
      'pack: { cell: cell_nmc_21700, series: 96, parallel: 24 }',
      ...extra,
    ].join('\n'),
  );
/** Values of the car as formulas see them. */
const values = (text: string, ...paths: string[]) => {
  const outcome = run(text + fence('calc v', paths.map((path, i) => `v${i} = coupe.${path}`).join('\n')));
  expect(complaints(outcome)).toEqual([]);
  return cell(outcome, 'v').values.map(({ value }) => value);
};

describe('weigh', () => {
  it('gives its values to formulas and its inputs with their spread to the report', () => {
    const outcome = run(scales() + fence('calc s', 'kerb = scales.kerb_mass\nnose = scales.kerb_front'));
    expect(complaints(outcome)).toEqual([]);
    // 600 - 100 + 50 + 100 (1 - 2/2.5).
    expect(cell(outcome, 's').values.map(({ value, display }) => [value, display])).toEqual([
      [1050, 'kg'],
      [570, 'kg'],
    ]);
    expect(outcome.inputs.find(({ path }) => path === 'scales.scales.front')).toMatchObject({
      value: 600,
      spread: { kind: 'normal', standard: 2 },
    });
    expect(outcome.inputs.find(({ path }) => path === 'scales.in[2].count')).toMatchObject({ value: 4 });
  });

  it('lets a pack box grow by a formula, and shifts the axles with it', () => {
    const grown = LINES.join('\n').replace('mass: 25 kg', 'mass: = module * 2');
    const outcome = run(fence('yaml weigh scales', grown) + fence('calc c', 'module = 15 kg'));
    expect(complaints(outcome)).toEqual([]);
    const summary = cell(outcome, 'scales').result?.summary;
    expect(summary?.['kerb_mass']).toBe(1070);
    expect(summary?.['kerb_rear']).toBeCloseTo(400 + (120 * 2) / 2.5, 10);
  });

  it('takes from another weighing what it leaves out', () => {
    const outcome = run(scales() + fence('yaml weigh lighter', 'from: scales\nin: []'));
    expect(complaints(outcome)).toEqual([]);
    expect(cell(outcome, 'lighter').result?.summary['kerb_mass']).toBe(900);
  });

  it.each<[string, string, string]>([
    ['mass: 50 kg, x: 0 m, height', 'mass: 50 kg, height', '8:5: scales.in[1].x: is missing; '],
    ['count: 4', 'count: 4.5', '9:25: scales.in[2].count: 4.5 is not a whole number'],
    ['mass: 25 kg', 'mass: 25 km', '9:37: scales.in[2].mass: '],
    ['mass: 100 kg', 'mass: 900 kg', '5:1: scales.out: takes more off the front axle'],
    ['wheelbase: 2.5 m', 'wheelbase: 2.5', '3:12: scales.wheelbase: 2.5 has no unit'],
    ['cg_height: 0.5 m', 'from: nobody', '4:7: scales.from: is no weighing'],
  ])('with %j for %j is told at its place', (now, then, expected) => {
    const [first] = complaints(run(fence('yaml weigh scales', LINES.join('\n').replace(now, then))));
    expect(first).toContain(expected);
  });

  it('has the row of a wrong text on a side wall and of an unknown box', () => {
    expect(complaints(run(scales('tyres: { size: 155/80 Q 13 }')))[0]).toMatch(/^11:16: scales\.tyres\.size: /);
    expect(complaints(run(scales('move: bix')))[0]).toMatch(/^11:7: scales\.move: nothing under in is called "bix"/);
  });

  it('is printed in the reference, its lists too', () => {
    expect(pathReference('weigh', 80)).toMatch(/out +list of groups\n/);
    expect(pathReference('weigh', 80)).toContain('see axlewatt cells weigh.out');
    expect(pathReference('weigh.out', 80)).toMatch(/mass +kg or lb +required/);
  });
});

describe('a car with weights', () => {
  it('takes mass, driver, front share, height and wheelbase from the weighing', () => {
    const [mass, driver, share, height, base] = values(
      scales() + car(),
      'mass',
      'driver',
      'front_share',
      'cg_height',
      'wheelbase',
    );
    expect([mass, driver, base]).toEqual([1050, 75, 2.5]);
    // Front 570 + 37.5 of 1125 kg; height (500 - 70 + 20 + 40 + 45) / 1125.
    expect(share).toBeCloseTo(607.5 / 1125, 12);
    expect(height).toBeCloseTo(535 / 1125, 12);
  });

  it('lists them as computed, and the weighing behind them', () => {
    const outcome = run(scales() + car() + fence('yaml launch dash', 'car: coupe'));
    const input = (path: string) => outcome.inputs.find(each => each.path === path);
    expect(input('coupe.mass')).toMatchObject({
      value: 1050,
      unit: 'kg',
      origin: { kind: 'computed', formula: 'scales.kerb_mass' },
    });
    expect(input('coupe.front_share')?.origin).toEqual({ kind: 'computed', formula: 'scales.front_share' });
    expect(input('scales.scales.front')?.origin.kind).toBe('given');
  });

  it('keeps what it says itself', () => {
    expect(
      values(scales() + car('mass: 990 kg', 'front_share: 50 %', 'driver: 60 kg'), 'mass', 'front_share', 'driver'),
    ).toEqual([990, 0.5, 60]);
  });

  it('places its own driver and load where the weighing has them', () => {
    const loaded = scales('load:\n  - { name: guests, count: 2, mass: 75 kg, x: 2 m, height: 0.6 m }');
    const [share] = values(loaded + car('load: 75 kg', 'driver: 100 kg'), 'front_share');
    // 570 + 50 + 75 (1 - 2/2.5) of 1050 + 100 + 75 kg.
    expect(share).toBeCloseTo(635 / 1225, 12);
  });

  it('complains of a load whose place nobody knows, unless it says the share itself', () => {
    const [first] = complaints(run(scales() + car('load: 75 kg')));
    expect(first).toMatch(
      /^17:7: coupe\.load: scales has no load that would say where this sits; expected load: in scales/,
    );
    expect(values(scales() + car('load: 75 kg', 'front_share: 50 %', 'cg_height: 0.5 m'), 'mass')).toEqual([1050]);
  });

  it('still needs a mass without weights, and a weighing for weights', () => {
    expect(complaints(run(car().replace('weights: scales\n', '')))[0]).toContain('coupe.mass: is missing');
    expect(complaints(run(car()))[0]).toMatch(
      /^2:10: coupe\.weights: no cell is called "scales"; expected the name of a weigh cell/,
    );
  });

  it('passes them on to a variant, which may name another weighing', () => {
    const light = fence('yaml weigh light', 'from: scales\nin: []');
    const variant = fence('yaml car coupe2', 'from: coupe\nweights: light');
    const outcome = run(
      scales() + light + car() + variant + fence('calc v', 'v1 = coupe2.mass\nv2 = coupe2.wheelbase'),
    );
    expect(complaints(outcome)).toEqual([]);
    expect(cell(outcome, 'v').values.map(({ value }) => value)).toEqual([900, 2.5]);
  });

  it('and a top speed of its own launch in the weighing make a circle, which is told', () => {
    const text = scales('top_speed: = dash.top_speed') + car() + fence('yaml launch dash', 'car: coupe');
    expect(complaints(run(text))[0]).toContain('cells need each other in a circle');
  });
});
