import { describe, expect, it } from 'vitest';
import { distanceOf } from '../../src/cycles/statistics.ts';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { UnreadableFile } from '../../src/notebook/files/unreadable-file.ts';
import { pathReference } from '../../src/notebook/fields/reference.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, fence } from './fake.ts';

const FILES: { readonly [path: string]: string } = {
  'hill.csv': `time_s,speed_km_h,altitude_m\n${Array.from({ length: 80 }, (_, i) => `${2 * i},${i < 2 || i > 77 ? 0 : 36},${i / 2}`).join('\n')}`,
  'bad.csv': 'time_s,speed_km_h\n0,0\n10,x\n',
};
const run = (text: string) =>
  runNotebook(text, {
    file: 'a.md',
    readFile: path => {
      const found = FILES[path];
      if (found === undefined) throw new UnreadableFile(`cannot read "${path}"`);
      return found;
    },
  });
const CAR = [
  'mass: 1000 kg',
  'tyres: { radius: 290 mm }',
  'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 250 N m, peak_power: 110 kW } }',
  'pack: { cell: cell_nmc_21700, series: 96, parallel: 6 }',
  'charger: { power: 6.6 kW }',
];
const car = fence('yaml car coupe', CAR.join('\n'));
const cellOf = (kind: string, ...lines: string[]): string =>
  car + fence(`yaml ${kind} week`, ['car: coupe', ...lines].join('\n'));
const summary = (outcome: ReturnType<typeof run>, name = 'week'): Record<string, number> =>
  cell(outcome, name).result!.summary as Record<string, number>;
const inputsOf = (outcome: ReturnType<typeof run>): readonly string[] =>
  outcome.inputs.map(({ path }) => path).filter(path => path.startsWith('week.'));

describe('a drive cell', () => {
  it('drives a schedule from the charge of the car, in the air of the day', () => {
    const outcome = run(cellOf('drive', 'schedule: nycc', 'temperature: 5 degC'));
    expect(complaints(outcome)).toEqual([]);
    const found = summary(outcome);
    expect(found['distance']).toBeCloseTo(distanceOf(scheduleNamed('nycc')), 3);
    expect(found['charge_start']).toBe(0.9);
    expect(found['air_temperature']).toBeCloseTo(278.15, 9);
    expect(cell(outcome, 'week').result!.series['time']!['pack_temperature_K']!.values[0]).toBeCloseTo(278.15, 6);
  });

  it('lists all that it works with, the heat of the pack among it', () => {
    const outcome = run(cellOf('drive', 'schedule: nycc'));
    expect(inputsOf(outcome).toSorted()).toEqual([
      'week.altitude',
      'week.car',
      'week.charge',
      'week.humidity',
      'week.schedule',
      'week.slope',
      'week.soaked',
      'week.surface',
      'week.temperature',
      'week.wind',
    ]);
    const paths = outcome.inputs.map(({ path }) => path);
    expect(paths).toContain('coupe.pack.heat_capacity');
    expect(paths).toContain('coupe.drive.regeneration.kind');
  });

  it('takes a warm pack out of a cold garage', () => {
    const lines = ['schedule: nycc', 'temperature: -10 degC'];
    const [cold, warm] = [run(cellOf('drive', ...lines)), run(cellOf('drive', ...lines, 'soaked: 15 degC'))];
    expect(summary(warm)['consumption']).toBeLessThan(summary(cold)['consumption']!);
    expect(summary(warm)['pack_temperature']).toBeGreaterThan(288);
  });

  it('drives a log with its altitude, and says what was mended', () => {
    const { problems, blocks } = run(cellOf('drive', 'log: hill.csv'));
    expect(problems).toEqual([]);
    const block = blocks.find(each => each.kind === 'cell' && each.name === 'week');
    const result = block?.kind === 'cell' ? block.result : null;
    expect((result!.notes ?? []).some(text => text.startsWith('hill.csv: altitude smoothed'))).toBe(true);
    expect(result!.ledger.out['slope']).toBeGreaterThan(1e5);
  });

  it('tells every phase of a trip with stops', () => {
    const outcome = run(
      cellOf(
        'drive',
        'trip:',
        '  - schedule: nedc_extra_urban',
        '  - stop: 3 h',
        '  - { speed: 60 km/h, distance: 5 km }',
      ),
    );
    const { phases } = cell(outcome, 'week').result!.series;
    expect(phases!['phase']!.values).toEqual(['NEDC, extra-urban part, without gear-change holds', 'steady 60 km/h']);
    expect(phases!['distance_m']!.values[1]).toBeCloseTo(5000, 3);
  });

  it('begins its warnings with what the car can not do', () => {
    const slow = CAR.join('\n').replace('peak_power: 110 kW', 'peak_power: 25 kW');
    const text = fence('yaml car coupe', slow) + fence('yaml drive week', 'car: coupe\nlog: hill.csv\nslope: 18 %');
    const { warnings } = cell(run(text), 'week').result!;
    expect(warnings[0]).toMatch(/below its schedule|can not go on/);
  });

  it.each([
    [['speed: 60 km/h'], '10:8: week.speed: has neither a distance nor a time'],
    [[], 'week: does not say what is driven'],
    [['schedule: wltc', 'charge: 4 %'], '11:9: week.charge: is not above the low end'],
    [['schedule: wlpt'], '10:11: week.schedule: unknown word "wlpt"'],
    [['log: none.csv'], '10:6: week.log: cannot read "none.csv"'],
    [['log: bad.csv'], 'bad.csv:3'],
    [['schedule: udds', 'reserve: 5 %'], 'week.reserve: unknown key'],
  ])('with %j tells it at its place', (lines, expected) => {
    expect(complaints(run(cellOf('drive', ...lines))).join('\n')).toContain(expected);
  });
});

