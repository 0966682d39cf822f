import { describe, expect, it } from 'vitest';
import { ROW_SETTINGS } from '../../src/studies/question/study-model.ts';
import { complaints, fence } from './fake.ts';
import { asked, base, dash, numbersOf, plain, quick, resultOf, run, textsOf } from './study-cells.ts';

const notebook = base + quick + dash;
const sweep = (...lines: string[]): string => notebook + fence('yaml sweep gears', ['of: dash', ...lines].join('\n'));
/** As the rows of a sweep are asked, and as the cell itself is. */
const ask = asked(notebook, 'dash', ROW_SETTINGS);
const askCell = asked(notebook, 'dash');
const ratios = ['over:', '  - path: drive.ratio', '    from: 6', '    to: 12', '    steps: 4'];

describe('a sweep', () => {
  it('has in each row what the car does with that value', () => {
    const result = resultOf(sweep(...ratios), 'gears');
    expect(numbersOf(result, 'rows', 'at_1')).toEqual([6, 8, 10, 12]);
    expect(numbersOf(result, 'rows', 'dash_time')).toEqual(
      [6, 8, 10, 12].map(value => ask([{ path: 'base.drive.ratio', value }])['time']),
    );
    for (const [row, value] of [6, 8, 10, 12].entries()) {
      const ofCell = askCell([{ path: 'base.drive.ratio', value }])['time']!;
      expect(Math.abs(numbersOf(result, 'rows', 'dash_time')[row]! / ofCell - 1)).toBeLessThan(5e-7);
    }
  });

  it('goes in steps of a width too, of temperatures as well, and in whole ones of what is counted', () => {
    const over = (...lines: string[]): readonly number[] =>
      numbersOf(
        resultOf(sweep('over:', ...lines.map((line, k) => `  ${k === 0 ? '-' : ' '} ${line}`)), 'gears'),
        'rows',
        'at_1',
      );
    expect(over('path: drive.ratio', 'from: 6', 'to: 9.5', 'step: 1.5')).toEqual([6, 7.5, 9]);
    const warm = over('path: dash.temperature', 'from: 0 degC', 'to: 30 degC', 'step: 15 degC');
    expect(warm.map(each => Number(each.toFixed(9)))).toEqual([273.15, 288.15, 303.15]);
    expect(over('path: pack.parallel', 'from: 1', 'to: 5', 'step: 2')).toEqual([1, 3, 5]);
    expect(over('path: pack.parallel', 'from: 2', 'to: 4')).toEqual([2, 3, 4]);
  });

  it.each([
    ['path: drive.ratio, from: 6, to: 9, step: 0', 'step: is not above 0'],
    ['path: drive.ratio, from: 6, to: 9, step: 1, steps: 3', 'step: stands beside steps; expected one of the two'],
    ['path: drive.ratio, from: 6, to: 9, step: 1e-9', 'step: makes more than 10000 values'],
    ['path: pack.parallel, from: 1, to: 5, step: 0.5', 'step: is no whole number'],
    ['path: pack.parallel, from: 1, to: 1000000000', 'gears.over[1]: makes more than 10000 values'],
  ])('tells what is wrong with { %s }', (row, message) => {
    expect(complaints(run(sweep('over:', `  - { ${row} }`)))[0]).toContain(message);
  });

  it('says where a figure is best and worst, and that the best is at the end of the range', () => {
    const { verdicts, summary } = resultOf(sweep(...ratios), 'gears');
    const times = [6, 8, 10, 12].map(value => ask([{ path: 'base.drive.ratio', value }])['time']!);
    expect(summary['dash_time_lowest']).toBe(Math.min(...times));
    expect(summary['dash_time_highest']).toBe(Math.max(...times));
    expect(plain(verdicts![0]!)).toMatch(
      /^To 100 km\/h \(dash\): best \d\.\d\d s with [\d.]+ for the drive ratio of the base car/,
    );
    const low = sweep('over:', '  - path: drive.ratio', '    values: 4, 5, 6');
    expect(resultOf(low, 'gears').verdicts!.join()).toContain(
      'the end of what was swept of the drive ratio of the base car',
    );
  });

  it('goes through two parameters, the last one fastest, and through whole cars', () => {
    const lines = ['over:', '  - cars: base, quick', '  - path: mass', '    values: 1000 kg, 1200 kg'];
    const result = resultOf(sweep(...lines), 'gears');
    expect(textsOf(result, 'rows', 'at_1')).toEqual(['base', 'base', 'quick', 'quick']);
    expect(numbersOf(result, 'rows', 'at_2')).toEqual([1000, 1200, 1000, 1200]);
    const times = numbersOf(result, 'rows', 'dash_time');
    expect(times[1]).toBe(ask([{ path: 'base.mass', value: 1200 }])['time']);
    expect(times[2]).toBe(
      ask([
        { path: 'base.mass', value: 1000 },
        { path: 'base.drive.ratio', value: 10 },
      ])['time'],
    );
  });

  it('marks the best compromises, which are those that no other row beats in both', () => {
    const lines = [...ratios.slice(0, 4), '    steps: 13', 'lowest: dash.time, dash.time_quarter_mile'];
    const result = resultOf(sweep(...lines), 'gears');
    const [a, b] = ['dash_time', 'dash_time_quarter_mile'].map(key => numbersOf(result, 'rows', key));
    const beaten = a!.map((_, i) =>
      a!.some((_, j) => a![j]! <= a![i]! && b![j]! <= b![i]! && (a![j]! < a![i]! || b![j]! < b![i]!)),
    );
    expect(textsOf(result, 'rows', 'on_front')).toEqual(beaten.map(yes => (yes ? 'no' : 'yes')));
  });

  it('keeps rows that make no sense, without an answer, and says why', () => {
    const result = resultOf(sweep('over:', '  - path: tyres.dry_slide', '    values: 0.5, 1.9'), 'gears');
    const [good, bad] = numbersOf(result, 'rows', 'dash_time');
    expect(good).toBeGreaterThan(0);
    expect(bad).toBeNaN();
    expect(result.warnings.join()).toMatch(/the first one because .*dry_slide is not below the peak/);
  });

  const axes = (count: number): string[] => [
    'over:',
    ...Array.from({ length: count }, () => ['  - path: mass', '    values: 1000 kg, 1100 kg']).flat(),
  ];
  it.each([
    [['over:', '  - path: drive.ration', '    values: 8, 9'], 'a path such as drive.ratio'],
    [['over:', '  - path: mass', '    values: 1000 m, 1100 m'], 'gears.over[1].values'],
    [['over:', '  - path: mass', '    values: 1000 kg, 1e9 kg'], 'is outside'],
    [['over:', '  - path: drive.ratio', '    from: 9', '    to: 8'], 'gears.over[1].to: is not above from'],
    [axes(5), 'gears.over: has 5 entries'],
    [[...ratios, 'lowest: dash.tiem'], '"dash.tiem" is not among the outputs'],
    [[...ratios, 'outputs: dash.tiem'], 'did you mean "dash.time"'],
  ])('complains of %j', (lines, text) => {
    expect(complaints(run(sweep(...lines))).join()).toContain(text);
  });
});
