/** Figures that had another name, and names that a cell does not have: each is told with its cure, by the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const CAR = `\`\`\`yaml car van
mass: 1240 kg
tyres: {size: 165/80 R 13}
drive: {axle: rear, unit: unit_150kw, ratio: 8.6}
pack: {cell: cell_nmc_60ah, series: 96, parallel: 2}
\`\`\`
`;
const fence = (head: string, text: string): string => `\n\`\`\`${head}\n${text}\n\`\`\`\n`;
const run = (...cells: string[]): ReturnType<typeof command> =>
  command({ 'a.md': CAR + cells.join('') }, ['run', 'a.md', '--samples', '0']);

describe('a figure of a name that it has no more', () => {
  const sheet = fence('yaml sheet paper', 'car: van');

  it('is told by the name of today, in a formula and in a study', () => {
    const sweep = fence(
      'yaml sweep masses',
      'of: paper\nover: [{path: van.mass, from: 1000 kg, to: 1400 kg, steps: 3}]\noutputs: paper.time_0_to_100_km_h',
    );
    const { code, err, out } = run(sheet, '\n`= paper.max_speed`\n', sweep);
    const said = (out + err).replaceAll(/\s+/gu, ' ');
    expect(said).toContain('a.md:12:4: paper.max_speed is called paper.top_speed now; expected paper.top_speed');
    expect(said).toContain('"paper.time_0_to_100_km_h" is called paper.time_to_100_km_h now');
    expect(code).toBe(1);
  });

  it('is the same as the one of a launch by the same name', () => {
    const called = run(sheet, fence('yaml launch dash', 'car: van'));
    const [paper, dash] = [called.values('paper'), called.values('dash')];
    expect(paper['top_speed']).toBe(dash['top_speed']);
    expect(Math.abs(Number(paper['time_to_100_km_h']) / Number(dash['time_to_100_km_h']) - 1)).toBeLessThan(1e-6);
  });
});

describe('a name that a cell does not have', () => {
  it('is told with the cell that lacks it and one of its own that comes near, or with where they are listed', () => {
    const dash = fence('yaml launch dash', 'car: van');
    const sums = fence('calc sums', 'total = 2 * dash.time_to_100_km_h');
    const { code, err, out } = run(dash, sums, '\n`= dash.top_sped`\n', '\n`= dash.lateness`\n', '\n`= sums.totale`\n');
    const said = (out + err).replaceAll(/\s+/gu, ' ');
    expect(said).toContain('dash, a launch cell, has no "top_sped"; did you mean "dash.top_speed"?');
    expect(said).toContain(
      'dash, a launch cell, has no "lateness"; expected one of those that `axlewatt cells launch --outputs` lists',
    );
    expect(said).toContain('sums, a calc cell, has no "totale"; did you mean "sums.total"?');
    expect(code).toBe(1);
  });
});

describe('a drive that is too weak for its hill', () => {
  it('says by how much it arrives late: in its words, among its figures, and among those that are listed', () => {
    const hill = fence('yaml drive hill', 'car: van\nspeed: 150 km/h\ndistance: 12 km\nslope: 25 %');
    const called = run(hill, '\nIt arrives `= hill.time_lost to s` late.\n');
    const { time_lost: late = null, distance_missed: missed = null } = called.values('hill');
    expect(called.code).toBe(0);
    expect(late).toBeGreaterThan(1);
    expect(Math.abs((Number(late) * 150) / 3.6 - Number(missed))).toBeLessThan(1e-6 * Number(missed));
    expect(called.out.replaceAll(/\s+/gu, ' ')).toMatch(/and arrives [\d.]+ s late/u);
    expect(command({}, ['cells', 'drive', '--outputs']).out).toMatch(/time_lost +s\n +arrives late by/u);
  });
});
