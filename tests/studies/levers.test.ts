/** What would make a launch quicker: each lever against a notebook in which that alone is written otherwise. */
import { describe, expect, it } from 'vitest';
import { leverWords } from '../../src/report/kinds/levers.ts';
import type { Lever, LeverKind } from '../../src/runs/result.ts';
import { leversOf } from '../../src/studies/answers/levers.ts';
import { base, dash, resultOf, runOf } from '../notebook/study-cells.ts';

const text = base + dash;

function leversIn(notebook: string): readonly Lever[] {
  const { question } = runOf(notebook, 'dash');
  return leversOf(question, resultOf(notebook, 'dash'));
}

const find = (levers: readonly Lever[], what: LeverKind): Lever => levers.find(each => each.what === what)!;
const timeIn = (notebook: string): number => Number(resultOf(notebook, 'dash').summary['time']);
const launched = (...lines: readonly string[]): string => text.replace('car: base', ['car: base', ...lines].join('\n'));

describe('a lever of a launch', () => {
  const levers = leversIn(text);
  const own = timeIn(text);

  it('is worth what a notebook with that alone written otherwise says', () => {
    const lighter = find(levers, 'mass');
    expect(lighter.from - lighter.to).toBe(50);
    expect(lighter.time! / timeIn(text.replace(`mass: ${lighter.from} kg`, `mass: ${lighter.to} kg`))).toBeCloseTo(
      1,
      5,
    );
    for (const { from, to, time, gain } of levers.filter(({ what }) => what === 'ratio')) {
      expect(time! / timeIn(text.replace(`ratio: ${from}`, `ratio: ${to}`))).toBeCloseTo(1, 5);
      expect(own - time!).toBeCloseTo(gain!, 9);
    }
  });

  it('is what a study that changes it says, the mass of other cells with it', () => {
    const { to, time, heavier } = find(levers, 'parallel');
    const swept = resultOf(
      `${text}\n\`\`\`yaml sweep more\nof: dash\noutputs: dash.time, base.mass\nover: [{ path: pack.parallel, values: [${to}] }]\n\`\`\`\n`,
      'more',
    );
    const { dash_time, base_mass } = swept.series['rows']!;
    expect(dash_time!.values[0]).toBeCloseTo(time!, 5);
    expect(Number(base_mass!.values[0]) - 1150).toBeCloseTo(heavier, 9);
    expect(heavier).toBeGreaterThan(0);
  });

  it('stands only where there is something to change', () => {
    expect(levers.map(({ what }) => what)).not.toContain('warmth');
    expect(levers.map(({ what }) => what)).not.toContain('pedal');
    const weak = text.replace('parallel: 2', 'parallel: 1');
    const cold = leversIn(weak.replace('car: base', 'car: base\ntemperature: -10 degC\npedal: 80 %'));
    expect(find(cold, 'warmth')).toMatchObject({ from: 263.15, to: 298.15 });
    expect(find(cold, 'warmth').gain).toBeGreaterThan(0);
    expect(find(cold, 'pedal')).toMatchObject({ from: 0.8, to: 1 });
    expect(timeIn(weak.replace('car: base', 'car: base\ntemperature: -10 degC'))).toBeCloseTo(
      find(cold, 'pedal').time!,
      4,
    );
    // A launch that does not get there has no time to better.
    expect(leversIn(launched('slope: 60 %'))).toEqual([]);
  });

  it('moves the weight to the axle that is driven, and friction on the road of the launch', () => {
    const { from, to, gain } = find(leversIn(launched('surface: wet')), 'weight on the driven axle');
    expect(Math.abs(to - from)).toBeCloseTo(0.02, 12);
    expect(gain).toBeGreaterThan(0);
    const [dry, wet] = [find(levers, 'friction').from, find(leversIn(launched('surface: wet')), 'friction').from];
    expect(wet).toBeLessThan(dry);
  });

  it('has a reason in place of a time where no car can be so', () => {
    const tight = leversIn(text.replace('series: 96', 'series: 104'));
    // 114 cells of 4.2 V on an inverter that bears 450 V.
    expect(find(tight, 'series').reason).toMatch(/^greatest voltage is 450 V, and 114 cells in series have 4\d\d V/u);
    for (const { time, gain, reason } of tight) {
      expect(time === null).toBe(reason !== '');
      expect(gain === null).toBe(reason !== '');
    }
  });
});

describe('the words for levers', () => {
  const lever = (what: LeverKind, gain: number | null, from = 1, to = 2): Lever => ({
    what,
    from,
    to,
    heavier: what === 'parallel' ? 33.4 : 0,
    time: gain === null ? null : 8 - gain,
    gain,
    reason: gain === null ? 'it can not be' : '',
  });
  const said = (...levers: readonly Lever[]): string =>
    leverWords({ ...resultOf(text, 'dash'), levers }, '100 km/h', 'metric').replaceAll('\u00a0', ' ');

  it('name what saves most first, and two at most', () => {
    expect(
      said(
        lever('mass', 0.1, 1150, 1100),
        lever('parallel', 0.62, 4, 5),
        lever('series', null, 96, 106),
        lever('ratio', 0.3, 8.2, 9.02),
        lever('power', 0.05, 90e3, 99e3),
      ),
    ).toBe(
      'To 100 km/h, one thing at a time, this would save: 0.62 s by 5 cells in parallel in place of 4 (33 kg more); 0.30 s by a ratio of 9.02 in place of 8.20.',
    );
  });

  it('say so where nothing is worth its while', () => {
    expect(said(lever('mass', 0.01), lever('charge', -1))).toBe(
      'No single step of a usual size saves 0.02 s to 100 km/h.',
    );
  });
});
