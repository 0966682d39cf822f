/** Parts of a study by the built command line, as docs/clusters.md has it. Needs `npm run build`, and GNU parallel for its recipe. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const cli = fileURLToPath(new URL('../../dist/cli/axlewatt.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-shards-'));
afterAll(() => rmSync(folder, { recursive: true }));

const notebook = `# Gears
\`\`\`yaml car coupe
mass: 1100 kg
tyres:
  size: 185/65 R 15
drive: { axle: rear, ratio: 9, unit: unit_100kw }
pack: pack_nmc_96s1p_60ah
\`\`\`
\`\`\`yaml launch dash
car: coupe
\`\`\`
\`\`\`yaml sweep gears
of: dash
outputs: dash.time
over:
  - { path: drive.ratio, from: 6, to: 12, steps: 25 }
  - { path: mass, from: 900 kg, to: 1300 kg, steps: 20 }
\`\`\`
`;

const run = (...args: string[]) => spawnSync(process.execPath, [cli, ...args], { cwd: folder, encoding: 'utf8' });
const built = existsSync(cli);
const version = spawnSync('parallel', ['--version'], { encoding: 'utf8' });
const parallel = version.status === 0 && version.stdout.includes('GNU parallel');

describe.skipIf(!built)('parts of a study', () => {
  beforeAll(() => {
    writeFileSync(join(folder, 'tour.md'), notebook);
    expect(run('run', 'tour.md', '--out', 'whole', '--samples', '0', '--workers', '1').status).toBe(0);
  }, 60_000);
  const whole = () => readFileSync(join(folder, 'whole/tour.gears.rows'));

  it('are joined to the bytes of an undisturbed run, and the report is written from them', () => {
    for (const k of [3, 1, 2]) {
      const { status, stdout } = run('run', 'tour.md', '--out', 'parts', '--shard', `${k}/3`, '--samples', '0');
      expect(status).toBe(0);
      expect(stdout).toContain(`tour.gears.${k}-of-3.rows`);
      expect(existsSync(join(folder, 'parts/tour.html'))).toBe(false);
    }
    expect(run('gather', 'parts', '--out', 'parts').status).toBe(0);
    expect(readFileSync(join(folder, 'parts/tour.gears.rows')).equals(whole())).toBe(true);
    expect(run('run', 'tour.md', '--out', 'parts', '--samples', '0').status).toBe(0);
    expect(existsSync(join(folder, 'parts/tour.html'))).toBe(true);
  }, 60_000);

  it('are refused when one is missing', () => {
    expect(run('run', 'tour.md', '--out', 'some', '--shard', '1/2', '--samples', '0').status).toBe(0);
    const { status, stderr } = run('gather', 'some', '--out', 'some');
    expect(status).toBe(1);
    expect(stderr).toContain('2/2');
  }, 60_000);

  it('keep what another notebook of the same name has done', () => {
    writeFileSync(join(folder, 'tour.md'), notebook.replace('1100 kg', '1150 kg'));
    const { status, stderr } = run('run', 'tour.md', '--out', 'parts', '--samples', '0');
    writeFileSync(join(folder, 'tour.md'), notebook);
    expect(status).toBe(0);
    expect(stderr).toContain('tour.gears.old.rows');
    expect(readFileSync(join(folder, 'parts/tour.gears.old.rows')).equals(whole())).toBe(true);
  }, 60_000);

  it.skipIf(!parallel)(
    'are done by GNU parallel as the recipe says',
    () => {
      const axlewatt = `${process.execPath} ${cli}`;
      const recipe = `parallel --jobs 1 ${axlewatt} run tour.md --samples 0 --shard {}/4 ::: 1 2 3 4 && ${axlewatt} gather out`;
      execFileSync('bash', ['-c', recipe], { cwd: folder });
      expect(readFileSync(join(folder, 'out/tour.gears.rows')).equals(whole())).toBe(true);
    },
    60_000,
  );
});