describe('a range cell', () => {
  it('goes at one speed until the pack is empty, whatever length is said for it, or none', () => {
    const [bare, short] = [
      run(cellOf('range', 'speed: 90 km/h')),
      run(cellOf('range', 'speed: 90 km/h', 'distance: 7 km')),
    ];
    expect(complaints(bare)).toEqual([]);
    expect(summary(bare)['range']! / summary(short)['range']!).toBeCloseTo(1, 8);
  });

  it('goes from the high to the low end of the window, reserve left aside, in every season', () => {
    const lines = ['schedule: hwfet', 'temperature: -5 degC'];
    const outcome = run(cellOf('range', ...lines, 'reserve: 20 %') + fence('calc c', 'halves = week.trips / 2'));
    expect(complaints(outcome)).toEqual([]);
    const found = summary(outcome);
    expect(found['charge_start']).toBe(0.97);
    expect(found['charge_end']).toBeCloseTo(0.05 + 0.2 * 0.92, 9);
    const { temperature } = cell(outcome, 'week').result!.series;
    expect(Array.from(temperature!['temperature_K']!.values as Float64Array, k => Math.round(k - 273.15))).toEqual([
      -20, -10, 0, 10, 20, 30, 40,
    ]);
    expect(inputsOf(outcome)).toContain('week.temperatures');
    expect(cell(outcome, 'c').values[0]?.value).toBeCloseTo(found['trips']! / 2, 12);
    expect(summary(run(cellOf('range', ...lines)))['range']).toBeGreaterThan(1.1 * found['range']!);
  });

  it('at the temperature of the day is a point of its own curve', () => {
    const outcome = run(cellOf('range', 'schedule: hwfet', 'temperature: 0 degC', 'temperatures: -10, 0, 25 degC'));
    const curve = cell(outcome, 'week').result!.series['temperature']!['range_m']!.values;
    expect(Number(curve[1]) / summary(outcome)['range']!).toBeCloseTo(1, 6);
    expect(Number(curve[0])).toBeLessThan(Number(curve[1]));
  });

  it('drives a standard test in place of a trip', () => {
    const outcome = run(cellOf('range', 'standard: wltp'));
    expect(complaints(outcome)).toEqual([]);
    expect(cell(outcome, 'week').result!.kind).toBe('standard');
    expect(summary(outcome)['sticker_range']).toBe(summary(outcome)['range']);
    expect(inputsOf(outcome)).toEqual(['week.car', 'week.standard']);
  });

  it.each([
    [['standard: wltp', 'temperature: 0 degC'], '11:14: week.temperature: stands beside standard'],
    [['standard: wltp', 'schedule: hwfet'], '11:11: week.schedule: stands beside standard'],
    [['standard: epa'], '10:11: week.standard: unknown word "epa"'],
    [['schedule: hwfet', 'temperatures: 20, 10 degC'], 'week.temperatures: do not ascend'],
    [['temperature: 0 degC'], 'week: does not say what is driven'],
  ])('with %j tells it at its place', (lines, expected) => {
    expect(complaints(run(cellOf('range', ...lines))).join('\n')).toContain(expected);
  });

  it('without anything above its reserve has no range, with the reason', () => {
    const { result } = cell(run(cellOf('range', 'schedule: hwfet', 'charge: 10 %', 'reserve: 50 %')), 'week');
    expect(result!.summary['range']).toBeNull();
    expect(result!.warnings[0]).toContain('the pack is empty at the start');
  });
});

