/** Pages as a printer gets them. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Sheets of Letter paper, the shorter of the two usual ones, that a page takes; 1 where there is no Chromium to ask. */
export function sheetsOf(page: string): number {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-printed-'));
  try {
    const [file, pdf] = [join(folder, 'page.html'), join(folder, 'page.pdf')];
    writeFileSync(file, page);
    const print = ['--headless', '--no-sandbox', '--disable-gpu', '--no-pdf-header-footer', `--print-to-pdf=${pdf}`];
    const { error } = spawnSync('chromium', [...print, `file://${file}`], { stdio: 'ignore' });
    if (error !== undefined) return 1;
    return readFileSync(pdf, 'latin1').match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
