import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { main } from '../../src/cli/main.ts';

// What the build makes for pages is beside the built command, and not here.
vi.mock('../../src/cli/page-scripts.ts', () => ({
  builtText: () => '',
  liveParts: () => null,
  picturesAble: () => ({ script: 'void 0' }),
}));

const folder = mkdtempSync(join(tmpdir(), 'axlewatt-'));
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const calc = '# Sums\n\n```calc sums\nload = 3 * 75 kg\n```\n\n';
const good = file('good.md', `${calc}\`\`\`yaml check\n- load < 300 kg\n\`\`\`\n`);
const unmet = file('unmet.md', `${calc}\`\`\`yaml check\n- load < 200 kg\n\`\`\`\n`);
const broken = file('broken.md', '```calc sums\nload = 3 kg + 2 s\n```\n');

/** Exit code and what was written. */
async function axlewatt(...args: string[]) {
  const lines: { out: string[]; err: string[] } = { out: [], err: [] };
  const code = await main(args, {
    out: text => void lines.out.push(text),
    err: text => void lines.err.push(text),
    color: false,
    width: 80,
  });
  return { code, out: lines.out.join('\n'), err: lines.err.join('\n') };
}

describe('usage', () => {
  it('prints help with the commands and the exit codes', async () => {
    const { code, out, err } = await axlewatt('--help');
    expect(code).toBe(0);
    expect(err).toBe('');
    for (const word of [
      'axlewatt run <files..>',
      'axlewatt check <files..>',
      'axlewatt cells [kind]',
      '--no-color',
      'NO_COLOR',
      'Exit codes:',
    ]) {
      expect(out).toContain(word);
    }
    expect((await axlewatt('run', '--help')).out).toContain('--csv');
  });

  it('keeps the help as it is made, for wide terminals and for narrow ones', async () => {
    const cli = fileURLToPath(new URL('../../dist/cli/axlewatt.js', import.meta.url));
    const asked = { err: () => {}, color: false };
    for (const width of [80, 100]) {
      const made: string[] = [];
      await main(['--help'], { ...asked, out: text => void made.push(`${text}\n`), width });
      expect(readFileSync(new URL(`../../dist/cli/help-${width}.txt`, import.meta.url), 'utf8')).toBe(made.join(''));
      // Not at a terminal lines are as long as they may be.
      if (width === 100)
        expect(execFileSync(process.execPath, [cli, '--help'], { encoding: 'utf8' })).toBe(made.join(''));
    }
  });

  it('ends by itself once its report is written, drawn by two threads', () => {
    const cli = fileURLToPath(new URL('../../dist/cli/axlewatt.js', import.meta.url));
    const unit = '{ peak_torque: 200 N m, peak_power: 80 kW }';
    const car = `mass: 1100 kg\ntyres: { size: 165/80 R 13 }\ndrive: { axle: rear, ratio: 8, unit: ${unit} }\npack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }\n`;
    const path = file('ends.md', `\`\`\`yaml car van\n${car}\`\`\`\n\`\`\`yaml launch dash\ncar: van\n\`\`\`\n`);
    const args = [cli, 'run', path, '--samples', '0', '--quiet', '--out', join(folder, 'ends')];
    expect(spawnSync(process.execPath, args, { timeout: 100_000 }).status).toBe(0);
  }, 120_000);

  it('is ASCII in all help texts, because the build counts characters as columns', async () => {
    for (const command of [[], ['run'], ['check'], ['cells']]) {
      expect((await axlewatt(...command, '--help')).out).toMatch(/^[\n -~]+$/);
    }
  });

  it('prints our own version', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    expect(await axlewatt('--version')).toEqual({ code: 0, out: version, err: '' });
  });

  it.each([
    [[], 'Say what to do'],
    [['run'], 'which notebook? As in: axlewatt run first.md (axlewatt new first.md writes one)'],
    [['open'], 'which notebook, or folder of notebooks?'],
    [['first.md'], 'did you mean axlewatt run first.md?'],
    [['rnu', 'a.md'], 'Did you mean run?'],
    [['run', 'a.md', '--jsn'], 'there is no option --jsn; did you mean --json?'],
    [['run', 'a.md', '--out'], '--out stands without its value'],
    [['check', 'a.md', '--csv'], 'there is no option --csv'],
    [['cells', 'carr'], 'did you mean "car"?'],
    [['cells', 'car.drive.unti'], 'did you mean "unit"?'],
    [['check', join(folder, 'missing.md')], 'no such file'],
    [['check', '/dev/null'], 'no ordinary file'],
  ])('%j is 2 with one message', async (args, message) => {
    const { code, out, err } = await axlewatt(...args);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
    expect(err).not.toMatch(/^\s+at /m);
  });
});

describe('check', () => {
  it('is silent and 0 when all is well', async () => {
    expect(await axlewatt('check', good)).toEqual({ code: 0, out: '', err: '' });
  });

  it('says what does not hold, and is 1', async () => {
    expect(await axlewatt('check', unmet)).toEqual({
      code: 1,
      out: '',
      err: `${unmet}:8: check does not hold: load < 200 kg (225 kg < 200 kg)`,
    });
  });

  it('says what is wrong with a caret under it, and goes on with the other files', async () => {
    const { code, err } = await axlewatt('check', broken, unmet);
    expect(code).toBe(1);
    expect(err).toContain(`${broken}:2:`);
    expect(err).toContain('\n  load = 3 kg + 2 s\n');
    expect(err).toContain('^');
    expect(err).toContain(`${unmet}:8: check`);
  });

  it('takes the worst of several files for the exit code', async () => {
    expect((await axlewatt('check', good, unmet)).code).toBe(1);
    expect((await axlewatt('check', unmet, join(folder, 'missing.md'))).code).toBe(2);
  });
});

