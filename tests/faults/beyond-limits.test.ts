/** Numbers that stand at a limit of their field or beyond it: drawn, or told with place and cure, never a fault. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const launch = (unit: string, more = ''): string => `
\`\`\`yaml car odd
mass: 1500 kg
tyres: { radius: 0.4 m }
drive:
  axle: rear
  unit: { ${unit} }
  ratio: 2.7
${more}
pack: { cell: cell_pouch_27ah, series: 96, parallel: 16 }
\`\`\`

\`\`\`yaml launch dash
car: odd
\`\`\`
`;

const run = (unit: string, more?: string): { code: number | null; said: string } => {
  const { code, out, err } = command({ 'a.md': launch(unit, more) }, ['run', '--samples', '8', 'a.md']);
  return { code, said: `${out}\n${err}`.replace(/\s+/gu, ' ') };
};

describe('a value that is worked out beyond the limits of its field', () => {
  // 3.6 times 1.15 kW over 4390 N m, and 3.6 times 230 kW over 104 N m: the speed where both peaks meet.
  it.each([
    ['peak_torque: 4390 N m, peak_power: 1.15 kW', 'comes to 9.005 rpm, outside 100 rpm to 40000 rpm'],
    ['peak_torque: 104 N m, peak_power: 230 kW', 'comes to 76027 rpm, outside 100 rpm to 40000 rpm'],
  ])('is told with its place and its cure: %s', (unit, figures) => {
    const { code, said } = run(unit);
    expect(said).toContain(`odd.drive.unit.max_speed: is left out and ${figures}; expected a value of its own`);
    expect(said).not.toContain('fault of axlewatt');
    expect(code).toBe(1);
  });

  it('is no matter where it is stated', () => {
    const { code, said } = run('peak_torque: 104 N m, peak_power: 230 kW, max_speed: 30000 rpm');
    expect(said).not.toContain('problems');
    expect(code).toBe(0);
  });
});

it('any friction of a dry road that may be written has one of a wet road', () => {
  const icy = launch('peak_torque: 250 N m, peak_power: 100 kW').replace(
    'radius: 0.4 m',
    'radius: 0.4 m, dry_peak: 0.05',
  );
  const { code, out, err } = command({ 'a.md': icy }, ['check', 'a.md']);
  expect(`${out}${err}`).not.toContain('wet_peak');
  expect(code).toBe(0);
});

it('a value at the limit of its field is drawn on the side that is left', () => {
  const { code, said } = run(
    'peak_torque: 250 N m, peak_power: 100 kW, inverter_efficiency: 100 % ± 1 %',
    '  gearbox: { gears: [3, 1], efficiency: 100 % }',
  );
  expect(said).not.toContain('problems');
  expect(code).toBe(0);
});
