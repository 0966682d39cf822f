/** How many samples a page takes, and that one figure is one figure on it, through the built command. */
import { describe, expect, it } from 'vitest';
import type { Coverage } from '../../src/runs/result.ts';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const car = fence(
  'car van',
  'mass: 1180 kg ± 20 kg',
  'tyres: { from: tyre_narrow, size: 165/80 R 14 }',
  'drive: { axle: rear, unit: unit_60kw, ratio: 9 }',
  'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2 }',
  'charger: { power: 3.7 kW }',
);
const hop = fence('launch hop', 'car: van');
const cruise = fence('steady cruise', 'car: van', 'speed: 80 km/h', 'temperature: 0 degC');
const night = fence('charge night', 'car: van', 'from: 20 %', 'to: 80 %');

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly summary: { readonly [key: string]: number | null };
      readonly intervals?: { readonly samples: number; readonly of: { readonly [key: string]: Coverage } };
    };
  }[];
}

function run(text: string, ...args: string[]) {
  const called = command({ 'a.md': text }, ['run', 'a.md', ...args]);
  const { blocks } = JSON.parse(called.read('out/a.json')) as Exported;
  const counts = new Set(blocks.flatMap(({ result }) => result?.intervals?.samples ?? []));
  const of = (name: string) => blocks.find(each => each.name === name)?.result;
  return { counts: [...counts], of, out: called.out.replaceAll(/\s+/gu, ' '), page: called.read('out/a.html') };
}

describe('samples', () => {
  it('are as many as were asked for, of runs that take hours too', () => {
    const { counts, page, out } = run(car + hop + cruise + night, '--samples', '40');
    expect(counts).toEqual([40]);
    expect(page).toContain('by 40 draws of the uncertain inputs');
    expect(out).toContain('40 samples of');
    expect(run(`---\nsamples: 24\n---\n${car}${hop}`, '--samples', '40').counts).toEqual([24]);
  });

  it('are one number on a page where nobody asks: so many that the ends stand still, or the most, or as many as are not too much work', () => {
    const launches = run(car + hop + night);
    const [count = 0] = launches.counts;
    expect(launches.counts).toHaveLength(1);
    const { error = 1, standard = 0, known } = launches.of('hop')?.intervals?.of['time'] ?? {};
    // Half a unit of the first digit of the uncertainty (JCGM 101:2008, 7.9.2).
    const still = known === true && error <= 0.5 * 10 ** Math.floor(Math.log10(standard));
    // A charge is some work: more samples than fit into that of a page are not taken, and the page says so.
    expect(still || count === 1024 || launches.page.includes('as many as a page takes unasked')).toBe(true);
    expect(count).toBeGreaterThanOrEqual(64);
    expect(run(car + hop + cruise).counts.every(each => each <= 128)).toBe(true);
  });

  it('are not taken unasked of a run that is too much work for a page, which says so; the others of the page have theirs', () => {
    const slow = fence(
      'car slow',
      'mass: 1280 kg ± 20 kg',
      'tyres: { radius: 0.33 m }',
      // Late on every road but the slowest: its motor is at its greatest speed at 26 km/h.
      'drive: { axle: rear, unit: { peak_torque: 360 N m, peak_power: 45 kW, max_speed: 2300 rpm }, ratio: 11 }',
      'pack: { cell: cell_nmc_60ah, series: 200, parallel: 1 }',
    );
    const far = fence('range far', 'car: slow', 'schedule: wltc_medium', 'temperatures: 20 degC');
    const found = run(slow + far + car + hop);
    expect(found.of('far')?.summary['range']).toBeGreaterThan(0);
    expect(found.of('far')?.intervals).toBeUndefined();
    expect(found.out).toContain(
      'No intervals: 32 samples of this run are more work than a page takes unasked; --samples 64',
    );
    expect(found.page).toContain('No intervals: 32 samples of this run');
    expect(found.of('hop')?.intervals?.samples).toBeGreaterThanOrEqual(64);
  });

  it('give the same page for the same text', () => {
    expect(run(car + hop).page).toBe(run(car + hop).page);
  });
});

describe('a figure', () => {
  it.each([
    ['', ['--samples', '48']],
    ['samples: 96', ['--samples', '48']],
    ['', []],
  ])('has one value and one interval in its run and in spreads of it: %s', (own, args) => {
    const sure = fence('spread sure', 'of: hop, night', ...(own === '' ? [] : [own]));
    const found = run(car + hop + night + sure, ...args);
    const [apart, together] = [found.of('hop'), found.of('sure')];
    expect(found.counts).toHaveLength(1);
    expect(together?.summary['hop_time']).toBe(apart?.summary['time']);
    expect(together?.intervals?.of['hop_time']).toEqual(apart?.intervals?.of['time']);
    expect(found.of('night')?.intervals?.of['time']).toEqual(together?.intervals?.of['night_time']);
  });
});
