/** Parts that a calibration measured, in later cells and in another notebook: through the built command. */
import { describe, expect, it } from 'vitest';
import { runNotebook } from '../../src/notebook/run.ts';
import { command } from '../command.ts';
import { CALM, csvOf, normals, runsOn } from '../fit/coast-logs.ts';
import { launchCar, loggedLaunch } from '../fit/launch-logs.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const PACK = 'pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }';
const COUPE = fence(
  'car coupe',
  'mass: 1155 kg ± 8 kg',
  'drag_area: 0.7 m^2 .. 0.8 m^2',
  'tyres: { from: tyre_touring, size: 175/70 R 13 }',
  'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 160 N m, peak_power: 60 kW, max_speed: 1200 rad/s } }',
  PACK,
);

const normal = normals(12);
const { there, back } = runsOn({ ...CALM, rate: 5, pairs: 3 }, normal);
const launch = (): string =>
  loggedLaunch(launchCar(), { power: 0.92, torque: 0.95 }, { rate: 10, noise: 0.06, over: 0.1, to: 110 }, normal);
const FILES = {
  ...Object.fromEntries(there.map((log, i) => [`t${i}.csv`, csvOf(log)])),
  ...Object.fromEntries(back.map((log, i) => [`b${i}.csv`, csvOf(log)])),
  'l1.csv': launch(),
  'l2.csv': launch(),
  'l3.csv': launch(),
};
const ROAD = fence(
  'calibrate road',
  'car: coupe',
  'coast:',
  ...[0, 1, 2].flatMap(k => [`  - { log: t${k}.csv, direction: there }`, `  - { log: b${k}.csv, direction: back }`]),
  'test_mass: 1230 kg ± 5 kg',
  'turning_mass: 35 kg ± 3 kg',
);
const PULL = fence(
  'calibrate pull',
  'car: coupe',
  'launch: [{ log: l1.csv }, { log: l2.csv }, { log: l3.csv }]',
  'fit: [power, torque]',
);
const next = (...parts: string[]): string =>
  fence('car next', 'mass: 900 kg ± 0 kg', ...parts, PACK) +
  fence('steady bypass', 'car: next', 'speed: 90 km/h') +
  fence('launch go', 'car: next', 'to: 80 km/h');

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly parts?: { readonly [kind: string]: readonly string[] };
      readonly intervals?: {
        readonly of: {
          readonly [key: string]: { readonly low: number; readonly high: number; readonly standard: number };
        };
      };
    };
  }[];
}

describe('what a calibration found of a part', () => {
  const cells =
    fence('part road_of', 'kind: road_load', 'from: road') +
    fence('part unit_of', 'kind: unit', 'from: pull') +
    fence('part tyre_of', 'kind: tyre', 'from: road') +
    next('tyres: tyre_of', 'drive: { axle: rear, ratio: 7, unit: unit_of }', 'road_load: road_of');
  const called = command({ 'a.md': COUPE + ROAD + PULL + cells, ...FILES }, ['run', 'a.md', '--samples', '16']);
  const exported = JSON.parse(called.read('out/a.json')) as Exported;
  const cell = (name: string) => exported.blocks.find(each => each.name === name)?.result;
  const parts = { ...cell('road')?.parts, ...cell('pull')?.parts };
  const of = (from: Exported, name: string, key: string) =>
    from.blocks.find(each => each.name === name)?.result?.intervals?.of[key];

  it('is a part of later cells, its numbers measured together', () => {
    expect(called.code).toBe(0);
    expect(parts['road_load']?.join('\n')).toMatch(/f0: [\d.]+ N ± [\d.]+ N[\s\S]*inputs: \[f0, f1, f2\]/u);
    expect(parts['unit']?.join('\n')).toMatch(
      /peak_power: [\d.]+ W ± [\d.]+ W[\s\S]*inputs: \[peak_power, peak_torque\]/u,
    );
    expect(parts['tyre']?.join('\n')).toMatch(/size: "?175\/70 R 13"?\nrolling_resistance: 0\.0\d+ ± 0\.00\d+/u);
  });

  it('says the same in another notebook, by the lines that the page has to copy', () => {
    const copied = Object.entries(parts)
      .map(([kind, lines]) => fence(`part ${kind}_of`, ...lines))
      .join('');
    const text =
      copied + next('tyres: tyre_of', 'drive: { axle: rear, ratio: 7, unit: unit_of }', 'road_load: road_load_of');
    const other = command({ 'a.md': text }, ['run', 'a.md', '--samples', '16']);
    expect(other.code).toBe(0);
    const there = JSON.parse(other.read('out/a.json')) as Exported;
    for (const [name, key] of [
      ['bypass', 'consumption'],
      ['go', 'time'],
    ] as const) {
      const [one, two] = [of(exported, name, key), of(there, name, key)];
      expect(two?.standard).toBeGreaterThan(0);
      expect((two?.standard ?? 0) / (one?.standard ?? 1)).toBeCloseTo(1, 2);
    }
  });

  it('stands on the page before and after, with brackets', () => {
    expect(of(exported, 'road', 'force_80_km_h')?.high).toBeGreaterThan(
      of(exported, 'road', 'force_80_km_h')?.low ?? 0,
    );
    const width = (key: string): number => of(exported, 'road', key)?.standard ?? 0;
    expect(width('force_80_km_h')).toBeLessThan(0.5 * width('force_before'));
    expect(called.read('out/a.html')).toContain('As a part by itself: the road load');
  });
});

describe('a part that', () => {
  const problems = (text: string): string =>
    runNotebook(text, { file: 'a.md', readFile: path => FILES[path as 'l1.csv'] ?? '' })
      .blocks.flatMap(block => (block.kind === 'cell' && block.problem !== null ? [block.problem] : []))
      .map(({ message, expected }) => `${message} ${expected}`)
      .join('\n');

  it('was not measured is told with what was', () => {
    expect(problems(COUPE + PULL + fence('part p', 'kind: tyre', 'from: pull'))).toContain(
      'no part of kind tyre is called "pull"',
    );
  });

  it('says a number anew leaves the others as sure as they were', () => {
    const text =
      COUPE +
      PULL +
      fence('part p', 'kind: unit', 'from: pull', 'peak_power: 70 kW') +
      fence('car c', 'mass: 900 kg', 'tyres: { radius: 290 mm }', 'drive: { axle: rear, ratio: 7, unit: p }', PACK);
    expect(problems(text)).toBe('');
  });

  it('hangs together by paths that it does not have is refused there', () => {
    const text = fence(
      'part p',
      'kind: road_load',
      'f0: 100 N',
      'f1: 1 N s/m',
      'f2: 0.4 N s^2/m^2',
      'together: [{ inputs: [f0, f9], covariance: [1, 0, 1] }]',
    );
    expect(problems(text)).toContain('"f9" is no number of this car');
  });
});
