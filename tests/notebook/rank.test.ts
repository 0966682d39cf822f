import { describe, expect, it } from 'vitest';
import { complaints, fence } from './fake.ts';
import { asked, base, dash, numbersOf, resultOf, run, textsOf } from './study-cells.ts';

const wide = base.replace('mass: 1150 kg', 'mass: 900 kg .. 1500 kg');
const rank = (...lines: string[]): string =>
  wide + dash + fence('yaml rank why', ['of: dash', 'points: 64', ...lines].join('\n'));
const result = resultOf(rank('output: dash.time', 'choices: drive.ratio, mass', 'inputs: 3'), 'why');
const ask = asked(wide + dash, 'dash');

describe('a ranking', () => {
  it('finds the input that dominates, by its bar and by its share', () => {
    expect(textsOf(result, 'inputs', 'path')[0]).toBe('base.mass');
    // Three in four at least; the estimate has an error of some hundredths at 64 points.
    expect(numbersOf(result, 'inputs', 'total_1')[0]).toBeGreaterThan(0.75);
    expect(result.verdicts![0]).toMatch(/: most of the uncertainty comes from mass of the base car/);
  });

  it('does not name the first of two that its samples can not tell apart', () => {
    const alike = base + dash;
    const { verdicts } = resultOf(
      alike + fence('yaml rank why', 'of: dash\noutput: dash.time\npoints: 32\ninputs: 2'),
      'why',
    );
    expect(verdicts![0]).toMatch(
      /: the cases that were tried do not tell which input makes most of the uncertainty; perhaps .* or /u,
    );
  });

  it('draws each bar from the 5 % to the 95 % point of the input', () => {
    const at = (value: number): number => ask([{ path: 'base.mass', value }])['time']!;
    expect(numbersOf(result, 'inputs', 'low')[0]).toBeCloseTo(at(930), 9);
    expect(numbersOf(result, 'inputs', 'high')[0]).toBeCloseTo(at(1470), 9);
    expect(result.summary['value']).toBeCloseTo(at(1200), 9);
  });

  it('tells the shares of as many inputs as are asked for', () => {
    expect(numbersOf(result, 'inputs', 'total_1').filter(share => !Number.isNaN(share))).toHaveLength(3);
    expect(textsOf(result, 'inputs', 'path').length).toBeGreaterThan(5);
  });

  it('tells what 1 % more of a choice does', () => {
    const at = (factor: number): number => ask([{ path: 'base.mass', value: 1200 * factor }])['time']!;
    const slope = Math.log(at(1.05) / at(0.95)) / Math.log(1.05 / 0.95);
    const paths = textsOf(result, 'choices', 'path');
    expect(numbersOf(result, 'choices', 'elasticity_1')[paths.indexOf('base.mass')]).toBeCloseTo(slope, 9);
  });

  it.each([
    ['output: dash.tiem', 'did you mean "dash.time"'],
    ['choices: drive.ration', '"drive.ration" is no number among the inputs'],
    ['points: 7', 'why.points'],
  ])('complains of %s', (line, text) => {
    expect(complaints(run(rank(line).replace(/points: 64\n(?=points)/, ''))).join()).toContain(text);
  });
});
