/** Intervals in quoted figures, in comparisons, in sweeps and in pictures, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const notebook = (prose: string): string => `# A van

${prose}

\`\`\`yaml car van
mass: 1180 kg ± 15 kg
tyres: { from: tyre_narrow, size: 165/80 R 14 }
drive: { axle: rear, unit: unit_60kw, ratio: 9 }
pack: { cell: cell_nmc_60ah, series: 90, parallel: 2 }
\`\`\`

\`\`\`yaml launch hop
car: van
to: 60 km/h
\`\`\`

\`\`\`calc twice
twice = 2 * hop.time
\`\`\`
`;

const run = (prose: string, samples: number): ReturnType<typeof command> =>
  command({ 'a.md': notebook(prose) }, ['run', 'a.md', '--samples', String(samples)]);
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('a quoted figure', () => {
  it('shows its interval where two brackets stand behind it, the same as the table of times', () => {
    const page = plain(run('It takes `= hop.time []`, or `= hop.time`.', 48).read('out/a.html'));
    const [, value = '', ends = ''] = /It takes <output>([\d.]+) (\[[\d.]+, [\d.]+\]) s<\/output>/u.exec(page) ?? [];
    expect(ends).not.toBe('');
    expect(page).toMatch(/or <output>[\d.]+ s<\/output>/u);
    expect(page).toContain(`${value} ${ends} s`);
    expect(page.split(ends).length).toBeGreaterThan(2);
  });

  it('is the bare value where no samples were taken', () => {
    expect(plain(run('It takes `= hop.time []`.', 0).read('out/a.html'))).toMatch(
      /It takes <output>[\d.]+ s<\/output>/u,
    );
  });

  it('is told where nothing has an interval, with the cure', () => {
    const called = run('It takes `= 2 * hop.time []` and `= twice.twice []`.', 0);
    expect(called.code).toBe(1);
    const said = called.out.replaceAll(/\s+/gu, ' ');
    expect(said.split('only a figure of a run').length).toBe(3);
    expect(said).toMatch(/only a figure of a run, a spread or a comparison has an interval; expected one by its name/u);
    expect(plain(called.read('out/a.html'))).toContain('⚠ line 3: only a figure of a run');
  });
});

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly summary: { readonly [key: string]: number };
      readonly series: { readonly [name: string]: { readonly [key: string]: { readonly values: readonly number[] } } };
      readonly intervals?: {
        readonly samples: number;
        readonly of: { readonly [key: string]: { readonly low: number; readonly high: number } };
      };
    };
  }[];
}

describe('a comparison and a sweep of launches', () => {
  const cell = (head: string, ...lines: string[]): string => `\n\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n`;
  const called = run(
    'The light one takes `= cars.light_hop_time []`.' +
      cell('car light', 'from: van', 'mass: 1080 kg ± 15 kg') +
      cell('launch lane', 'car: light', 'to: 60 km/h') +
      cell('compare cars', 'of: hop', 'cars: [van, light]') +
      cell('sweep ratios', 'of: hop', 'over: [{ path: drive.ratio, from: 6, to: 12, steps: 4 }]'),
    64,
  );
  const { blocks } = JSON.parse(called.read('out/a.json')) as Exported;
  const of = (name: string) => {
    const result = blocks.find(each => each.name === name)?.result;
    if (result === undefined) throw new Error(`no ${name}: ${called.out}${called.err}`);
    return result;
  };
  const page = plain(called.read('out/a.html'));
  const cars = of('cars');
  const ends = (key: string) => cars.intervals?.of[key] ?? { low: Number.NaN, high: Number.NaN };

  it('give the first car the interval that its own run has', () => {
    expect(ends('van_hop_time')).toEqual(of('hop').intervals?.of['time']);
  });

  it('draw alike in all cars: what they share falls out of the differences', () => {
    // 100 kg lighter on the same scales, whatever the scales are off by.
    expect(ends('light_mass_change').low).toBeCloseTo(-100, 9);
    expect(ends('light_mass_change').high).toBeCloseTo(-100, 9);
    const [time, change] = [ends('light_hop_time'), ends('light_hop_time_change')];
    const apart = (cars.summary['light_hop_time'] ?? Number.NaN) - (cars.summary['van_hop_time'] ?? Number.NaN);
    expect(change.low).toBeLessThan(apart);
    expect(change.high).toBeGreaterThan(apart);
    expect(change.high - change.low).toBeLessThan(0.5 * (time.high - time.low));
  });

  it('show them in the columns, in the picture and in prose', () => {
    expect(page).toMatch(/★ 2?\d?[\d.]+<\/strong> \[[\d.]+, [\d.]+\]<br><small>−[\d.]+ \[−[\d.]+, −[\d.]+\]<\/small>/u);
    expect(page).toContain('Pale bars: nine of ten lie between their ends.');
    expect(page).toMatch(/The light one takes <output>[\d.]+ \[[\d.]+, [\d.]+\] s<\/output>/u);
  });

  it('have every point of the sweep between its ends, and a band in its picture', () => {
    const { rows = {}, within = {} } = of('ratios').series;
    const [value, low, high] = [rows['hop_time'], within['hop_time_low'], within['hop_time_high']].map(
      each => each?.values ?? [],
    );
    expect(value?.length).toBe(4);
    for (const [k, each] of (value ?? []).entries()) {
      expect(low?.[k]).toBeLessThan(each);
      expect(high?.[k]).toBeGreaterThan(each);
    }
    expect(page).toContain('The pale band: nine of ten lie within it');
  });

  it('mark launches side by side with the intervals of their times', () => {
    expect(page).toContain('Pale bars: nine of ten of each reach that speed between their ends.');
  });
});

describe('pictures of drives, ranges and charges', () => {
  const more = (head: string, ...lines: string[]): string =>
    `\n\`\`\`yaml ${head}\ncar: van\n${lines.join('\n')}\n\`\`\`\n`;
  const page = plain(
    run(
      more('drive once', 'trip: [{ speed: 50 km/h, distance: 4 km }]') +
        more('range far', 'trip: [{ speed: 70 km/h, distance: 20 km }]') +
        more('steady fast', 'speed: 90 km/h') +
        more('charge night', 'from: 20 %', 'to: 80 %', 'supply: { current: 16 A }'),
      32,
    ).read('out/a.html'),
  );

  it.each(['arrive with a charge', 'get to the end of the charge', 'have a range', 'are done'])(
    'have a bar in which nine of ten %s',
    what => {
      expect(page).toContain(`The pale bar: nine of ten ${what} between its ends.`);
    },
  );
});
