/** Notebooks whose drive units name files, from end to end. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { UnreadableFile } from '../../src/notebook/files/unreadable-file.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, fence } from './fake.ts';

const FOLDER = new URL('../../scenarios/', import.meta.url);
const shipped = (path: string): string => readFileSync(new URL(path, FOLDER), 'utf8');

const MAP = shipped('maps/unit.csv');
const TORQUE = shipped('maps/torque.csv');
const ROWS = MAP.trim().split('\n');

const PEAKS = 'peak_torque: 220 N m\npeak_power: 90 kW\nmax_speed: 11000 rpm';
const notebook = (unit: string): string =>
  fence(
    'yaml car coupe',
    `mass: 1010 kg
tyres: { radius: 290 mm }
drive:
  axle: rear
  ratio: 8.5
  unit:
    ${unit.replaceAll('\n', '\n    ')}
pack: { cell: cell_nmc_21700, series: 96, parallel: 24 }`,
  ) + fence('yaml launch dash', 'car: coupe');

const run = (unit: string, files: { readonly [path: string]: string } = { 'map.csv': MAP, 'torque.csv': TORQUE }) =>
  runNotebook(notebook(unit), {
    file: 'a.md',
    readFile: path => {
      const text = files[path];
      if (text === undefined) throw new UnreadableFile(`cannot read "${path}": no such file`);
      return text;
    },
  });

const dash = (unit: string) => {
  const outcome = run(unit);
  expect(complaints(outcome)).toEqual([]);
  const { result } = cell(outcome, 'dash');
  return { outcome, time: Number(result?.summary['time_to_100_km_h']), warnings: result?.warnings ?? [] };
};

describe('a notebook with measured drive units', () => {
  it('runs on a map and on a torque table, and tells what was done to them', () => {
    const plain = dash(PEAKS);
    const mapped = dash(`${PEAKS}\nmap: map.csv\nmap_includes: motor and inverter`);
    expect(plain.warnings).toEqual([]);
    expect(mapped.warnings.join('\n')).toContain('coupe.drive.unit: below 500 rpm, where the map begins');
    expect(mapped.outcome.inputs.map(({ path }) => path)).not.toContain('coupe.drive.unit.copper_loss');
    expect(Math.abs(mapped.time - plain.time)).toBeLessThan(0.3);
    expect(mapped.time).not.toBe(plain.time);
    const tabled = dash('torque_table: torque.csv\nmap: map.csv\nmap_includes: motor and inverter');
    // The bench had less torque than the leaflet says, and lost less of its power towards the greatest speed than is assumed of one.
    const whole = dash(`${PEAKS}\npower_at_top: 100 %\nmap: map.csv\nmap_includes: motor and inverter`);
    expect(tabled.time).toBeGreaterThan(whole.time);
    expect(tabled.time).toBeLessThan(mapped.time);
  });

  it('fits constants to stated efficiencies', () => {
    const points = ['3000 rpm, torque: 60 N m, efficiency: 94 %', '4000 rpm, torque: 190 N m, efficiency: 92 %'];
    const list = points.map(point => `  - { speed: ${point} }`).join('\n');
    const { outcome, time } = dash(`${PEAKS}\nmap_includes: motor\nefficiency_points:\n${list}`);
    expect(time).toBeGreaterThan(4);
    const fitted = outcome.inputs.find(({ path }) => path === 'coupe.drive.unit.copper_loss');
    expect(fitted?.origin).toMatchObject({ kind: 'computed', formula: expect.stringContaining('2 efficiency points') });
  });

  it('complains where the file is named when it is not there', () => {
    expect(complaints(run(`${PEAKS}\nmap: none.csv\nmap_includes: motor`))[0]).toMatch(
      /^11:10: coupe\.drive\.unit\.map: cannot read "none\.csv": no such file/,
    );
  });

  it('complains in the file of what is wrong in it', () => {
    const bad = [...ROWS.slice(0, 4), '500,60,many', ...ROWS.slice(5)].join('\n');
    const [first] = run(`${PEAKS}\nmap: map.csv\nmap_includes: motor`, { 'map.csv': bad }).problems;
    expect(first).toMatchObject({ file: 'map.csv', line: 5 });
  });

  it('complains at the field of a map that leaves out whose losses it has, or part of what the unit can do', () => {
    expect(complaints(run(`${PEAKS}\nmap: map.csv`))[0]).toMatch(/coupe\.drive\.unit\.map_includes: is missing/);
    const short = ROWS.filter(row => !/^(?:8|9|10|11)000,/.test(row)).join('\n');
    const outcome = run(`${PEAKS}\nmap: map.csv\nmap_includes: motor`, { 'map.csv': short });
    expect(complaints(outcome)[0]).toMatch(/^11:10: coupe\.drive\.unit\.map: ends at 7000 rpm/);
    const both = run('torque_table: torque.csv\ntable_speed: [0 rpm, 9000 rpm]\ntable_torque: [200 N m, 50 N m]');
    expect(complaints(both)[0]).toMatch(/torque_table: stands beside table_speed/);
  });

  it('runs the shipped example with its files', () => {
    const outcome = runNotebook(shipped('measured-unit.md'), { file: 'measured-unit.md', readFile: shipped });
    expect(complaints(outcome)).toEqual([]);
    expect(outcome.failedChecks).toBe(0);
  });
});
