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
