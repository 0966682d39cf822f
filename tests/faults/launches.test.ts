/** Launches off the beaten path, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (name: string, mass: string, tyres: string, drive: readonly string[], pack = 'parallel: 2'): string =>
  [
    `\`\`\`yaml car ${name}`,
    `mass: ${mass}`,
    `tyres: { ${tyres} }`,
    'drive:',
    ...drive.map(line => `  ${line}`),
    `pack: { cell: cell_nmc_60ah, series: 96, ${pack} }`,
    '```',
    '',
  ].join('\n');

const launch = (name: string, of: string, ...more: readonly string[]): string =>
  [`\`\`\`yaml launch ${name}`, `car: ${of}`, ...more, '```', ''].join('\n');

const geared = (torque: string): readonly string[] => [
  'axle: rear',
  'ratio: 4.1',
  `unit: { peak_torque: ${torque}, peak_power: 90 kW, max_speed: 9500 rpm }`,
  'gearbox: { gears: [2.6, 1.5], shift: best }',
];

const strong = ['axle: front', 'ratio: 8', 'unit: { peak_torque: 300 N m, peak_power: 150 kW }'];

describe('a launch', () => {
  it('changes gears where it is quickest, and not by round-off', () => {
    const called = command(
      {
        'gears.md':
          car('a', '1100 kg', 'size: 165/80 R 13', geared('300 N m')) +
          car('b', '1100 kg', 'size: 165/80 R 13', geared('300.000002 N m')) +
          launch('first', 'a', 'to: 80 km/h') +
          launch('second', 'b', 'to: 80 km/h'),
      },
      ['run', 'gears.md', '--samples', '0'],
    );
    const [first, second] = [called.values('first'), called.values('second')];
    for (const key of ['time', 'time_to_50_km_h', 'time_quarter_mile']) {
      expect(Math.abs(first[key]! / second[key]! - 1), key).toBeLessThan(1e-6);
    }
  });

  it('is no quicker with a heavier car on the same tyres', () => {
    const called = command(
      {
        'mass.md':
          car('light', '800 kg', 'size: 165/80 R 13', strong) +
          car('heavy', '1400 kg', 'size: 165/80 R 13', strong) +
          launch('one', 'light') +
          launch('two', 'heavy'),
      },
      ['run', 'mass.md', '--samples', '0'],
    );
    expect(called.values('two')['time_to_50_km_h']).toBeGreaterThan(called.values('one')['time_to_50_km_h']!);
    expect(called.values('two')['time']).toBeGreaterThan(called.values('one')['time']!);
  });

  it('says that the car rolls back where it does, in place of figures', () => {
    const weak = [
      'axle: rear',
      'ratio: 2.7',
      'unit: { peak_torque: 2000 N m, peak_power: 1.2 kW, max_speed: 900 rpm, windage_loss: 1e-5 W s^3/rad^3 }',
      'gearbox: { gears: [8.5, 7.1], shift: speed, shift_speed: 110 rpm }',
    ];
    const called = command(
      { 'hill.md': car('a', '1500 kg', 'size: 165/80 R 13', weak) + launch('up', 'a', 'slope: 39 %') },
      ['run', 'hill.md', '--samples', '0'],
    );
    expect(called.values('up')['time']).toBeNull();
    expect(called.out).toMatch(/comes to rest|does not move off/u);
    expect(called.code).toBe(0);
  });

  it('does not move off where wheels that spin, or a part of the pedal, hold it on no hill', () => {
    const free = ['axle: rear', 'ratio: 8.6', 'traction: spin'];
    const unit = 'unit: { peak_torque: 310 N m, peak_power: 150 kW, max_speed: 16000 rpm, torque_rise: 0 s }';
    const tyres = 'size: 165/80 R 13, dry_peak: 0.9, dry_slide: 0.55';
    const called = command(
      {
        'hill.md':
          car('a', '1240 kg', tyres, [...free, unit]) +
          launch('spins', 'a', 'slope: 40 %') +
          launch('gently', 'a', 'slope: 20 %', 'pedal: 10 %') +
          launch('goes', 'a', 'slope: 20 %'),
      },
      ['run', 'hill.md', '--samples', '0'],
    );
    expect(called.out).toMatch(/rolls back: wheels that spin grip less/u);
    expect(called.out).toMatch(/rolls back: so little pedal gives less/u);
    expect(called.out).not.toMatch(/no car can have/u);
    for (const key of ['top_speed', 'grip_distance', 'energy_used']) {
      expect(called.values('spins')[key], key).toBeNull();
      expect(called.values('goes')[key], key).toBeGreaterThan(0);
    }
    expect(called.values('gently')['grip_distance']).toBeNull();
  });

  it('with free wheels on both axles is checked as far as a bounded share of work goes, and no further', () => {
    const spin = [
      'axle: both',
      'ratio: 9',
      'unit: { peak_torque: 500 N m, peak_power: 220 kW }',
      'traction: spin',
      'front_torque_share: 40 %',
    ];
    const called = command({ 'spin.md': car('a', '1300 kg', 'size: 165/80 R 13', spin) + launch('free', 'a') }, [
      'run',
      'spin.md',
      '--samples',
      '0',
    ]);
    expect(called.code).toBe(0);
    expect(called.values('free')['time']).toBeGreaterThan(2);
    expect(called.read('out/spin.html')).toMatch(/Worked out a second time/u);
  });

  it('of one drive unit on both axles that is at its greatest motor speed at walking pace does not hang', () => {
    const slow = [
      'axle: both',
      'unit: { peak_torque: 783.42 N m, peak_power: 2379 kW, max_speed: 2912.5 rpm, taper_speed: 2856.4 rpm }',
      'ratio: 69.119',
      'gearbox: { gears: [11.099, 9.0914, 3.6496, 2.8711, 1.1327] }',
      'inertia: 9.0638 kg m^2',
    ];
    const tyres = 'radius: 0.17671 m, load_exponent: 0.36534, inertia: 0 kg m^2';
    const day = ['temperature: -12.042 degC', 'wind: -93.459 km/h', 'slope: 4.1936 %'];
    const called = command(
      { 'slow.md': car('a', '10389 kg', tyres, slow, 'parallel: 608') + launch('up', 'a', ...day) },
      ['run', 'slow.md', '--samples', '0'],
      25,
    );
    expect(called.code).not.toBeNull();
  });

  it('says why there is none where the pack can not even give what the drive unit loses', () => {
    const idle = [
      'axle: rear',
      'ratio: 3.6',
      'unit: { peak_torque: 900 N m, peak_power: 20 kW, fixed_loss: 9600 W, least_voltage: 5 V, greatest_voltage: 20 V }',
    ];
    const called = command(
      {
        'idle.md':
          car('a', '1400 kg', 'size: 165/80 R 13', idle).replace('series: 96', 'series: 2') +
          launch('down', 'a', 'slope: -30 %'),
      },
      ['run', 'idle.md', '--samples', '0'],
    );
    expect(called.values('down')['time']).toBeNull();
    expect(called.out.replaceAll(/\s+/gu, ' ')).toMatch(
      /the pack gives no more than [\d.]+ kW: drive unit and consumers take [\d.]+ kW/u,
    );
    expect(called.code).toBe(0);
  });

  it('is worked out where a motor holds the car at walking pace, so steeply that the usual method would crawl', () => {
    const slow = [
      'axle: front',
      'ratio: 61.5',
      'unit: { peak_torque: 56.7 N m, peak_power: 0.165 kW, max_speed: 100 rpm }',
    ];
    const called = command(
      { 'crawl.md': car('a', '300 kg', 'size: 165/80 R 13', slow) + launch('down', 'a', 'slope: -35 %') },
      ['run', 'crawl.md', '--samples', '0'],
    );
    expect(called.code).toBe(0);
    expect(called.out).not.toMatch(/neither method/u);
  });
});
