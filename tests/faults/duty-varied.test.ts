/** Duty figures that are varied like those of any run: intervals, sweeps, seeks; and the table as a reader meets it. Through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const cells = (ratio: number, ...sheets: string[]): string =>
  fence(
    'car saloon',
    'mass: 940 kg ± 10 kg',
    'tyres: { from: tyre_touring, size: 155/80 R 13 }',
    `drive: { axle: rear, ratio: ${ratio}, unit: { peak_torque: 150 N m, peak_power: 55 kW, max_speed: 11000 rpm } }`,
    'pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }',
  ) +
  fence('launch dash', 'car: saloon', 'to: 80 km/h') +
  fence('sheet card', 'car: saloon') +
  fence('duty parts', 'of: [dash]', ...sheets);

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly summary: { readonly [key: string]: number | null };
      readonly series: { readonly [name: string]: { readonly [key: string]: { readonly values: readonly number[] } } };
      readonly intervals?: { readonly of: { readonly [key: string]: { readonly low: number; readonly high: number } } };
    };
  }[];
}
const resultOf = (called: ReturnType<typeof command>, name: string) => {
  const found = (JSON.parse(called.read('out/a.json')) as Exported).blocks.find(each => each.name === name)?.result;
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};

describe('duty figures', () => {
  const text =
    cells(8.2, 'shafts: { torque: 1400 N m }') +
    fence(
      'sweep ratios',
      'of: [parts]',
      'over: [{ path: saloon.drive.ratio, values: [7.4, 8.2] }]',
      'outputs: [parts.shaft_torque, parts.pack_current_10_s]',
    ) +
    fence(
      'seek longest',
      'of: [card, parts]',
      'vary: [{ path: saloon.drive.ratio, from: 4, to: 12 }]',
      'find: largest',
      'where: [card.top_speed >= 130 km/h, parts.shaft_torque <= 900 N m]',
      'scan: 6',
    ) +
    'Over ten seconds `= parts.pack_current_10_s`, that is `= parts.pack_current_10_s / 60 A` times the hour.\n';
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '16']);

  it('have intervals, a shaft by its dynamic factor', () => {
    expect(called.code).toBe(0);
    const { of } = resultOf(called, 'parts').intervals ?? { of: {} };
    for (const key of ['pack_current_10_s', 'shaft_torque', 'coolant_heat']) {
      const { low = Number.NaN, high = Number.NaN } = of[key] ?? {};
      const value = resultOf(called, 'parts').summary[key] ?? Number.NaN;
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
    }
    expect(Object.keys(of)).not.toContain('fails');
  });

  it('are swept: the same as a cell with that ratio', () => {
    const other = command({ 'a.md': cells(7.4, 'shafts: { torque: 1400 N m }') }, ['run', 'a.md', '--samples', '0']);
    const columns = Object.values(resultOf(called, 'ratios').series).flatMap(each => Object.values(each));
    const swept = columns.flatMap(({ values }) => [...values]);
    for (const [of, key] of [
      [other, 'shaft_torque'],
      [called, 'shaft_torque'],
      [called, 'pack_current_10_s'],
    ] as const) {
      const one = resultOf(of, 'parts').summary[key] ?? Number.NaN;
      expect(Math.min(...swept.map(each => Math.abs(each / one - 1)))).toBeLessThan(1e-6);
    }
  });

  it('are sought beside those of other runs: the longest ratio that keeps a speed and the shafts', () => {
    const { summary } = resultOf(called, 'longest');
    const values = Object.entries(summary).filter(([, value]) => typeof value === 'number');
    expect(values.length).toBeGreaterThan(0);
    const torque = values.find(([key]) => key.includes('shaft_torque'))?.[1] ?? Number.NaN;
    expect(torque).toBeLessThanOrEqual(900 * (1 + 1e-6));
    expect(torque).toBeGreaterThan(700);
  });
});

describe('the table', () => {
  it('has the parts first of which a sheet is entered, and folds the others', () => {
    const page = command(
      { 'a.md': cells(8.2, 'pack: { continuous: 120 A, pulses: [{ current: 360 A, time: 10 s }] }') },
      ['run', 'a.md', '--samples', '0'],
    ).read('out/a.html');
    const named = page.indexOf('What the parts must stand whose data sheets are entered');
    const folded = page.indexOf('What to look for in the data sheets of the others');
    expect(named).toBeGreaterThan(0);
    expect(folded).toBeGreaterThan(named);
    // sqrt(120^2 + (360^2 - 120^2) 10 / 60) = 183.3 A, by hand.
    expect(page).toContain('183 A would spend the budget of its 360 A for 10 s over 120 A');
  });
});
