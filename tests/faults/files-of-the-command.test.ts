/** What the built command writes, where it does not, and how it ends. Needs `npm run build`. */
import { spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
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
const root = mkdtempSync(join(tmpdir(), 'axlewatt-files-'));
afterAll(() => rmSync(root, { recursive: true }));

let folder = '';
let count = 0;
beforeEach(() => {
  folder = join(root, String(count++));
  mkdirSync(join(folder, 'out'), { recursive: true });
  file('sums.md', SUMS);
});

const SUMS = '# Sums\n\n```calc sums\nload = 3 * 75 kg\n```\n';
const CAR = `\`\`\`yaml car coupe
mass: 1100 kg
tyres: { size: 185/65 R 15 }
drive: { axle: rear, ratio: 9, unit: unit_100kw }
pack: pack_nmc_96s1p_60ah
\`\`\`
\`\`\`yaml launch dash
car: coupe
\`\`\`
`;

const path = (name: string): string => join(folder, name);
const file = (name: string, text: string): void => writeFileSync(path(name), text);
/** What is written for the reader: rows and answers are kept beside it. */
const written = (): string[] => readdirSync(path('out')).filter(name => name !== '.axlewatt');
const read = (name: string): string => readFileSync(path(name), 'utf8');
const axlewatt = (...args: string[]) =>
  spawnSync(process.execPath, [cli, ...args], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 20_000,
    killSignal: 'SIGKILL',
  });

describe('a file in the way', () => {
  it('that is a link is not written through', () => {
    file('letter.txt', 'dear friend');
    symlinkSync(path('letter.txt'), path('out/sums.html'));
    const { status, stderr } = axlewatt('run', 'sums.md');
    expect(status).toBe(2);
    expect(stderr).toContain('is a link');
    expect(stderr).toContain('--out');
    expect(read('letter.txt')).toBe('dear friend');
    expect(lstatSync(path('out/sums.html')).isSymbolicLink()).toBe(true);
  });

  it('that axlewatt did not write stays as it is, and is told before the notebook is run', () => {
    file('out/sums.html', '<!DOCTYPE html><title>my own page</title>');
    file('more.md', SUMS);
    const { status, stdout, stderr } = axlewatt('run', 'sums.md', 'more.md');
    expect(status).toBe(2);
    expect(stderr).toContain('out/sums.html was not written by axlewatt');
    expect(read('out/sums.html')).toContain('my own page');
    expect(stdout).toContain('Report: out/more.html');
  });

  it('that axlewatt wrote is written again, also without the table in between', () => {
    file('sums.md', `${SUMS}${CAR}`);
    for (const more of [['--csv', '--json'], ['--json'], ['--csv']]) {
      expect(axlewatt('run', 'sums.md', '--samples', '0', ...more)).toMatchObject({ status: 0, stderr: '' });
    }
    expect(written()).toEqual(['sums.dash.time.csv', 'sums.dash.traction.csv', 'sums.html', 'sums.json']);
  });

  it('that is a table or JSON of somebody else stays, now and the next time', () => {
    file('sums.md', `${SUMS}${CAR}`);
    file('out/sums.dash.time.csv', 'my own');
    for (let k = 0; k < 2; k++) {
      const { status, stderr } = axlewatt('run', 'sums.md', '--samples', '0', '--csv');
      expect(status).toBe(2);
      expect(stderr).toContain('sums.dash.time.csv was not written by axlewatt');
      expect(read('out/sums.dash.time.csv')).toBe('my own');
      expect(read('out/sums.dash.traction.csv')).toContain('speed_m_s');
    }
    file('out/sums.json', '{}');
    expect(axlewatt('run', 'sums.md', '--samples', '0', '--json').status).toBe(2);
    expect(read('out/sums.json')).toBe('{}');
  });
});

it('that is a link is not written through with rows either', () => {
  file('empty.txt', '');
  file('tour.md', SWEEP(1100));
  symlinkSync(path('empty.txt'), path('out/tour.gears.rows'));
  const { status, stdout } = axlewatt('run', 'tour.md', '--samples', '0', '--quiet');
  expect(status).toBe(2);
  expect(stdout).toContain('is a link');
  expect(stdout).toContain('launch dash');
  expect(read('empty.txt')).toBe('');
  expect(read('out/tour.html')).toContain('is a link');
}, 60_000);

it('writes its report also for a reader that closes early', () => {
  const { status } = spawnSync('bash', ['-c', `set -o pipefail; ${process.execPath} ${cli} run sums.md | true`], {
    cwd: folder,
  });
  expect(status).toBe(0);
  expect(read('out/sums.html')).toContain('</html>');
});

