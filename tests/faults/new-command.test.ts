/** The first notebook, through the built command. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const cli = fileURLToPath(new URL('../../dist/cli/axlewatt.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-new-'));
afterAll(() => rmSync(folder, { recursive: true }));

const axlewatt = (...args: string[]) =>
  spawnSync(process.execPath, [cli, ...args], { cwd: folder, encoding: 'utf8', timeout: 120_000, input: '' });

describe('axlewatt new', () => {
  it('writes a notebook that runs as it stands, with the answers that were given', () => {
    const made = axlewatt('new', 'tram.md', '--title', 'The "tram"', '--mass', '1340 kg ± 25 kg', '--parallel', '3');
    expect(made).toMatchObject({ status: 0, stderr: '' });
    const text = readFileSync(join(folder, 'tram.md'), 'utf8');
    expect(text).toContain('mass: 1340 kg ± 25 kg');
    expect(text).toContain('values: [3, 4, 5]');
    const run = axlewatt('run', 'tram.md', '--samples', '0', '--quiet');
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(readFileSync(join(folder, 'out/tram.html'), 'utf8')).toContain('The &quot;tram&quot;');
  }, 240_000);

  it('writes nothing over what is there, and tells what does not run yet', () => {
    writeFileSync(join(folder, 'mine.md'), 'my own');
    expect(axlewatt('new', 'mine.md')).toMatchObject({ status: 2 });
    expect(readFileSync(join(folder, 'mine.md'), 'utf8')).toBe('my own');
    const wrong = axlewatt('new', 'wrong.md', '--mass', '1340', '--axle', 'middle');
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toMatch(/wrong\.md:\d+:\d+: mine\.mass: /u);
    expect(wrong.stderr).toMatch(/mine\.drive\.axle: .*front, rear or both/u);
    expect(wrong.stderr).toContain('wrong.md does not run yet');
    expect(wrong.stderr).not.toContain('which failed');
    expect(existsSync(join(folder, 'wrong.md'))).toBe(true);
    expect(axlewatt('new', 'no/such/folder.md')).toMatchObject({ status: 2 });
  }, 120_000);
});
