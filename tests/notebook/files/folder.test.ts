import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { folderReader, LARGEST_FILE, readTextFile } from '../../../src/notebook/files/folder.ts';
import { UnreadableFile } from '../../../src/notebook/files/unreadable-file.ts';

const root = mkdtempSync(join(tmpdir(), 'axlewatt-'));
const folder = join(root, 'notebook');
mkdirSync(join(folder, 'logs'), { recursive: true });
writeFileSync(join(root, 'secret.txt'), 'secret');
writeFileSync(join(folder, 'a.md'), '# a');
writeFileSync(join(folder, 'logs', 'run.csv'), 't,v\n');
writeFileSync(join(folder, '..hidden'), 'dots');
symlinkSync(join(root, 'secret.txt'), join(folder, 'link.txt'));
symlinkSync(root, join(folder, 'up'));
symlinkSync(join(folder, 'logs', 'run.csv'), join(folder, 'inside.csv'));
symlinkSync(join(folder, 'round'), join(folder, 'round'));
afterAll(() => rmSync(root, { recursive: true }));

const read = folderReader(join(folder, 'a.md'));

describe('folderReader', () => {
  it('reads files of the folder, those of its sub-folders and links that stay inside', () => {
    expect(read('logs/run.csv')).toBe('t,v\n');
    expect(read('./logs/../logs/run.csv')).toBe('t,v\n');
    expect(read('inside.csv')).toBe('t,v\n');
    expect(read('..hidden')).toBe('dots');
  });

  it.each([
    ['../secret.txt', 'outside the folder'],
    ['logs/../../secret.txt', 'outside the folder'],
    ['link.txt', 'outside the folder'],
    ['up/secret.txt', 'outside the folder'],
    ['.', 'outside the folder'],
    ['..', 'outside the folder'],
    ['round', 'go round in a circle'],
    ['logs', 'no ordinary file'],
    ['missing.csv', 'no such file'],
    ['logs/run.csv/deeper', 'no such file'],
    ['/etc/passwd', 'only paths relative'],
    ['file:///etc/passwd', 'only paths relative'],
    ['https://example.org/x.csv', 'only paths relative'],
    ['a\0.md', 'only paths relative'],
    ['', 'only paths relative'],
  ])('refuses %j', (path, reason) => {
    expect(() => read(path)).toThrow(UnreadableFile);
    expect(() => read(path)).toThrow(reason);
  });

  it('does not tell where the folder stands', () => {
    expect(() => read('../secret.txt')).toThrow(
      /^cannot read "\.\.\/secret\.txt": it lies outside the folder of the notebook$/,
    );
  });

  it('refuses a file above the limit without reading it', () => {
    const path = join(folder, 'large.csv');
    writeFileSync(path, '');
    truncateSync(path, LARGEST_FILE + 1);
    expect(() => read('large.csv')).toThrow(`more than the ${LARGEST_FILE} allowed`);
  });

  it.skipIf(process.platform === 'win32')('does not wait for a named pipe', () => {
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    expect(() => readTextFile(join(folder, 'pipe'))).toThrow('no ordinary file');
  });
});
