/** A kept gearbox behind a transfer case that drives both axles, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const cell = (kind: string, name: string, lines: string): string => `\`\`\`yaml ${kind} ${name}\n${lines}\n\`\`\`\n`;
const car = (axle: string, gears: readonly number[], name: string): string =>
  cell(
    'car',
    name,
    [
      'mass: 1200 kg',
      'tyres: { size: 185/60 R 14 }',
      `drive: { axle: ${axle}, ratio: 4, unit: unit_60kw, gearbox: { gears: [${gears.join(', ')}], efficiency: 97 % } }`,
      'pack: { cell: cell_pouch_27ah, series: 96, parallel: 2 }',
    ].join('\n'),
  );
const run = (text: string): ReturnType<typeof command> => command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);

describe('a gearbox that drives both axles', () => {
  it('takes at a steady speed what the best of its gears takes, at both axles', () => {
    const gears = [3.5, 2, 1.2];
    const names = ['all', 'first', 'second', 'third'];
    const called = run(
      [gears, ...gears.map(gear => [gear])]
        .map(
          (each, i) =>
            car('both', each, `car_${names[i]}`) +
            cell('drive', names[i]!, `car: car_${names[i]}\nspeed: 60 km/h\ndistance: 3 km`),
        )
        .join('\n'),
    );
    const [all, ...single] = names.map(name => called.values(name)['consumption']!);
    // The rear axle stayed in first.
    expect(all! / Math.min(...single)).toBeCloseTo(1, 9);
    expect(Math.max(...single) / all!).toBeGreaterThan(1.05);
  });

  it('goes as fast on a schedule as under the pedal, and keeps its ledger where it is late', () => {
    const called = run(
      car('both', [3.5, 2, 1.2], 'one').replace(
        'unit: unit_60kw',
        'unit: { peak_torque: 210 N m, peak_power: 15 kW, max_speed: 11000 rpm }',
      ) +
        cell('launch', 'pedal', 'car: one\nto: 50 km/h') +
        cell(
          'drive',
          'hill',
          'car: one\ntrip: [{ speed: 120 km/h, distance: 4 km }, { speed: 80 km/h, distance: 2 km, slope: 4 % }]',
        ),
    );
    expect(called.code).toBe(0);
    expect(called.values('hill')['time_too_slow']).toBeGreaterThan(100);
    expect((called.out + called.err).replaceAll(/\s+/gu, ' ')).not.toMatch(/ledger/u);
    expect(called.values('hill')['max_speed']! / called.values('pedal')['top_speed']!).toBeGreaterThan(0.9);
  });
});
