/** A coast-down can be asked: in neutral and in gear, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

/** Nothing turns, and the road load is measured in the air of the day: what is left is m v' = -(F0 + F2 v^2). */
const CARS = `# Foot off

\`\`\`yaml car plain
mass: 1150 kg
driver: 80 kg
tyres: { size: 165/80 R 13, inertia: 0 kg m^2 }
drive:
  axle: rear
  ratio: 9
  inertia: 0 kg m^2
  unit: { peak_torque: 200 N m, peak_power: 80 kW, inertia: 0 kg m^2 }
  regeneration: { kind: lift, torque: 60 N m }
road_load: { f0: 150 N, f1: 0 N s/m, f2: 0.45 N s^2/m^2, pressure: 101.325 kPa }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2, charge: 60 % }
\`\`\`

\`\`\`yaml car geared
mass: 1100 kg
tyres: { size: 165/80 R 13 }
drive:
  axle: rear
  ratio: 4.1
  unit: { peak_torque: 150 N m, peak_power: 60 kW }
  gearbox: { gears: [3.4, 1.9, 1.2] }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2, charge: 60 % }
\`\`\`
`;
const coast = (name: string, rest: string): string => `
\`\`\`yaml coast ${name}
temperature: 20 degC
humidity: 0
${rest}
\`\`\`
`;

describe('a coast-down', () => {
  const called = command(
    {
      'coast.md':
        CARS +
        coast('whole', 'car: plain\nfrom: 120 km/h\nto: 20 km/h') +
        coast('short', 'car: plain\nfrom: 105 km/h\nto: 95 km/h') +
        coast('lifted', 'car: plain\nin: gear') +
        coast('half', 'car: plain\nin: gear\nlift: 50 %') +
        coast('hill', 'car: plain\nslope: -4 %') +
        coast('revved', 'car: geared\nin: gear\ngear: 1'),
    },
    ['run', 'coast.md', '--samples', '0'],
  );
  const of = (cell: string, key: string): number | null | undefined => called.values(cell)[key];

  it('takes the time and the way of the closed form', () => {
    // m / sqrt(F0 F2) (atan(v0 sqrt(F2 / F0)) - atan(v1 ...)) and m / 2 F2 ln((F0 + F2 v0^2) / (F0 + F2 v1^2)) with 1,230 kg.
    expect(Number(of('whole', 'time')) / 115.92336078944464).toBeCloseTo(1, 9);
    expect(Number(of('whole', 'distance')) / 1882.971017651042).toBeCloseTo(1, 9);
    expect(Number(of('short', 'time')) / 6.878681144029392).toBeCloseTo(1, 9);
    expect(Number(of('whole', 'force_start'))).toBeCloseTo(150 + 0.45 * (120 / 3.6) ** 2, 7);
  });

  it('brings energy back in gear, by as much as the foot asks for', () => {
    expect(of('whole', 'energy_back')).toBe(0);
    expect(Number(of('lifted', 'energy_back'))).toBeGreaterThan(Number(of('half', 'energy_back')));
    expect(Number(of('half', 'energy_back'))).toBeGreaterThan(1e5);
    expect(Number(of('lifted', 'time'))).toBeLessThan(0.7 * Number(of('whole', 'time')));
  });

  it('says why there is no time: the slope pushes, the motor would burst', () => {
    expect(of('hill', 'time')).toBeNull();
    expect(called.read('out/coast.html')).toMatch(
      /does not slow down to 20 km\/h: at \d+(\.\d+)? km\/h slope or wind push/u,
    );
    expect(of('revved', 'time')).toBeNull();
    expect(called.read('out/coast.html')).toMatch(/at 120 km\/h a motor would be turned faster than it may: it bears/u);
  });
});

it('a coast-down that can not be meant is refused where it stands', () => {
  const { code, out, err } = command(
    {
      'wrong.md':
        CARS +
        coast('up', 'car: plain\nfrom: 50 km/h\nto: 60 km/h') +
        coast('idle', 'car: plain\nlift: 50 %') +
        coast('fourth', 'car: geared\nin: gear\ngear: 4') +
        coast('drifting', 'car: plain\nin: freewheel'),
    },
    ['run', 'wrong.md', '--samples', '0'],
  );
  const said = (out + err).replaceAll(/\s+/gu, ' ');
  expect(code).not.toBe(0);
  expect(said).toMatch(/up\.to: is not below from/u);
  expect(said).toMatch(/idle\.lift: is for a car in gear/u);
  expect(said).toMatch(/fourth\.gear: is none of the 3 gears/u);
  expect(said).toMatch(/drifting\.in: unknown word/u);
});
