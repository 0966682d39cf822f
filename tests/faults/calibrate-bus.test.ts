/** Logs of launches from the bus of a car, through the built command: power and wheel speed beside the speed. */
import { describe, expect, it } from 'vitest';
import type { CellBlock } from '../../src/notebook/document/outcome.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { command } from '../command.ts';
import { launchCar, loggedLaunch, normals } from '../fit/launch-logs.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const COUPE = fence(
  'car coupe',
  'mass: 1155 kg ± 8 kg',
  'tyres: { radius: 290 mm }',
  'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 300 N m, peak_power: 120 kW, max_speed: 1200 rad/s } }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }',
);
const TRUTH = { power: 0.92, torque: 0.95, grip: 1.05 };
const bus = { wheel: 0.08, power: 400, late: 0.12, tread: 1.013, meter: 0 };
const normal = normals(8);
const log = (): string =>
  loggedLaunch(launchCar(120_000, 300), TRUTH, { rate: 10, noise: 0.06, over: 0.1, to: 130, bus }, normal);
const LOGS = { 'l1.csv': log(), 'l2.csv': log(), 'l3.csv': log() };
const calibrate = (launches: string, ...more: string[]): string =>
  fence('calibrate strip', 'car: coupe', `launch: ${launches}`, 'slope: 0 % ± 0.1 %', 'wind: 0 m/s ± 0.5 m/s', ...more);

const strip = (...more: string[]): string => calibrate('[{ log: l1.csv }, { log: l2.csv }, { log: l3.csv }]', ...more);
const single = (...more: string[]): string => calibrate('[{ log: l1.csv }]', ...more);

interface Told {
  readonly summary: { readonly [key: string]: number | null };
  readonly series: { readonly [key: string]: unknown };
  readonly lines?: readonly string[];
  readonly warnings: readonly string[];
  readonly verdicts: readonly string[];
  readonly intervals?: { readonly of: { readonly [key: string]: { readonly low: number; readonly high: number } } };
}

function told(called: ReturnType<typeof command>): Told {
  const { blocks } = JSON.parse(called.read('out/a.json')) as {
    readonly blocks: readonly { readonly name?: string; readonly result?: Told }[];
  };
  const found = blocks.find(({ name }) => name === 'strip')?.result;
  if (found === undefined) throw new Error('no strip');
  return found;
}

const holds = (found: Told, key: string, truth: number): void => {
  const { low = Number.NaN, high = Number.NaN } = found.intervals?.of[key] ?? {};
  // Twice the interval: one day in twenty lies outside of it.
  expect(truth).toBeGreaterThan(low - (high - low) / 2);
  expect(truth).toBeLessThan(high + (high - low) / 2);
};

describe('three launches with power and wheel speed', () => {
  const asked = strip('fit: [power, torque, grip]');
  const called = command({ 'a.md': COUPE + asked + fence('car known', 'from: strip'), ...LOGS }, ['run', 'a.md']);
  const found = told(called);

  it('give grip and torque apart, with the truth in their intervals', () => {
    expect(called.code).toBe(0);
    holds(found, 'power', 0.92 * 120_000);
    holds(found, 'torque', 0.95 * 300);
    expect(found.summary['grip']).not.toBeNull();
    expect(found.verdicts[0]).toContain('grip and torque part by how much the driven wheels slip');
    expect(found.lines?.join('\n')).toMatch(/peak_torque: [\s\S]*dry_peak: [\s\S]*together:/u);
  });

  it('say what may be promised before and after', () => {
    const width = (key: string): number => (found.intervals?.of[key]?.high ?? 0) - (found.intervals?.of[key]?.low ?? 0);
    expect(width('time_after')).toBeGreaterThan(0);
    expect(width('time_after')).toBeLessThan(0.7 * width('time_before'));
  });

  it('find how late the bus is and how far its tread is off', () => {
    expect(Math.abs((found.summary['tread'] ?? 0) - bus.tread)).toBeLessThan(0.004);
    expect(Math.abs((found.summary['bus_late'] ?? 0) - bus.late)).toBeLessThan(0.04);
  });

  it('stand in pictures of their own, over time', () => {
    expect(Object.keys(found.series)).toEqual(expect.arrayContaining(['read_power', 'read_wheel']));
    expect(called.read('out/a.html')).toContain('as the bus of the car tells it');
  });
});