describe('a disk that is full', () => {
  it('leaves the old report, and nothing half written', () => {
    expect(axlewatt('run', 'sums.md').status).toBe(0);
    const old = read('out/sums.html');
    // A limit of the size of files stands for the disk: 8 blocks of 1024 bytes are less than a report has.
    const { status, stderr } = spawnSync('bash', ['-c', `ulimit -f 8; ${process.execPath} ${cli} run sums.md`], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(status).toBe(2);
    expect(stderr).toContain('cannot write');
    expect(stderr).not.toContain('fault');
    expect(read('out/sums.html')).toBe(old);
    expect(readdirSync(path('out'))).toEqual(['sums.html']);
  });

  it('is told as such', context => {
    const small = path('small');
    mkdirSync(small);
    if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=16k', 'tmpfs', small]).status !== 0) context.skip();
    try {
      writeFileSync(join(small, 'filler'), 'x'.repeat(8000));
      const { status, stderr } = axlewatt('run', 'sums.md', '--out', small);
      expect(status).toBe(2);
      expect(stderr).toContain('the disk is full');
      expect(readdirSync(small)).toEqual(['filler']);
    } finally {
      spawnSync('umount', [small]);
    }
  });
});

describe('a folder in which nothing can be written', () => {
  it.each(['/proc', '/proc/axlewatt', '/proc/deep/er', 'sums.md', 'sums.md/under', '/dev/null/x'])(
    '%s is found before any work',
    out => {
      file('long.md', CAR);
      const { status, stdout, stderr } = axlewatt('run', 'long.md', '--out', out);
      expect(status).toBe(2);
      expect(stdout).toBe('');
      expect(stderr).toContain(`cannot write to "${out}"`);
      expect(stderr).toContain('--out');
    },
  );

  it('does not hold up gather either', () => {
    file('tour.spread.1-of-2.rows', 'x');
    expect(axlewatt('gather', 'tour.spread.1-of-2.rows', '--out', '/proc/x')).toMatchObject({ status: 2 });
  });
});

describe('shards', () => {
  it.each(['0/4', '5/4', '1/0', 'a/b', '2', '-1/4'])('%s is refused at once', shard => {
    const { status, stdout, stderr } = axlewatt('run', 'sums.md', `--shard=${shard}`);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain('is no shard; expected k/n');
  });
});

describe('gather', () => {
  it('does not wait for somebody to write into a pipe', () => {
    spawnSync('mkfifo', [path('tour.spread.1-of-2.rows')]);
    const { status, stdout, stderr } = axlewatt('gather', 'tour.spread.1-of-2.rows');
    expect(status).toBe(1);
    expect(stdout + stderr).toContain('no ordinary file');
  });
});

const SWEEP = (mass: number): string => `${CAR.replace('1100 kg', `${mass} kg`)}\`\`\`yaml sweep gears
of: dash
outputs: dash.time
over:
  - { path: drive.ratio, from: 6, to: 12, steps: 25 }
  - { path: drag_coefficient, from: 0.3, to: 0.4, steps: 20 }
\`\`\`
`;

it('finds finished rows again when an edit is undone, and throws none away', () => {
  const rows = () => readFileSync(path('out/tour.gears.rows'));
  const seen: Buffer[] = [];
  for (const mass of [1100, 1150, 1200, 1100, 1150, 1200]) {
    file('tour.md', SWEEP(mass));
    const { status, stderr } = axlewatt('run', 'tour.md', '--samples', '0', '--quiet');
    expect(status).toBe(0);
    if (seen.length > 0) expect(stderr).toContain('are kept as');
    if (seen.length >= 3) expect(stderr).toContain('are taken up again');
    seen.push(rows());
  }
  expect(seen[3]?.equals(seen[0] ?? Buffer.alloc(0))).toBe(true);
  expect(seen[5]?.equals(seen[2] ?? Buffer.alloc(0))).toBe(true);
  expect(written()).toEqual(['tour.gears.old-2.rows', 'tour.gears.old.rows', 'tour.gears.rows', 'tour.html']);
}, 120_000);

describe('Ctrl-C', () => {
  /** Ends as a shell would see it: 128 + number of the signal where the system ended it. @param when ms, or a word that is told. */
  async function interrupted(notebook: string, when: number | string, args: readonly string[] = []) {
    file('slow.md', notebook);
    const child = spawn(process.execPath, [cli, 'run', 'slow.md', '--quiet', ...args], { cwd: folder });
    const late = setTimeout(() => child.kill('SIGKILL'), 40_000);
    let sent = Number.NaN;
    const interrupt = (): void => {
      if (Number.isNaN(sent) && child.kill('SIGINT')) sent = performance.now();
    };
    if (typeof when === 'number') setTimeout(interrupt, when);
    let told = '';
    child.stdout.on('data', (text: Buffer) => {
      told += text.toString();
      if (typeof when === 'string' && told.includes(when)) interrupt();
    });
    return new Promise<{ readonly code: number | null; readonly seconds: number }>(resolve => {
      child.on('close', (code, signal) => {
        clearTimeout(late);
        resolve({ code: signal === 'SIGINT' ? 130 : code, seconds: (performance.now() - sent) / 1000 });
      });
    });
  }
  const many = (count: number, cell: (k: number) => string): string =>
    CAR + Array.from({ length: count }, (_, k) => `\`\`\`yaml ${cell(k)}\n\`\`\`\n`).join('');

  it('ends cells that have no rows at once', async () => {
    const slow = many(1000, k => `range r${k}\ncar: coupe\nschedule: wltc`);
    const { code, seconds } = await interrupted(slow, 3000, ['--samples', '0']);
    expect(code).toBe(130);
    expect(seconds).toBeLessThan(3);
    expect(existsSync(path('out/slow.html'))).toBe(false);
  }, 50_000);

  it('ends a run that is writing its report, never with 0', async () => {
    const slow = many(20, k => `launch l${k}\ncar: coupe`);
    expect(await interrupted(slow, 'launch l19', ['--samples', '0'])).toMatchObject({ code: 130 });
    expect(existsSync(path('out/slow.html'))).toBe(false);
  }, 50_000);

  it('ends a study with 130, whenever it comes', async () => {
    for (const after of [1500, 3000]) {
      const { code } = await interrupted(SWEEP(1100).replace('steps: 25', 'steps: 2500'), after);
      expect(code).toBe(130);
    }
  }, 90_000);
});
