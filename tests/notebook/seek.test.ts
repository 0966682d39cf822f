import { describe, expect, it } from 'vitest';
import { complaints, fence } from './fake.ts';
import { asked, base, dash, heavy, numbersOf, plain, quick, resultOf, run, textsOf, week } from './study-cells.ts';

const notebook = base + quick + heavy + dash + week;
const seek = (...lines: string[]): string => notebook + fence('yaml seek best', lines.join('\n'));
/** Without the trip, which takes its time. */
const short = (...lines: string[]): string => base + quick + heavy + dash + fence('yaml seek best', lines.join('\n'));
const pack = ['of: week, dash', 'vary:', '  - path: pack.parallel', '    from: 1', '    to: 5'];
const gear = ['of: dash', 'vary:', '  - path: drive.ratio', '    from: 5', '    to: 14'];

describe('a search', () => {
  it('finds the final drive that a fine scan finds', () => {
    const result = resultOf(short(...gear, 'find: lowest dash.time_quarter_mile'), 'best');
    const ask = asked(base + dash, 'dash');
    const scan = Array.from({ length: 181 }, (_, k) => 5 + k * 0.05);
    const times = scan.map(value => ask([{ path: 'base.drive.ratio', value }])['time_quarter_mile']!);
    const least = Math.min(...times);
    expect(result.summary['dash_time_quarter_mile'] as number).toBeLessThanOrEqual(least + 1e-6);
    expect(Math.abs((result.summary['base_drive_ratio'] as number) - scan[times.indexOf(least)]!)).toBeLessThan(0.06);
  });

  it('finds the smallest pack that keeps a range, its mass carried along', () => {
    const range = asked(notebook, 'week');
    const far = [1, 2, 3, 4, 5].map(value => range([{ path: 'base.pack.parallel', value }])['range']!);
    const bound = (far[1]! + far[2]!) / 2000;
    const result = resultOf(seek(...pack, 'find: smallest', 'where:', `  - week.range >= ${bound} km`), 'best');
    expect(result.summary['base_pack_parallel']).toBe(3);
    expect(result.summary['week_range']).toBe(far[2]);
    // A count of cells alone buys nothing: what they hold and weigh stands beside it.
    expect(plain(result.verdicts!.join())).toMatch(/car 3 \(pack of [\d.]+ kWh, car of \d{4} kg\): range/u);
  });

  it('shows what it tried, and marks what it found', () => {
    const result = resultOf(seek(...pack, 'find: largest', 'where:', '  - dash.time <= 9 s'), 'best');
    const tried = numbersOf(result, 'tried', 'at_1');
    expect(tried).toEqual([...new Set(tried)].toSorted((a, b) => a - b));
    const found = textsOf(result, 'tried', 'what').indexOf('found');
    expect(tried[found]).toBe(result.summary['base_pack_parallel']);
    expect(textsOf(result, 'conditions', 'figure')).toEqual(['dash_time']);
    expect(numbersOf(result, 'conditions', 'bound_si')).toEqual([9]);
  });

  it('says plainly when nothing will do, and what comes closest', () => {
    const result = resultOf(seek(...pack, 'find: smallest', 'where:', '  - week.range >= 9000 km'), 'best');
    expect(result.summary['base_pack_parallel']).toBeNull();
    expect(plain(result.verdicts!.join())).toMatch(
      /^Nothing in this range will do; closest is cells in parallel of the base car 5: /,
    );
    expect(result.verdicts!.join()).toContain('week.range >= 9000 km is missed there by');
  });

  it('asks for more of the pack where the condition must be kept with a confidence', () => {
    const sure = base.replace('mass: 1150 kg\n', 'mass: 1150 kg ± 60 kg\n') + dash;
    const where = ['find: smallest', 'where:', '  - dash.time <= 7.3 s'];
    const with90 =
      sure +
      fence('yaml seek best', ['of: dash', ...pack.slice(1), ...where, 'confidence: 90 %', 'samples: 32'].join('\n'));
    const result = resultOf(with90, 'best');
    expect(result.verdicts!.join()).toContain('confidence of 90 %');
    // Another pack weighs something else, also where the mass itself was drawn.
    const times = numbersOf(result, 'tried', 'dash_time');
    const packs = numbersOf(result, 'tried', 'at_1');
    const ask = asked(notebook, 'dash');
    for (const [k, value] of packs.entries()) {
      const exact = ask([{ path: 'base.pack.parallel', value }])['time']!;
      expect(times[k]! - exact, `pack ${value}`).toBeGreaterThan(0);
      expect(times[k]! - exact, `pack ${value}`).toBeLessThan(0.2 * exact);
    }
  });

  it('chooses among whole cars, each with its own masses', () => {
    const lines = ['of: dash', 'vary:', '  - cars: base, quick, heavy', 'find: lowest dash.time'];
    expect(resultOf(short(...lines), 'best').summary['car']).toBe('quick');
    const uncertain = base.replace('mass: 1150 kg\n', 'mass: 1150 kg ± 5 kg\n');
    const text =
      uncertain +
      quick +
      heavy +
      dash +
      fence('yaml seek best', [...lines, 'confidence: 90 %', 'samples: 16'].join('\n'));
    const result = resultOf(text, 'best');
    expect(result.summary['car']).toBe('quick');
    // The masses of the others are not those of the base.
    const cars = textsOf(result, 'tried', 'at_1');
    const times = numbersOf(result, 'tried', 'dash_time');
    expect(times[cars.indexOf('heavy')]! - times[cars.indexOf('base')]!).toBeGreaterThan(0.4);
  });

  it.each([
    [[...gear, 'find: quickest'], 'best.find: "quickest" is not understood'],
    [[...gear, 'find: lowest dash.tiem'], 'did you mean "dash.time"'],
    [[...gear, 'find: smallest'], 'best.where: says nothing that must hold'],
    [[...gear, 'find: smallest', 'where:', '  - dash.time about 8 s'], '"dash.time about 8 s" is no condition'],
    [[...gear, 'find: smallest', 'where:', '  - dash.time <= 8 kg'], 'best.where'],
    [
      ['of: dash', 'vary:', '  - cars: base, quick', 'find: smallest', 'where:', '  - dash.time <= 9 s'],
      'whole cars have no order; expected lowest or highest and a figure, such as lowest base.mass',
    ],
    [
      ['of: dash', 'vary:', '  - path: drive.ration', '    from: 5', '    to: 9', 'find: lowest dash.time'],
      'drive.ratio',
    ],
  ])('complains of %j', (lines, text) => {
    expect(complaints(run(short(...lines))).join()).toContain(text);
  });
});
