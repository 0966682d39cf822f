// Whether the memory of a long sweep stays flat and its time linear: `node bench/many.mjs [ROWS ...]`, each in a process of its own. Not among
// the rows of `bench.mjs`: a million rows take minutes.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle } from './bundle.mjs';
import { sweep } from './rows/studies.mjs';

const USUAL = [1_000, 10_000, 100_000, 1_000_000];

const given = process.argv.slice(2).map(Number);
const temp = mkdtempSync(join(tmpdir(), 'axlewatt-many-'));
try {
  const file = join(temp, 'many.mjs');
  await bundle(fileURLToPath(new URL('many.ts', import.meta.url)), file);
  console.log('rows       us a row  heap MB, at each tenth of the rows; resident MB first and last');
  for (const rows of given.length > 0 ? given : USUAL) {
    const notebook = join(temp, `${rows}.md`);
    writeFileSync(notebook, sweep('dash', 'dash.time', rows));
    const args = ['--expose-gc', file, notebook, join(temp, `${rows}.rows`)];
    const { user, heaps, residents } = JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8' }));
    const heap = heaps.map((/** @type {number} */ each) => each.toFixed(1)).join(' ');
    const held = [residents[0], residents.at(-1)].map(each => each.toFixed(0)).join(' and ');
    console.log(`${String(rows).padEnd(9)} ${((1e6 * user) / rows).toFixed(1).padStart(9)}  ${heap}; ${held}`);
  }
} finally {
  rmSync(temp, { recursive: true, force: true });
}