describe('power and speed', () => {
  const weak = (): string =>
    loggedLaunch(
      launchCar(),
      { power: 0.92, torque: 0.95, copper_loss: 1.3 },
      { rate: 10, noise: 0.06, over: 0.1, to: 110, bus: { ...bus, wheel: 0.08 } },
      normal,
    );
  const WEAK = { 'l1.csv': weak() };
  /** As the log of the car, its losses well known, but for a mass that nobody weighed. */
  const car = (mass: string, copper: string): string =>
    fence(
      'car coupe',
      `mass: ${mass}`,
      'tyres: { radius: 290 mm }',
      'drag_area: 0.68 m^2 ± 0.01 m^2',
      'drive:',
      '  axle: rear',
      '  ratio: 8.5',
      '  efficiency: 97.5 % ± 0.3 %',
      '  unit:',
      '    peak_torque: 160 N m',
      '    peak_power: 60 kW',
      '    max_speed: 1200 rad/s',
      '    power_at_top: 85 % ± 2 %',
      `    copper_loss: ${copper}`,
      '    inverter_efficiency: 97 % ± 0.3 %',
      '    iron_loss: 0.6 W s/rad ± 0.05 W s/rad',
      '    windage_loss: 3.47e-7 W s^3/rad^3 ± 3e-8 W s^3/rad^3',
      'pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }',
    );
  // 1.3 times 6.5 % of 60 kW over the square of 160 N m.
  const COPPER = (1.3 * 0.065 * 60_000) / 160 ** 2;

  it('give the mass where the losses are known, and the lines to go on with it', () => {
    const text =
      car('1100 kg', `${COPPER.toFixed(4)} W/(N m)^2 ± 0.008 W/(N m)^2`) + single('fit: [power, torque, mass]');
    const found = told(command({ 'a.md': text, ...WEAK }, ['run', 'a.md']));
    holds(found, 'mass', 1155);
    const { low = 0, high = 9999 } = found.intervals?.of['mass'] ?? {};
    expect(high - low).toBeLessThan(0.12 * 1155);
    expect(found.verdicts[0]).toContain('of mass and losses one must be known');
    expect(found.lines?.join('\n')).toMatch(/^mass: 1[01]\d\d[\d.]* kg/u);
  });

  it('give the copper loss where the mass is known', () => {
    const text =
      car('1155 kg ± 3 kg', '0.152 W/(N m)^2 ± 0.05 W/(N m)^2') +
      single('fit: [power, torque, copper_loss]', 'meter: 0.3 %');
    const found = cellOf(text, WEAK).result;
    const { low = 0, high = 9 } = found?.intervals?.of['copper_loss'] ?? {};
    expect(found?.lines?.join('\n')).toContain('copper_loss:');
    expect(low - (high - low) / 2).toBeLessThan(COPPER);
    expect(high + (high - low) / 2).toBeGreaterThan(COPPER);
    expect(high - low).toBeLessThan(COPPER);
  });

  it('give neither mass nor copper loss at once', () => {
    const { result } = cellOf(COUPE + single('fit: [power, torque, copper_loss, mass]'), LOGS);
    expect(result?.summary['mass']).toBeNull();
    expect(result?.reasons['mass']).toContain('the power of the pack is what moves the car and what is lost');
  });
});

const rows = (text: string, change: (cells: string[]) => string[]): string =>
  text
    .trimEnd()
    .split('\n')
    .map((row, i) => (i === 0 ? row : change(row.split(',')).join(',')))
    .join('\n');
const each = (change: (text: string) => string): Readonly<Record<string, string>> => ({
  'l1.csv': change(LOGS['l1.csv']),
});

function cellOf(text: string, files: Readonly<Record<string, string>>): CellBlock {
  const { blocks } = runNotebook(text, { file: 'a.md', readFile: path => files[path] ?? '' });
  const found = blocks.find((block): block is CellBlock => block.kind === 'cell' && block.name === 'strip');
  if (found === undefined) throw new Error('no cell');
  return found;
}

describe('what a bus may have wrong', () => {
  const asked = COUPE + single('fit: [power, grip]');
  const warned = (files: Readonly<Record<string, string>>): string => {
    const { result, problem } = cellOf(asked, files);
    return [...(result?.warnings ?? []), ...(result?.verdicts ?? []), problem?.message ?? ''].join('\n');
  };

  it.each<[string, (text: string) => string, RegExp]>([
    [
      'a current that counts negative out of the pack',
      text => rows(text, ([t = '', v = '', w = '', p = '']) => [t, v, w, String(-Number(p))]),
      /logged with a minus: taken as power out of it/u,
    ],
    [
      'the wheels in another unit than said',
      text => rows(text, ([t = '', v = '', w = '', p = '']) => [t, v, String(0.62 * Number(w)), p]),
      /driven wheels are read 0\.6\d? times as quick as in the model/u,
    ],
    [
      'power in another unit than said',
      text => rows(text, ([t = '', v = '', w = '', p = '']) => [t, v, w, String(0.1 * Number(p))]),
      /the power that was read is [\d.]+ kW off the model|No figure: the \w+ comes out as/u,
    ],
    [
      'a speed in miles that is called kilometres',
      text => rows(text, ([t = '', v = '', w = '', p = '']) => [t, String(0.6214 * Number(v)), w, p]),
      /which no \w+ is off by|is 0\.\d+ times what the car cell says/u,
    ],
    ['a column of power without a unit', text => text.replace('pack_power_kW', 'pack_power'), /say no unit/u],
  ])('is told: %s', (_, change, wanted) => {
    expect(warned(each(change))).toMatch(wanted);
  });

  it('is read by voltage and current as well, each at its own times, and by a name that the cell gives', () => {
    const apart = each(text =>
      text
        .trimEnd()
        .split('\n')
        .flatMap((row, i) => {
          const [t = '', v = '', , p = ''] = row.split(',');
          if (i === 0) return ['Time (s),GPS Speed (km/h),Battery Voltage (V),Battery Current (A)'];
          return [`${t},${v},,`, `${(Number(t) + 0.01).toFixed(3)},,350,${((1000 * Number(p)) / 350).toFixed(2)}`];
        })
        .join('\n'),
    );
    const one = cellOf(asked, apart).result;
    expect(one?.series['read_power']).toBeDefined();
    const named = each(text => text.replace('pack_power_kW', 'Kanal 7 kW'));
    const two = cellOf(COUPE + single('fit: [power, grip]', 'columns: { power: Kanal 7 kW }'), named).result;
    expect(two?.series['read_power']).toBeDefined();
  });
});
