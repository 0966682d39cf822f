// Writes docs/first.svg: the first picture of the report of README's first notebook, as the built command draws it.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from './bundled.mjs';

const [, , notebook] = /^(`{4})markdown\n([\s\S]*?)^\1\n/mu.exec(readFileSync(join(root, 'README.md'), 'utf8')) ?? [];
if (notebook === undefined) throw new Error('README.md shows no notebook');
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-picture-'));
try {
  writeFileSync(join(folder, 'first.md'), notebook);
  execFileSync(process.execPath, [join(root, 'dist/cli/axlewatt.js'), 'run', 'first.md', '--quiet'], { cwd: folder });
  const page = readFileSync(join(folder, 'out/first.html'), 'utf8');
  const [picture] = /<svg\b[\s\S]*?<\/svg>/u.exec(page) ?? [];
  if (picture === undefined) throw new Error('the report has no picture');
  const standing = picture.includes('xmlns=')
    ? picture
    : picture.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"');
  writeFileSync(join(root, 'docs/first.svg'), `${standing}\n`);
} finally {
  rmSync(folder, { recursive: true });
}