describe('a steady cell', () => {
  it('has a curve from 10 to 150 km/h, and the speed that is asked about', () => {
    const outcome = run(cellOf('steady', 'speed: 90 km/h'));
    expect(complaints(outcome)).toEqual([]);
    const { series } = cell(outcome, 'week').result!;
    const speeds = Array.from(series['speed']!['speed_m_s']!.values as Float64Array);
    expect(speeds).toHaveLength(15);
    expect(speeds[14]! * 3.6).toBeCloseTo(150, 9);
    expect(Number(series['speed']!['range_m']!.values[8]) / summary(outcome)['range']!).toBeCloseTo(1, 9);
    expect(inputsOf(outcome)).toContain('week.speeds');
  });

  it('takes speeds of its own', () => {
    const outcome = run(cellOf('steady', 'speeds: 30, 60 km/h'));
    expect(cell(outcome, 'week').result!.series['speed']!['range_m']!.values).toHaveLength(2);
    expect(summary(outcome)['speed']! * 3.6).toBeCloseTo(100, 9);
    expect(complaints(run(cellOf('steady', 'speeds: 60, 30 km/h')))[0]).toContain('week.speeds: do not ascend');
  });
});

describe('the inputs of a car', () => {
  it('that only count on the way or at the wall are left out of a launch', () => {
    const paths = (kind: string, ...lines: string[]): readonly string[] =>
      run(cellOf(kind, ...lines)).inputs.map(({ path }) => path);
    const leisure = ['coupe.drive.regeneration.share', 'coupe.charger.efficiency', 'coupe.pack.window_low'];
    const launch = paths('launch');
    for (const path of leisure) expect(launch).not.toContain(path);
    expect(launch).toContain('coupe.pack.charge');
    // What was written down stays.
    expect(launch).toContain('coupe.charger.power');
    expect(paths('drive', 'schedule: hwfet')).toEqual(expect.arrayContaining(leisure));
    expect(paths('charge')).toEqual(expect.arrayContaining(leisure));
  });
});

describe('the reference', () => {
  it('has the new cells', () => {
    expect(pathReference('drive', 80)).toMatch(/soaked +°C or °F/);
    expect(pathReference('range', 80)).toMatch(/standard[^]*mct/);
    expect(pathReference('steady', 80)).toMatch(/speeds +list, km\/h/);
  });
});
