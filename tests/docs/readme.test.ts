/** README.md, line by line: what it shows is run, through the built command and the built package; what it names is there. Needs `npm run build`. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { command } from '../command.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>;
  engines: { node: string };
};
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-readme-'));
afterAll(() => rmSync(folder, { recursive: true }));

interface Block {
  readonly language: string;
  readonly text: string;
}

/** Fenced blocks that are not inside another one. */
const blocks: readonly Block[] = [...readme.matchAll(/^(`{3,})(\w*)\n([\s\S]*?)^\1\n/gmu)].map(
  ([, , language = '', text = '']) => ({ language, text }),
);
const of = (language: string): readonly string[] =>
  blocks.filter(block => block.language === language).map(({ text }) => text);

const notebook = of('markdown')[0] ?? '';

describe('the notebook of README', () => {
  it('runs, and quotes what it says it quotes', () => {
    const called = command({ 'first.md': notebook }, ['run', 'first.md', '--samples', '32']);
    expect(called.err).toBe('');
    expect(called.code).toBe(0);
    const { time_to_100_km_h: time, grip_withheld: withheld } = called.values('dash');
    expect(time).toBeGreaterThan(5);
    expect(withheld).toBeGreaterThan(0);
    expect(readFileSync(join(root, 'docs/first.svg'), 'utf8')).toMatch(/^<svg\b[\s\S]*<\/svg>\n$/u);
    expect(called.read('out/first.html')).toContain('Is the drive unit too strong?');
  });
});

describe('cells that README shows in part', () => {
  /** What they speak of, as a whole notebook. */
  const cars = `\`\`\`yaml car small
mass: 1180 kg
tyres: {size: 165/80 R 13}
drive: {axle: rear, unit: unit_60kw, ratio: 9}
pack: {cell: cell_nmc_60ah, series: 96, parallel: 1}
charger: {power: 6.6 kW}
\`\`\`

\`\`\`yaml car medium
from: small
mass: 1280 kg
pack: {cell: cell_nmc_60ah, series: 96, parallel: 2}
\`\`\`

\`\`\`yaml car large
from: small
mass: 1380 kg
pack: {cell: cell_nmc_60ah, series: 96, parallel: 3}
\`\`\`

\`\`\`yaml range january
car: medium
speed: 90 km/h
distance: 10 km
temperature: 0 degC
temperatures: [0 degC]
\`\`\`

\`\`\`yaml launch slip_road
car: medium
to: 80 km/h
\`\`\`
`;
  const log = `time (s),speed (km/h)\n${Array.from({ length: 60 }, (_, k) => `${10 * k},${k % 59 === 0 ? 0 : 50}`).join('\n')}\n`;
  const parts = of('yaml').map(text => {
    const kind = /^# (\w+)$/mu.exec(text)?.[1] ?? 'drive';
    return [kind, text.replace(/^# \w+\n/u, '')] as const;
  });

  it('are the ones that are tried here', () => {
    expect(parts.map(([kind]) => kind)).toEqual(['drive', 'compare', 'seek', 'knobs']);
  });

  it.each(parts)(
    '%s',
    (kind, text) => {
      const whole = `${notebook}\n${cars}\n\`\`\`yaml ${kind} tried\n${kind === 'drive' ? text.replace('reserve: 10 %\n', '') : text}\`\`\`\n`;
      const called = command({ 'a.md': whole, 'commute.csv': log }, ['run', 'a.md', '--samples', '0'], 120);
      expect(called.err).toBe('');
      expect(called.code).toBe(0);
    },
    150_000,
  );

  it('takes the same way as a range, with a reserve', () => {
    const [, way = ''] = parts[0] ?? [];
    const text = `${notebook}\n\`\`\`yaml range tried\n${way}temperatures: [-5 degC]\n\`\`\`\n`;
    const called = command({ 'a.md': text, 'commute.csv': log }, ['run', 'a.md', '--samples', '0'], 120);
    expect(called.err).toBe('');
    expect(called.values('tried')['range']).toBeGreaterThan(50_000);
  }, 150_000);
});

describe('the programs of README', () => {
  const [text = '', more = ''] = of('ts');

  it('compiles against the built package, strictly and without the types of Node', () => {
    mkdirSync(join(folder, 'node_modules'), { recursive: true });
    symlinkSync(root, join(folder, 'node_modules/axlewatt'));
    writeFileSync(join(folder, 'program.ts'), text);
    writeFileSync(
      join(folder, 'more.ts'),
      more.replace('console.log', 'declare const console: { log(...told: unknown[]): void };\nconsole.log'),
    );
    const compilerOptions = {
      module: 'nodenext',
      target: 'es2022',
      lib: ['es2023'],
      types: [],
      skipLibCheck: false,
      strict: true,
      outDir: 'js',
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, files: ['program.ts', 'more.ts'] }));
    writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
    const tsc = join(root, 'node_modules/typescript/bin/tsc');
    const { stdout, status } = spawnSync(process.execPath, [tsc, '-p', folder], { cwd: folder, encoding: 'utf8' });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });

  it('gives the time to 100 km/h of the notebook, and lists what was assumed', () => {
    const program = readFileSync(join(folder, 'js/program.js'), 'utf8');
    const told = `${program}\nconsole.log(result.summary.time_to_100_km_h, inputs.filter(input => input.origin.kind === 'assumed').length);`;
    writeFileSync(join(folder, 'js/told.js'), told);
    const { stdout, stderr } = spawnSync(process.execPath, ['js/told.js'], { cwd: folder, encoding: 'utf8' });
    expect(stderr).toBe('');
    const [time, assumed] = stdout.split(' ').map(Number);
    const called = command({ 'first.md': notebook }, ['run', 'first.md', '--samples', '0']);
    expect(time).toBe(called.values('dash')['time_to_100_km_h']);
    expect(assumed).toBeGreaterThan(20);
  });

  it('draws a picture and sweeps a friction', () => {
    const { stdout, stderr } = spawnSync(process.execPath, ['js/more.js'], { cwd: folder, encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(stdout).toMatch(/grip/u);
    expect(stdout).toMatch(/^From rest to .*\d{4,}\n/u);
    expect(stdout).toMatch(/best .* s/u);
  });
});

describe('what README names', () => {
  it('are files that are there', () => {
    for (const [, link = ''] of readme.matchAll(/\]\(([^)#:]+)\)/gu))
      expect(existsSync(join(root, link)), link).toBe(true);
  });

  it('are scripts of the package', () => {
    const named = [...readme.matchAll(/npm run ([\w:]+)/gu)].map(([, name = '']) => name);
    expect(named.length).toBeGreaterThan(1);
    for (const name of named) expect(Object.keys(manifest.scripts), name).toContain(name);
    expect(manifest.engines.node).toBe('>=20.19.0');
    expect(readme).toContain('Node.js 20.19 or newer');
  });

  it('are all kinds of cells, and no others', () => {
    const table = readme.slice(readme.indexOf('| cell | what it tells |'), readme.indexOf('A cell is fenced as'));
    const named = [...table.matchAll(/^\| ([^|]+) \|/gmu)].flatMap(([, names = '']) =>
      [...names.matchAll(/`(\w+)`/gu)].map(([, name = '']) => name),
    );
    expect(named.toSorted((a, b) => a.localeCompare(b))).toEqual(
      CELL_KINDS.map(({ kind }) => kind).toSorted((a, b) => a.localeCompare(b)),
    );
  });

  it('are commands and options of the command', () => {
    const help = ['--help', 'run', 'check', 'new', 'cells']
      .map(name => command({}, name === '--help' ? [name] : [name, '--help']))
      .map(({ out }) => out)
      .join('\n');
    const table = readme.slice(readme.indexOf('| `axlewatt run'), readme.indexOf('Exit codes:'));
    for (const [, name = ''] of table.matchAll(/`axlewatt (\w+)/gu)) expect(help, name).toContain(`axlewatt ${name}`);
    const options = [...readme.matchAll(/`(?:[^`\n]* )?(--[a-z-]+)/gu)].map(([, option = '']) => option);
    for (const option of options.filter(each => !['--check', '--json', '--no-color'].includes(each)))
      expect(help, option).toContain(option);
  });
});
