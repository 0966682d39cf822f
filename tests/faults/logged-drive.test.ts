/** A drive whose log has the power out of the pack beside its speed, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const drive = (log: string): string => `\`\`\`yaml drive ${log}
car: van
log: logs/${log}.csv
\`\`\`
`;

const NOTEBOOK = `# Logged

\`\`\`yaml car van
mass: 1150 kg
tyres: tyre_touring
drive: { axle: front, ratio: 8, unit: { peak_torque: 260 N m, peak_power: 100 kW } }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 2 }
\`\`\`

${['held', 'bare', 'torn', 'amps'].map(drive).join('\n')}`;

/** Up to 50 km/h and down again, in 240 s. */
const speedAt = (t: number): number => Math.min(50, t, 240 - t);
const log = (more: string, cells: (t: number) => string): string =>
  `time (s),speed (km/h)${more}\n${Array.from({ length: 241 }, (_, t) => `${t},${speedAt(t)}${cells(t)}\n`).join('')}`;

describe('a drive with a log that has power', () => {
  const called = command(
    {
      'd.md': NOTEBOOK,
      'logs/held.csv': log(',power (kW)', () => ',4'),
      'logs/bare.csv': log('', () => ''),
      'logs/torn.csv': log(',power (kW)', t => (t > 60 && t < 120 ? ',' : ',4')),
      // What flows out of the pack is logged with a minus: 350 V and 10 A.
      'logs/amps.csv': log(',voltage (V),current (A)', () => ',350,-10'),
    },
    ['run', 'd.md', '--samples', '0', '--json'],
  );
  const page = called.read('out/d.html').replaceAll(/[\u00a0\u202f]/gu, ' ');
  const card = (name: string): string =>
    (page.match(new RegExp(`<article class="card" data-name="${name}"[^]*?</article>`, 'u'))?.[0] ?? '').replaceAll(
      /<[^>]*>/gu,
      '',
    );
  const said =
    /The log has ([\d.]+) kWh out of the pack, the prediction ([\d.]+) kWh: ([\d.]+) % (less|more) was taken/u;

  it('is held against what was predicted: energies in the card, power over time in a picture', () => {
    expect(called.err).toBe('');
    const [, read = '', driven = '', off = '', side = ''] = said.exec(card('held')) ?? [];
    // 4 kW over 240 s.
    expect(Number(read)).toBeCloseTo((4 * 240) / 3600, 2);
    const { energy } = called.values('held');
    expect(Math.abs(Number(driven) / (Number(energy) / 3.6e6) - 1)).toBeLessThan(0.01);
    const exact = 100 * ((4 * 240e3) / Number(energy) - 1);
    expect(Math.abs((side === 'less' ? -1 : 1) * Number(off) - exact)).toBeLessThan(1);
    expect(page).toContain('<strong>Read and predicted.</strong>');
  });

  it('takes voltage and current, whatever the sign', () => {
    const [, read = ''] = said.exec(card('amps')) ?? [];
    expect(Number(read)).toBeCloseTo((3.5 * 240) / 3600, 2);
    expect(page).toContain('logged with a minus');
  });

  it('is not held against it where the power is missing, and says so', () => {
    expect(card('torn')).not.toMatch(said);
    expect(page).toContain('its power is not held against that of the drive, as 60 s of it are missing in a row');
    expect(card('bare')).not.toMatch(said);
    expect(page.match(/<strong>Read and predicted\.<\/strong>/gu)).toHaveLength(2);
  });
});
