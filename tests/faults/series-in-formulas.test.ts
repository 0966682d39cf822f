/** Formulas that read what happens along a run, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const head = [
  '```yaml car one',
  'mass: 1100 kg',
  'tyres: { size: 165/80 R 13 }',
  'drive: { axle: rear, ratio: 8, unit: unit_100kw }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
  '```',
  '',
  '```yaml drive town',
  'car: one',
  'schedule: udds',
  '```',
  '',
  '```yaml launch dash',
  'car: one',
  'to: 60 km/h',
  '```',
  '',
].join('\n');
const calc = (...lines: string[]): string => ['```calc sums', ...lines, '```', ''].join('\n');
const run = (text: string): ReturnType<typeof command> =>
  command({ 'a.md': head + text }, ['run', 'a.md', '--samples', '0']);

it('a formula reads the greatest, the mean and the worst stretch of a series, in the words of the run', () => {
  const called = run(
    calc(
      'worst = town.trail.pack_current_A.rms_60_s / town.current_60_s',
      'whole = town.trail.pack_current_A.rms / town.current_rms',
      'shaft = town.trail.rear_half_shaft_N_m.max / town.half_shaft_torque',
      'speed = town.trail.speed_m_s.mean / town.mean_speed',
      'top = town.time.speed_m_s.max / town.max_speed',
      'least = dash.time.pack_voltage_V.min / dash.lowest_pack_voltage',
      'traction = dash.traction.speed_m_s.max to km/h',
    ) + '```yaml check\n- 0.99 < whole < 1.01\n```\n\nThe pack gives `= town.trail.pack_current_A.rms_10_s`.\n',
  );
  expect(called.code).toBe(0);
  const values = JSON.parse(called.read('out/a.json')).blocks.find(
    ({ name }: { name: string }) => name === 'sums',
  ).values;
  const of = (name: string): number => values.find((each: { name: string }) => each.name === name).value;
  // The worst minute of what flows out and back is that of what flows out alone, to round-off, or a trifle more.
  expect(of('worst')).toBeGreaterThan(1 - 1e-12);
  expect(of('worst')).toBeLessThan(1.1);
  for (const name of ['whole', 'shaft', 'speed', 'top']) expect(of(name), name).toBeCloseTo(1, 6);
  expect(of('least')).toBeCloseTo(1, 3);
});

describe('a series that is read wrongly', () => {
  const { out, err, code } = run(
    [
      ['first0', 'town.trail.pack_current_A'],
      ['first1', 'town.trail.pack_amps.max'],
      ['first2', 'town.trail.pack_current_A.median'],
      ['first3', 'town.time.limiter.max'],
      ['first4', 'dash.traction.speed_m_s.mean'],
      ['first5', 'town.trail.pack_current_A.rms_0_s'],
    ]
      .map(([name, formula]) => `\`\`\`calc ${name}s\n${name} = ${formula}\n\`\`\`\n`)
      .join('\n'),
  );
  const told = (out + err).replaceAll(/\s+/gu, ' ');

  it.each([
    ['first0s.first0', 'is a series, not a value; expected max, min, mean, rms'],
    ['first1s.first1', 'trail has no column "pack_amps"; expected pack_current_A, pack_voltage_V'],
    ['first2s.first2', '"median" is nothing that is made of a series'],
    ['first3s.first3', 'time.limiter is text; expected a column of numbers'],
    ['first4s.first4', 'it has no mean; expected max or min'],
    ['first5s.first5', 'a stretch of no length has no mean'],
  ])('is told at %s, with what can be read', (path, words) => {
    expect(code).toBe(1);
    const at = told.indexOf(`: ${path}: `);
    expect(at).toBeGreaterThan(0);
    expect(told.slice(at, at + 300)).toContain(words);
  });
});
