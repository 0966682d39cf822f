/** Logs of launches, through the built command, and what may be wrong with them. */
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
  'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 160 N m, peak_power: 60 kW, max_speed: 1200 rad/s } }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }',
);
const normal = normals(5);
const log = (): string =>
  loggedLaunch(
    launchCar(),
    { power: 0.92, torque: 0.95, torque_rise: 0.2 },
    { rate: 10, noise: 0.06, over: 0.1, to: 110 },
    normal,
  );
const LOGS = { 'l1.csv': log(), 'l2.csv': log(), 'l3.csv': log() };
const strip = (...more: string[]): string =>
  fence('calibrate strip', 'car: coupe', 'launch: [{ log: l1.csv }, { log: l2.csv }, { log: l3.csv }]', ...more);

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly intervals?: { readonly of: { readonly [key: string]: { low: number; high: number } } };
    };
  }[];
}

function cellOf(text: string, files: Readonly<Record<string, string>>): CellBlock {
  const { blocks } = runNotebook(text, { file: 'a.md', readFile: path => files[path] ?? '' });
  const found = blocks.find((block): block is CellBlock => block.kind === 'cell' && block.name === 'strip');
  if (found === undefined) throw new Error('no cell');
  return found;
}

describe('three launches', () => {
  const launches = fence('launch before', 'car: coupe') + fence('launch after', 'car: measured');
  const called = command({ 'a.md': COUPE + strip() + fence('car measured', 'from: strip') + launches, ...LOGS }, [
    'run',
    'a.md',
    '--samples',
    '64',
  ]);
  const of = (name: string, key: string): { low: number; high: number } =>
    (JSON.parse(called.read('out/a.json')) as Exported).blocks.find(each => each.name === name)?.result?.intervals?.of[
      key
    ] ?? {
      low: Number.NaN,
      high: Number.NaN,
    };

  it('give power and torque with intervals that hold the truth', () => {
    expect(called.code).toBe(0);
    expect(of('strip', 'power').low).toBeLessThan(55_200);
    expect(of('strip', 'power').high).toBeGreaterThan(55_200);
    expect(of('strip', 'torque').low).toBeLessThan(152);
    expect(of('strip', 'torque').high).toBeGreaterThan(152);
  });

  it('leave a narrower promise, about what the logs show', () => {
    const [before, after] = [of('before', 'time_to_100_km_h'), of('after', 'time_to_100_km_h')];
    expect(after.high - after.low).toBeLessThan(0.7 * (before.high - before.low));
    const rows = LOGS['l1.csv']
      .trimEnd()
      .split('\n')
      .slice(1)
      .map(row => row.split(',').map(Number));
    const at = (kmh: number): number => rows.find(([, v = 0]) => v >= kmh)?.[0] ?? Number.NaN;
    // Two seconds or so before the pedal, and the first row that moves.
    const taken = at(100) - at(3);
    expect(Math.abs(taken - (after.low + after.high) / 2)).toBeLessThan(0.7);
  });

  it('say first what can not be told apart, and show the lines', () => {
    const page = called.read('out/a.html');
    expect(page.indexOf('speed over time gives power over mass')).toBeGreaterThan(0);
    expect(page).toContain('Copy these lines');
  });
});

describe('logs of launches that are wrong', () => {
  const rows = LOGS['l2.csv'].trimEnd().split('\n');
  const without = (change: (rows: string[]) => string[]): typeof LOGS => ({
    ...LOGS,
    'l2.csv': `${change([...rows]).join('\n')}\n`,
  });

  it.each<[string, (rows: string[]) => string[], RegExp]>([
    ['begin on the way', all => [all[0] ?? '', ...all.slice(60)], /goes [\d.]+ km\/h already where the log begins/u],
    [
      'in which the foot is lifted',
      all =>
        all.map((row, i) =>
          i < 90 ? row : row.replace(/,.*/u, v => `,${(Number(v.slice(1)) - Math.min(24, (i - 90) * 1.5)).toFixed(2)}`),
        ),
      /the speed falls by/u,
    ],
    ['with a gap', all => all.filter((_, i) => i < 70 || i > 90), /the clock goes on by/u],
  ])('%s are refused in their line', (_, change, wanted) => {
    const { problem } = cellOf(COUPE + strip(), without(change));
    expect(problem?.message).toMatch(wanted);
    expect(problem?.file).toBe('l2.csv');
  });

  it('asked for what they never give name what they do', () => {
    const called = command({ 'a.md': COUPE + strip('fit: [power, colour]'), ...LOGS }, ['check', 'a.md']);
    expect(called.code).toBe(1);
    expect((called.out + called.err).replaceAll(/\s+/gu, ' ')).toMatch(
      /"colour" is nothing that a launch gives.*power, power_at_top, grip/u,
    );
    expect(called.out + called.err).toContain('strip.fit');
  });

  it('asked for power and mass give neither, and say what to do', () => {
    const { result } = cellOf(COUPE + strip('fit: [power, mass]'), LOGS);
    expect(result?.summary['power']).toBeNull();
    expect(result?.reasons['power']).toContain('the mass from the scales');
  });
});
