/**
 * Five programs that use the package by its name, as a reader of README and types wrote them: they compile strictly, and run. Needs
 * `npm run build`.
 */
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
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
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const programs = fileURLToPath(new URL('../../docs/programs', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-programs-'));
afterAll(() => rmSync(folder, { recursive: true }));

function node(...args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, {
    cwd: folder,
    encoding: 'utf8',
    timeout: 120_000,
  });
  if (status !== 0) throw new Error(`${stdout}${stderr}`);
  return stdout;
}

beforeAll(() => {
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(root, join(folder, 'node_modules/axlewatt'));
  symlinkSync(join(root, 'node_modules/@types'), join(folder, 'node_modules/@types'));
  for (const name of readdirSync(programs)) copyFileSync(join(programs, name), join(folder, name));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  const compilerOptions = {
    module: 'nodenext',
    target: 'es2022',
    lib: ['es2023'],
    types: ['node'],
    strict: true,
    noUncheckedIndexedAccess: true,
  };
  const files = readdirSync(programs).filter(name => name.endsWith('.ts'));
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, files }));
  node(join(root, 'node_modules/typescript/bin/tsc'), '-p', folder);
}, 120_000);

describe('a program', () => {
  it('sweeps the friction of tyres', () => {
    const lines = node('friction.js').trim().split('\n');
    expect(lines).toHaveLength(12);
    const times = lines.slice(0, 10).map(line => Number(/: ([\d.]+) s/u.exec(line)?.[1]));
    // The more friction, the sooner; and in the end no more.
    expect(times).toEqual(times.toSorted((a, b) => b - a));
    expect(lines[9]).toContain(' 0.0 % held back');
    expect(lines[10]).toContain('best');
  });

  it('drives the WLTC with a car from JSON, and is told what is wrong in one', () => {
    const [warm = '', cold = ''] = node('wltc.js').trim().split('\n');
    const use = (line: string): number => Number(/: (\d+) Wh\/km/u.exec(line)?.[1]);
    expect(use(warm)).toBeGreaterThan(100);
    expect(use(cold)).toBeGreaterThan(1.2 * use(warm));
    const text = readFileSync(join(programs, 'car.json'), 'utf8').replace('rollingResistance', 'rollingResistence');
    writeFileSync(join(folder, 'typo.json'), text);
    expect(node('wltc.js', 'typo.json')).toContain(
      'car.tyres.rollingResistence: unknown key "rolling_resistence"; did you mean "rollingResistance"?',
    );
  });

  it('drives a schedule of its own', () => {
    const text = node('own-schedule.js');
    // Twice 22 m/s for 120 s, and half of that for 20 s: 5.72 km, less what is missed.
    expect(Number(/^([\d.]+) km/u.exec(text)?.[1])).toBeCloseTo(5.72, 1);
    expect(text).toContain('m missed, held back by');
  });

  it('takes a torque table of its own', () => {
    const text = node('own-torque.js');
    expect(text).toContain('the last speed of the torque table');
    expect(text).toMatch(/0 to 100 km\/h in \d+\.\d\d s/u);
  });

  it('draws a picture into a web page', () => {
    expect(node('picture.js', 'page.html')).toContain('trace, force, pack, energy');
    expect(readFileSync(join(folder, 'page.html'), 'utf8')).toMatch(/<figure><svg [\s\S]*<\/svg><figcaption>\S/u);
  });
});
