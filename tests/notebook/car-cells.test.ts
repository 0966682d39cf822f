import { describe, expect, it } from 'vitest';
import { completeCar, completeSurroundings } from '../../src/model/complete.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { launch } from '../../src/runs/launch/launch.ts';
import { cell, complaints, fence } from './fake.ts';

const UNIT = '{ peak_torque: 250 N m, peak_power: 110 kW, max_speed: 12000 rpm }';
const coupe = (extra = '', tyres = '{ radius: 290 mm }', unit = UNIT) =>
  fence(
    'yaml car coupe',
    `mass: 1010 kg ± 15 kg
tyres: ${tyres}
drive: { axle: rear, ratio: 8.5, unit: ${unit} }
pack: { cell: cell_nmc_21700, series: 96, parallel: 24 }${extra}`,
  );
const dash = fence('yaml launch dash', 'car: coupe\ntemperature: 10 degC');
const run = (text: string) => runNotebook(text, { file: 'a.md' });

describe('car and launch', () => {
  const outcome = run(coupe() + dash + fence('calc s', 'weight = coupe.mass + coupe.driver'));

  it('run as the model does when it is called directly', () => {
    const values = shippedPart('cell', 'cell_nmc_21700')?.values ?? {};
    const rpm = (2 * Math.PI) / 60;
    const { car } = completeCar({
      mass: 1010,
      tyres: { radius: 0.29 },
      drive: { axle: 'rear', ratio: 8.5, unit: { peakTorque: 250, peakPower: 110e3, maxSpeed: 12_000 * rpm } },
      pack: { cell: values, series: 96, parallel: 24 },
    });
    const { surroundings } = completeSurroundings({ temperature: 283.15 });
    const direct = launch(car, { surroundings });
    expect(complaints(outcome)).toEqual([]);
    const { result } = cell(outcome, 'dash');
    expect(result?.summary['time_to_100_km_h']).toBeGreaterThan(4);
    for (const [key, value] of Object.entries(direct.summary)) {
      if (typeof value !== 'number') expect(result?.summary[key], key).toBe(value);
      else expect(Math.abs((Number(result?.summary[key]) - value) / (value || 1)), key).toBeLessThan(1e-6);
    }
  });

  it('say of every input whether it was given, computed or assumed', () => {
    const input = (path: string) => outcome.inputs.find(each => each.path === path);
    expect(input('coupe.mass')).toMatchObject({
      value: 1010,
      unit: 'kg',
      spread: { kind: 'normal', standard: 15 },
      origin: { kind: 'given', file: 'a.md', line: 2, column: 7 },
    });
    expect(input('dash.temperature')).toMatchObject({ value: 283.15, origin: { kind: 'given' } });
    expect(input('dash.altitude')).toMatchObject({ value: 0, origin: { kind: 'assumed' } });
    expect(input('coupe.drive.efficiency')).toMatchObject({ value: 0.975, origin: { kind: 'assumed' } });
    expect(input('coupe.drive.unit.peak_power')).toMatchObject({ value: 110e3, display: 'kW' });
    const paths = outcome.inputs.map(({ path }) => path);
    expect(new Set(paths).size).toBe(paths.length);
  });

  it('give given and assumed values to formulas', () => {
    expect(cell(outcome, 's').values).toEqual([{ name: 'weight', value: 1085, unit: 'kg', display: 'kg' }]);
  });

  it('list no inputs of a car that nothing runs', () => {
    expect(run(coupe()).inputs).toEqual([]);
  });
});

