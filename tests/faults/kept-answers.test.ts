/** What has not changed is not worked out again: rows, answers and pictures beside the reports, through the built command. */
import { spawnSync } from 'node:child_process';
import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';

const cli = fileURLToPath(new URL('../../dist/cli/axlewatt.js', import.meta.url));
const root = mkdtempSync(join(tmpdir(), 'axlewatt-kept-'));
afterAll(() => rmSync(root, { recursive: true }));

let folder = '';
let count = 0;
beforeEach(() => {
  folder = join(root, String(count++));
  mkdirSync(folder);
});

const NOTEBOOK = (charge = '90 %', temperature = '5 degC'): string => `\`\`\`yaml car coupe
mass: 1100 kg ± 20 kg
tyres: { size: 185/65 R 15 }
drive: { axle: rear, ratio: 9, unit: unit_100kw }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 1, charge: ${charge} }
\`\`\`
\`\`\`yaml launch dash
car: coupe
\`\`\`
\`\`\`yaml drive way
car: coupe
schedule: hwfet
temperature: ${temperature}
\`\`\`
`;

const path = (name: string): string => join(folder, name);
const kept = (): string[] => readdirSync(path('out/.axlewatt')).toSorted();
const worked = (): string[] => kept().filter(name => !name.endsWith('.picture'));
const pages = (): string => readFileSync(path('out/a.html'), 'utf8') + readFileSync(path('out/a.json'), 'utf8');

function run(text: string, ...more: string[]): { readonly status: number | null; readonly stderr: string } {
  writeFileSync(path('a.md'), text);
  const args = [cli, 'run', 'a.md', '--json', '--samples', '32', '--quiet', ...more];
  return spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8', timeout: 60_000 });
}

describe('a second run', () => {
  it('says the same to the last bit, and works out only what an edit has changed', () => {
    expect(run(NOTEBOOK())).toMatchObject({ status: 0, stderr: '' });
    const [first, before] = [pages(), kept()];
    // An answer for each run, the intervals of both, and the samples of each.
    expect(before.filter(name => name.endsWith('.answer'))).toHaveLength(3);
    expect(before.filter(name => name.endsWith('.rows'))).toHaveLength(2);
    expect(before.filter(name => name.endsWith('.picture')).length).toBeGreaterThan(4);
    expect(run(NOTEBOOK())).toMatchObject({ status: 0, stderr: '' });
    expect(pages()).toBe(first);
    expect(kept()).toEqual(before);
    // The launch is in the air of every day: only the way is another one.
    expect(run(NOTEBOOK('90 %', '6 degC'))).toMatchObject({ status: 0 });
    expect(worked()).toHaveLength(8);
    const after = kept();
    expect(run(NOTEBOOK())).toMatchObject({ status: 0 });
    expect(pages()).toBe(first);
    expect(kept()).toEqual(after);
    expect(run(NOTEBOOK(), '--fresh')).toMatchObject({ status: 0 });
    expect(pages()).toBe(first);
  }, 120_000);

  it('loads nothing to draw with, where every picture is kept', () => {
    const loaded = (name: string): string => {
      writeFileSync(path('a.md'), NOTEBOOK());
      const env = { ...process.env, NODE_V8_COVERAGE: path(name) };
      const args = [cli, 'run', 'a.md', '--samples', '0', '--quiet'];
      expect(spawnSync(process.execPath, args, { cwd: folder, env, timeout: 60_000 }).status).toBe(0);
      return readdirSync(path(name))
        .map(file => readFileSync(path(join(name, file)), 'utf8'))
        .join('\n');
    };
    expect(loaded('first')).toMatch(/chunks\/render-[^/]*\.mjs/u);
    const second = loaded('second');
    expect(second).toMatch(/chunks\/registry-/u);
    expect(second).not.toMatch(/render-/u);
  }, 120_000);

  it('does not believe what is damaged, and goes on without what it can not read', () => {
    run(NOTEBOOK());
    const first = pages();
    for (const name of kept()) {
      const file = path(`out/.axlewatt/${name}`);
      const bytes = readFileSync(file);
      const at = Math.floor(bytes.length / 2);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
      writeFileSync(file, name.endsWith('.rows') ? bytes : bytes.subarray(0, at));
    }
    expect(run(NOTEBOOK())).toMatchObject({ status: 0, stderr: '' });
    expect(pages()).toBe(first);
    for (const name of kept()) writeFileSync(path(`out/.axlewatt/${name}`), 'not ours\n');
    expect(run(NOTEBOOK())).toMatchObject({ status: 0, stderr: '' });
    expect(pages()).toBe(first);
  }, 120_000);

  it('writes through no link, and leaves alone what is no folder of its own', () => {
    mkdirSync(path('elsewhere'));
    mkdirSync(path('out'));
    symlinkSync(path('elsewhere'), path('out/.axlewatt'));
    expect(run(NOTEBOOK())).toMatchObject({ status: 0, stderr: '' });
    expect(readdirSync(path('elsewhere'))).toEqual([]);
    rmSync(path('out/.axlewatt'));
    writeFileSync(path('out/.axlewatt'), 'a file of mine');
    expect(run(NOTEBOOK())).toMatchObject({ status: 0, stderr: '' });
    expect(lstatSync(path('out/.axlewatt')).isFile()).toBe(true);
  }, 120_000);
});
