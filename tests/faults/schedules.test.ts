/** What cars did on schedules that no car does: each through the built command. Needs `npm run build`. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

/** A plain car, all invented. */
function car({ drive = '', pack = '', more = '' } = {}): string {
  return `\`\`\`yaml car c
mass: 1100 kg
tyres: {size: 175/65 R 14}
drive:
  axle: front
  unit:
    peak_torque: 200 N m
    peak_power: 80 kW
  ratio: 9
${drive}
pack:
  cell: cell_nmc_60ah
  series: 96
  parallel: 1
${pack}
${more}
\`\`\`
`;
}

const cell = (kind: string, name: string, fields: string): string => `
\`\`\`yaml ${kind} ${name}
car: c
${fields}
\`\`\`
`;

const run = (text: string, seconds = 60): ReturnType<typeof command> =>
  command({ 'n.md': text }, ['run', 'n.md', '--samples', '0'], seconds);

describe('a drive that brakes with its brakes alone', () => {
  const on = (regeneration: string): ReturnType<typeof run> =>
    run(car({ drive: `  regeneration: ${regeneration}` }) + cell('drive', 'd', 'schedule: udds'));
  const none = on('{kind: none}').values('d');

  it('gives nothing back to its pack', () => {
    expect(none['returned']).toBe(0);
  });

  it('is the one that has no share in the braking', () => {
    const { energy, brakes, returned } = on('{kind: blended, share: 0 %}').values('d');
    expect(returned).toBe(0);
    // The speeds at which a braking torque would fade cut the way into other steps.
    expect(energy! / none['energy']!).toBeCloseTo(1, 12);
    expect(brakes! / none['brakes']!).toBeCloseTo(1, 12);
  });
});

describe('a steady speed', () => {
  // 9,000 rpm over 12 on a radius of 0.288 m (175/65 R 14 under load) are 22.6 m/s, 81 km/h.
  const geared = car()
    .replace('ratio: 9', 'ratio: 12')
    .replace('peak_power: 80 kW', 'peak_power: 80 kW\n    max_speed: 9000 rpm');

  it('above what the gearing allows is a reason, and one below it a range', () => {
    const done = run(
      geared +
        cell('steady', 'above', 'speed: 120 km/h') +
        cell('steady', 'close', 'speed: 84 km/h') +
        cell('steady', 'below', 'speed: 60 km/h'),
    );
    expect(done.values('above')['range']).toBeNull();
    expect(done.values('close')['range']).toBeNull();
    expect(done.values('below')['range']).toBeGreaterThan(100_000);
  });

  it('is held with a window that goes down to nothing', () => {
    const { range } = run(car({ pack: '  window_low: 0 %' }) + cell('steady', 's', 'speed: 80 km/h')).values('s');
    expect(range).toBeGreaterThan(100_000);
  });
});

describe('a drive in which the motor would turn faster than it may', () => {
  it('is held back by its brakes down a hill, late, and with its energies in balance', () => {
    const geared = car()
      .replace('ratio: 9', 'ratio: 14')
      .replace('peak_power: 80 kW', 'peak_power: 80 kW\n    max_speed: 9000 rpm');
    const down = run(geared + cell('drive', 'd', 'schedule: wltc\nslope: -6 %')).values('d');
    // 9,000 rpm over 14 are 67.3 rad/s of the wheel, 20.9 m/s at most on a radius of 0.31 m.
    expect(down['max_speed']!).toBeLessThan(21);
    expect(down['time_too_slow']!).toBeGreaterThan(100);
  });
});

describe('a drive unit that warms', () => {
  const hot = `\`\`\`yaml car c
mass: 1310 kg
tyres: {size: 175/70 R 13}
drive: {axle: rear, unit: {from: unit_60kw, continuous_power: 25 kW}, ratio: 8.5}
pack: {cell: cell_nmc_60ah, series: 96, parallel: 1}
\`\`\`
`;

  it('is as warm by the second method where the heat changes within a step, as on a ramp', () => {
    const { code, out } = run(hot + cell('drive', 'up', 'trip: [{speed: 80 km/h, distance: 10 km, slope: 12 %}]'));
    expect(out).not.toContain('second method differs');
    expect(code).toBe(0);
  });
});

describe('a pack that becomes full down a hill', () => {
  it('is full to the instant, by both methods', () => {
    const way = 'speed: 50 km/h\ndistance: 2 km\nslope: -8 %\ncharge: 99.9 %';
    const called = run(car() + cell('drive', 'down', way));
    expect(called.code).toBe(0);
    expect(called.values('down')['charge_end']).toBeCloseTo(1, 9);
  });
});

describe('a car at the very limit of its grip', () => {
  it('falls behind there by both methods: one that came to it within round-off was believed to follow for a quarter of a second', () => {
    const text = `\`\`\`yaml car c
mass: 3816.6 kg
cg_height: 0.89786 m
drag_area: 4.0796 m^2
tyres: { size: 205/55 R 16, dry_peak: 0.081513, cold_rise: 0 }
drive:
  axle: both
  unit: unit_100kw
  ratio: 0.32728
  gearbox: { gears: [15.875, 5.9859, 5.0078, 1.8624, 1.6913], shift: best }
  efficiency: 76.997 %
  drag_torque: 0 N m
pack: { cell: cell_pouch_27ah, series: 61, parallel: 50, resistance_activation: 17794 K }
\`\`\`
${cell('drive', 'd', 'schedule: nycc\nsurface: wet\nwind: 49.51 km/h\nslope: -20.945 %')}`;
    const { out, code } = run(text);
    // It was 1.8e-4.
    expect(out).not.toMatch(/by another method/u);
    expect(code).toBe(0);
  });
});