describe('part', () => {
  const slim = fence('yaml part slim', 'kind: tyre\nradius: 285 mm\ndry_peak: 0.8');

  it('stands for a group by its name, here or shipped', () => {
    const { result } = cell(run(coupe('', 'slim') + slim + dash), 'dash');
    const { result: same } = cell(run(coupe('', '{ radius: 285 mm, dry_peak: 0.8 }') + dash), 'dash');
    expect(result?.summary).toEqual(same?.summary);
  });

  it('takes from another part what it leaves out', () => {
    const wide = fence('yaml part wide', 'kind: tyre\nfrom: slim\ndry_peak: 0.9');
    const { inputs, problems } = run(coupe('', 'wide') + slim + wide + dash);
    expect(problems).toEqual([]);
    const value = (key: string) => inputs.find(({ path }) => path === `coupe.tyres.${key}`)?.value;
    expect(value('radius')).toBeCloseTo(0.285, 12);
    expect(value('dry_peak')).toBe(0.9);
  });

  it('is used by another part inside it', () => {
    const pack = fence('yaml part box', 'kind: pack\ncell: mine\nseries: 96\nparallel: 24');
    const mine = fence('yaml part mine', 'kind: cell\nfrom: cell_nmc_21700\ncapacity: 5 Ah');
    const car = coupe().replace(/pack: .*/, 'pack: box');
    const { inputs, problems } = run(car + dash + pack + mine);
    expect(problems).toEqual([]);
    expect(inputs.find(({ path }) => path === 'coupe.pack.cell.capacity')?.value).toBe(18_000);
  });

  it.each([
    [fence('yaml part x', 'radius: 1 m'), '1:1: x.kind: is missing'],
    [fence('yaml part x', 'kind: tire\nradius: 1 m'), '2:7: x.kind: unknown kind of part "tire"'],
    [fence('yaml part x', 'kind: [tyre]'), '2:7: x.kind: is not a word'],
    [fence('yaml part x', 'kind: tyre\nradius: 285 kg'), '3:13: x.radius: '],
    [fence('yaml part x', 'kind: tyre\nradiu: 285 mm'), '3:1: x.radiu'],
    [fence('yaml part x', 'kind: tyre\nfrom: nobody'), '3:7: x: no part'],
  ])('%j is told at its place', (text, expected) => {
    const [first] = complaints(run(text));
    expect(first?.slice(0, expected.length)).toBe(expected);
  });

  it('names a circle of parts', () => {
    const a = fence('yaml part a', 'kind: tyre\nfrom: b');
    const b = fence('yaml part b', 'kind: tyre\nfrom: a');
    expect(complaints(run(a + b))[0]).toBe('3:7: a: cells need each other in a circle: a -> b -> a');
  });

  it('of the wrong kind, or failed, is told where it is used', () => {
    expect(
      complaints(run(coupe('', 'box') + fence('yaml part box', 'kind: unit\npeak_torque: 1 N m\npeak_power: 1 kW')))[0],
    ).toMatch(/^3:8: coupe\.tyres: /);
    const failed = fence('yaml part slim', 'kind: tyre\nradius: 1 kg');
    expect(complaints(run(coupe('', 'slim') + failed + dash))).toContainEqual(
      '3:8: coupe: needs slim, which failed (line 7)',
    );
  });
});

describe('problems of cars and launches', () => {
  it('are all told, each in its place', () => {
    const text = coupe('\nwheelbase: 2.5\nloda: 3 kg').replace('1010 kg ± 15 kg', '-5 kg').replace('ratio: 8.5, ', '');
    const found = complaints(run(text + dash));
    expect(found.map(each => each.split(': ').slice(0, 2).join(' '))).toEqual([
      '2:7 coupe.mass',
      '4:1 coupe.drive.ratio',
      '6:12 coupe.wheelbase',
      '7:1 coupe.loda',
      '10:6 dash',
    ]);
  });

  it('stand at the field when numbers do not fit together', () => {
    const unit = UNIT.replace(' }', ', taper_speed: 13000 rpm }');
    const { problems } = run(coupe('', undefined, unit) + dash);
    expect(problems[0]).toMatchObject({ line: 4, path: 'coupe.drive.unit.taper_speed' });
    expect(problems[0]?.source.slice((problems[0]?.column ?? 0) - 1)).toMatch(/^13000 rpm/);
  });

  it('stand at the name of the part when the part is to blame', () => {
    const part = fence(
      'yaml part motor',
      'kind: unit\npeak_torque: 250 N m\npeak_power: 110 kW\nmax_speed: 12000 rpm\ntaper_speed: 13000 rpm',
    );
    const { problems } = run(coupe('', undefined, 'motor') + part + dash);
    const first = problems.find(({ path }) => path.startsWith('coupe.'));
    expect(first?.source.slice((first?.column ?? 0) - 1)).toMatch(/^motor/);
  });

  it('offer the nearest car, and refuse what is none', () => {
    expect(run(coupe() + fence('yaml launch dash', 'car: cope')).problems).toMatchObject([
      { line: 8, nearest: 'coupe' },
    ]);
    expect(run(coupe() + dash + fence('yaml launch again', 'car: dash')).problems).toMatchObject([
      { path: 'again.car' },
    ]);
    expect(run(fence('yaml launch dash', 'to: 50 km/h')).problems).toMatchObject([{ path: 'dash.car' }]);
  });
});

it('takes a launch that never gets anywhere for a result with a reason', () => {
  const outcome = run(
    coupe() + fence('yaml launch up', 'car: coupe\nslope: 60 %\npedal: 2 %') + '\n`= up.time_to_100_km_h`\n',
  );
  expect(cell(outcome, 'up').result?.summary['time_to_100_km_h']).toBeNull();
  expect(complaints(outcome)[0]).toMatch(/^13:4: up\.time_to_100_km_h has no value: /);
});