describe('run', () => {
  it('writes the report, prints a summary, and says where the report is', async () => {
    const out = join(folder, 'one');
    const result = await axlewatt('run', good, '--out', out);
    expect(result).toMatchObject({ code: 0, err: '' });
    expect(result.out).toContain('Sums');
    expect(result.out).toContain('225 kg');
    expect(result.out).toContain(`Report: ${join(out, 'good.html')}`);
    expect(readdirSync(out)).toEqual(['good.html']);
    expect(readFileSync(join(out, 'good.html'), 'utf8')).toContain('225 kg');
  });

  it('writes JSON when asked', async () => {
    const out = join(folder, 'two');
    expect((await axlewatt('run', good, '--json', '--csv', '--out', out)).code).toBe(0);
    expect(readdirSync(out)).toEqual(['good.html', 'good.json']);
    expect(JSON.parse(readFileSync(join(out, 'good.json'), 'utf8'))).toMatchObject({ title: 'Sums', failedChecks: 0 });
  });

  it('still writes the report of a notebook with a failed check or cell, and is 1', async () => {
    const out = join(folder, 'three');
    expect((await axlewatt('run', unmet, broken, '--out', out)).code).toBe(1);
    expect(readdirSync(out)).toEqual(['broken.html', 'unmet.html']);
  });

  it('refuses to write two reports to one file, and a folder that is a file', async () => {
    expect(await axlewatt('run', good, join(folder, 'elsewhere', 'good.md'))).toMatchObject({ code: 2, out: '' });
    expect(await axlewatt('run', good, '--out', good)).toMatchObject({ code: 2 });
    expect((await axlewatt('run', good, '--out', join(folder, 'no'), '--out', join(folder, 'yes'))).code).toBe(0);
    expect(readdirSync(folder)).toContain('yes');
    expect(readdirSync(folder)).not.toContain('no');
  });
});

describe('what a file may be called, and where a report may go', () => {
  it('takes every name behind --', async () => {
    const dashed = file('-dashed.md', calc);
    expect(await axlewatt('check', '--', dashed, good)).toEqual({ code: 0, out: '', err: '' });
    expect((await axlewatt('check', '--', '-missing.md')).err).toContain('cannot read "./-missing.md": no such file');
  });

  it('never writes a report over a notebook', async () => {
    const text = '# x\n';
    const page = file('page.html', text);
    const { code, err } = await axlewatt('run', page, '--out', folder);
    expect(code).toBe(2);
    expect(err).toContain('page.html is a notebook itself');
    expect(readFileSync(page, 'utf8')).toBe(text);
  });

  it('refuses two names that differ in capitals alone', async () => {
    expect(await axlewatt('run', file('twin.md', calc), file('Twin.md', calc))).toMatchObject({ code: 2, out: '' });
  });

  it('makes a folder in a folder, and says where none can be made', async () => {
    expect((await axlewatt('run', good, '--out', join(folder, 'deep', 'er'))).code).toBe(0);
    const { code, err } = await axlewatt('run', good, '--out', join(good, 'under', 'a file'));
    expect(code).toBe(2);
    expect(err).toContain('cannot write to');
  });

  it('refuses what is no text', async () => {
    const utf16 = join(folder, 'utf16.md');
    writeFileSync(utf16, `\uFEFF${calc}`, 'utf16le');
    const latin = join(folder, 'latin.md');
    writeFileSync(latin, '# a\n\n985 kg ± 10 kg\n', 'latin1');
    expect((await axlewatt('check', utf16)).err).toContain('line 1 is no UTF-8 text; save the notebook as UTF-8');
    expect(await axlewatt('check', latin)).toMatchObject({
      code: 2,
      err: expect.stringContaining('line 3 is no UTF-8'),
    });
  });
});

describe('cells', () => {
  it('lists every kind', async () => {
    const { code, out } = await axlewatt('cells');
    expect(code).toBe(0);
    for (const kind of ['car', 'part', 'calc', 'launch', 'plot', 'check'])
      expect(out).toMatch(new RegExp(`^${kind} `, 'm'));
  });

  it('prints a field with unit, default and source, from the tables', async () => {
    const { out } = await axlewatt('cells', 'car');
    expect(out).toMatch(/^ {2}mass +kg or lb +required$/m);
    expect(out).toMatch(/^ {2}driver +kg or lb += 75 kg$/m);
    expect(out).toContain('Directive 92/21/EEC');
    expect(out).toContain('axlewatt cells car.drive');
    expect((await axlewatt('cells', 'car.drive')).out).toMatch(/^ {2}ratio .*required$/m);
  });

  it('prints parts that ship with their source', async () => {
    for (const path of ['part.tyre', 'car.tyres']) {
      const { out } = await axlewatt('cells', path);
      expect(out).toContain('rolling_resistance');
      expect(out).toContain('ship with axlewatt');
      expect(out).toMatch(/tyre_\w+: /);
    }
  });

  it('fits the terminal', async () => {
    const { out } = await axlewatt('cells', 'car');
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });
});

it('loads nothing but yargs before a command is called', () => {
  for (const name of ['axlewatt', 'main', 'exit', 'help']) {
    const text = readFileSync(new URL(`../../src/cli/${name}.ts`, import.meta.url), 'utf8');
    const imports = [...text.matchAll(/^import .*? from '([^']+)';$/gm)].map(match => match[1]);
    for (const from of imports)
      expect(from).toMatch(/^(?:yargs|node:fs|\.\/(?:main|exit|help)\.ts|\.\.\/report\/harmless\.ts)$/);
  }
});
